import { refuse } from '../../findings.ts';
import { type Insertion, withInsertion } from '../../geometry/chord.ts';
import type { Region } from '../../geometry/ring.ts';
import { partedAtTouches } from '../../geometry/touching.ts';
import { type Cut, cutsOf, PIECE_MM, type Wanted } from './cuts.ts';
import { type Portion, portionOf } from './portion.ts';

/** First cuts that are each followed to the end. */
const FIRST_CUTS = 3;
/** More pieces than this in one layer nobody sorts out again. */
const MOST_PIECES = 2000;

/**
 * Divide the foam of a layer so that every piece fits a board, by straight seams.
 *
 * Fewest pieces that fit a rectangle is NP-hard (Abrahamsen, Stade 2024); this is a search. The cost of a division is the
 * sum over its cuts (cuts.ts), so that what is cut apart is divided on its own: a portion takes the cut that promises least,
 * and the first cut of each region is chosen by following several to the end. All points on seams are shared exactly.
 */
export function divide(regions: readonly Region[], wanted: Wanted, layer: number): Region[] {
  const pieces: Region[] = [];
  for (const region of regions.flatMap(partedAtTouches)) {
    const whole = portionOf(region, wanted.room);
    pieces.push(...(whole.fits ? [region] : bestDivision(whole, wanted, layer)));
    if (pieces.length > MOST_PIECES) tooManyPieces(layer);
  }
  return pieces;
}

/** The pieces of a layer with some of them, by number, cut once more where that is possible. */
export function divideAgain(pieces: readonly Region[], some: readonly number[], wanted: Wanted): Region[] {
  let result = pieces.map((region, i) => ({ region, isMeant: some.includes(i) }));
  for (let at = 0; at < result.length; at++) {
    if (!result[at].isMeant) continue;
    const [cut] = cutsOf(portionOf(result[at].region, wanted.room), wanted, 1);
    if (!cut?.portions.every(({ fits }) => fits)) continue;
    result.splice(at, 1, ...cut.portions.map(({ region }) => ({ region, isMeant: false })));
    result = result.map(({ region, isMeant }) => ({ region: withInsertions(region, cut.insertions), isMeant }));
  }
  return result.map(({ region }) => region);
}

function bestDivision(whole: Portion, wanted: Wanted, layer: number): readonly Region[] {
  let best: Division | undefined;
  for (const cut of cutsOf(whole, wanted, FIRST_CUTS)) {
    const division = followed(cut, wanted, layer);
    if (!best || division.cost < best.cost) best = division;
  }
  return best?.pieces ?? cannotDivide(whole.region, layer);
}

interface Division {
  readonly pieces: readonly Region[];
  readonly cost: number;
}

/** A first cut, and then always the cut that promises least. */
function followed(first: Cut, wanted: Wanted, layer: number): Division {
  const cuts = [first];
  const open = [...first.portions];
  const pieces: Region[] = [];
  for (let portion = open.pop(); portion; portion = open.pop()) {
    if (portion.fits) {
      pieces.push(portion.region);
      continue;
    }
    const [cut] = cutsOf(portion, wanted, 1);
    if (!cut) cannotDivide(portion.region, layer);
    cuts.push(cut);
    open.push(...cut.portions);
    if (pieces.length + open.length > MOST_PIECES) tooManyPieces(layer);
  }
  const insertions = cuts.flatMap((cut) => cut.insertions);
  return {
    pieces: pieces.map((region) => withInsertions(region, insertions)),
    cost: cuts.reduce((sum, cut) => sum + cut.cost, PIECE_MM * pieces.length),
  };
}

/** A seam that ends on another puts a point on it: the piece on the far side gets the point too. */
const withInsertions = (region: Region, insertions: readonly Insertion[]): Region =>
  insertions.length === 0 ? region : region.map((ring) => insertions.reduce(withInsertion, ring));

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
