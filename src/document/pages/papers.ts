import type { Kit } from '../../plugin.ts';

const IN = 25.4;

/**
 * Each size of a series halves the one above, rounding down to whole millimetres (ISO 216). From 6 on
 * they are too small for check bars of 100 mm.
 */
function halved(series: string, [short, long]: readonly [number, number]): [string, readonly [number, number]][] {
  const sizes: [string, readonly [number, number]][] = [];
  for (let n = 0; n <= 5; n++) {
    sizes.push([`${series}${n}`, [short, long]]);
    [short, long] = [Math.floor(long / 2), short];
  }
  return sizes;
}

/**
 * Paper sizes, standing, millimetres: ISO 216 A and B; ANSI/ASME Y14.1 (Letter is ANSI A, Tabloid is ANSI B) ; Legal and the sizes of
 * US architects, which are whole inches, from memory.
 */
const PAPERS: ReadonlyMap<string, readonly [number, number]> = new Map([
  ...halved('A', [841, 1189]),
  ...halved('B', [1000, 1414]),
  ...Object.entries({
    Letter: [8.5, 11],
    Legal: [8.5, 14],
    Tabloid: [11, 17],
    'ANSI C': [17, 22],
    'ANSI D': [22, 34],
    'ANSI E': [34, 44],
    'ARCH A': [9, 12],
    'ARCH B': [12, 18],
    'ARCH C': [18, 24],
    'ARCH D': [24, 36],
    'ARCH E': [36, 48],
    'ARCH E1': [30, 42],
  }).map(([name, [short, long]]): [string, readonly [number, number]] => [name, [short * IN, long * IN]]),
]);

/** The least side that holds the bars, and the longest page that older readers hold: 14,400 points (from memory). */
const LEAST_MM = 140;
export const LONGEST_MM = (14_400 / 72) * IN;

/** `paper`: a size by its name, or the two sides of a custom page. */
export const paperOption = ({ z, size }: Kit) =>
  z
    .union([
      z.enum([...PAPERS.keys()] as [string, ...string[]]),
      size({ most: LONGEST_MM }).refine(([a, b]) => Math.min(a, b) >= LEAST_MM, {
        message: `is too small: no side under ${LEAST_MM} mm`,
      }),
    ])
    .default('A4')
    .describe('size of the paper by its name (A4, A3, Letter, Tabloid, B2, ARCH D …), or its two sides');

export type Paper = string | readonly [number, number];

/** Short and long side of a paper. */
export function sidesOf(paper: Paper): readonly [number, number] {
  if (typeof paper !== 'string') return paper[0] <= paper[1] ? [paper[0], paper[1]] : [paper[1], paper[0]];
  const sides = PAPERS.get(paper);
  if (!sides) throw new Error(`no paper ${paper}`);
  return sides;
}

export const paperText = (paper: Paper): string => (typeof paper === 'string' ? paper : `${paper[0]} × ${paper[1]} mm`);
