import { refuse } from '../../findings.ts';
import { fitsRectangle, flushRectangles } from '../../geometry/enclosing.ts';
import type { Ring } from '../../geometry/ring.ts';
import type { Facts } from '../../model/facts.ts';
import type { Layer } from '../../model/layer.ts';
import { heaviestOnWay, largestOnWay } from '../../model/way.ts';
import { numberText } from '../../units.ts';

/** Left free of a board's size, so that a turn written in hundredths of a degree still fits: half of 0.01° over 5 m. */
const SPARE_MM = 0.5;

/** A board narrower than this, less its trim, holds no piece that a hand can hold (common practice, no source). */
const LEAST_USABLE_MM = 20;

/** What a piece of a layer may measure. */
export interface Room {
  /** Long and short side of each size of board, less trim and a little spare; largest area first. */
  readonly boardsMm: readonly (readonly [long: number, short: number])[];
  readonly carryMm: readonly [long: number, short: number] | null;
  /** What passes the door, the stair, the lift and goes into the van, by the smallest box along one of its sides; Infinity when not said. */
  readonly wayMm: readonly [long: number, short: number];
  /** The largest area that is no heavier than what may be carried and driven, of the heaviest board on offer; Infinity when not said. */
  readonly mostMm2: number;
}

/**
 * The room on the boards of a layer's thickness. Refuses when there is none worth the name.
 * @param spareMm left free of each size, for keys that will stand out.
 */
export function roomFor(
  { number, thicknessMm }: Pick<Layer, 'number' | 'thicknessMm'>,
  facts: Pick<Facts, 'boardSizes' | 'carry' | 'way'>,
  spareMm = 0,
): Room {
  const sizes = facts.boardSizes.filter((board) => board.thicknessMm === thicknessMm);
  if (sizes.length === 0) noBoard(number, thicknessMm);
  const usable = sizes
    .map(({ sizeMm: [a, b], trimMm }) => {
      const lessMm = 2 * trimMm + SPARE_MM + spareMm;
      return longFirst(a - lessMm, b - lessMm);
    })
    .filter(([, short]) => short >= LEAST_USABLE_MM)
    .sort((a, b) => b[0] * b[1] - a[0] * a[1] || b[0] - a[0]);
  if (usable.length === 0) boardsTooSmall(number);
  const { sizeMm, massKg } = facts.carry;
  const carryMm = sizeMm && longFirst(sizeMm[0] - spareMm, sizeMm[1] - spareMm);
  if (carryMm && carryMm[1] < LEAST_USABLE_MM) carryTooSmall(carryMm[1]);
  const [wayLong, wayShort] = largestOnWay(facts.way, thicknessMm);
  const wayMm = longFirst(wayLong - spareMm, Math.min(wayLong, wayShort) - spareMm);
  if (wayMm[1] < LEAST_USABLE_MM) wayTooNarrow(number);
  const heaviestKgMm2 = sizes.reduce((most, { densityKgM3 }) => Math.max(most, densityKgM3 * thicknessMm * 1e-9), 0);
  const mostMm2 = Math.min(massKg ?? Infinity, heaviestOnWay(facts.way)) / heaviestKgMm2;
  if (massKg !== null && massKg / heaviestKgMm2 < LEAST_USABLE_MM * LEAST_USABLE_MM) carryTooLight(massKg, number);
  if (mostMm2 < LEAST_USABLE_MM * LEAST_USABLE_MM) wayTooNarrow(number);
  return { boardsMm: usable, carryMm, wayMm, mostMm2 };
}

/** Whether what has this hull and area fits a board, and may be carried, in some turn. */
export function hasRoom(
  hull: Ring,
  areaMm2: number,
  { boardsMm, carryMm, wayMm, mostMm2 }: Room,
  flush = flushRectangles(hull),
): boolean {
  return (
    areaMm2 <= mostMm2 &&
    boardsMm.some(([long, short]) => fitsRectangle(hull, flush, long, short)) &&
    (carryMm === null || fitsRectangle(hull, flush, ...carryMm)) &&
    ((wayMm[0] === Infinity && wayMm[1] === Infinity) || passesFlush(flush, wayMm))
  );
}

/** Whether a box along one of its sides passes: that is how it is carried in. */
function passesFlush(flush: Float64Array, [long, short]: Room['wayMm']): boolean {
  for (let i = 0; i < flush.length; i += 2) {
    if (Math.max(flush[i], flush[i + 1]) <= long && Math.min(flush[i], flush[i + 1]) <= short) return true;
  }
  return flush.length < 6;
}

/** The sizes that a piece is to be cut down to: each board's, no larger and no heavier than what may be carried. */
export const targetsMm = ({
  boardsMm,
  carryMm,
  wayMm,
  mostMm2,
}: Room): readonly (readonly [long: number, short: number])[] =>
  boardsMm.map(([boardLong, boardShort]) => {
    const long = Math.min(boardLong, wayMm[0], carryMm?.[0] ?? Infinity);
    const short = Math.min(boardShort, wayMm[1], carryMm?.[1] ?? Infinity);
    return longFirst(Math.min(long, mostMm2 / short), short);
  });

const longFirst = (a: number, b: number): readonly [long: number, short: number] => (a >= b ? [a, b] : [b, a]);

const noBoard = (layer: number, thicknessMm: number): never =>
  refuse(
    'split/no-board',
    `No board of the stock is ${numberText(thicknessMm)} mm thick, as this layer is.`,
    'Add such a board to stock, or slice to the thickness of one that is there.',
    { layer },
  );

const boardsTooSmall = (layer: number): never =>
  refuse(
    'split/boards-too-small',
    `Less their trim, the boards of this layer's thickness are narrower than ${LEAST_USABLE_MM} mm: no piece can be cut from them.`,
    'Offer larger boards in stock, or trim less.',
    { layer },
  );

const carryTooSmall = (shortMm: number): never =>
  refuse(
    'split/carry-too-small',
    `Pieces of at most ${numberText(shortMm)} mm across are too small to divide a layer into.`,
    `Let carry.size be at least ${LEAST_USABLE_MM} mm each way.`,
    { path: 'carry.size' },
  );

const carryTooLight = (massKg: number, layer: number): never =>
  refuse(
    'split/carry-too-light',
    `No piece of this layer that a hand can hold weighs as little as carry.mass, ${numberText(massKg, 6)} kg.`,
    'Let more be carried: carry.mass is in kilograms.',
    { path: 'carry.mass', layer },
  );

const wayTooNarrow = (layer: number): never =>
  refuse(
    'split/way-too-narrow',
    'No piece of this layer that a hand can hold passes the door, the stair, the lift and the van.',
    'Say their clear sizes and loads again (doors, stair, lift, van), or slice thinner boards.',
    { path: 'doors', layer },
  );
