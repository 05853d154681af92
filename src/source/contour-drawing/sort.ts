/** What is drawn, sorted by what it is to the ground. */
import type { Where } from '../../findings.ts';
import { boxOf } from '../../geometry/ring.ts';
import type { Unit } from '../../units.ts';
import type { Drawn, Read } from './read.ts';
import { heightOfText } from './words.ts';

/** A line of the drawing. `points` flat x, y; a closed one repeats its first point. */
export interface Line {
  readonly points: Float64Array;
  readonly isClosed: boolean;
  readonly name: string;
  readonly where: Where;
}

export interface Contour extends Line {
  readonly zMm: number;
}

export interface Spot {
  readonly x: number;
  readonly y: number;
  readonly zMm: number;
  readonly name: string;
  readonly where: Where;
}

/** A small circle; its height may still be missing. */
interface Mark extends Omit<Spot, 'zMm'> {
  readonly radiusMm: number;
  readonly heightMm: number | null;
  readonly isFaint: boolean;
}

/** A height written as a text. */
export interface Label extends Spot {
  readonly sizeMm: number;
}

export interface Sorted {
  readonly contours: readonly Contour[];
  /** Circles with a height, their own or that of a text beside them, and texts with a height of their own. */
  readonly spots: readonly Spot[];
  /** Numbers that stand beside no circle: spots, or the labels of lines. */
  readonly labels: readonly Label[];
  /** A circle says one height, the text beside it another. */
  readonly disagreeing: readonly { readonly spot: Spot; readonly textMm: number }[];
  readonly creases: readonly Line[];
  readonly tears: readonly Line[];
  readonly outlines: readonly Line[];
  readonly withoutHeight: readonly Line[];
  /** Circles without a line or a height. */
  readonly unstroked: number;
}

/** A circle no wider than this part of the drawing's longer side is a spot, a wider one a contour. */
const SPOT_SHARE = 1 / 50;
/** A number is beside a circle when its anchor is no farther from the circle's edge than so many times the letters' size. */
const BESIDE = 2;

/** Sort a drawing's shapes and texts. */
export function sorted({ shapes, texts }: Read, pageMm: readonly [number, number] | null, unit: Unit): Sorted {
  const longestMm = Math.max(...(pageMm ?? sidesOf(shapes)));
  const contours: Contour[] = [];
  const marks: Mark[] = [];
  const creases: Line[] = [];
  const tears: Line[] = [];
  const outlines: Line[] = [];
  const withoutHeight: Line[] = [];
  let unstroked = 0;
  for (const shape of shapes) {
    const { kind, heightMm, isCircle, colour, name, where } = shape;
    const [minX, minY, maxX, maxY] = boxOf(shape.lines.map(({ points }) => points));
    const radiusMm = Math.max(maxX - minX, maxY - minY) / 2;
    const isFaint = colour === 'none';
    if (kind === 'spot' || (kind === null && isCircle && 2 * radiusMm <= SPOT_SHARE * longestMm)) {
      marks.push({ x: (minX + maxX) / 2, y: (minY + maxY) / 2, radiusMm, heightMm, isFaint, name, where });
      continue;
    }
    const lines = shape.lines.map(({ points, isClosed }) => ({ points, isClosed, name, where }));
    if (kind === 'footprint') outlines.push(...lines);
    if (kind === 'ridge' || kind === 'stream') creases.push(...lines);
    if (kind === 'cliff') tears.push(...lines);
    if (heightMm !== null) contours.push(...lines.map((line) => ({ ...line, zMm: heightMm })));
    else if (kind === 'contour' || (kind === null && !isFaint)) withoutHeight.push(...lines);
    else if (kind === null) unstroked++;
  }

  const spots: Spot[] = [];
  const numbers: Label[] = [];
  for (const { text, saidMm, isInLayer, at, sizeMm, where } of texts) {
    const [x, y] = at;
    const zMm = heightOfText(text, unit);
    const name = `text "${text.slice(0, 40)}"`;
    if (saidMm !== null) spots.push({ x, y, zMm: saidMm, name, where });
    // In a layer with a height a number is the label of the lines there.
    else if (zMm !== null && !isInLayer) numbers.push({ x, y, zMm, name, where, sizeMm });
  }
  const beside = paired(marks, numbers);
  const disagreeing: Sorted['disagreeing'][number][] = [];
  for (const [i, { heightMm, isFaint, ...mark }] of marks.entries()) {
    const number = beside.get(i);
    const zMm = heightMm ?? number?.zMm ?? null;
    const { x, y, radiusMm, name, where } = mark;
    if (zMm !== null) {
      const spot = { x, y, zMm, name, where };
      spots.push(spot);
      if (number && heightMm !== null && number.zMm !== heightMm) disagreeing.push({ spot, textMm: number.zMm });
    } else if (isFaint) unstroked++;
    else
      withoutHeight.push({ points: Float64Array.of(x - radiusMm, y, x + radiusMm, y), isClosed: false, name, where });
  }
  const taken = new Set(beside.values());
  const labels = numbers.filter((number) => !taken.has(number));
  return { contours, spots, labels, disagreeing, creases, tears, outlines, withoutHeight, unstroked };
}

/** Which number stands beside which mark: the nearest pairs first, each number and mark once. */
function paired(marks: readonly Mark[], numbers: readonly Label[]): Map<number, Label> {
  const order = marks.map((_, i) => i).sort((a, b) => marks[a].x - marks[b].x);
  const widestMm = marks.reduce((most, { radiusMm }) => Math.max(most, radiusMm), 0);
  const pairs: { mark: number; number: Label; distance: number }[] = [];
  for (const number of numbers) {
    if (pairs.length >= MOST_PAIRS) break;
    const reach = BESIDE * number.sizeMm;
    for (let k = firstFrom(order, marks, number.x - reach - widestMm); k < order.length; k++) {
      const { x, y, radiusMm } = marks[order[k]];
      if (x > number.x + reach + widestMm) break;
      const [dx, dy] = [x - number.x, y - number.y];
      const distance = Math.sqrt(dx * dx + dy * dy) - radiusMm;
      if (distance <= reach) pairs.push({ mark: order[k], number, distance });
    }
  }
  pairs.sort((a, b) => a.distance - b.distance);
  const beside = new Map<number, Label>();
  const taken = new Set<Label>();
  for (const { mark, number } of pairs) {
    if (beside.has(mark) || taken.has(number)) continue;
    beside.set(mark, number);
    taken.add(number);
  }
  return beside;
}

/** Of so many circles and numbers in one heap nobody could tell which belong together. */
const MOST_PAIRS = 1_000_000;

/** The first place in an order by x of a mark that is not left of a place. */
function firstFrom(order: readonly number[], marks: readonly Mark[], x: number): number {
  let [low, high] = [0, order.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (marks[order[middle]].x < x) low = middle + 1;
    else high = middle;
  }
  return low;
}

function sidesOf(shapes: readonly Drawn[]): readonly [number, number] {
  const [minX, minY, maxX, maxY] = boxOf(shapes.flatMap(({ lines }) => lines.map(({ points }) => points)));
  return shapes.length === 0 ? [0, 0] : [maxX - minX, maxY - minY];
}
