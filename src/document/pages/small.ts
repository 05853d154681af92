import { coarser, segmentsOf } from '../../drawing/fit.ts';
import { frame as box, type Line, type Mark } from '../../drawing/page.ts';
import { PENS, TEXT_HEIGHTS_MM } from '../../drawing/pen.ts';
import { turn } from '../../geometry/exact-math.ts';
import { textBlock } from '../board/label-blocks.ts';
import { labeller } from '../board/labeller.ts';
import type { Pattern } from './pattern.ts';

/** Outlines of the small drawing are this coarse on paper. */
const COARSE_MM = 0.1;

/** How a pattern is shown small: turned as seen, from a corner of the turned drawing, at a scale. */
export interface Shown {
  readonly turnDeg: number;
  readonly fromMm: readonly [number, number];
  readonly scale: number;
}

/** The outlines of a pattern, small, with its pieces' names where `over` leaves room. */
export function smallDrawing(
  { groups, box: [left, top, right, bottom], names }: Pattern,
  shown: Shown,
  over: readonly Mark[],
): Mark[] {
  const { turnDeg, fromMm, scale } = shown;
  const { cos, sin } = turn(turnDeg);
  const at = (x: number, y: number): [number, number] => [
    (x * cos + y * sin - fromMm[0]) * scale,
    (y * cos - x * sin - fromMm[1]) * scale,
  ];
  const small = (lines: readonly Line[]) =>
    lines.map(({ points, closed }): Line => {
      const kept = closed ? coarser(points, COARSE_MM / scale) : points;
      const there = new Float64Array(kept.length);
      for (let i = 0; i < kept.length; i += 2) there.set(at(kept[i], kept[i + 1]), i);
      return { points: there, closed };
    });
  const marks = groups.flatMap(({ id, marks }) => (id === 'cut' || id === 'slit' ? [...marks] : []));
  const cuts: Mark[] = marks
    .filter(({ text }) => !text)
    .map(({ pen, lines }) => ({
      pen: pen === PENS.cut ? PENS.thin : { ...pen, widthMm: PENS.fine.widthMm },
      lines: small(lines),
    }));
  const isBoard = groups.some(({ id }) => id === 'guide');
  const edge: Mark[] = isBoard ? [{ pen: PENS.edge, lines: small([box(left, top, right, bottom)]) }] : [];
  return [
    ...cuts,
    ...edge,
    ...smallNames(
      names.map((name) => ({ ...name, at: at(name.x, name.y) })),
      scale,
      over,
    ),
  ];
}

/** The names of the pieces where they stand, moved a little where a line that lies over the drawing is in the way. */
function smallNames(
  names: readonly { readonly text: string; readonly heightMm: number; readonly at: readonly [number, number] }[],
  scale: number,
  over: readonly Mark[],
): Mark[] {
  const lines = over.flatMap((mark) => mark.lines);
  const labels = labeller(
    segmentsOf(
      lines.filter(({ closed }) => closed).map(({ points }) => points),
      lines.filter(({ closed }) => !closed).map(({ points }) => points),
    ),
  );
  for (const { text, at, heightMm } of names) {
    const most = Math.min(7, 2 * heightMm * scale);
    const blocks = TEXT_HEIGHTS_MM.filter((height) => height <= most || height === 1.8).map((height) =>
      textBlock([{ text, heightMm: height }]),
    );
    const spots = NEARBY_MM.map(([dx, dy]) => ({ x: at[0] + dx, y: at[1] + dy, turnsDeg: [0], clearance: Infinity }));
    if (!labels.put(blocks, spots)) labels.force(blocks[blocks.length - 1], at[0], at[1]);
  }
  return [...labels.marks];
}

/** Where a small name may move to, nearest first. */
const NEARBY_MM = [-6, -4, -2, 0, 2, 4, 6]
  .flatMap((dx) => [-6, -4, -2, 0, 2, 4, 6].map((dy) => [dx, dy] as const))
  .sort((a, b) => a[0] * a[0] + a[1] * a[1] - (b[0] * b[0] + b[1] * b[1]) || a[0] - b[0] || a[1] - b[1]);
