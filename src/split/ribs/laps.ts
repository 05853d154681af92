import { refuse } from '../../findings.ts';
import { boxOf, type Point, type Region, type Ring, rectangle } from '../../geometry/ring.ts';
import { snapped } from '../../geometry/snap.ts';
import type { Layer } from '../../model/layer.ts';
import type { Rib } from '../../model/rib.ts';
import { numberText } from '../../units.ts';
import { hasRoom, type Room } from '../pieces/room.ts';
import { cutInStep, heightOver, leastOver, type Step } from './step.ts';

export interface Wanted {
  readonly room: Room;
  readonly lapMm: number;
  /** Whether a lap may be shorter where there is no more room: down to a thickness. */
  readonly mayShrink: boolean;
  /** Bays in which the rib beside has a lap, each by the number of the rib that begins it, and where the lap begins. */
  readonly taken: ReadonlyMap<number, number>;
  /** Stretches along the rib, from and to, that are to lie in no one piece. */
  readonly apart: readonly (readonly [fromMm: number, toMm: number])[];
}

/** A stretch of a rib in pieces from left to right, and its laps. */
export interface Lapped {
  readonly regions: readonly Region[];
  readonly laps: readonly Bay[];
}

/** Between a lap and a slot, in thicknesses. */
const CLEAR = 0.5;
/** What a further piece counts for, and a piece that only one rib holds upright. */
const PIECE = 1000;
const UNSTEADY = 50;
/** What a lap counts for in the bay of a lap of the rib beside, at the very same place, in a low place, and out of the middle of its bay. */
const BESIDE = 100;
const SAME = 40;
const LOW = 10;
const ASIDE = 5;

export interface Bay extends Step {
  /** The rib at which it begins. */
  readonly from: number;
  /** Not in its middle. */
  readonly isAside: boolean;
}

/**
 * A stretch of a rib in the fewest pieces that fit a board, and the bays in which they are lapped. The cost of a division is the
 * sum over its laps and pieces, so the best one up to a lap is the best up to an earlier lap and one piece more: dynamic
 * programming over the bays (Bellman 1957). O(bays²). Null where stretches that are wanted apart leave no way.
 */
export function lapped(region: Region, layer: Layer, rib: Rib, wanted: Wanted): Lapped | null {
  const [ring] = region;
  const [startMm, , endMm] = boxOf(region);
  const fits = (from: number, to: number) => {
    if (wanted.apart.some(([a, b]) => from <= a && to >= b)) return false;
    const height = heightOver(ring, from, to);
    return hasRoom(rectangle(0, 0, to - from, height), (to - from) * height, wanted.room);
  };
  if (fits(startMm, endMm)) return { regions: [region], laps: [] };
  const bays = baysOf(ring, layer, rib, wanted);
  const crossings = rib.crossings.filter(({ atMm }) => atMm > startMm && atMm < endMm);
  const tall = Math.max(...bays.map(({ meetMm }) => meetMm));
  const cost: number[] = [];
  const before: number[] = [];
  // One more than there are bays: the last piece ends where the stretch does.
  for (let i = 0; i <= bays.length; i++) {
    cost.push(Infinity);
    before.push(-1);
    const own = i < bays.length ? lapCost(bays[i], tall, wanted) : 0;
    const toMm = i < bays.length ? bays[i].toMm : endMm;
    for (let k = -1; k < i; k++) {
      // Between two laps there is a rib, or the piece would hold by nothing.
      if (k >= 0 && i < bays.length && bays[k].from === bays[i].from) continue;
      const fromMm = k < 0 ? startMm : bays[k].fromMm;
      const sum = (k < 0 ? 0 : cost[k]) + own + PIECE;
      if (sum >= cost[i] + UNSTEADY || !fits(fromMm, toMm)) continue;
      const held = crossings.filter(({ atMm }) => atMm > fromMm && atMm < toMm).length;
      const whole = sum + (held < 2 ? UNSTEADY : 0);
      if (whole >= cost[i]) continue;
      cost[i] = whole;
      before[i] = k;
    }
  }
  if (cost[bays.length] === Infinity) {
    if (wanted.apart.length > 0) return null;
    cannotDivide(ring, layer, rib, wanted.room);
  }
  const chosen: Bay[] = [];
  for (let i = before[bays.length]; i >= 0; i = before[i]) chosen.unshift(bays[i]);
  const rings: Ring[] = [];
  let rest = ring;
  for (const bay of chosen) {
    const [left, right] = cutInStep(rest, bay);
    rings.push(left);
    rest = right;
  }
  return { regions: [...rings, rest].map((each) => [each]), laps: chosen };
}

function lapCost({ from, fromMm, meetMm, isAside }: Bay, tall: number, { taken }: Wanted): number {
  const besideMm = taken.get(from);
  const beside = besideMm === undefined ? 0 : BESIDE + (besideMm === fromMm ? SAME : 0);
  return beside + LOW * (1 - meetMm / tall) + (isAside ? ASIDE : 0);
}

/** Where laps can be: in the middle and at either end of each bay that has room for one, from left to right. */
function baysOf(ring: Ring, { thicknessMm }: Layer, { crossings }: Rib, { lapMm, mayShrink }: Wanted): Bay[] {
  const [startMm, , endMm] = boxOf([ring]);
  const own = crossings.filter(({ atMm }) => atMm > startMm && atMm < endMm);
  return own.slice(1).flatMap((next, i): Bay[] => {
    const last = own[i];
    const leftMm = last.atMm + last.widthMm / 2 + CLEAR * thicknessMm;
    const roomMm = next.atMm - next.widthMm / 2 - CLEAR * thicknessMm - leftMm;
    const longMm = mayShrink ? Math.min(lapMm, roomMm) : lapMm;
    if (longMm > roomMm || longMm < Math.min(lapMm, thicknessMm)) return [];
    return [0, 0.5, 1].map((share) => {
      const fromMm = snapped(leftMm + share * (roomMm - longMm));
      const toMm = snapped(fromMm + longMm);
      const meetMm = snapped(leastOver(ring, fromMm, toMm) / 2);
      return { from: last.layer, fromMm, toMm, meetMm, isAside: share !== 0.5 };
    });
  });
}

function cannotDivide(ring: Ring, { number }: Layer, { frame, gridLine }: Rib, room: Room): never {
  const [startMm, , endMm, highMm] = boxOf([ring]);
  const atMm: Point = [
    frame.originMm[0] + (frame.along[0] * (startMm + endMm)) / 2,
    frame.originMm[1] + (frame.along[1] * (startMm + endMm)) / 2,
  ];
  const [, short] = room.boardsMm[0];
  const [long] = room.boardsMm[0];
  if (highMm > short) {
    const across =
      highMm > long
        ? `no board is so long`
        : `stood across a board its pieces could be ${numberText(short, 0)} mm long, and there is no place for a lap in so short a stretch`;
    return refuse(
      'split/rib-too-high',
      `The rib on ${gridLine} is up to ${numberText(highMm, 0)} mm high, more than a board is wide: ${across}.`,
      'Offer wider boards, let the ribs stand wider apart so that bays have room for laps, cut this ground into layers, or stand the ribs on a platform by others and lower the ground with base.',
      { layer: number, atMm },
    );
  }
  return refuse(
    'split/rib-too-long',
    `The rib on ${gridLine} is ${numberText(endMm - startMm, 0)} mm long and has no place for laps so that its pieces fit a board.`,
    'Offer longer boards, let the ribs stand closer or wider apart, or say a shorter split.ribs.lap.',
    { layer: number, atMm },
  );
}
