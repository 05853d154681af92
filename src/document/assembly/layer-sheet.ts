import { lettered, textWidth } from '../../drawing/lettering.ts';
import { frame, type Mark, openLine, type Page } from '../../drawing/page.ts';
import { PENS } from '../../drawing/pen.ts';
import { subtract, unite } from '../../geometry/clip.ts';
import type { Box, Point } from '../../geometry/ring.ts';
import type { Layer } from '../../model/layer.ts';
import type { Piece } from '../../model/piece.ts';
import type { Plan } from '../../model/plan.ts';
import { type Label, letter, roomiest } from '../report/labels.ts';
import { closed, frontMarks, hatched, type PlanView } from './plan-view.ts';

const PIN_MM = 1.3;
/** Of joints' labels; no name is smaller. */
const JOINT_MM = 3;

/** A layer as it is set up: what lies below grey, its own pieces heavy and numbered in the order of laying, the next layer dashed. */
export function layerDrawing(plan: Plan, layer: Layer, order: readonly Piece[], view: PlanView): Page {
  const { layers } = plan.stack;
  const below = plan.pieces.filter((piece) => piece.layer === layer.number - 1);
  const next = layers.find(({ number }) => number === layer.number + 1);
  const own = unite(order.map(({ region }) => view.region(region)));
  const seenBelow = below.length > 0 ? subtract(unite(below.map(({ region }) => view.region(region))), own) : [];
  const pins = plan.pins.filter(({ toLayer }) => toLayer === layer.number).map(({ at }) => view.point(at));

  const marks: Mark[] = hatched(seenBelow, 'what lies below');
  if (seenBelow.length > 0) {
    marks.push({
      pen: { widthMm: 0.18, dashMm: [] },
      title: 'edge of what lies below',
      lines: seenBelow.flatMap(closed),
    });
  }
  if (next) {
    const lines = next.regions.flatMap((region) => closed(view.region(region)));
    marks.push({ pen: PENS.placing, title: 'the next layer', lines });
  }
  for (const { name, region } of order)
    marks.push({ pen: PENS.cut, title: `piece ${name}`, lines: closed(view.region(region)) });
  if (pins.length > 0) marks.push({ pen: PENS.thin, title: 'pins', lines: pins.flatMap(pinLines) });
  const nicks = order.flatMap((piece) => (piece.nicks ?? []).map(({ at }) => view.point(at)));
  if (nicks.length > 0) {
    const lines = nicks.map(([x, y]) => frame(x - 0.7, y - 0.7, x + 0.7, y + 0.7));
    marks.push({ pen: PENS.cut, title: 'nicks', lines });
  }
  const within: Box = [0, 0, view.widthMm, view.heightMm - 10];
  const names = order.map((piece, i): Label => {
    const region = view.region(piece.region);
    return { text: `${i + 1}: ${piece.name}`, at: roomiest(region), region, most: 7, least: JOINT_MM, look: 'name' };
  });
  const joints = jointLabels(order, view);
  const { words, leaders } = letter([...names, ...joints], [], within);
  for (const { x, y, text, size, look } of words) {
    const isName = look === 'name';
    const heightMm = isName ? size : JOINT_MM;
    marks.push(lettered(text, { heightMm, xMm: x, yMm: y + heightMm / 2, align: 'middle', underlined: isName }));
  }
  if (leaders.length > 0) {
    marks.push({ pen: PENS.thin, title: 'leaders', lines: leaders.map((points) => ({ points, closed: false })) });
  }
  const title = `layer ${layer.number}: its pieces in the order of laying, with joints and pins`;
  return {
    widthMm: view.widthMm,
    heightMm: view.heightMm,
    title,
    description: title,
    groups: [{ id: 'layer', marks: [...marks, ...frontMarks(view, plan.facts.front)] }],
  };
}

/** Each joint once, at the middle of its line. */
function jointLabels(pieces: readonly Piece[], view: PlanView): Label[] {
  const seen = new Map<string, Point>();
  for (const { joints } of pieces) {
    for (const { label, line } of joints) {
      const middle = 2 * Math.floor(line.length / 4);
      const at =
        line.length === 4 ? [(line[0] + line[2]) / 2, (line[1] + line[3]) / 2] : [line[middle], line[middle + 1]];
      seen.set(label, view.point([at[0], at[1]]));
    }
  }
  return [...seen].map(([text, at]) => ({ text, at, most: JOINT_MM, least: JOINT_MM, look: 'joint', clear: 2 }));
}

const pinLines = ([x, y]: Point) => [
  openLine(x - PIN_MM, y, x + PIN_MM, y),
  openLine(x, y - PIN_MM, x, y + PIN_MM),
  frame(x - 0.5, y - 0.5, x + 0.5, y + 0.5),
];

/** What the lines of a layer's drawing mean, in one row as wide as the sheet lets it. */
export function layerLegend(widthMm: number): Page {
  const small = 3.5;
  const items: [string, (x: number, y: number) => Mark[]][] = [
    ['this layer', (x, y) => [{ pen: PENS.cut, lines: [openLine(x, y, x + 12, y)] }]],
    ['next layer', (x, y) => [{ pen: PENS.placing, lines: [openLine(x, y, x + 12, y)] }]],
    [
      'below',
      (x, y) => hatched([[new Float64Array([x, y - 2, x + 12, y - 2, x + 12, y + 2, x, y + 2])]], 'what lies below'),
    ],
    ['pin', (x, y) => [{ pen: PENS.thin, lines: pinLines([x + 8, y]) }]],
    ['nick', (x, y) => [{ pen: PENS.cut, lines: [frame(x + 8, y - 0.7, x + 9.4, y + 0.7)] }]],
  ];
  const marks: Mark[] = [];
  let x = 0;
  let y = 3;
  for (const [text, draw] of items) {
    const wide = 14 + textWidth(text, small) + 3;
    if (x > 0 && x + wide > widthMm) {
      x = 0;
      y += 7;
    }
    marks.push(...draw(x, y), lettered(text, { heightMm: small, xMm: x + 14, yMm: y + small / 2 }));
    x += wide;
  }
  return { widthMm, heightMm: y + 3, title: 'what the lines mean', description: '', groups: [{ id: 'legend', marks }] };
}
