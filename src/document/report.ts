import type { Plan } from '../model/plan.ts';
import { definePlugin } from '../plugin.ts';
import { CAUTIONS } from '../workshop/cautions.ts';
import { SETTING_UP } from '../workshop/setting-up.ts';
import { boards, layers, overview, pieces } from './report/drawings.ts';
import { escaped } from './report/html.ts';
import { STYLE } from './report/style.ts';
import { findingsList, keyFigures, lead, quantitiesTable, toBring } from './report/summary.ts';
import { work } from './report/work.ts';

/**
 * One HTML file to look at: what to buy and what to watch, the ground, the stack, each layer in plan, each board,
 * quantities, pieces and cautions. Opens without a network; everything is inside it and it runs no script.
 */
export const report = definePlugin({
  api: 1,
  stage: 'document',
  name: 'report',
  summary: 'everything to look at in one page that opens without a network',
  options: ({ z }) => z.strictObject({}),
  run: (plan) => [{ path: 'report.html', mediaType: 'text/html', body: page(plan) }],
});

/** What the page holds after its head, in the order that a builder asks for it. */
const SECTIONS = [
  'Findings',
  'To bring',
  'The whole',
  'Cautions',
  'Setting up',
  'Layers',
  'Boards',
  'Pieces',
  'Quantities',
  'The work',
] as const;

function page(plan: Plan): string {
  const name = escaped(plan.name);
  const bodies: Readonly<Record<(typeof SECTIONS)[number], () => string>> = {
    Findings: () => findingsList(plan),
    'To bring': () => toBring(plan),
    'The whole': () => overview(plan),
    Cautions: () => `<ul class="caution">${CAUTIONS.map((text) => `<li>${escaped(text)}</li>`).join('\n')}</ul>`,
    'Setting up': () => `<ol>${SETTING_UP.map((text) => `<li>${escaped(text)}</li>`).join('\n')}</ol>`,
    Layers: () => layers(plan),
    Boards: () => boards(plan),
    Pieces: () => pieces(plan),
    Quantities: () => quantitiesTable(plan),
    'The work': () => work(plan),
  };
  // Ribs go together otherwise.
  const shown = SECTIONS.filter((head) => head !== 'Setting up' || plan.stack.kind === 'flat');
  const title = (head: (typeof SECTIONS)[number]) => (head === 'Layers' && plan.stack.kind !== 'flat' ? 'Ribs' : head);
  const links = shown.map((head) => `<a href="#${idOf(head)}">${title(head)}</a>`).join(' ');
  const section = (head: (typeof SECTIONS)[number]) =>
    `<section id="${idOf(head)}"><h2>${title(head)}</h2>${bodies[head]()}</section>`;
  return `<!DOCTYPE html>
<html lang="en"><head><meta charset="utf-8"/><meta name="viewport" content="width=device-width,initial-scale=1"/>
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:"/>
<title>${name} · Lynchet</title><style>${STYLE}</style></head><body>
<header><h1>${name}</h1><p class="lead">${escaped(lead(plan))}</p></header>
${keyFigures(plan)}
<nav>${links}</nav>
<div class="pair">${shown.slice(0, 2).map(section).join('\n')}</div>
${shown.slice(2).map(section).join('\n')}
</body></html>
`;
}

const idOf = (head: string): string => head.toLowerCase().replace(' ', '-');
