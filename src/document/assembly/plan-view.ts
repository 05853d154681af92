import { lettered } from '../../drawing/lettering.ts';
import { type Line, type Mark, openLine } from '../../drawing/page.ts';
import { PENS, type Pen } from '../../drawing/pen.ts';
import { linesInside } from '../../geometry/clip.ts';
import { type Box, boxOf, type Point, type Region, type Ring, ringsOf } from '../../geometry/ring.ts';
import type { Front } from '../../model/facts.ts';

/** The ground in plan as who stands at the front sees it: the front is always at the bottom. */
export interface PlanView {
  readonly widthMm: number;
  /** With the strip under the plan in which the front's word stands. */
  readonly heightMm: number;
  readonly scale: number;
  point(at: Point): Point;
  ring(points: Float64Array): Float64Array;
  region(region: Region): Region;
}

/** How far to the right and how far away from the front a point is, landform millimetres; quarter turns, so exact. */
export const SEEN_FROM: Readonly<Record<Front['side'], (at: Point) => Point>> = {
  south: ([x, y]) => [x, y],
  north: ([x, y]) => [-x, -y],
  west: ([x, y]) => [-y, x],
  east: ([x, y]) => [y, -x],
};

export const turnedRing = (points: Float64Array, side: Front['side']): Ring => {
  const turned = new Float64Array(points.length);
  for (let i = 0; i < points.length; i += 2) turned.set(SEEN_FROM[side]([points[i], points[i + 1]]), i);
  return turned;
};

const STRIP_MM = 13;
const EDGE_MM = 6;

/** A view of a box of the ground (landform coordinates) that fits into some room. */
export function planView(
  [minX, minY, maxX, maxY]: Box,
  { side }: Front,
  room: { widthMm: number; heightMm: number },
): PlanView {
  const [left, low, right, high] = boxOf([turnedRing(new Float64Array([minX, minY, maxX, maxY]), side)]);
  const scale = Math.min(
    (room.widthMm - 2 * EDGE_MM) / (right - left),
    (room.heightMm - EDGE_MM - STRIP_MM) / (high - low),
  );
  const indent = (room.widthMm - (right - left) * scale) / 2;
  const point = (at: Point): Point => {
    const [along, away] = SEEN_FROM[side](at);
    return [indent + (along - left) * scale, EDGE_MM + (high - away) * scale];
  };
  const ring = (points: Float64Array) => {
    const there = new Float64Array(points.length);
    for (let i = 0; i < points.length; i += 2) there.set(point([points[i], points[i + 1]]), i);
    return there;
  };
  return {
    widthMm: room.widthMm,
    heightMm: (high - low) * scale + EDGE_MM + STRIP_MM,
    scale,
    point,
    ring,
    region: (region) => region.map(ring),
  };
}

export const closed = (rings: readonly Float64Array[]): Line[] => rings.map((points) => ({ points, closed: true }));

/** An arrow down to the room's word at the foot of a view. */
export function frontMarks({ widthMm, heightMm }: PlanView, { word }: Front): Mark[] {
  const [x, y] = [widthMm / 2, heightMm - 7];
  const shaft = openLine(x, y - 5, x, y);
  const head = openLine(x - 2, y - 2.4, x, y, x + 2, y - 2.4);
  return [
    { pen: PENS.cut, title: 'to the front', lines: [shaft, head] },
    lettered(word, { heightMm: 5, xMm: x, yMm: heightMm - 0.8, align: 'middle' }),
  ];
}

/** Between two strokes of grey, millimetres on paper. */
const GREY_MM = 1.6;
/** Finer than any line that means something. */
const GREY_PEN: Pen = { widthMm: 0.13, dashMm: [] };

/** Grey as a draughtsman lays it: fine slanting strokes, that every printer prints. Regions in page space. */
export function hatched(regions: readonly Region[], title: string): Mark[] {
  if (regions.length === 0) return [];
  const [minX, minY, maxX, maxY] = boxOf(ringsOf(regions));
  const tall = maxY - minY;
  const strokes: Float64Array[] = [];
  const pitch = GREY_MM * Math.sqrt(2);
  for (let x = minX - tall + pitch / 2; x < maxX; x += pitch) strokes.push(new Float64Array([x, maxY, x + tall, minY]));
  const lines = linesInside(strokes, regions).map((points) => ({ points, closed: false }));
  return lines.length > 0 ? [{ pen: GREY_PEN, title, lines }] : [];
}
