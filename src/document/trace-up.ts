import type { Block } from '../drawing/flow/block.ts';
import type { Finding } from '../findings.ts';
import type { Plan } from '../model/plan.ts';
import { definePlugin } from '../plugin.ts';
import { boardOfPiece } from '../workshop/quantities.ts';
import { paperOption } from './pages/papers.ts';
import { type Measures, measuresOf, measuresOption } from './sheets/measures.ts';
import { sheetFile } from './sheets/sheet-file.ts';
import { type SeamToDraw, seamsToDraw, type Traced, tracedPieces } from './trace-up/traced.ts';

/**
 * trace-up.pdf: which pieces and layers need no template, because their outline is the placing line on the layer below; what
 * is traced from what, in which order, and the seams to draw besides.
 */
export const traceUp = definePlugin({
  api: 1,
  stage: 'document',
  name: 'trace-up',
  summary: 'which layers need no template, and what they are traced from',
  options: (kit) => kit.z.strictObject({ paper: paperOption(kit), measures: measuresOption(kit.z) }),
  async run(plan, { paper, measures: choice }, { tell }) {
    if (plan.pieces.length === 0) return [];
    const traced = tracedPieces(plan);
    const blocks = traceBlocks(plan, traced, seamsToDraw(traced, plan), measuresOf(choice, plan.unit));
    const file = await sheetFile(plan, { path: 'trace-up.pdf', title: 'Tracing up', paper }, blocks, tell);
    tell(savedTemplates(plan, traced));
    return [file];
  },
});

function traceBlocks(plan: Plan, traced: readonly Traced[], seams: readonly SeamToDraw[], measures: Measures): Block[] {
  const without = new Set(traced.map(({ piece }) => piece.name));
  const head: Block = { kind: 'heading', level: 1, text: 'What needs no template' };
  if (traced.length === 0) {
    const why =
      plan.stack.kind === 'flat'
        ? 'Every piece needs its template: each outline, or an opening in it, runs somewhere over no foam of the layer below.'
        : 'Ribs stand side by side: none is traced from another. Every piece needs its template.';
    return [head, { kind: 'text', text: why }];
  }
  const boardOf = boardOfPiece(plan.boards);
  const rows = plan.stack.layers.map(({ number }) => {
    const own = plan.pieces.filter(({ layer }) => layer === number).map(({ name }) => name);
    const made = own.filter((name) => !without.has(name));
    const freed = own.filter((name) => without.has(name));
    return [`${number}`, made.length > 0 ? made.join(', ') : 'none', freed.join(', ')];
  });
  return [
    head,
    {
      kind: 'list',
      numbered: true,
      items: [
        'Work from layer 1 up. Mark a board from its templates, with the dashed lines of the next layer, and draw the seams of the list below on it.',
        'Cut the pieces, lay those of the layer dry with their match marks meeting.',
        'Lay lining paper or film over them and trace the dashed lines and seams, with the pins and an arrow to the front; write each name on it, face up.',
        'Cut the tracing along the line, pin it on the board face up, check its length and width against the cut list, and mark round it.',
        'Stop if a traced size is more than 3 mm from the cut list: paper has crept. Trace it again.',
      ],
    },
    { kind: 'table', head: ['layer', 'templates for', 'traced, no template'], rows, right: [0] },
    { kind: 'heading', level: 2, text: 'What is traced from what' },
    {
      kind: 'table',
      head: ['piece', 'traced from', 'on boards'],
      ticks: true,
      rows: traced.map(({ piece, from }) => [
        piece.name,
        from.map(({ name }) => name).join(', '),
        [...new Set(from.map(({ name }) => `${boardOf.get(name)?.number ?? ''}`))].join(', '),
      ]),
    },
    ...seamBlocks(seams, measures),
  ];
}

function seamBlocks(seams: readonly SeamToDraw[], { text, unit }: Measures): Block[] {
  if (seams.length === 0) return [];
  const points = (line: Float64Array) =>
    Array.from({ length: line.length / 2 }, (_, i) => `${text(line[2 * i])}, ${text(line[2 * i + 1])}`).join('; ');
  return [
    { kind: 'heading', level: 2, text: 'Seams to draw on the pieces below' },
    {
      kind: 'table',
      head: ['joint', 'on', 'board', `through: along, up (${unit})`],
      right: [2],
      rows: seams.map(({ label, on, board, lineMm }) => [label, on, `${board}`, points(lineMm)]),
      note: 'From the left end of the lower factory edge of the board, along it and up from it; straight from point to point.',
    },
  ];
}

function savedTemplates({ stack, pieces }: Plan, traced: readonly Traced[]): Finding {
  const without = new Set(traced.map(({ piece }) => piece.name));
  const layers = stack.layers.filter(({ number }) =>
    pieces.every(({ layer, name }) => layer !== number || without.has(name)),
  );
  const whole = layers.length > 0 ? `, all of layers ${layers.map(({ number }) => number).join(', ')}` : '';
  return {
    level: 'note',
    code: 'document/trace-up',
    message: `${traced.length} of ${pieces.length} pieces need no template${traced.length > 0 ? whole : ''}.`,
    fix: traced.length > 0 ? 'trace-up.pdf says what they are traced from.' : 'Print or measure off every piece.',
    where: {},
  };
}
