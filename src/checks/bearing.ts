import type { Finding } from '../findings.ts';
import { subtract } from '../geometry/clip.ts';
import {
  type Box,
  boxOf,
  isInRegion,
  type Point,
  type Region,
  type Ring,
  regionArea,
  ringsOf,
} from '../geometry/ring.ts';
import { SegmentIndex } from '../geometry/segment-index.ts';
import { centroidOf, type Support, supportOf } from '../geometry/support.ts';
import { lapMm as lapFor } from '../model/layer.ts';
import type { Piece } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { zoneRegions } from '../model/zone.ts';
import { lengthText, numberText } from '../units.ts';
import { type Course, coursesOf } from './courses.ts';
import { told } from './told.ts';

/** A piece that rests on less of itself than this is told of (our choice: a lap of 50 mm round a board of 2.4 × 1.2 m is an eighth). */
const LEAST_SHARE = 0.1;
/** What arithmetic may take from a lap. */
const ROUNDING_MM = 0.01;
/** Laps wider than so many times what is wanted are not looked for. */
const WIDE = 4;

/** A piece on the foam beneath it. */
interface Rest extends Support {
  readonly piece: Piece;
}

/** The narrowest lap of a layer on the one beneath. */
interface Lap {
  readonly lapMm: number;
  readonly wantedMm: number;
  /** Of the layer with the void. */
  readonly layer: number;
  /** The piece that laps here, where one does. */
  readonly piece: string | undefined;
  readonly atMm: Point;
}

/** Less than this beside a deck is the grid's. */
const SPECK_MM2 = 1;

/**
 * Whether every piece, laid loose, rests steadily on the foam beneath: how much of it rests, its middle of mass over what it
 * rests on, and the least lap against what the job says. The middle of mass is that of upright edges: leaning ones move
 * it inward. O(pieces × edges beneath).
 */
export function bearing(plan: Plan, courses: readonly Course[] = coursesOf(plan)): Finding[] {
  const rests: Rest[] = [];
  const laps: Lap[] = [];
  const decks = zoneRegions(plan.facts.zones, 'people');
  const said = lapOf(plan.job);
  for (const [i, course] of courses.entries()) {
    const below = courses[i - 1];
    if (!below) continue;
    const foam = below.pieces.map(({ region }) => ({ region, box: boxOf(region) }));
    for (const piece of course.pieces) {
      const box = boxOf(piece.region);
      const under = foam.filter((each) => meet(each.box, box)).map(({ region }) => region);
      rests.push({ piece, ...supportOf(piece.region, under, 0) });
    }
    const lap = narrowest(below, course, decks, lapFor(said, course.layer.thicknessMm));
    if (lap) laps.push(lap);
  }
  const tipping = rests.filter(({ share, isSteady }) => !isSteady || share < LEAST_SHARE);
  const short = laps.filter(({ lapMm, wantedMm }) => lapMm < wantedMm - ROUNDING_MM);
  return [
    ...told(short.sort(byLap), lapShort, ({ layer }) => `layer ${layer}`),
    ...told(tipping.sort(byShare), tips, ({ piece }) => piece.name),
    ...leastOf(rests, laps, plan),
  ];
}

const byLap = (a: Lap, b: Lap): number => a.lapMm - a.wantedMm - (b.lapMm - b.wantedMm) || a.layer - b.layer;
const byShare = (a: Rest, b: Rest): number => a.share - b.share || (a.piece.name < b.piece.name ? -1 : 1);
const meet = (a: Box, b: Box): boolean => a[0] <= b[2] && b[0] <= a[2] && a[1] <= b[3] && b[1] <= a[3];

