import { lineLength, type Point } from '../../geometry/ring.ts';
import { snapped } from '../../geometry/snap.ts';

/** The two strokes of the pair stand so far apart: a stroke and a finger's breadth are told apart at a glance (our choice). */
const PAIR_MM = 6;
/** On a short joint the pair takes this share of it at most. */
const PAIR_SHARE = 1 / 8;
/** Marks of joints of one piece differ by this much, laid against each other any way, where there is a way. */
const DIFFER_MM = 8;

/** Where the lone mark and the pair may stand, as shares of a joint: never mirror images of each other. */
const LONE = [0.27, 0.22, 0.32, 0.37, 0.17];
const PAIR = [0.66, 0.59, 0.72, 0.78];

/** The match marks of a joint. */
export interface Matches {
  readonly points: readonly Point[];
  /** Length of the joint and where its marks stand along it, rising. */
  readonly lengthMm: number;
  readonly alongMm: readonly number[];
}

/**
 * Mark a joint with one stroke alone and two close together: laid against each other the wrong way round, a lone stroke meets
 * a pair, so a piece that is turned or flipped shows it at once. The places are chosen so that the marks match none of the
 * other joints of the same pieces either, from whichever end: a piece turned round brings another of its joints to this place.
 * @param others marks of joints that the two pieces have already.
 */
export function matchesOn(line: Float64Array, others: readonly Matches[]): Matches {
  const lengthMm = lineLength(line);
  const pairMm = Math.min(PAIR_MM, PAIR_SHARE * lengthMm);
  let best: readonly number[] = [];
  let most = -1;
  for (const alongMm of candidates(lengthMm, pairMm)) {
    let least = Infinity;
    for (const other of others) least = Math.min(least, difference({ lengthMm, alongMm }, other));
    if (least > most) [best, most] = [alongMm, least];
    if (least >= DIFFER_MM) break;
  }
  return { points: best.map((along) => pointAt(line, along)), lengthMm, alongMm: best };
}

/** The lone mark first along the joint, then the same with the pair first. */
function* candidates(lengthMm: number, pairMm: number): Generator<readonly number[]> {
  for (const isPairFirst of [false, true]) {
    for (const lone of LONE) {
      for (const pair of PAIR) {
        const along = [lone * lengthMm, pair * lengthMm, pair * lengthMm + pairMm];
        yield isPairFirst ? along.map((mm) => lengthMm - mm).reverse() : along;
      }
    }
  }
}

/** How far marks are from matching: either joint run either way, their starts or their ends laid together. */
function difference(a: Omit<Matches, 'points'>, b: Omit<Matches, 'points'>): number {
  const shift = b.lengthMm - a.lengthMm;
  let least = Infinity;
  for (const along of [a.alongMm, a.alongMm.map((mm) => a.lengthMm - mm)]) {
    for (const by of [0, shift]) {
      const laid = along.map((mm) => mm + by);
      least = Math.min(least, Math.max(farthest(laid, b.alongMm), farthest(b.alongMm, laid)));
    }
  }
  return least;
}

/** How far a mark of some is, at most, from the nearest of others. */
const farthest = (some: readonly number[], others: readonly number[]): number =>
  some.reduce(
    (most, one) =>
      Math.max(
        most,
        others.reduce((least, other) => Math.min(least, Math.abs(one - other)), Infinity),
      ),
    0,
  );

/** The point so far along an open line, on the grid. */
export function pointAt(line: Float64Array, alongMm: number): Point {
  let left = alongMm;
  let i = 2;
  while (i + 2 < line.length && left > edgeLength(line, i)) {
    left -= edgeLength(line, i);
    i += 2;
  }
  const long = edgeLength(line, i);
  const t = long > 0 ? Math.min(1, left / long) : 0;
  return [snapped(line[i - 2] + t * (line[i] - line[i - 2])), snapped(line[i - 1] + t * (line[i + 1] - line[i - 1]))];
}

function edgeLength(line: Float64Array, end: number): number {
  const dx = line[end] - line[end - 2];
  const dy = line[end + 1] - line[end - 1];
  return Math.sqrt(dx * dx + dy * dy);
}
