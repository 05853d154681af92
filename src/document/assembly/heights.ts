import type { Block } from '../../drawing/flow/block.ts';
import { lettered } from '../../drawing/lettering.ts';
import { type Mark, openLine, type Page } from '../../drawing/page.ts';
import { PENS } from '../../drawing/pen.ts';
import { boxOf, isInside, type Point, ringsOf } from '../../geometry/ring.ts';
import type { Layer } from '../../model/layer.ts';
import type { Plan } from '../../model/plan.ts';
import { rasterOf } from '../../model/raster.ts';
import type { Measures } from '../sheets/measures.ts';
import type { HeightsOff } from './heights-off.ts';
import { closed, frontMarks, type PlanView, planView, SEEN_FROM, turnedRing } from './plan-view.ts';

/** The marks of a story stick, and the heights of the ground at places that can be found again. */
export function heightBlocks(
  plan: Plan,
  off: HeightsOff,
  measures: Measures,
  room: { widthMm: number; heightMm: number },
): Block[] {
  const { unit, text } = measures;
  const marks = plan.stack.layers.map(({ number, bottomMm, thicknessMm }) => [
    `top of layer ${number}`,
    text(bottomMm + thicknessMm),
    `± ${text(off.topMm(number))}`,
  ]);
  const spots = spotsOf(plan);
  const box = boxOf(ringsOf(plan.stack.layers[0].regions));
  const view = planView(box, plan.facts.front, room);
  const cover = plan.facts.cover;
  const over = cover ? ` The cover comes over that: ${text(cover.depthMm)} ${unit} of ${cover.material}.` : '';
  return [
    { kind: 'heading', level: 1, text: 'Story stick and spot heights' },
    {
      kind: 'text',
      text: 'Mark a straight batten from its foot. Stand it at the front edge and at two more places after each layer, and read the top of the foam.',
    },
    {
      kind: 'table',
      head: ['mark', `from the floor (${unit})`, `may be off by (${unit})`],
      right: [1, 2],
      rows: marks,
      note: off.note,
    },
    { kind: 'heading', level: 2, text: 'Spot heights' },
    {
      kind: 'figure',
      drawing: spotDrawing(plan, spots, view),
      caption: `Numbered places; heights of the foam when it is carved.${over}`,
    },
    {
      kind: 'table',
      head: ['place', `along (${unit})`, `away (${unit})`, `carved foam (${unit})`, 'top layer there'],
      right: [0, 1, 2, 3, 4],
      rows: spots.map(({ along, away, groundMm, layer }, i) => [
        `${i + 1}`,
        text(along),
        text(away),
        text(groundMm),
        layer === null ? '' : `${layer}`,
      ]),
      note: 'From corner A of the base: along the base line, and square off it. Place 1 is the highest ground.',
    },
  ];
}

export interface Spot {
  /** Landform coordinates. */
  readonly at: Point;
  /** From A, as seen from the front. */
  readonly along: number;
  readonly away: number;
  readonly groundMm: number;
  /** The highest layer that has foam there. */
  readonly layer: number | null;
}

const CELLS = 120;
/** Spots along the longer side of the ground. */
const SPOTS = 6;

/** The highest ground and places of an even grid that lie on it, the back row first. */
export function spotsOf({ landform, stack, facts: { front } }: Plan): Spot[] {
  const { columns, rows, stepMm, heightsMm } = rasterOf(landform, CELLS);
  let top = 0;
  for (let i = 0; i < heightsMm.length; i++) {
    if (!(heightsMm[i] <= heightsMm[top])) if (!Number.isNaN(heightsMm[i])) top = i;
  }
  const every = Math.max(1, Math.round(Math.max(columns, rows) / SPOTS));
  const cells: number[] = [];
  for (let row = Math.floor(every / 2); row < rows; row += every) {
    for (let column = Math.floor(every / 2); column < columns; column += every) {
      const cell = row * columns + column;
      if (!Number.isNaN(heightsMm[cell]) && cell !== top) cells.push(cell);
    }
  }
  const see = SEEN_FROM[front.side];
  const [left, low] = boxOf([turnedRing(Float64Array.from(boxOf(ringsOf(stack.layers[0].regions))), front.side)]);
  const spot = (cell: number): Spot => {
    const [x, y] = [((cell % columns) + 0.5) * stepMm, (Math.floor(cell / columns) + 0.5) * stepMm];
    const [along, away] = see([x, y]);
    const layer = stack.layers.findLast(({ regions }) => isInside(x, y, regions));
    return {
      at: [x, y],
      along: along - left,
      away: away - low,
      groundMm: heightsMm[cell],
      layer: layer?.number ?? null,
    };
  };
  const others = cells.map(spot).sort((a, b) => b.away - a.away || a.along - b.along);
  return Number.isNaN(heightsMm[top]) ? others : [spot(top), ...others];
}

function spotDrawing({ stack, facts }: Plan, spots: readonly Spot[], view: PlanView): Page {
  const outlines = stack.layers.map(
    ({ number, regions }: Layer): Mark => ({
      pen: PENS.fine,
      title: `layer ${number}`,
      lines: regions.flatMap((region) => closed(view.region(region))),
    }),
  );
  const places = spots.flatMap(({ at }, i): Mark[] => {
    const [x, y] = view.point(at);
    return [
      { pen: PENS.cut, lines: [openLine(x - 1.2, y, x + 1.2, y), openLine(x, y - 1.2, x, y + 1.2)] },
      lettered(`${i + 1}`, { heightMm: 3.5, xMm: x + 1.6, yMm: y - 1.2 }),
    ];
  });
  const title = 'places of the spot heights';
  const groups = [{ id: 'spots', marks: [...outlines, ...places, ...frontMarks(view, facts.front)] }];
  return { widthMm: view.widthMm, heightMm: view.heightMm, title, description: title, groups };
}
