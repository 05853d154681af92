/** A page as SVG: the one place that knows svg-builder, which escapes nothing and writes numbers as they come. */
import svgBuilder from 'svg-builder';
import type { Group, Line, Mark, Page } from './page.ts';

/**
 * Write a page as an SVG file at true size: width and height in millimetres, and a user unit of one millimetre.
 * Strokes only: nothing is filled and no typeface is needed.
 */
export function pageToSvg(page: Page): string {
  const svg = svgBuilder.create();
  svg
    .width(`${millimetres(page.widthMm)}mm`)
    .height(`${millimetres(page.heightMm)}mm`)
    .viewBox(`0 0 ${millimetres(page.widthMm)} ${millimetres(page.heightMm)}`);
  svg.title({}, escaped(page.title)).desc({}, escaped(page.description));
  for (const group of page.groups) addGroup(svg, group);
  return `<?xml version="1.0" encoding="UTF-8"?>\n${svg.render().replaceAll('><', '>\n<')}\n`;
}

type Builder = ReturnType<typeof svgBuilder.create>;

function addGroup(svg: Builder, { id, marks }: Group) {
  const content = svgBuilder.create();
  for (const mark of marks) {
    const title = mark.title === undefined ? undefined : svgBuilder.create().title({}, escaped(mark.title));
    content.path(attributes(mark), title);
  }
  const look = { fill: 'none', stroke: '#000', 'stroke-linecap': 'round', 'stroke-linejoin': 'round' };
  svg.g({ id: escaped(id), ...look }, content);
}

function attributes({ pen, lines, id }: Mark) {
  return {
    id: id === undefined ? undefined : escaped(id),
    'stroke-width': millimetres(pen.widthMm),
    'stroke-dasharray': pen.dashMm.length > 0 ? pen.dashMm.map(millimetres).join(' ') : undefined,
    d: lines.map(pathData).join(''),
  };
}

function pathData({ points, closed }: Line): string {
  let data = '';
  for (let i = 0; i < points.length; i += 2) {
    data += `${i === 0 ? 'M' : 'L'}${millimetres(points[i])} ${millimetres(points[i + 1])}`;
  }
  return closed ? `${data}Z` : data;
}

/** A micrometre is the last digit: coordinates of a plan lie on that grid. Never an exponent, never −0. */
function millimetres(value: number): string {
  if (!Number.isFinite(value)) throw new Error(`not a number that can be drawn: ${value}`);
  const micrometres = Math.round(value * 1000);
  return String(micrometres === 0 ? 0 : micrometres / 1000);
}

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text as XML may hold it: markup escaped; characters that XML 1.0 forbids, and halves of surrogate pairs, left out. */
export const escaped = (text: string): string =>
  text
    .replace(/[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu, '')
    .replace(/[&<>"']/g, (character) => ENTITIES[character]);
