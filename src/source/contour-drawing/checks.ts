/** What in a drawing cannot be as it is drawn, or is probably not as it was meant. */
import { isInside, type Point } from '../../geometry/ring.ts';
import { type Meet, SegmentIndex } from '../../geometry/segment-index.ts';
import { type Placed, rimOf } from './place.ts';
import type { Contour, Spot } from './sort.ts';

/** An end of an open contour. */
export interface End {
  readonly contour: number;
  readonly at: Point;
}

export interface Doubts {
  /** Contours of different heights that meet. */
  readonly meetings: readonly Meet[];
  /** Spots on a contour or another spot of another height. */
  readonly contradictions: readonly { readonly spot: Spot; readonly other: Spot | Contour }[];
  /** Two ends of one height that probably should be one, and how far they are apart. */
  readonly gaps: readonly { readonly a: End; readonly b: End; readonly gapMm: number }[];
  /** Contours that end within the ground for no reason. */
  readonly ends: readonly End[];
  /** Every place but one given of those that are given twice alike. */
  readonly repeated: ReadonlySet<Spot>;
}

/** Heights nearer than this are the same. */
const SAME_HEIGHT_MM = 0.1;
/** Ends nearer than this are one place. */
const ONE_PLACE_MM = 0.1;
/** Steps between posts: nearer than a quarter, two heights are one place's; ends up to five apart were meant to meet. */
const SAME_PLACE = 0.25;
const MEANT_TO_MEET = 5;
/** An end within two steps of the rim or a break line ends there. */
const ENDS_THERE = 2;
/** More of a kind are not looked for. */
const MOST = 1000;

/** Look the drawing over. Yields its progress. */
export function* doubts(placed: Placed, spacingMm: number): Generator<number, Doubts> {
  const { contours, contourIndex } = placed;
  const differ = (a: number, b: number) => Math.abs(a - b) > SAME_HEIGHT_MM;
  const meetings = yield* contourIndex.meetings((a, b) => differ(contours[a].zMm, contours[b].zMm), MOST);
  const { contradictions, repeated } = spotsOnOthers(placed, SAME_PLACE * spacingMm, differ);
  const { gaps, ends } = looseEnds(placed, spacingMm);
  return { meetings, contradictions, gaps, ends, repeated };
}

function spotsOnOthers(
  { spots, contours, contourIndex }: Placed,
  reachMm: number,
  differ: (a: number, b: number) => boolean,
): Pick<Doubts, 'contradictions' | 'repeated'> {
  const contradictions: Doubts['contradictions'][number][] = [];
  const repeated = new Set<Spot>();
  // One spot a cell: others in the cell are near it, however many there are.
  const cells = new Map<string, number>();
  const kept: number[] = [];
  const meet = (i: number, k: number) => {
    if (differ(spots[k].zMm, spots[i].zMm)) contradictions.push({ spot: spots[i], other: spots[k] });
    else repeated.add(spots[i]);
  };
  for (const [i, { x, y }] of spots.entries()) {
    const cell = `${Math.floor((2 * x) / reachMm)} ${Math.floor((2 * y) / reachMm)}`;
    const first = cells.get(cell);
    if (first === undefined) {
      cells.set(cell, i);
      kept.push(i);
    } else if (contradictions.length < MOST) meet(i, first);
  }
  const spotIndex = new SegmentIndex(kept.map((i) => Float64Array.of(spots[i].x, spots[i].y, spots[i].x, spots[i].y)));
  for (const [place, i] of kept.entries()) {
    if (contradictions.length >= MOST) break;
    const { x, y, zMm } = spots[i];
    const on = contourIndex.near(x, y, reachMm).find(({ line }) => differ(contours[line].zMm, zMm));
    if (on) contradictions.push({ spot: spots[i], other: contours[on.line] });
    const before = spotIndex.near(x, y, reachMm).find(({ line }) => line < place);
    if (before) meet(i, kept[before.line]);
  }
  return { contradictions, repeated };
}

function looseEnds(placed: Placed, spacingMm: number): Pick<Doubts, 'gaps' | 'ends'> {
  const { contours, contourIndex, footprint, creases, tears } = placed;
  const all: End[] = contours
    .flatMap(({ points, isClosed }, contour) =>
      isClosed ? [] : [0, points.length - 2].map((i) => ({ contour, at: [points[i], points[i + 1]] as const })),
    )
    .slice(0, 2 * MOST);
  const endIndex = new SegmentIndex(all.map(({ at: [x, y] }) => Float64Array.of(x, y, x, y)));
  const rim = rimOf(placed);
  const breaks = new SegmentIndex([...creases, ...tears].map(({ points }) => points));
  const gaps: Doubts['gaps'][number][] = [];
  const ends: End[] = [];
  for (const [i, end] of all.entries()) {
    const [x, y] = end.at;
    const { zMm } = contours[end.contour];
    if (rim.distance(x, y, ENDS_THERE * spacingMm) < Infinity || !isInside(x, y, footprint)) continue;
    const near = endIndex
      .near(x, y, MEANT_TO_MEET * spacingMm)
      .filter(({ line }) => line !== i && contours[all[line].contour].zMm === zMm)
      .sort((a, b) => a.distance - b.distance);
    if (near.length > 0 && near[0].distance <= ONE_PLACE_MM) continue;
    if (near.length > 0) {
      // Each gap is told once, from its first end.
      if (near[0].line > i) gaps.push({ a: end, b: all[near[0].line], gapMm: near[0].distance });
      continue;
    }
    const runsInto = (line: number) => line !== end.contour && contours[line].zMm === zMm;
    if (contourIndex.distance(x, y, spacingMm / 2, runsInto) < Infinity) continue;
    if (breaks.distance(x, y, ENDS_THERE * spacingMm) < Infinity) continue;
    ends.push(end);
  }
  return { gaps, ends };
}
