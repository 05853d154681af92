import { refuse } from '../../findings.ts';
import { withInsertions } from '../../geometry/insertions.ts';
import type { Region } from '../../geometry/ring.ts';
import { partedAtTouches } from '../../geometry/touching.ts';
import { overCost, pieceMm, type Wanted } from './cut-cost.ts';
import { type Cut, cutsOf } from './cuts.ts';
import { healed } from './healed.ts';
import { parallelCutsOf } from './parallel.ts';
import { FEW, type Portion, portionOf } from './portion.ts';

/** One way to divide a layer. */
export interface Division {
  readonly pieces: readonly Region[];
  /** Its seams: x, y of one end, x, y of the other, seam by seam. */
  readonly seams: readonly number[];
  /** What it costs for itself, millimetres of seam (cut-cost.ts). */
  readonly cost: number;
}

/** First cuts that are each followed to the end, as a rule. */
export const WAYS = 3;
/** What takes few pieces is cut in the best of so many ways. */
const WAYS_OF_FEW = 2;
/** What is wished to be divided once more takes the best of so many cuts that leaves no piece of more than this share of it. */
const CUTS_AGAIN = 12;
const OF_WHOLE = 0.7;
/** More pieces than this in one layer nobody sorts out again. */
const MOST_PIECES = 2000;

/**
 * Ways to divide the foam of a layer by straight seams so that every piece fits a board and may be carried: at most so many,
 * the best first. All points on seams are shared exactly.
 *
 * Fewest pieces that fit a rectangle is NP-hard (Abrahamsen, Stade 2024); this is a search. The cost of a division is the
 * sum over its cuts, so that what is cut apart is divided on its own: a large portion takes the parallel cuts that
 * promise least (parallel.ts), a small one the best of several followed to the end, and so does each region as a whole.
 */
export function divisionsOf(regions: readonly Region[], wanted: Wanted, layer: number, most: number): Division[] {
  const choices = regions.flatMap(partedAtTouches).map((region) => {
    const whole = portionOf(region, wanted.room);
    return whole.fits
      ? [{ pieces: [region], seams: [], cost: pieceMm(wanted) }]
      : waysThrough(whole, wanted, layer, most);
  });
  const ways = choices.reduce((longest, { length }) => Math.max(longest, length), 1);
  return Array.from({ length: ways }, (_, k) =>
    together(
      choices.map((list) => list[Math.min(k, list.length - 1)]),
      layer,
    ),
  );
}

/** The best of them that is found with little search. */
export const divide = (regions: readonly Region[], wanted: Wanted, layer: number): readonly Region[] =>
  divisionsOf(regions, wanted, layer, WAYS)[0].pieces;

/** One division out of those of regions that lie apart. */
function together(divisions: readonly Division[], layer: number): Division {
  const pieces = divisions.flatMap((division) => division.pieces);
  if (pieces.length > MOST_PIECES) tooManyPieces(layer);
  const cost = divisions.reduce((sum, division) => sum + division.cost, 0);
  return { pieces, seams: divisions.flatMap(({ seams }) => seams), cost };
}

/** What the seams of a division cost by running along others. */
export function overBetween(
  { seams }: Division,
  others: readonly number[],
  wanted: Pick<Wanted, 'staggerMm' | 'room'>,
) {
  let cost = 0;
  if (others.length === 0) return cost;
  for (let i = 0; i < seams.length; i += 4) {
    cost += overCost(seams[i], seams[i + 1], seams[i + 2], seams[i + 3], others, wanted);
  }
  return cost;
}

/** A division with some of its pieces, by number, cut once more where that is possible. */
export function dividedAgain(division: Division, some: readonly number[], wanted: Wanted) {
  let result = division.pieces.map((region, i) => ({ region, isMeant: some.includes(i) }));
  const seams = [...division.seams];
  let { cost } = division;
  for (let at = 0; at < result.length; at++) {
    if (!result[at].isMeant) continue;
    const whole = portionOf(result[at].region, wanted.room);
    const cuts = cutsOf(whole, wanted, CUTS_AGAIN).filter(({ portions }) => portions.every(({ fits }) => fits));
    // The shortest seam often takes off a corner only, which frees no board.
    const halving = ({ portions }: Cut) => portions.every(({ areaMm2 }) => areaMm2 <= OF_WHOLE * whole.areaMm2);
    const cut = cuts.find(halving) ?? cuts[0];
    if (!cut) continue;
    result.splice(at, 1, ...cut.portions.map(({ region }) => ({ region, isMeant: false })));
    const regions = withInsertions(
      result.map(({ region }) => region),
      cut.insertions,
    );
    result = result.map(({ isMeant }, i) => ({ region: regions[i], isMeant }));
    seams.push(...seamsOf([cut]));
    cost += cut.cost + pieceMm(wanted) * (cut.portions.length - 1);
  }
  return { pieces: result.map(({ region }) => healed(region)), seams, cost };
}

