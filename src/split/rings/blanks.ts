import { intersect } from '../../geometry/clip.ts';
import { crossingsOf, withCrossings } from '../../geometry/crossed.ts';
import { type Region, regionArea, ringsOf } from '../../geometry/ring.ts';
import { centroidOf } from '../../geometry/support.ts';
import type { Layer } from '../../model/layer.ts';
import { type Blank, letters, type Piece, type Wish } from '../../model/piece.ts';
import { staggerMm } from '../../model/seam.ts';
import { zoneRegions } from '../../model/zone.ts';
import type { Context, Walk } from '../../plugin.ts';
import { sliverMm, type Wanted } from '../pieces/cut-cost.ts';
import { divideAgain, divisionsOf, overBetween } from '../pieces/divide.ts';
import { jointsOf, seamsOf } from '../pieces/joints.ts';
import { readingOrder } from '../pieces/naming.ts';
import { type Course, finished, LEAST_WIDTH, MOST_PIECES, tooManyPieces } from '../pieces/pieces.ts';
import { portionOf } from '../pieces/portion.ts';
import type { Room } from '../pieces/room.ts';
import type { Disc } from './discs.ts';

/** A disc that comes out of no other, and the parts into which seams divide it with all that comes out of it. */
interface Parted {
  readonly root: Disc;
  readonly sectors: readonly Region[];
}

/** Foam of a layer that is to be one piece. */
interface Cut {
  readonly region: Region;
  /** Number of its blank in the job. */
  readonly blank: number;
}

/** What the job says of a stack that is to be divided. */
export interface Asked {
  readonly layers: readonly Layer[];
  readonly rooms: readonly Room[];
  readonly wishes: readonly Wish[];
  /** Of seams in layers next to one another; undefined where the job does not say. */
  readonly staggerMm: number | undefined;
}

/** Smaller pieces are what the grid leaves where a seam meets a ring. */
const SPECK_MM2 = 0.01;
/** So many ways to divide a disc are compared by what they make of its rings. */
const FEW_WAYS = 6;
/** Progress of dividing: what comes before and after it is the discs' and the pins'. */
const FROM = 0.4;
const TO = 0.8;

/**
 * The blanks of nested discs. A blank that no board holds is divided by seams that run straight through all its rings, the
 * topmost blank first; each keeps clear of the seams in the layers next to its own.
 */
export function* blanksOf(
  discs: readonly (readonly Disc[])[],
  { layers, rooms, wishes, staggerMm: said }: Asked,
  context: Context<'split'>,
): Walk<readonly Blank[]> {
  const all = discs.flat();
  const inner = new Set(all.flatMap((disc) => disc.inner));
  const roots = all.filter((disc) => !inner.has(disc));
  const seams: number[][] = layers.map(() => []);
  const seen = zoneRegions(context.facts.zones, 'seen');
  const wantedFor = ({ place }: Disc, seamsNear: readonly number[]) => ({
    room: rooms[place],
    seamsNear,
    staggerMm: staggerMm(said, layers[place].thicknessMm, context.facts.boardSizes),
    leastWidthMm: LEAST_WIDTH * layers[place].thicknessMm,
    seen,
  });

  const parted: Parted[] = [];
  for (const root of [...roots].reverse()) {
    const places = new Set(treeOf(root).map(({ place }) => place));
    const besides = seams.filter((_, place) => !places.has(place) && (places.has(place - 1) || places.has(place + 1)));
    const sectors = bestSectors(root, wantedFor(root, besides.flat()), layers[root.place].number);
    const own = segmentsOf(sectors);
    for (const place of places) seams[place].push(...own);
    parted.unshift({ root, sectors });
    yield FROM + ((TO - FROM) * parted.length) / roots.length;
  }
  const laid = (of: readonly Parted[]) => cutsOf(of, layers, rooms, context);
  let cuts = laid(parted);
  const wished = new Set(wishes.map(({ piece }) => piece));
  const meant = new Set(
    cuts.flatMap((here, place) =>
      here.filter((_, i) => wished.has(nameOf(layers[place], i))).map(({ blank }) => blank),
    ),
  );
  if (meant.size > 0) {
    let first = 0;
    const again = parted.map(({ root, sectors }) => {
      const some = sectors.map((_, i) => i).filter((i) => meant.has(first + i));
      first += sectors.length;
      return { root, sectors: divideAgain(sectors, some, wantedFor(root, [])) };
    });
    cuts = laid(again);
  }
  if (cuts.flat().length > MOST_PIECES) tooManyPieces();
  const courses = cuts.map((here, place) => courseOf(layers[place], here, rooms[place], discs[place], context));
  return grouped(yield* finished(courses, context), cuts.flat());
}

