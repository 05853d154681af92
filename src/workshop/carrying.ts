import { areaOf } from '../geometry/ring.ts';
import { ringHull } from '../geometry/ring-hull.ts';
import type { Inside } from '../model/facts.ts';
import type { Piece } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { type BoxMm, boxesOf, passesWay, smallestBox } from '../model/way.ts';
import { handsFor, oneTakesKg } from './hands.ts';
import { coverOf } from './materials.ts';
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
  /** Whether it passes every opening that the job says, lift and van by its raw weight too. */
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

/** Every piece by its name's order in the plan, raw and covered. */
export function loadsOf(plan: Plan): Load[] {
  const { pieces, boards, facts, quantities } = plan;
  const masses = pieceMasses(pieces, boards);
  const open = pieces.map(({ areaMm2, placing }) => Math.max(0, areaMm2 - areaOf(placing)));
  const allOpen = open.reduce((sum, mm2) => sum + mm2, 0);
  const times = coverOf(facts.cover).wetTimes;
  return pieces.map((piece, i): Load => {
    const boxes = boxesOf(ringHull(piece.region[0]), piece.thicknessMm);
    const box = smallestBox(boxes);
    const rawKg = masses.get(piece.name) ?? 0;
    const share = allOpen === 0 ? 0 : open[i] / allOpen;
    const coverKg = facts.cover === null ? 0 : quantities.coverMassKg === null ? null : quantities.coverMassKg * share;
    const coveredKg = coverKg === null ? null : rawKg + coverKg;
    const wetKg = coverKg === null ? null : rawKg + coverKg * times;
    const isTooMuch = wetKg !== null && wetKg > 2 * oneTakesKg(box, facts);
    return {
      piece,
      box,
      rawKg,
      coveredKg,
      wetKg,
      people: handsFor(box, rawKg, facts),
      coveredPeople: wetKg === null ? 'not worked out' : isTooMuch ? 'more than two' : handsFor(box, wetKg, facts),
      passes: passesWay(boxes, rawKg, facts.way),
    };
  });
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

/** Trips for the foam of a plan, with the van that the job says, else the usual one. */
export const tripsFor = (plan: Plan, loads: readonly Load[] = loadsOf(plan)): Trip[] =>
  tripsOf(bundlesOf(loads), plan.facts.way.van ?? USUAL_VAN, plan.facts.work.rules.vanFill.value);

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
