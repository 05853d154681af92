import { flowHtml } from '../../drawing/flow/flow-html.ts';
import type { Plan } from '../../model/plan.ts';
import { WORK_SHEETS } from '../sheets/all.ts';
import { escaped } from './html.ts';

/** What is printed a subject a page, each to be opened: buying, cutting, the wire, the van, the floor, the clock and the rest. */
export function work(plan: Plan): string {
  const note = '<p>Each of these prints as a page of its own where the job names it among its documents.</p>';
  const sheets = WORK_SHEETS.map(
    ({ title, blocks }) => `<details><summary>${escaped(title)}</summary>\n${flowHtml(blocks(plan))}\n</details>`,
  );
  return [note, ...sheets].join('\n');
}
