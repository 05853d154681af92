import { marksOf } from '../../drawing/page.ts';
import type { PrintedPage } from '../../drawing/pdf.ts';
import { keptPages, type PageGrid, pageGrid, pageName, paperFrame } from '../pages/grid.ts';
import { legendBlock, legendPage } from '../pages/legend-page.ts';
import { type Pattern, strokesOf } from '../pages/pattern.ts';
import type { Strip } from '../pages/strips.ts';
import { templatePage } from '../pages/template-page.ts';
import type { TooWide } from './laid.ts';

/** Air over and under the key, together. */
const AIR_MM = 10;

/** Half the widest pen that a pattern is drawn with. */
export const PEN_MM = 2;

/** Legend, how to plot and cautions, on a page that is no longer than they are. */
export function keyOfStrips(strip: Strip, howTo: string, width: number, margin: number): PrintedPage {
  const options = { margin, overlap: 0, barsMm: [100, 100] } as const;
  const frameOf = (heightMm: number) => paperFrame([width, heightMm], false, options);
  const around = -frameOf(0).viewHeightMm;
  const heightMm = Math.ceil(around + legendBlock(strip.unit, howTo, true).heightMm + AIR_MM);
  return legendPage(frameOf(heightMm), strip, howTo, true);
}

/** A pattern cut into strips as wide as the roll, along its narrowest way. */
export function inStrips(
  { pattern, way }: TooWide,
  width: number,
  longest: number,
  margin: number,
  overlap: number,
): PageGrid {
  const { turnDeg, fromMm, sizeMm } = way;
  const options = { margin, overlap, barsMm: [100, 100] } as const;
  const whole = paperFrame([width, longest], false, options);
  const spare = whole.viewHeightMm - (sizeMm[1] + 2 * PEN_MM);
  const frame = spare > 0 ? paperFrame([width, longest - Math.floor(spare)], false, options) : whole;
  const box = [
    fromMm[0] - PEN_MM,
    fromMm[1] - PEN_MM,
    fromMm[0] + sizeMm[0] + PEN_MM,
    fromMm[1] + sizeMm[1] + PEN_MM,
  ] as const;
  return pageGrid(frame, box, strokesOf(marksOf(pattern.groups), turnDeg), turnDeg);
}

/** The strips of each pattern one after the other, row by row, from the page after `before` on. */
export function stripPages(
  strips: readonly { readonly pattern: Pattern; readonly grid: PageGrid }[],
  before: number,
  strip: (name: string, page: number) => Strip,
): PrintedPage[] {
  let number = before;
  return strips.flatMap(({ pattern: { name, groups }, grid }) =>
    [...keptPages(grid)].map(({ row, column }, i): PrintedPage => {
      number++;
      const words = strip(`${name}, ${pageName(row, column)} of ${grid.count}`, number);
      const page = templatePage(groups, grid, row, column, words);
      return i > 0 ? page : { ...page, bookmarks: [{ level: 1, title: name }] };
    }),
  );
}