/** Where the outline of what stands on a layer comes nearest to a void of it; null when it comes nowhere near. */
function narrowest(below: Course, above: Course, decks: readonly Region[], wantedMm: number): Lap | null {
  // Round a deck by others foam is left out, whatever laps there.
  const clear = (regions: readonly Region[]) => (decks.length > 0 ? subtract(regions, decks) : regions);
  // Cut round a deck, edges on the grid differ from the deck's own by specks that are no voids.
  const voids = ringsOf(clear(below.missing).filter((region) => regionArea(region) > SPECK_MM2));
  if (voids.length === 0) return null;
  const outline = ringsOf(clear(above.layer.regions));
  let least: { lapMm: number; atMm: Point } | undefined;
  // Between straight edges the least distance is at a corner of the one or the other.
  for (const [corners, edges] of [
    [voids, outline],
    [outline, voids],
  ]) {
    const index = new SegmentIndex(edges.map(closed));
    for (const ring of corners) {
      for (let k = 0; k < ring.length; k += 2) {
        const reach = least?.lapMm ?? WIDE * wantedMm;
        const lapMm = index.distance(ring[k], ring[k + 1], reach);
        if (lapMm < reach) least = { lapMm, atMm: [ring[k], ring[k + 1]] };
      }
    }
  }
  if (!least) return null;
  const [x, y] = least.atMm;
  const piece = above.pieces.find(({ region }) => isInRegion(x, y, region));
  return { ...least, wantedMm, layer: below.layer.number, piece: piece?.name };
}

function closed(ring: Ring): Float64Array {
  const line = new Float64Array(ring.length + 2);
  line.set(ring);
  line.set(ring.subarray(0, 2), ring.length);
  return line;
}

/** The lap that the job says, as it says it; undefined when it says none. */
function lapOf({ split }: Plan['job']): number | string | undefined {
  type Lap = { readonly lap?: number | string };
  type Ways = { readonly hollow?: Lap; readonly rings?: Lap };
  const said = split as Ways | undefined;
  return (said?.hollow ?? said?.rings)?.lap;
}

const percent = (share: number): string => `${numberText(100 * share, share < 0.1 ? 1 : 0)} %`;

const tips = ({ piece, share, isSteady }: Rest): Finding => {
  const [x, y] = centroidOf(piece.region);
  const what =
    share === 0
      ? 'has nothing under it'
      : isSteady
        ? `rests on no more than ${percent(share)} of itself`
        : `tips: its middle of mass is not over the ${percent(share)} of it that rest`;
  return {
    level: 'watch',
    code: 'checks/tips',
    message: `${piece.name}, laid loose, ${what}.`,
    fix: 'Block under it with a plug or an offcut until the glue has set, widen the lap, or split solid.',
    where: { layer: piece.layer, piece: piece.name, atMm: [x, y] },
  };
};

const lapShort = ({ lapMm, wantedMm, layer, piece, atMm }: Lap): Finding => ({
  level: 'stop',
  code: 'checks/lap-short',
  message: `${piece ?? 'The next layer'} laps this layer by ${numberText(lapMm, 1)} mm only; ${numberText(wantedMm)} mm are wanted.`,
  fix: 'Split again with a wider lap.',
  where: { layer, atMm },
});

/** What holds least, though it holds: where a crew looks first. Nothing where every piece rests on all of itself. */
function leastOf(rests: readonly Rest[], laps: readonly Lap[], { unit }: Plan): Finding[] {
  const holding = rests.filter(({ share, isSteady }) => isSteady && share >= LEAST_SHARE).sort(byShare);
  const [least] = holding;
  if (!least || least.share > 0.999) return [];
  const { piece, share } = least;
  const [x, y] = centroidOf(piece.region);
  const [lap] = [...laps].sort((a, b) => a.lapMm - b.lapMm);
  const narrow = lap
    ? ` The least lap of all is ${lengthText(lap.lapMm, unit)}, on layer ${lap.layer}${lap.piece ? `, under ${lap.piece}` : ''}.`
    : '';
  return [
    {
      level: 'note',
      code: 'checks/least-bearing',
      message: `Of the pieces that rest steadily ${piece.name} has least under it: ${percent(share)} of it, ${numberText((share * piece.areaMm2) / 1e6, 3)} m².${narrow}`,
      fix: 'Nothing need be done; set these with care.',
      where: { layer: piece.layer, piece: piece.name, atMm: [x, y] },
    },
  ];
}
