import type { Block } from '../../drawing/flow/block.ts';
import { lettered } from '../../drawing/lettering.ts';
import { type Mark, openLine, type Page } from '../../drawing/page.ts';
import { PENS } from '../../drawing/pen.ts';
import { boxOf } from '../../geometry/ring.ts';
import { extent } from '../../model/landform.ts';
import type { Layer } from '../../model/layer.ts';
import type { Plan } from '../../model/plan.ts';
import { isWestEast, type Rib } from '../../model/rib.ts';
import { CAUTIONS } from '../../workshop/cautions.ts';
import type { Measures } from '../sheets/measures.ts';
import type { Room } from '../sheets/sheet-file.ts';
import { frontMarks, type PlanView, planView } from './plan-view.ts';

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
      caption: 'The grid from above, the front at the bottom: ribs by number.',
    },
    { kind: 'caution', text: CAUTIONS[1] },
    {
      kind: 'list',
      numbered: true,
      items: [
        'Strike the lines of the grid on the floor, square, from the south-west corner; check both diagonals.',
        'Stand the ribs whose slots open upward on their lines, one by one, each held until the next direction joins them.',
        'Let the others down into their slots, from the middle outward. Push by hand; never drive them.',
        'Check that tops run on from rib to rib before anything is glued or covered.',
      ],
    },
    { kind: 'caution', text: 'Stop if a slot has to be forced, a rib leans, or the grid is out of square.' },
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

function gridDrawing({ facts }: Plan, ribs: readonly Standing[], view: PlanView): Page {
  const marks = ribs.flatMap(({ layer, ends }): Mark[] => {
    const [ax, ay, bx, by] = view.ring(ends);
    const text = lettered(`${layer.number}`, { heightMm: 3.5, xMm: bx + 1, yMm: by - 1, underlined: true });
    return [{ pen: PENS.cut, title: `rib ${layer.number}`, lines: [openLine(ax, ay, bx, by)] }, text];
  });
  const title = 'the grid of ribs from above';
  const groups = [{ id: 'grid', marks: [...marks, ...frontMarks(view, facts.front)] }];
  return { widthMm: view.widthMm, heightMm: view.heightMm, title, description: title, groups };
}