/** A disc with all that comes out of it. */
const treeOf = (root: Disc): Disc[] => [root, ...root.inner.flatMap(treeOf)];

/** The seams between areas as straight segments: x, y of one end, x, y of the other. */
const segmentsOf = (regions: readonly Region[]): number[] =>
  seamsOf(regions).flatMap(({ line }) => {
    const segments: number[] = [];
    for (let i = 2; i < line.length; i += 2) segments.push(line[i - 2], line[i - 1], line[i], line[i + 1]);
    return segments;
  });

/**
 * The parts of a disc that cost least: of the ways to divide it, each is charged with what it makes of the rings, for a seam
 * that runs along a ring leaves slivers of it.
 */
function bestSectors(root: Disc, wanted: Wanted, layer: number): readonly Region[] {
  const ways = divisionsOf([root.region], wanted, layer, FEW_WAYS);
  const tree = treeOf(root);
  let [best] = ways;
  let least = Infinity;
  for (const way of ways.length > 1 ? ways : []) {
    const over = overBetween(way, wanted.seamsNear, wanted);
    const cost = way.cost + over + sliversOf(tree, way.pieces, wanted);
    if (cost >= least) continue;
    least = cost;
    best = way;
  }
  return best.pieces;
}

const sliversOf = (tree: readonly Disc[], sectors: readonly Region[], wanted: Wanted): number =>
  foamIn(tree, sectors).reduce((sum, { region }) => sum + sliverMm(portionOf(region, wanted.room).widthMm, wanted), 0);

/** The foam of nested discs, cut by the seams between sectors: all that meet at a point share it exactly. */
function foamIn(tree: readonly Disc[], sectors: readonly Region[]) {
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

/** The foam of each layer in pieces, in the order of their names. */
function cutsOf(
  parted: readonly Parted[],
  layers: readonly Layer[],
  rooms: readonly Room[],
  { facts }: Context<'split'>,
): Cut[][] {
  const cuts: Cut[][] = layers.map(() => []);
  let first = 0;
  for (const { root, sectors } of parted) {
    for (const { place, region, sector } of foamIn(treeOf(root), sectors)) {
      cuts[place].push({ region, blank: first + sector });
    }
    first += sectors.length;
  }
  return cuts.map((here, place) => {
    const middles = here.map(({ region }) => centroidOf(region));
    return readingOrder(middles, facts.front.side, rowMm(rooms[place])).map((i) => here[i]);
  });
}

const rowMm = ({ boardsMm: [[, short]] }: Room): number => short / 2;

const nameOf = ({ number }: Layer, i: number): string => `${number}${letters(i)}`;

function courseOf(
  layer: Layer,
  cuts: readonly Cut[],
  room: Room,
  discs: readonly Disc[],
  { facts }: Context<'split'>,
): Course {
  const pieces = cuts.map(({ region }) => region);
  const names = pieces.map((_, i) => nameOf(layer, i));
  return {
    layer,
    voids: discs.flatMap(({ inner }) => inner.map(({ region }) => region)),
    foam: discs.flatMap(({ foam }) => [...foam]),
    pieces,
    names,
    joints: jointsOf(pieces, names, layer.number, facts.front, rowMm(room)),
  };
}

/** Pieces that come from one blank put together, from the ground up. */
function grouped(single: readonly Blank[], cuts: readonly Cut[]): Blank[] {
  const blanks = new Map<number, Piece[]>();
  for (const [i, { pieces }] of single.entries()) {
    blanks.set(cuts[i].blank, [...(blanks.get(cuts[i].blank) ?? []), ...pieces]);
  }
  return [...blanks.values()].map((pieces) => ({
    pieces,
    sharedCuts: seamsOf(pieces.map(({ region }) => region)).map(({ line }) => line),
  }));
}
