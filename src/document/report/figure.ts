import type { Box, Ring } from '../../geometry/ring.ts';
import { numberText } from '../../units.ts';
import { escaped } from './html.ts';

/** A shape of a figure: rings in the figure's coordinates (y down), and the class that styles it. */
export interface Shape {
  readonly rings: readonly Ring[];
  readonly look: string;
  readonly isOpen?: boolean;
}

/** Words on a figure, centred at a point. */
export interface Words {
  readonly x: number;
  readonly y: number;
  readonly text: string;
  /** Letter height in the figure's coordinates. */
  readonly size: number;
  readonly look?: string;
}

/** A small picture inside the report. Not to scale on paper: templates are drawn elsewhere. */
export interface Figure {
  readonly box: Box;
  readonly shapes: readonly Shape[];
  readonly words: readonly Words[];
  /** What a person who cannot see it is told. */
  readonly title: string;
  /** Markup under the shapes, such as an image. */
  readonly under?: string;
}

/** A figure as inline SVG of the page, or with a style of its own as a file that stands alone. */
export function figureSvg({ box, shapes, words, title, under = '' }: Figure, style?: string): string {
  const [minX, minY, maxX, maxY] = box;
  const size = Math.max(maxX - minX, maxY - minY);
  // A tenth of a pixel or less where a figure takes the whole width of the page.
  const decimals = size > 4000 ? 0 : size > 400 ? 1 : 2;
  const n = (value: number) => numberText(value, decimals);
  const paths = shapes
    .filter(({ rings }) => rings.length > 0)
    .map(({ rings, look, isOpen }) => {
      const d = rings.map((ring) => pathOf(ring, n, isOpen === true)).join('');
      return `<path class="${look}" d="${d}"/>`;
    });
  const texts = words.map(
    ({ x, y, text, size: height, look }) =>
      `<text${look ? ` class="${look}"` : ''} x="${n(x)}" y="${n(y + height * 0.36)}" font-size="${n(height)}">${escaped(text)}</text>`,
  );
  const view = [minX, minY, maxX - minX, maxY - minY].map((value) => numberText(value, 2)).join(' ');
  const alone = style === undefined ? '' : ' xmlns="http://www.w3.org/2000/svg"';
  const inside = `<title>${escaped(title)}</title>${style === undefined ? '' : `<style>${style}</style>`}`;
  return `<svg${alone} viewBox="${view}" role="img">${inside}${under}${paths.join('')}${texts.join('')}</svg>`;
}

function pathOf(ring: Ring, n: (value: number) => string, isOpen: boolean): string {
  let d = '';
  for (let i = 0; i < ring.length; i += 2) d += `${i === 0 ? 'M' : 'L'}${n(ring[i])} ${n(ring[i + 1])}`;
  return isOpen ? d : `${d}Z`;
}

/** Y up becomes y down: the one flip of the report. */
export const flipped = (rings: readonly Ring[], height: number): Ring[] =>
  rings.map((ring) => ring.map((value, i) => (i % 2 === 0 ? value : height - value)));

/** A box with a margin on every side. */
export const grown = ([minX, minY, maxX, maxY]: Box, by: number): Box => [minX - by, minY - by, maxX + by, maxY + by];

/** The ring without points closer than `least` to the one kept before. A ring that would vanish stays as it is. */
export function thinned(ring: Ring, least: number): Ring {
  const kept: number[] = [ring[0], ring[1]];
  for (let i = 2; i < ring.length; i += 2) {
    const dx = ring[i] - kept[kept.length - 2];
    const dy = ring[i + 1] - kept[kept.length - 1];
    if (dx * dx + dy * dy >= least * least) kept.push(ring[i], ring[i + 1]);
  }
  return kept.length >= 6 ? new Float64Array(kept) : ring;
}

/**
 * How many times too tall heights are drawn, a whole number to 5: the fewest with which they take `share` of the width.
 * Low ground drawn true shows nothing of its steps.
 */
export function stretchFor(heightMm: number, widthMm: number, share: number): number {
  let times = 1;
  while (times < 5 && heightMm * times < share * widthMm) times++;
  return times;
}

/** What a caption says of it. */
export const stretchText = (times: number): string =>
  times === 1 ? 'drawn true' : `heights drawn ${times} times too tall`;
