import { escaped, pageToSvg } from '../svg.ts';
import type { Block, Value } from './block.ts';

/**
 * Blocks as HTML for a page that others frame: headings from `h3` on, figures with captions, tables with heads. It is
 * well-formed XML, too. Classes: `ticks`, `n` (set to the right), `caution`, `assumed`, `blank` (an empty box).
 */
export const flowHtml = (blocks: readonly Block[]): string => blocks.map(blockHtml).join('\n');

function blockHtml(block: Block): string {
  switch (block.kind) {
    case 'heading':
      return `<h${block.level + 2}>${escaped(block.text)}</h${block.level + 2}>`;
    case 'text':
      return `<p>${block.strong ? `<strong>${escaped(block.text)}</strong>` : escaped(block.text)}</p>`;
    case 'list':
      return listHtml(block);
    case 'table':
      return tableHtml(block);
    case 'values':
      return `<table class="values"><tbody>\n${block.rows.map(valueHtml).join('\n')}\n</tbody></table>`;
    case 'figure':
      return `<figure>${inlineSvg(pageToSvg(block.drawing))}<figcaption>${escaped(block.caption)}</figcaption></figure>`;
    case 'caution':
      return `<p class="caution" role="note">${escaped(block.text)}</p>`;
    case 'page':
      return '';
  }
}

/** An empty box, which is no letter: readers that speak are told what it is for. */
const TICK = '<span class="blank" role="img" aria-label="to tick"></span> ';
const TO_FILL_IN = '<span class="blank" role="img" aria-label="to fill in"></span>';

function listHtml({ items, ticks, numbered }: Extract<Block, { kind: 'list' }>): string {
  const tag = numbered ? 'ol' : 'ul';
  const rows = items.map((item) => `<li>${ticks ? TICK : ''}${escaped(item)}</li>`);
  return `<${tag}${ticks ? ' class="ticks"' : ''}>${rows.join('\n')}</${tag}>`;
}

function tableHtml({ head, rows, right = [], ticks, note }: Extract<Block, { kind: 'table' }>): string {
  const place = (i: number) => (right.includes(i) ? ' class="n"' : '');
  const heads = head.map((text, i) => `<th scope="col"${place(i)}>${escaped(text)}</th>`).join('');
  const body = rows.map((row) => {
    const cells = head.map((_, i) => `<td${place(i)}>${i === 0 && ticks ? TICK : ''}${escaped(row[i] ?? '')}</td>`);
    return `<tr>${cells.join('')}</tr>`;
  });
  const under = note === undefined ? '' : `<p>${escaped(note)}</p>`;
  return `<div class="wide"><table><thead><tr>${heads}</tr></thead><tbody>\n${body.join('\n')}\n</tbody></table></div>${under}`;
}

function valueHtml({ label, value, assumed, source }: Value): string {
  const ours = assumed ? `<span class="assumed">assumed; ours: ${TO_FILL_IN}</span>` : '';
  const from = source === undefined ? '' : ` <small>${escaped(source)}</small>`;
  return `<tr><th scope="row">${escaped(label)}${from}</th><td>${escaped(value)}</td><td>${ours}</td></tr>`;
}

/** A drawing within a page: no declaration, and its size left to the page. */
const inlineSvg = (svg: string): string =>
  svg.replace(/^<\?xml[^>]*>\s*/, '').replace(/(<svg[^>]*?) width="[^"]*" height="[^"]*"/, '$1 role="img"');
