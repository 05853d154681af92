import { refuse } from '../../findings.ts';
import { intersect } from '../../geometry/clip.ts';
import { areaOf, type Region, regionArea } from '../../geometry/ring.ts';
import { share } from '../../geometry/share.ts';
import { centroidOf } from '../../geometry/support.ts';
import type { Front } from '../../model/facts.ts';
import type { Layer, LayerStack } from '../../model/layer.ts';
import { type Blank, type Joint, letters, type Piece, type Wish } from '../../model/piece.ts';
import type { Context, Walk } from '../../plugin.ts';
import { type Choice, type Hollow, StackSeams } from './courses.ts';
import { fasteningsOf } from './fastenings.ts';
import { glueBetween, partOn } from './glue.ts';
import { jointsOf } from './joints.ts';
import { readingOrder } from './naming.ts';
import { type Room, roomFor } from './room.ts';
import type { SeamOptions } from './seam-options.ts';
import { tellOfStyle, withTongues } from './seam-styles.ts';
import { thinShells } from './shells.ts';
import { tellOfLeaning, withoutDecks } from './zones.ts';

/** A layer that has been divided. */
export interface Course {
  readonly layer: Layer;
  /** Left out of the layer's regions. */
  readonly voids: readonly Region[];
  /** The layer less its voids. */
  readonly foam: readonly Region[];
  /** The foam in pieces, in the order of their names. */
  readonly pieces: readonly Region[];
  readonly names: readonly string[];
  readonly joints: readonly (readonly Joint[])[];
}

/** More pieces than this are not one job but a slip of a unit; laying them on boards would take hours. */
export const MOST_PIECES = 10_000;

/** Divide a stack into named pieces with joints, pins, slits and placing lines, each a blank of its own. */
export function* piecesOf(
  { stack, wishes }: { readonly stack: LayerStack; readonly wishes: readonly Wish[] },
  context: Context<'split'>,
  hollow: Hollow,
  options: SeamOptions,
): Walk<readonly Blank[]> {
  const { facts, tell } = context;
  const rooms = roomsFor(stack, facts);
  const layers = withoutDecks(stack.layers, context);
  const seams = new StackSeams(layers, rooms, hollow, options, facts);
  const choices = yield* share(seams.best(), 0, 0.8);
  if (choices.reduce((sum, { pieces }) => sum + pieces.length, 0) > MOST_PIECES) tooManyPieces();
  const wished = wishedRegions(choices, wishes, facts.front, rooms);
  const courses: Course[] = [];
  let over: Choice | null = null;
  for (let i = layers.length - 1; i >= 0; i--) {
    const rowMm = rooms[i].boardsMm[0][1] / 2;
    let choice: Choice = over === null || over === choices[i].over ? choices[i] : seams.under(over, i, choices);
    const meant = wished[i].map((region) => pieceOver(region, choice.pieces));
    if (meant.length > 0) choice = seams.again(choice, meant, i);
    courses.unshift(courseOf(choice, options, facts.front, rowMm));
    over = choice;
  }
  tellOfStyle(courses, options, facts.tool, tell);
  return yield* finished(courses, context);
}

/**
 * The pieces of each layer that are wished to be divided, as they were when they got the names by which the layout knows them: once a layer
 * is divided otherwise, the voids beneath it and so the names of the layers below may be others.
 */
function wishedRegions(choices: readonly Choice[], wishes: readonly Wish[], front: Front, rooms: readonly Room[]) {
  const names = new Set(wishes.map(({ piece }) => piece));
  return choices.map((choice, i): Region[] =>
    orderOf(choice, front, rooms[i].boardsMm[0][1] / 2)
      .filter((_, place) => names.has(nameOf(choice.layer, place)))
      .map((k) => choice.pieces[k]),
  );
}

/** The number of the piece that has most of a region. */
function pieceOver(region: Region, pieces: readonly Region[]): number {
  const same = pieces.indexOf(region);
  if (same >= 0) return same;
  const shared = pieces.map((piece) => areaOf(intersect([piece], [region])));
  return shared.indexOf(Math.max(...shared));
}

/** The room on the boards of each layer. Refuses ribs, and ground that boards would cut into more pieces than anyone lays. */
export function roomsFor({ kind, layers }: LayerStack, facts: Context<'split'>['facts']): Room[] {
  if (kind !== 'flat') upright();
  const rooms = layers.map((layer) => roomFor(layer, facts));
  // What is seen from above is foam, however hollow the layers, and covers the plan.
  const [long, short] = rooms[0].boardsMm[0];
  if (areaOf(layers[0].regions) > MOST_PIECES * long * short) tooManyPieces();
  return rooms;
}

const nameOf = ({ number }: Layer, place: number): string => `${number}${letters(place)}`;

/** The numbers of a layer's pieces in the order of their names. */
const orderOf = ({ pieces }: Choice, { side }: Front, rowMm: number): number[] =>
  readingOrder(pieces.map(centroidOf), side, rowMm);

function courseOf(choice: Choice, { style }: SeamOptions, front: Front, rowMm: number): Course {
  const { layer, voids, foam } = choice;
  const pieces = orderOf(choice, front, rowMm).map((i) => choice.pieces[i]);
  const names = pieces.map((_, i) => nameOf(layer, i));
  const plain = jointsOf(pieces, names, layer.number, front, rowMm);
  const joints =
    style === 'tongue' ? plain.map((list) => list.map((joint) => withTongues(joint, layer.thicknessMm))) : plain;
  return { layer, voids, foam, pieces, names, joints };
}

/** Slits, pins and placing lines, from the top down; the blanks, one for each piece, from the ground up. */
export function* finished(courses: readonly Course[], { facts, tell }: Context<'split'>): Walk<readonly Blank[]> {
  const { slits, pins, nicks } = yield* share(fasteningsOf(courses, { facts }), 0.8, 1);
  tellOfLeaning(courses, { facts, tell });
  const shells = thinShells(courses);
  const glueUnder = courses.slice(1).map((above, i) => glueBetween(above.layer, courses[i].layer));
  return courses.flatMap((course, i) =>
    course.pieces.map((region, k) => {
      const placing = partOn([region], courses[i + 1]?.foam ?? []);
      const piece: Piece = {
        name: course.names[k],
        layer: course.layer.number,
        bottomMm: course.layer.bottomMm,
        thicknessMm: course.layer.thicknessMm,
        region,
        areaMm2: regionArea(region),
        joints: course.joints[k],
        pins: pins[i][k],
        slits: slits[i][k],
        placing,
        glue: glueUnder[i] ? partOn(placing, glueUnder[i]) : [],
        nicks: nicks[i][k],
        ...(partOn([region], shells[i]).length > 0 ? { doNotStep: true } : {}),
      };
      return { pieces: [piece], sharedCuts: [] };
    }),
  );
}

export const tooManyPieces = (): never =>
  refuse(
    'split/too-many-pieces',
    `The layers would fall into more than ${MOST_PIECES} pieces.`,
    'Check the units of the ground and of the boards, or offer larger and thicker boards.',
    { path: 'stock' },
  );

const upright = (): never =>
  refuse(
    'split/upright',
    'This splitter divides layers that lie; the stack is of ribs that stand.',
    'Say split: ribs, or slice the ground into layers.',
    { path: 'split' },
  );
