import type { Block } from '../../drawing/flow/block.ts';
import { lettered } from '../../drawing/lettering.ts';
import { frame, type Mark, openLine, type Page } from '../../drawing/page.ts';
import { PENS } from '../../drawing/pen.ts';
import { length } from '../../geometry/exact-math.ts';
import { boxOf } from '../../geometry/ring.ts';
import { extent } from '../../model/landform.ts';
import type { Layer } from '../../model/layer.ts';
import type { Plan } from '../../model/plan.ts';
import { isWestEast, type Rib } from '../../model/rib.ts';
import { CAUTIONS } from '../../workshop/cautions.ts';
import type { Measures } from '../sheets/measures.ts';
import type { Room } from '../sheets/sheet-file.ts';
import { closed, frontMarks, type PlanView, planView } from './plan-view.ts';

interface Standing {
  readonly layer: Layer;
  readonly rib: Rib;
  /** Its ends in plan, x, y, x, y. */
  readonly ends: Float64Array;
}

/** Ribs set up: the plan of the grid, which stand first, and which are let down into them. */
export function ribBlocks(plan: Plan, measures: Measures, room: Room): Block[] {
  const ribs = plan.stack.layers.flatMap((layer): Standing[] =>
    layer.rib ? [{ layer, rib: layer.rib, ends: endsOf(layer, layer.rib) }] : [],
  );
  const stands = ({ rib }: Standing) => rib.crossings.every(({ opens }) => opens === 'top');
  const { box } = extent(plan.landform);
  const [wideMm, deepMm] = gridSize(ribs);
  const say = (mm: number) => `${measures.text(mm)} ${measures.unit}`;
  const joined = new Set(plan.pieces.filter(({ joints }) => joints.length > 0).map(({ layer }) => layer)).size;
  const glued =
    joined > 0
      ? [
          `Glue the pieces of each rib together on a flat floor, lap on lap by their joints' names (${joined} of ${ribs.length} ribs have them), two pins straight down through each lap that is high enough, a scrap across it on one side. Leave them until the glue has set.`,
        ]
      : [];
  const view = planView(box, plan.facts.front, { widthMm: room.widthMm, heightMm: 0.6 * room.heightMm });
  const table = (title: string, which: readonly Standing[]): Block[] => [
    { kind: 'heading', level: 2, text: title },
    {
      kind: 'table',
      head: ['rib', 'line', `at, from the south-west (${measures.unit})`, 'pieces', 'slots'],
      ticks: true,
      right: [2, 4],
      rows: which.map(({ layer, rib }) => [
        `${layer.number}`,
        rib.gridLine,
        measures.text(rib.frame.originMm[isWestEast(rib.frame) ? 1 : 0]),
        plan.pieces
          .filter((piece) => piece.layer === layer.number)
          .map(({ name }) => name)
          .join(', '),
        `${rib.crossings.length}`,
      ]),
      note: `${which.length} ribs, all counted.`,
    },
  ];
  const first = ribs.filter(stands);
  return [
    { kind: 'heading', level: 1, text: 'Setting up the ribs' },
    {
      kind: 'figure',
      drawing: gridDrawing(plan, ribs, view),
      caption:
        'The grid from above, the front at the bottom: ribs by number, and the corner that lines are measured from.',
    },
    { kind: 'caution', text: CAUTIONS[1] },
    {
      kind: 'list',
      numbered: true,
      items: [
        ...glued,
        `Strike the lines of the grid on the floor, square, from the south-west corner. The outermost lines are ${say(wideMm)} and ${say(deepMm)} apart; both diagonals between their crossings are ${say(length(wideMm, deepMm))}.`,
        'Stand the ribs whose slots open upward on their lines, one by one, each held until the next direction joins them.',
        'Let the others down into their slots, from the middle outward. Push by hand; never drive them.',
        'Check that tops run on from rib to rib before anything is glued or covered.',
      ],
    },
    { kind: 'caution', text: 'Stop if a slot has to be forced, a rib leans, or the grid is out of square.' },
    { kind: 'page' },
    ...table('First: stand these', first),
    ...table(
      'Then: let these down',
      ribs.filter((each) => !stands(each)),
    ),
  ];
}

function endsOf({ regions }: Layer, { frame: { originMm, along } }: Rib): Float64Array {
  const [from, , to] = boxOf(regions.flat());
  return new Float64Array([
    originMm[0] + from * along[0],
    originMm[1] + from * along[1],
    originMm[0] + to * along[0],
    originMm[1] + to * along[1],
  ]);
}

/** How far the outermost lines are apart: west to east, and south to north. */
function gridSize(ribs: readonly Standing[]): [wideMm: number, deepMm: number] {
  const across = (westEast: boolean): number => {
    const at = ribs
      .filter(({ rib }) => isWestEast(rib.frame) === westEast)
      .map(({ rib }) => rib.frame.originMm[westEast ? 1 : 0]);
    return at.length > 0 ? Math.max(...at) - Math.min(...at) : 0;
  };
  return [across(false), across(true)];
}

function gridDrawing({ facts, landform }: Plan, ribs: readonly Standing[], view: PlanView): Page {
  const size = { heightMm: NUMBER_MM, underlined: true };
  const marks = ribs.flatMap(({ layer, ends }): Mark[] => {
    const [ax, ay, bx, by] = view.ring(ends);
    // Over its far end where the rib runs away from the front, else beside its right one.
    const text =
      Math.abs(bx - ax) < Math.abs(by - ay)
        ? lettered(`${layer.number}`, { ...size, xMm: bx, yMm: Math.min(ay, by) - 1.8, align: 'middle' })
        : lettered(`${layer.number}`, { ...size, xMm: Math.max(ax, bx) + 1.5, yMm: by + NUMBER_MM / 2 });
    return [{ pen: PENS.cut, title: `rib ${layer.number}`, lines: [openLine(ax, ay, bx, by)] }, text];
  });
  const { box } = extent(landform);
  const corners = view.ring(new Float64Array([box[0], box[1], box[2], box[1], box[2], box[3], box[0], box[3]]));
  const [x, y] = corners;
  const [left, , , bottom] = boxOf([corners]);
  const isLeft = x < left + 1;
  const isLow = y > bottom - 1;
  const words = lettered('south-west corner', {
    heightMm: NUMBER_MM,
    xMm: x,
    yMm: isLow ? y + NUMBER_MM + 1.5 : y - 1.8,
    align: isLeft ? 'left' : 'right',
  });
  const outline: Mark = { pen: PENS.edge, title: 'edge of the ground', lines: closed([corners]) };
  const dot: Mark = { pen: PENS.cut, title: 'south-west corner', lines: [frame(x - 1, y - 1, x + 1, y + 1)] };
  const title = 'the grid of ribs from above';
  const groups = [{ id: 'grid', marks: [outline, ...marks, dot, words, ...frontMarks(view, facts.front)] }];
  return { widthMm: view.widthMm, heightMm: view.heightMm, title, description: title, groups };
}

const NUMBER_MM = 3.5;
