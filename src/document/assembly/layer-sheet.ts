import { coarser, segmentsOf } from '../../drawing/fit.ts';
import { lettered, textWidth } from '../../drawing/lettering.ts';
import { frame, type Mark, openLine, type Page } from '../../drawing/page.ts';
import { PENS } from '../../drawing/pen.ts';
import { subtract, unite } from '../../geometry/clip.ts';
import type { Point } from '../../geometry/ring.ts';
import type { Layer } from '../../model/layer.ts';
import type { Piece } from '../../model/piece.ts';
import type { Plan } from '../../model/plan.ts';
import { layerLabels, type Wanted } from './layer-labels.ts';
import { closed, frontMarks, hatched, type PlanView } from './plan-view.ts';

const PIN_MM = 1.3;

/** A layer as it is set up: what lies below grey, its own pieces heavy and numbered in the order of laying, the next layer dashed. */
export function layerDrawing(plan: Plan, layer: Layer, order: readonly Piece[], view: PlanView): Page {
  const { layers } = plan.stack;
  const below = plan.pieces.filter((piece) => piece.layer === layer.number - 1);
  const next = layers.find(({ number }) => number === layer.number + 1);
  const own = unite(order.map(({ region }) => view.region(region)));
  const seenBelow = below.length > 0 ? subtract(unite(below.map(({ region }) => view.region(region))), own) : [];
  const pins = plan.pins.filter(({ toLayer }) => toLayer === layer.number).map(({ at }) => view.point(at));

  const marks: Mark[] = [];
  if (seenBelow.length > 0) {
    marks.push({
      pen: PENS.fine,
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
  const wanted = [
    ...order.map(
      ({ name, region }, i): Wanted => ({ text: `${i + 1}: ${name}`, region: view.region(region).map(coarse) }),
    ),
    ...jointLines(order, view),
  ];
  const drawn = marks.flatMap(({ lines }) => [...lines]);
  const lines = segmentsOf(
    drawn.filter(({ closed }) => closed).map(({ points }) => coarse(points)),
    drawn.filter(({ closed }) => !closed).map(({ points }) => points),
  );
  const labels = layerLabels(wanted, lines, [0, 0, view.widthMm, view.heightMm - FRONT_MM]);
  // Grey stops short of lettering that stands on it.
  const grey = hatched(seenBelow.length > 0 ? subtract(seenBelow, unite(labels.boxes)) : [], 'what lies below');
  const title = `layer ${layer.number}: its pieces in the order of laying, with joints and pins`;
  return {
    widthMm: view.widthMm,
    heightMm: view.heightMm,
    title,
    description: title,
    groups: [{ id: 'layer', marks: [...grey, ...marks, ...labels.marks, ...frontMarks(view, plan.facts.front)] }],
  };
}

/** The strip at the foot that belongs to the front's arrow and word. */
const FRONT_MM = 13;
/** Outlines are read so much coarser for room; the labeller keeps lettering farther away. */
const coarse = (ring: Float64Array): Float64Array => coarser(ring, 0.3);

/** Each joint once, by its line. */
function jointLines(pieces: readonly Piece[], view: PlanView): Wanted[] {
  const seen = new Map<string, Float64Array>();
  for (const { joints } of pieces) for (const { label, line } of joints) seen.set(label, view.ring(line));
  return [...seen].map(([text, line]) => ({ text, line }));
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
