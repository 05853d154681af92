/** Plans as SVG, and what is read of them. */
import { pageOf } from '../../src/source/contour-drawing/page.ts';
import { type Read, readDrawing } from '../../src/source/contour-drawing/read.ts';
import type { ReadingOptions } from '../../src/source/contour-drawing/state.ts';
import { readXml } from '../../src/source/contour-drawing/xml.ts';
import { walkNow } from '../../src/walk.ts';

export const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);

/** A drawing of 400 × 300 mm, one unit a millimetre. */
export const plan = (inside: string, head = 'width="400mm" height="300mm" viewBox="0 0 400 300"'): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" ${head}>\n${inside}\n</svg>\n`;

/** What is read of a drawing before it is sorted. */
export function readPlan(
  svg: string,
  { scale, size, ...options }: Partial<ReadingOptions> & { scale?: number; size?: readonly [number, number] } = {},
): Read {
  const file = 'plan.svg';
  const elements = walkNow(readXml(utf8(svg), file));
  const { toGround } = pageOf(elements[0], { scale, size }, file);
  return walkNow(readDrawing(elements, toGround, { file, unit: 'mm', legend: {}, toleranceMm: 0.02, ...options }));
}

/** The lines of everything drawn, flat x, y, y up. */
export const linesOf = (read: Read): Float64Array[] =>
  read.shapes.flatMap(({ lines }) => lines.map(({ points }) => points));

/** Distance of a place from the nearest of some lines. */
export function distanceFrom(lines: readonly Float64Array[], x: number, y: number): number {
  let least = Infinity;
  for (const line of lines) {
    for (let i = 0; i + 3 < line.length; i += 2) {
      const dx = line[i + 2] - line[i];
      const dy = line[i + 3] - line[i + 1];
      const t = Math.max(0, Math.min(1, ((x - line[i]) * dx + (y - line[i + 1]) * dy) / (dx * dx + dy * dy || 1)));
      const [offX, offY] = [x - line[i] - t * dx, y - line[i + 1] - t * dy];
      least = Math.min(least, offX * offX + offY * offY);
    }
  }
  return Math.sqrt(least);
}
