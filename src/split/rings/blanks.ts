import { subtract } from '../../geometry/clip.ts';
import type { Region } from '../../geometry/ring.ts';
import { share } from '../../geometry/share.ts';
import { centroidOf } from '../../geometry/support.ts';
import type { Layer } from '../../model/layer.ts';
import { type Blank, letters, type Piece, type Wish } from '../../model/piece.ts';
import type { Context, Walk } from '../../plugin.ts';
import { jointsOf, seamsOf } from '../pieces/joints.ts';
import { keyed } from '../pieces/keys.ts';
import { readingOrder } from '../pieces/naming.ts';
import { type Course, finished, MOST_PIECES, tooManyPieces } from '../pieces/pieces.ts';
import type { Room } from '../pieces/room.ts';
import type { SeamOptions } from '../pieces/seam-options.ts';
import { tellOfStyle, withTongues } from '../pieces/seam-styles.ts';
import { LEAST_WIDTH, wantedOf } from '../pieces/wanted.ts';
import type { Disc } from './discs.ts';
import { foamIn, type Parted, partedAgain, sectorsOf, treeOf } from './sectors.ts';

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
  readonly seams: SeamOptions;
  /** Blocks that stand in the voids of each layer. */
  readonly blocks: readonly (readonly Region[])[];
}

/** Progress of dividing: what comes before and after it is the discs' and the pins'. */
const FROM = 0.4;
const TO = 0.8;

/**
 * The blanks of nested discs, each block one of its own. A blank that no board holds is divided by seams that run straight
 * through all its rings; keys are cut in those of them that have the room.
 */
export function* blanksOf(
  discs: readonly (readonly Disc[])[],
  asked: Asked,
  context: Context<'split'>,
): Walk<readonly Blank[]> {
  const { layers, rooms, wishes, seams, blocks } = asked;
  const { facts, tell } = context;
  const all = discs.flat();
  const inner = new Set(all.flatMap((disc) => disc.inner));
  const roots = all.filter((disc) => !inner.has(disc));
  const wantedFor = ({ place }: Disc) => wantedOf(layers[place], rooms[place], seams, facts);
  const parted = yield* share(
    sectorsOf(roots, wantedFor, (place) => layers[place].number),
    FROM,
    TO,
  );
  let cuts = cutsOf(parted, asked, context);
  const wished = new Set(wishes.map(({ piece }) => piece));
  const isMeant = new Set(
    cuts.flatMap((here, place) =>
      here.filter((_, i) => wished.has(nameOf(layers[place], i))).map(({ blank }) => blank),
    ),
  );
  if (isMeant.size > 0) cuts = cutsOf(partedAgain(parted, isMeant), asked, context);
  if (cuts.flat().length > MOST_PIECES) tooManyPieces();
  const courses = cuts.map((here, place) => courseOf(place, here, discs[place], blocks[place], asked, context));
  tellOfStyle(courses, seams, facts.tool, tell);
  return grouped(yield* finished(courses, context), cuts.flat());
}

/** The foam of each layer in pieces, in the order of their names. */
function cutsOf(
  parted: readonly Parted[],
  { layers, rooms, seams, blocks }: Asked,
  { facts }: Context<'split'>,
): Cut[][] {
  const cuts: Cut[][] = layers.map(() => []);
  let first = 0;
  for (const { root, division } of parted) {
    for (const { place, region, sector } of foamIn(treeOf(root), division.pieces)) {
      cuts[place].push({ region, blank: first + sector });
    }
    first += division.pieces.length;
  }
  return cuts.map((here, place) => {
    const plain = here.map(({ region }) => region);
    const styled = seams.style === 'key' ? keyed(plain, LEAST_WIDTH * layers[place].thicknessMm, rooms[place]) : plain;
    const all = [
      ...here.map(({ blank }, i) => ({ blank, region: styled[i] })),
      ...blocks[place].map((region) => ({ region, blank: first++ })),
    ];
    const middles = all.map(({ region }) => centroidOf(region));
    return readingOrder(middles, facts.front.side, rowMm(rooms[place])).map((i) => all[i]);
  });
}

const rowMm = ({ boardsMm: [[, short]] }: Room): number => short / 2;

const nameOf = ({ number }: Layer, i: number): string => `${number}${letters(i)}`;

function courseOf(
  place: number,
  cuts: readonly Cut[],
  discs: readonly Disc[],
  blocks: readonly Region[],
  { layers, rooms, seams }: Asked,
  { facts }: Context<'split'>,
): Course {
  const layer = layers[place];
  const pieces = cuts.map(({ region }) => region);
  const names = pieces.map((_, i) => nameOf(layer, i));
  const plain = jointsOf(pieces, names, layer.number, facts.front, rowMm(rooms[place]));
  const voids = discs.flatMap(({ inner }) => inner.map(({ region }) => region));
  return {
    layer,
    voids: blocks.length > 0 ? subtract(voids, blocks) : voids,
    foam: [...discs.flatMap(({ foam }) => [...foam]), ...blocks],
    pieces,
    names,
    joints:
      seams.style === 'tongue'
        ? plain.map((list) => list.map((joint) => withTongues(joint, layer.thicknessMm)))
        : plain,
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
