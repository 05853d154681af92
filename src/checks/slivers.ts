import type { Finding } from '../findings.ts';
import { flushRectangles } from '../geometry/enclosing.ts';
import type { Point } from '../geometry/ring.ts';
import { ringHull } from '../geometry/ring-hull.ts';
import { centroidOf } from '../geometry/support.ts';
import { thinPlaces } from '../geometry/thin-places.ts';
import type { ThinMm } from '../model/layer.ts';
import type { Piece } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { lengthText, thicknessText, type Unit } from '../units.ts';
import { type Course, coursesOf } from './courses.ts';
import { told } from './told.ts';

/** A piece narrower than this in thicknesses is a sliver: it breaks when it is carried (common practice, no source). */
const SLIVER = 2;
/** A neck narrower than this in thicknesses snaps (common practice, no source). */
const NECK = 1;
/** Narrower than this it is a point. */
const POINT_MM = 0.5;

interface Thin {
  readonly piece: Piece;
  readonly atMm: Point;
  readonly widthMm: number;
  readonly leastMm: number;
}

/**
 * Pieces that are slivers, and necks within pieces. Places that were told when the ground was sliced are not told again, and
 * a piece that no seam touches is as small as the ground is there.
 */
export function slivers(plan: Plan, courses: readonly Course[] = coursesOf(plan)): Finding[] {
  const narrow: Thin[] = [];
  const necks: Thin[] = [];
  for (const { layer, pieces } of courses) {
    const leastMm = SLIVER * layer.thicknessMm;
    const neckMm = NECK * layer.thicknessMm;
    for (const piece of pieces) {
      const widthMm = widthOf(piece);
      if (widthMm < leastMm && piece.joints.length > 0) {
        narrow.push({ piece, atMm: [...centroidOf(piece.region)], widthMm, leastMm });
        continue;
      }
      for (const { at, width } of thinPlaces([piece.region], neckMm)) {
        if (!isTold(at, layer.thin ?? [], leastMm)) necks.push({ piece, atMm: at, widthMm: width, leastMm: neckMm });
      }
    }
  }
  const { unit } = plan;
  return [
    ...told(narrow.sort(byWidth), (thin) => sliver(thin, unit), nameOf),
    ...told(firstOfEach(necks.sort(byWidth)), (thin) => neck(thin, unit), nameOf),
  ];
}

/** Width of the narrowest strip that holds a piece. */
function widthOf({ region }: Piece): number {
  const flush = flushRectangles(ringHull(region[0]));
  let least = Infinity;
  for (let i = 1; i < flush.length; i += 2) least = Math.min(least, flush[i]);
  return least;
}

/** Whether a place is among those told when the ground was sliced. */
const isTold = ([x, y]: Point, thin: readonly ThinMm[], withinMm: number): boolean =>
  thin.some(({ atMm, lengthMm }) => {
    const [dx, dy, reach] = [atMm[0] - x, atMm[1] - y, withinMm + lengthMm];
    return dx * dx + dy * dy <= reach * reach;
  });

const byWidth = (a: Thin, b: Thin): number => a.widthMm - b.widthMm || (a.piece.name < b.piece.name ? -1 : 1);
const nameOf = ({ piece }: Thin): string => piece.name;
const firstOfEach = (necks: readonly Thin[]): Thin[] =>
  [...new Map([...necks].reverse().map((each) => [each.piece, each])).values()].sort(byWidth);

const sliver = ({ piece: { name, layer }, atMm, widthMm, leastMm }: Thin, unit: Unit): Finding => ({
  level: 'watch',
  code: 'checks/sliver',
  message: `${name} is a sliver, ${lengthText(widthMm, unit)} wide; less than ${lengthText(leastMm, unit)} breaks when it is carried.`,
  fix: 'Tape it to a batten until it is glued; or widen the lap, or offer boards of another size so that the seam falls elsewhere.',
  where: { layer, piece: name, atMm },
});

const neck = ({ piece: { name, layer }, atMm, widthMm, leastMm }: Thin, unit: Unit): Finding => ({
  level: 'watch',
  code: 'checks/neck',
  message: `${name} ${widthMm < POINT_MM ? 'runs out to a point' : `has a neck of ${thicknessText(widthMm, unit)}`} here; narrower than ${lengthText(leastMm, unit)} it snaps.`,
  fix: 'Leave a bridge of waste across it until it lies in its place, or widen the lap.',
  where: { layer, piece: name, atMm },
});
