import { escaped } from '../drawing/svg.ts';
import type { Plan } from '../model/plan.ts';
import { revision } from '../model/revision.ts';
import { definePlugin } from '../plugin.ts';
import type { Unit } from '../units.ts';
import { CAUTIONS } from '../workshop/cautions.ts';
import { scaleText } from './board/blocks.ts';
import { toldOfDrawings } from './board/crowded.ts';
import type { BoardDrawing } from './board/draw-board.ts';
import { drawnBoards } from './board/drawn-boards.ts';
import { legendRows } from './board/legend.ts';
import { scaleOption } from './board/scale-option.ts';
import { pageScript } from './throw/page-script.ts';

/**
 * A page to throw on boards with a projector: one board fills the screen, white on black. Four crosses are taped on the real board, the
 * thrown ones are moved onto them, and what a tape measures between them is typed in: then the throw is true, whatever
 * angle it comes from, and the page says by how much the measurements disagree. Opens without a network.
 */
export const throwPage = definePlugin({
  api: 1,
  stage: 'document',
  name: 'throw-page',
  summary: 'a page to throw boards on foam with a projector, made true by tape measurements',
  options: (kit) => kit.z.strictObject({ scale: scaleOption(kit) }),
  *run(plan, { scale }, { tell }) {
    const drawings = yield* drawnBoards(plan, scale);
    if (drawings.length === 0) return [];
    toldOfDrawings(plan, drawings).forEach(tell);
    return [{ path: 'throw.html', mediaType: 'text/html', body: page(plan, drawings, scale) }];
  },
});

const HOW_TO = [
  'Tape four small crosses on the board near its corners: A lower left, B lower right, C upper right, D upper left.',
  'Fix board and projector so that neither moves. Drag each thrown cross onto its taped one; arrow keys move the chosen one (1 to 4) finely.',
  'Measure between the crosses, all six ways, and where A and B lie from the edges; type millimetres. The tape should disagree with itself by no more than 3 mm.',
  'Check two other places with the tape before tracing. N and P turn to the next and previous board, H hides this bar.',
];

const MEASURES = [
  ['AB', 'A to B'],
  ['BC', 'B to C'],
  ['CD', 'C to D'],
  ['DA', 'D to A'],
  ['AC', 'A to C'],
  ['BD', 'B to D'],
  ['ax', 'A from left edge'],
  ['ay', 'A from lower edge'],
  ['by', 'B from lower edge'],
] as const;

const legendText = (unit: Unit): string =>
  legendRows(unit)
    .map(({ look, text }) => `<strong>${look}</strong> ${escaped(text)}`)
    .join(' · ');

const STYLE =
  'html,body{margin:0;background:#000;color:#fff;font:16px/1.4 sans-serif;overflow:hidden}canvas{position:fixed;inset:0}' +
  '#bar{position:fixed;left:0;bottom:0;max-width:46em;max-height:60vh;overflow:auto;background:#000;border:1px solid #fff;padding:.6em}#bar.away{display:none}' +
  '#hide{position:fixed;right:0;bottom:0}label{display:inline-block;margin:0 .8em .3em 0}input{width:5.5em}' +
  'input,select,button{font:inherit;background:#000;color:#fff;border:1px solid #fff}.bad{border:3px double #fff;padding:.2em;font-weight:bold}small{display:block}';

function page(plan: Plan, drawings: readonly BoardDrawing[], scale: number): string {
  const name = escaped(plan.name);
  const fields = MEASURES.map(([id, words]) => `<label>${words} <input id="${id}" inputmode="decimal"/> mm</label>`);
  const small = scale === 1 ? '' : `<p>${escaped(scaleText(plan, plan.boards[0], scale))}</p>`;
  return `<!DOCTYPE html>
<html lang="en"><head><meta charset="utf-8"/>
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline'"/>
<title>${name} · throw · Lynchet</title><style>${STYLE}</style></head><body>
<canvas id="thrown"></canvas>
<div id="bar"><p><strong>${name}</strong>, revision ${revision(plan)}, <span id="name"></span> <select id="board"></select></p>${small}
<ol>${HOW_TO.map((text) => `<li>${text}</li>`).join('')}</ol>
<p>${fields.join('\n')}</p><p id="told"></p>
<small>${legendText(plan.unit)}</small><small>${escaped(CAUTIONS[0])}</small></div>
<button id="hide" type="button">H</button>
<script>${pageScript(boardsJson(plan, drawings))}</script></body></html>
`;
}

/** Boards as the script reads them: tenths of a millimetre, y up. Nothing in it can end the script. */
function boardsJson(plan: Plan, drawings: readonly BoardDrawing[]): string {
  const boards = drawings.map(({ board, widthMm, heightMm, groups }) => ({
    name: `board ${board.number} of ${plan.boards.length}`,
    size: [widthMm, heightMm],
    lines: groups.flatMap(({ marks }) =>
      marks.flatMap(({ pen, lines }) =>
        lines.map(({ points, closed }) => [
          pen.widthMm,
          pen.dashMm,
          closed ? 1 : 0,
          Array.from(points, (value, i) => Math.round(10 * (i % 2 === 0 ? value : heightMm - value))),
        ]),
      ),
    ),
  }));
  return JSON.stringify(boards).replace(/</g, '\\u003c');
}