/** Each of the best first cuts of a region, followed to the end; the best first. */
function waysThrough(whole: Portion, wanted: Wanted, layer: number, most: number): Division[] {
  const firsts = firstCuts(whole, wanted, most);
  if (firsts.length === 0) cannotDivide(whole.region, layer);
  return firsts
    .map((first) => {
      const division = followed(first, wanted, layer);
      return { division, cost: division.cost + overBetween(division, wanted.seamsNear, wanted) };
    })
    .sort((a, b) => a.cost - b.cost)
    .map(({ division }) => division);
}

/**
 * Cuts that a portion may be begun with: parallel ones all at once where it takes many pieces, or where they are all it takes;
 * else single ones.
 */
function firstCuts(portion: Portion, wanted: Wanted, most: number): Cut[] {
  const cuts = parallelCutsOf(portion, wanted, most);
  return cuts.length > 0 ? cuts : cutsOf(portion, wanted, most);
}

/** A portion cut up: the cuts in the order in which they are made. */
interface Way {
  readonly cuts: readonly Cut[];
  readonly pieces: readonly Region[];
  /** With the seams near it. */
  readonly cost: number;
}

/** A first cut, and then the best that is found. */
function followed(first: Cut, wanted: Wanted, layer: number): Division {
  const { cuts, pieces } = wayBy(first, wanted, layer);
  return {
    pieces: withInsertions(
      pieces,
      cuts.flatMap(({ insertions }) => insertions),
    ).map(healed),
    seams: seamsOf(cuts),
    cost: cuts.reduce((sum, cut) => sum + cut.cost, pieceMm(wanted) * pieces.length),
  };
}

function wayBy(cut: Cut, wanted: Wanted, layer: number, isOfSeveral = false): Way {
  const ways = cut.portions.map((portion) => wayThrough(portion, wanted, layer, isOfSeveral));
  return {
    cuts: [cut, ...ways.flatMap(({ cuts }) => cuts)],
    pieces: ways.flatMap(({ pieces }) => pieces),
    cost: ways.reduce((sum, { cost }) => sum + cost, cut.cost + cut.near),
  };
}

/**
 * Through what will take few pieces more than one way is followed: there a cut decides how many. Not again through what is left
 * of those, or the ways would double with every cut.
 */
function wayThrough(portion: Portion, wanted: Wanted, layer: number, isOfSeveral: boolean): Way {
  if (portion.fits) return { cuts: [], pieces: [portion.region], cost: pieceMm(wanted) };
  if (portion.needs > MOST_PIECES) tooManyPieces(layer);
  const isFew = portion.needs <= FEW;
  const cuts = firstCuts(portion, wanted, isFew && !isOfSeveral ? WAYS_OF_FEW : 1);
  if (cuts.length === 0) cannotDivide(portion.region, layer);
  let best: Way | undefined;
  for (const cut of cuts) {
    if (best && cut.cost + cut.near + cut.portions.length * pieceMm(wanted) >= best.cost) continue;
    const way = wayBy(cut, wanted, layer, isOfSeveral || isFew);
    if (!best || way.cost < best.cost) best = way;
  }
  return best as Way;
}

const seamsOf = (cuts: readonly Cut[]): number[] =>
  cuts.flatMap(({ chords }) => chords.flatMap(({ a, b }) => [a.x, a.y, b.x, b.y]));

const cannotDivide = (region: Region, layer: number): never =>
  refuse(
    'split/cannot-divide',
    'Foam here fits no board, and no straight seam passes clear through it.',
    'Offer larger boards, smooth the landform, or split it solid.',
    { layer, atMm: [region[0][0], region[0][1]] },
  );

const tooManyPieces = (layer: number): never =>
  refuse(
    'split/too-many-pieces',
    `This layer would fall into more than ${MOST_PIECES} pieces.`,
    'Offer larger boards in stock, or check the unit of the job and of the boards.',
    { layer },
  );
