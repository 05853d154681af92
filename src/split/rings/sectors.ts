import { intersect } from '../../geometry/clip.ts';
import { crossingsOf, withCrossings } from '../../geometry/crossed.ts';
import { type Region, regionArea, ringsOf } from '../../geometry/ring.ts';
import { sliverMm, type Wanted } from '../pieces/cut-cost.ts';
import { type Division, dividedAgain, divisionsOf, overBetween } from '../pieces/divide.ts';
import { seamsOf } from '../pieces/joints.ts';
import { portionOf } from '../pieces/portion.ts';
import type { Disc } from './discs.ts';

/** A disc that comes out of no other, and the sectors into which seams divide it with all that comes out of it. */
export interface Parted {
  readonly root: Disc;
  readonly division: Division;
  readonly wanted: Wanted;
}

/** Foam of a layer in one of the sectors. */
export interface Foam {
  /** Place of its layer in the stack. */
  readonly place: number;
  readonly sector: number;
  readonly region: Region;
}

/** Smaller pieces are what the grid leaves where a seam meets a ring. */
const SPECK_MM2 = 0.01;
/** So many ways to divide a disc are compared by what they make of its rings. */
const FEW_WAYS = 6;
/** So often at most each disc is divided anew with the seams of all others known. */
const ROUNDS = 4;

/** A disc with all that comes out of it. */
export const treeOf = (root: Disc): Disc[] => [root, ...root.inner.flatMap(treeOf)];

/**
 * Sectors of all the discs that come out of no other, so that the whole stack costs least (cut-cost.ts): each for itself, what
 * its seams make of the rings that come out of it (one that runs along a ring leaves slivers), and for how long seams of layers
 * next to one another run together.
 *
 * From the top down each disc is divided with the seams known so far in mind; then each once more with those of all others,
 * keeping what it has where nothing costs less, until a round changes nothing (descent by coordinates: the sum never grows).
 * Seams run straight through all rings of a blank, so that a disc has few ways: six are followed to the end, each round.
 */
export function* sectorsOf(
  roots: readonly Disc[],
  wantedFor: (root: Disc) => Wanted,
  numberOf: (place: number) => number,
): Generator<number, Parted[]> {
  const places = roots.map((root) => new Set(treeOf(root).map(({ place }) => place)));
  const beside = roots.map((_, i) =>
    roots
      .map((_, k) => k)
      .filter((k) => k !== i && [...places[i]].some((place) => places[k].has(place - 1) || places[k].has(place + 1))),
  );
  const found: (Parted | undefined)[] = roots.map(() => undefined);
  for (let round = 0, hasChanged = true; hasChanged && round < ROUNDS; round++) {
    hasChanged = false;
    for (let i = roots.length - 1; i >= 0; i--) {
      const seamsNear = beside[i].flatMap((k) => found[k]?.division.seams ?? []);
      // Where nothing lies near that was not known before there is nothing to find.
      if (round > 0 && (found[i]?.division.seams.length === 0 || !runs(found[i], seamsNear))) continue;
      const best = bestOf(
        roots[i],
        { ...wantedFor(roots[i]), seamsNear },
        numberOf(roots[i].place),
        found[i]?.division,
      );
      if (best.division !== found[i]?.division) hasChanged = true;
      found[i] = best;
      yield (round + (roots.length - i) / roots.length) / ROUNDS;
    }
  }
  return found as Parted[];
}

const runs = (parted: Parted | undefined, seamsNear: readonly number[]): boolean =>
  parted !== undefined && overBetween(parted.division, seamsNear, parted.wanted) > 0;

/** The way to divide a disc that costs least, of those that are found and the one that it has. */
function bestOf(root: Disc, wanted: Wanted, layer: number, before: Division | undefined): Parted {
  const ways = divisionsOf([root.region], wanted, layer, FEW_WAYS);
  const tree = treeOf(root);
  let [best] = ways;
  let least = Infinity;
  for (const way of before ? [before, ...ways] : ways) {
    if (ways.length === 1 && !before) break;
    const cost = way.cost + overBetween(way, wanted.seamsNear, wanted) + sliversOf(tree, way, wanted);
    if (cost >= least) continue;
    least = cost;
    best = way;
  }
  return { root, division: best, wanted };
}

/** The same with some of the sectors, numbered through all discs, divided once more where that is possible. */
export function partedAgain(parted: readonly Parted[], isMeant: ReadonlySet<number>): Parted[] {
  let first = 0;
  return parted.map(({ root, division, wanted }) => {
    const some = division.pieces.map((_, i) => i).filter((i) => isMeant.has(first + i));
    first += division.pieces.length;
    return { root, wanted, division: dividedAgain(division, some, wanted) };
  });
}

const sliversOf = (tree: readonly Disc[], division: Division, wanted: Wanted): number =>
  foamIn(tree, division.pieces).reduce(
    (sum, { region }) => sum + sliverMm(portionOf(region, wanted.room).widthMm, wanted),
    0,
  );

/** The foam of nested discs, cut by the seams between sectors: all that meet at a point share it exactly. */
export function foamIn(tree: readonly Disc[], sectors: readonly Region[]): Foam[] {
  // One sector is the disc itself: nothing is cut, and no point may move.
  if (sectors.length === 1)
    return tree.flatMap(({ place, foam }) => foam.map((region) => ({ place, region, sector: 0 })));
  const points = crossingsOf(ringsOf(tree.flatMap(({ foam }) => [...foam])), segmentsOf(sectors));
  return sectors.flatMap((outline, sector) => {
    const within = [withCrossings(outline, points)];
    return tree.flatMap(({ place, foam }) =>
      intersect(
        foam.map((region) => withCrossings(region, points)),
        within,
      )
        .filter((region) => regionArea(region) > SPECK_MM2)
        .map((region) => ({ place, region, sector })),
    );
  });
}

/** The seams between sectors edge by edge, with the points at which others end on them: x, y of one end, x, y of the other. */
const segmentsOf = (sectors: readonly Region[]): number[] =>
  seamsOf(sectors).flatMap(({ line }) => {
    const segments: number[] = [];
    for (let i = 2; i < line.length; i += 2) segments.push(line[i - 2], line[i - 1], line[i], line[i + 1]);
    return segments;
  });
