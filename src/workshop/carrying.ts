import { fitsRectangle, flushRectangles } from '../geometry/enclosing.ts';
import { areaOf } from '../geometry/ring.ts';
import { ringHull } from '../geometry/ring-hull.ts';
import type { Inside } from '../model/facts.ts';
import type { Piece } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import type { Rules } from '../model/rules.ts';
import { type BoxMm, goesInto, passesDoor, passesStair } from '../model/way.ts';
import { flatLiftKg } from './lifting.ts';
import { wetTimes } from './materials.ts';
import { pieceMasses } from './quantities.ts';

/** A piece as it is carried. */
export interface Load {
  readonly piece: Piece;
  /** The smallest box with a side along one of its own. */
  readonly box: BoxMm;
  readonly rawKg: number;
  /** With its share of the cover, as laid; null where that weight is not known. */
  readonly coveredKg: number | null;
  readonly wetKg: number | null;
  /** Raw, and once covered; above two, it is no lift by hand. */
  readonly people: 1 | 2;
  readonly coveredPeople: 1 | 2 | 'more than two' | 'not worked out';
  /** Whether it passes every opening that the job says. */
  readonly passes: boolean;
}

/** Pieces of a layer as one bundle. */
export interface Bundle {
  readonly layer: number;
  readonly pieces: number;
  readonly massKg: number;
  readonly volumeM3: number;
  /** The box that holds the largest, times the height of all laid on each other. */
  readonly sizeMm: BoxMm;
}

export interface Trip {
  /** In the order of loading: last needed first in. */
  readonly bundles: readonly Bundle[];
  readonly massKg: number;
  readonly volumeM3: number;
}

/** Whether a piece is larger than one person handles, both ways. */
export const needsTwo = ({ region: [outer] }: Piece, { twoPersonMm }: Rules): boolean => {
  const hull = ringHull(outer);
  const far = 1e9;
  return !fitsRectangle(hull, flushRectangles(hull), twoPersonMm.value, far);
};

/** Every piece by its name's order in the plan, raw and covered. */
export function loadsOf(plan: Plan): Load[] {
  const { pieces, boards, facts, quantities } = plan;
  const masses = pieceMasses(pieces, boards);
  const open = pieces.map(({ areaMm2, placing }) => Math.max(0, areaMm2 - areaOf(placing)));
  const allOpen = open.reduce((sum, mm2) => sum + mm2, 0);
  const times = facts.cover ? wetTimes(facts.cover.material) : 1;
  return pieces.map((piece, i): Load => {
    const box = smallestBox(piece);
    const rawKg = masses.get(piece.name) ?? 0;
    const share = allOpen === 0 ? 0 : open[i] / allOpen;
    const coverKg = facts.cover === null ? 0 : quantities.coverMassKg === null ? null : quantities.coverMassKg * share;
    const coveredKg = coverKg === null ? null : rawKg + coverKg;
    const wetKg = coverKg === null ? null : rawKg + coverKg * times;
    const most = flatLiftKg(box[1]);
    const large = needsTwo(piece, facts.work.rules);
    return {
      piece,
      box,
      rawKg,
      coveredKg,
      wetKg,
      people: large || rawKg > most ? 2 : 1,
      coveredPeople:
        wetKg === null ? 'not worked out' : wetKg > 2 * most ? 'more than two' : large || wetKg > most ? 2 : 1,
      passes: passesAll(piece, plan),
    };
  });
}

function boxesOf({ region: [outer], thicknessMm }: Piece): BoxMm[] {
  const flush = flushRectangles(ringHull(outer));
  const boxes: BoxMm[] = [];
  for (let i = 0; i < flush.length; i += 2) {
    boxes.push([Math.max(flush[i], flush[i + 1]), Math.min(flush[i], flush[i + 1]), thicknessMm]);
  }
  return boxes;
}

const smallestBox = (piece: Piece): BoxMm =>
  boxesOf(piece).reduce((best, box) => (box[0] * box[1] < best[0] * best[1] ? box : best));

function passesAll(piece: Piece, { facts: { way } }: Plan): boolean {
  const boxes = boxesOf(piece);
  const some = (test: (box: BoxMm) => boolean) => boxes.some(test);
  const { door, stair, lift, van } = way;
  return (
    (door === null || some((box) => passesDoor(box, door))) &&
    (stair === null || some((box) => passesStair(box, stair))) &&
    (lift === null || some((box) => goesInto(box, lift))) &&
    (van === null || some((box) => goesInto(box, van)))
  );
}

/** A bundle for each layer, from the ground up. */
export function bundlesOf(loads: readonly Load[]): Bundle[] {
  const layers = [...new Set(loads.map(({ piece }) => piece.layer))].sort((a, b) => a - b);
  return layers.map((layer) => {
    const own = loads.filter(({ piece }) => piece.layer === layer);
    const most = (side: 0 | 1) => own.reduce((best, { box }) => Math.max(best, box[side]), 0);
    return {
      layer,
      pieces: own.length,
      massKg: own.reduce((sum, { rawKg }) => sum + rawKg, 0),
      volumeM3: own.reduce((sum, { box }) => sum + (box[0] * box[1] * box[2]) / 1e9, 0),
      sizeMm: [most(0), most(1), own.reduce((sum, { box }) => sum + box[2], 0)],
    };
  });
}

/** A van where the job says none: a panel van of middling size (common practice, no source). */
export const USUAL_VAN: Inside = { lengthMm: 3000, widthMm: 1200, heightMm: 1700, payloadKg: 900 };

/**
 * Trips of the van: bundles from the ground up, since what is needed first must come first; within a trip the last needed
 * goes in first. A bundle too much for one trip is divided.
 */
export function tripsOf(bundles: readonly Bundle[], van: Inside, fill: number): Trip[] {
  const roomM3 = ((van.lengthMm * van.widthMm * van.heightMm) / 1e9) * fill;
  const payload = van.payloadKg ?? Infinity;
  const trips: Bundle[][] = [[]];
  let [volume, mass] = [0, 0];
  const next = () => {
    trips.push([]);
    [volume, mass] = [0, 0];
  };
  for (const bundle of bundles) {
    const shares = Math.max(1, Math.ceil(bundle.volumeM3 / roomM3), Math.ceil(bundle.massKg / payload));
    for (let i = 0; i < shares; i++) {
      const one = {
        ...bundle,
        pieces: Math.ceil(bundle.pieces / shares),
        volumeM3: bundle.volumeM3 / shares,
        massKg: bundle.massKg / shares,
      };
      if (trips[trips.length - 1].length > 0 && (volume + one.volumeM3 > roomM3 || mass + one.massKg > payload)) next();
      trips[trips.length - 1].push(one);
      volume += one.volumeM3;
      mass += one.massKg;
    }
  }
  return trips
    .filter((loaded) => loaded.length > 0)
    .map((loaded) => ({
      bundles: [...loaded].reverse(),
      massKg: loaded.reduce((sum, { massKg }) => sum + massKg, 0),
      volumeM3: loaded.reduce((sum, { volumeM3 }) => sum + volumeM3, 0),
    }));
}
