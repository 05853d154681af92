import { refuse } from '../../findings.ts';
import { subtract } from '../../geometry/clip.ts';
import { areaOf, type Point, type Region, regionArea } from '../../geometry/ring.ts';
import { centroidOf } from '../../geometry/support.ts';
import type { Layer, LayerStack } from '../../model/layer.ts';
import { type Blank, type Joint, letters, type Piece, type Wish } from '../../model/piece.ts';
import { STAGGER, seamSegments } from '../../model/seam.ts';
import type { Context, Walk } from '../../plugin.ts';
import type { Wanted } from './cuts.ts';
import { divide, divideAgain } from './divide.ts';
import { glueBetween, partOn } from './glue.ts';
import { jointsOf } from './joints.ts';
import { readingOrder } from './naming.ts';
import { type Pin, pinsBetween } from './pins.ts';
import { type Room, roomFor } from './room.ts';
import { thinShells } from './shells.ts';
import { slitsOf } from './slits.ts';
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

/** What to leave out of a layer under one that has been divided. */
export type Hollow = (above: Course, below: Layer) => readonly Region[];

/** Foam narrower than this, in thicknesses, breaks in handling (common practice, no source). */
export const LEAST_WIDTH = 2;
/** More pieces than this are not one job but a slip of a unit; laying them on boards would take hours. */
export const MOST_PIECES = 10_000;

/**
 * Divide a stack into named pieces with joints, pins, slits and placing lines, each a blank of its own. Works from the top
 * down: what is left out of a layer depends on the pieces that stand on it, and so do the seams that keep clear of theirs.
 * (With no voids the layers could choose among ready divisions by dynamic programming up the stack; since every cut weighs
 * the seams above it, there is little left to choose.)
 */
export function* piecesOf(
  { stack, wishes }: { readonly stack: LayerStack; readonly wishes: readonly Wish[] },
  context: Context<'split'>,
  hollow: Hollow,
): Walk<readonly Blank[]> {
  const rooms = roomsFor(stack, context.facts);
  const layers = withoutDecks(stack.layers, context);
  const wished = new Set(wishes.map(({ piece }) => piece));
  const courses: Course[] = [];
  let above: Course | undefined;
  let pieces = 0;
  for (let i = layers.length - 1; i >= 0; i--) {
    const voids = above ? hollow(above, layers[i]) : [];
    above = courseOf(layers[i], voids, above, rooms[i], wished, context);
    courses.unshift(above);
    pieces += above.pieces.length;
    if (pieces > MOST_PIECES) tooManyPieces();
    yield (0.8 * courses.length) / layers.length;
  }
  return yield* finished(courses, context);
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

function courseOf(
  layer: Layer,
  voids: readonly Region[],
  above: Course | undefined,
  room: Room,
  wished: ReadonlySet<string>,
  { facts }: Context<'split'>,
): Course {
  const { number, thicknessMm } = layer;
  const foam = voids.length > 0 ? subtract(layer.regions, voids) : layer.regions;
  const wanted: Wanted = {
    room,
    seamsAbove: above ? seamSegments(above.joints.map((joints) => ({ joints }))) : [],
    staggerMm: STAGGER * thicknessMm,
    leastWidthMm: LEAST_WIDTH * thicknessMm,
  };
  const rowMm = room.boardsMm[0][1] / 2;
  const inOrder = (pieces: readonly Region[]) =>
    readingOrder(pieces.map(centroidOf), facts.front.side, rowMm).map((i) => pieces[i]);
  const nameOf = (i: number) => `${number}${letters(i)}`;
  let pieces = inOrder(divide(foam, wanted, number));
  const meant = pieces.map((_, i) => i).filter((i) => wished.has(nameOf(i)));
  if (meant.length > 0) pieces = inOrder(divideAgain(pieces, meant, wanted));
  const names = pieces.map((_, i) => nameOf(i));
  return { layer, voids, foam, pieces, names, joints: jointsOf(pieces, names, number, facts.front, rowMm) };
}

/** The slits of each piece of each layer, from the top down: none in line with those of the layer above. None but for a wire. */
function slitsOfCourses(courses: readonly Course[], { tool, front, zones }: Context<'split'>['facts']) {
  if (tool.kind !== 'hot wire') return courses.map(({ pieces }) => pieces.map((): Float64Array[] => []));
  const seen = zones.filter(({ kind }) => kind === 'seen').map(({ outline }) => new Float64Array(outline.flat()));
  const slits: Float64Array[][][] = [];
  for (let i = courses.length - 1; i >= 0; i--) {
    const { pieces, joints, layer } = courses[i];
    const others = slits[0]?.flat() ?? [];
    const around = { side: front.side, seen, others, thicknessMm: layer.thicknessMm };
    slits.unshift(pieces.map((piece, k) => slitsOf(piece, { ...around, joints: joints[k] })));
  }
  return slits;
}

/** Slits, pins and placing lines, from the top down; the blanks, one for each piece, from the ground up. */
export function* finished(courses: readonly Course[], { facts, tell }: Context<'split'>): Walk<readonly Blank[]> {
  const slits = slitsOfCourses(courses, facts);
  const pins: Point[][][] = courses.map(({ pieces }) => pieces.map(() => []));
  const unpinned: string[] = [];
  for (let i = courses.length - 1; i > 0; i--) {
    const found: Pin[] = pinsBetween({
      upper: courses[i].pieces,
      lower: courses[i - 1].pieces,
      taken: pins[i],
      slits: [...slits[i], ...slits[i - 1]].flat(),
      isLowest: i === 1,
    });
    for (const [k, name] of courses[i].names.entries()) {
      if (found.filter((pin) => pin.upper === k).length < 2) unpinned.push(name);
    }
    for (const { upper, lower, at } of found) {
      pins[i][upper].push(at);
      pins[i - 1][lower].push(at);
    }
    yield 0.8 + (0.2 * (courses.length - i)) / courses.length;
  }
  if (unpinned.length > 0) tell(fewPins(unpinned));
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
        ...(partOn([region], shells[i]).length > 0 ? { doNotStep: true } : {}),
      };
      return { pieces: [piece], sharedCuts: [] };
    }),
  );
}

const fewPins = (names: readonly string[]) => ({
  level: 'watch' as const,
  code: 'split/few-pins',
  message: `${names.length === 1 ? 'A piece has' : `${names.length} pieces have`} no room for two pins into the layer below: ${names.slice(0, 8).join(', ')}${names.length > 8 ? ' …' : ''}.`,
  fix: 'Glue these with care and hold them until the glue has set, or widen the lap.',
  where: { piece: names[0] },
});

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
    'Choose a slicer that makes layers, or a splitter for ribs.',
    { path: 'split' },
  );
