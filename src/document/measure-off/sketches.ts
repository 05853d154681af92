import { lettered, textWidth } from '../../drawing/lettering.ts';
import { frame, type Line, type Mark, openLine, type Page } from '../../drawing/page.ts';
import { PENS } from '../../drawing/pen.ts';
import { length } from '../../geometry/exact-math.ts';
import { boxOf, rectangle } from '../../geometry/ring.ts';
import type { LayoutBoard } from '../../model/layout.ts';
import { roomiest } from '../report/labels.ts';
import type { Measures } from '../sheets/measures.ts';
import type { Measured, NumberedMark } from './measured.ts';

const NAME_MM = 5;
const NUMBER_MM = 2.5;
const BASE_MM = 3.5;
/** A mark's number stands so far outside the outline, and so far from the next one that is written. */
const OUT_MM = 2.6;
const APART_MM = 5.2;

/** What is drawn with y up, put on a page: the box of the drawing comes to (left, top) at a scale. */
interface View {
  readonly scale: number;
  x(mm: number): number;
  y(mm: number): number;
}

const viewOf = (box: readonly number[], scale: number, left: number, top: number): View => ({
  scale,
  x: (mm) => left + (mm - box[0]) * scale,
  y: (mm) => top + (box[3] - mm) * scale,
});

const seen = (points: Float64Array, view: View, closed: boolean): Line => ({
  points: points.map((value, i) => (i % 2 === 0 ? view.x(value) : view.y(value))),
  closed,
});

/** Where each piece lies on its board, and from which edge and corner measures run. */
export function boardSketch(board: LayoutBoard, measured: readonly Measured[], widthMm: number): Page {
  const [wide, high] = board.sizeMm;
  const top = 2;
  const left = 14;
  const scale = (widthMm - left - 2) / wide;
  const view = viewOf([0, 0, wide, high], scale, left, top);
  const foot = view.y(0);
  const outline = board.rings ?? [rectangle(0, 0, wide, high)];
  const marks: Mark[] = [
    { pen: PENS.edge, lines: outline.map((ring) => seen(ring, view, true)) },
    { pen: PENS.base, title: 'base line', lines: [openLine(view.x(0), foot, view.x(wide), foot)] },
    ...measured.map(
      ({ piece, rings }): Mark => ({
        pen: PENS.thin,
        title: `piece ${piece.name}`,
        lines: rings.map((ring) => seen(ring, view, true)),
      }),
    ),
    lettered('0', { heightMm: BASE_MM, xMm: left - 3, yMm: foot + BASE_MM / 2, align: 'right' }),
    lettered('BASE LINE: factory edge', { heightMm: BASE_MM, xMm: view.x(wide / 2), yMm: foot + 6, align: 'middle' }),
    { pen: PENS.thin, title: 'measures run this way', lines: arrow(left + 2, foot + 4, left + 22, foot + 4) },
  ];
  for (const { piece, rings } of measured) {
    const [minX, , maxX] = boxOf([rings[0]]);
    const room = (maxX - minX) * scale;
    const heightMm = textWidth(piece.name, NAME_MM) < room ? NAME_MM : NUMBER_MM;
    const [x, y] = roomiest(rings.map((ring) => new Float64Array(seen(ring, view, true).points)));
    const at = { heightMm, xMm: x, yMm: y + heightMm / 2 };
    marks.push(lettered(piece.name, { ...at, align: 'middle', underlined: true }));
  }
  const title = `board ${board.number}: where its pieces lie`;
  return { widthMm, heightMm: foot + 9, title, description: title, groups: [{ id: 'board', marks }] };
}

