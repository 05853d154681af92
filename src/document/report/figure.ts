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
  // About three hundredths of a pixel at the width a report is read at.
  const decimals = size > 1000 ? 1 : 2;
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
  const view = [minX, minY, maxX - minX, maxY - minY].map(n).join(' ');
  const alone = style === undefined ? '' : ' xmlns="http://www.w3.org/2000/svg"';
  const inside = `<title>${escaped(title)}</title>${style === undefined ? '' : `<style>${style}</style>`}`;
  return `<svg${alone} viewBox="${view}" role="img">${inside}${under}${paths.join('')}${texts.join('')}</svg>`;
}

function pathOf(ring: Ring, n: (value: number) => string, isOpen: boolean): string {
  let d = '';
  for (let i = 0; i < ring.length; i += 2) d += `${i === 0 ? 'M' : 'L'}${n(ring[i])} ${n(ring[i + 1])}`;
  return isOpen ? d : `${d}Z`;
}