/** A piece with its numbered marks over the base line; where it lies high up the base line is only told. */
export function pieceSketch(measured: Measured, spacingMm: number, measures: Measures, body: Room): Page {
  const { piece, rings, marks: numbered, pins, slits } = measured;
  const box = boxOf(rings);
  const [minX, minY, maxX, maxY] = box;
  const isNear = minY < 0.6 * (maxY - minY);
  const lowest = isNear ? 0 : minY;
  const edge = 9;
  const footMm = 13.5;
  const scale = Math.min((body.widthMm - 2 * edge) / (maxX - minX), (body.heightMm - edge - footMm) / (maxY - lowest));
  const left = (body.widthMm - (maxX - minX) * scale) / 2;
  const view = viewOf([minX, lowest, maxX, maxY], scale, left, edge);
  const foot = view.y(lowest) + (isNear ? 0 : 4);

  const stations: Line[] = [];
  const marks: Mark[] = [];
  const every = Math.max(1, Math.ceil(11 / (spacingMm * scale)));
  for (let k = Math.ceil(minX / spacingMm); k * spacingMm <= maxX; k++) {
    const x = view.x(k * spacingMm);
    stations.push(openLine(x, foot, x, view.y(maxY)));
    if (k % every !== 0) continue;
    const text = measures.text(k * spacingMm);
    marks.push(lettered(text, { heightMm: NUMBER_MM, xMm: x, yMm: foot + 7.5, align: 'middle' }));
  }
  const away = isNear ? 'base line' : `the base line is ${measures.text(minY)} ${measures.unit} below the lowest point`;
  marks.push(
    { pen: PENS.fine, title: 'stations', lines: stations },
    {
      pen: isNear ? PENS.base : PENS.edge,
      title: away,
      lines: [openLine(view.x(minX) - 4, foot, view.x(maxX) + 4, foot)],
    },
    lettered(away, { heightMm: NUMBER_MM, xMm: body.widthMm / 2, yMm: foot + 11.5, align: 'middle' }),
    { pen: PENS.cut, title: `piece ${piece.name}`, lines: rings.map((ring) => seen(ring, view, true)) },
  );
  if (slits.length > 0)
    marks.push({ pen: PENS.slit, title: 'slits', lines: slits.map((slit) => seen(slit, view, false)) });
  if (pins.length > 0) {
    const cross = pins.flatMap(([x, y]) => [
      openLine(view.x(x) - 1.5, view.y(y), view.x(x) + 1.5, view.y(y)),
      openLine(view.x(x), view.y(y) - 1.5, view.x(x), view.y(y) + 1.5),
    ]);
    marks.push({ pen: PENS.thin, title: 'pins', lines: cross });
  }
  marks.push(...numbered.flatMap((ring) => numbersAt(ring, view, foot)));
  const title = `piece ${piece.name} with its numbered marks`;
  return { widthMm: body.widthMm, heightMm: foot + 13.5, title, description: title, groups: [{ id: 'piece', marks }] };
}

export interface Room {
  readonly widthMm: number;
  readonly heightMm: number;
}

/** A small box on each mark; its number outside the outline where that stands clear of the numbers before. */
function numbersAt(numbered: readonly NumberedMark[], view: View, footMm: number): Mark[] {
  const boxes = numbered.map(({ x, y }) => {
    const [u, v] = [view.x(x), view.y(y)];
    return frame(u - 0.6, v - 0.6, u + 0.6, v + 0.6);
  });
  const written: (readonly [number, number])[] = [];
  const marks: Mark[] = [{ pen: PENS.thin, title: 'marks', lines: boxes }];
  const count = numbered.length;
  // The first and the corners have the first say.
  const order = numbered.map((mark, i) => ({ mark, i, rank: i === 0 ? 0 : mark.isExtra ? 1 : 2 }));
  for (const { mark, i } of order.sort((a, b) => a.rank - b.rank || a.i - b.i)) {
    const [before, after] = [numbered[(i + count - 1) % count], numbered[(i + 1) % count]];
    const [dx, dy] = [after.x - before.x, after.y - before.y];
    const long = length(dx, dy) || 1;
    // The area is on the left of a ring: its right is outside.
    const y = view.y(mark.y) + (OUT_MM * dx) / long;
    // Below the base line rather than on it.
    const at = [view.x(mark.x) + (OUT_MM * dy) / long, Math.abs(y - footMm) < OUT_MM ? footMm + OUT_MM : y] as const;
    if (written.some(([x, y]) => Math.abs(x - at[0]) < APART_MM && Math.abs(y - at[1]) < NUMBER_MM + 0.8)) continue;
    written.push(at);
    marks.push(
      lettered(`${mark.number}`, { heightMm: NUMBER_MM, xMm: at[0], yMm: at[1] + NUMBER_MM / 2, align: 'middle' }),
    );
  }
  return marks;
}

const arrow = (x: number, y: number, toX: number, toY: number): Line[] => [
  openLine(x, y, toX, toY),
  openLine(toX - 2, toY - 1, toX, toY, toX - 2, toY + 1),
];
