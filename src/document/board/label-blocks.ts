import { inkBox, lettered, textWidth } from '../../drawing/lettering.ts';
import { type Mark, openLine } from '../../drawing/page.ts';
import { letteringPen } from '../../drawing/pen.ts';
import { turn } from '../../geometry/exact-math.ts';

/** Something lettered that is placed as one: how large it is, and how to draw it with its middle somewhere. */
export interface LabelBlock {
  readonly halfWidth: number;
  readonly halfHeight: number;
  /** Height of its largest lettering. */
  readonly heightMm: number;
  draw(x: number, y: number, turnDeg: number): Mark[];
}

export interface Row {
  readonly text: string;
  readonly heightMm: number;
  readonly underlined?: boolean;
}

/** Line pitch in heights of the lettering, between that without accents and that with them (ISO 3098, b2 1.5 and b1 1.9): this face has long tails. */
const PITCH = 1.7;

/** Rows of lettering, one under the other, each in the middle. */
export function textBlock(rows: readonly Row[]): LabelBlock {
  let baseline = 0;
  let [minX, minY, maxX, maxY] = [0, 0, 0, 0];
  const set = rows.map((row, i) => {
    const ink = inkBox(row.text, row.heightMm, row.underlined);
    // An underline needs as much air below it as a row has.
    if (i > 0) baseline += PITCH * row.heightMm + (rows[i - 1].underlined ? 0.35 * rows[i - 1].heightMm : 0);
    const half = textWidth(row.text, row.heightMm) / 2;
    minX = Math.min(minX, ink[0] - half);
    maxX = Math.max(maxX, ink[2] - half);
    minY = Math.min(minY, baseline + ink[1]);
    maxY = Math.max(maxY, baseline + ink[3]);
    return { ...row, baseline };
  });
  const middleX = (minX + maxX) / 2;
  const middleY = (minY + maxY) / 2;
  return {
    halfWidth: (maxX - minX) / 2,
    halfHeight: (maxY - minY) / 2,
    heightMm: Math.max(...rows.map((row) => row.heightMm)),
    draw: (x, y, turnDeg) =>
      set.map((row) => {
        const [xMm, yMm] = turnedBy(x, y, -middleX, row.baseline - middleY, turnDeg);
        return lettered(row.text, { ...row, xMm, yMm, turnDeg, align: 'middle' });
      }),
  };
}

/** An arrow with a word above it, as long as the word. `ahead`: it points the way the word is read, else against it. */
export function arrowBlock(word: string, heightMm: number, ahead: boolean): LabelBlock {
  const head = heightMm * 0.6;
  const halfWidth = Math.max(textWidth(word, heightMm) / 2, 2.5 * heightMm) + head / 2;
  const ink = inkBox(word, heightMm);
  const total = ink[3] - ink[1] + 0.4 * heightMm + 2 * head;
  const halfHeight = total / 2;
  const tip = ahead ? halfWidth : -halfWidth;
  const back = ahead ? -1 : 1;
  const shaft = halfHeight - head;
  return {
    halfWidth,
    halfHeight,
    heightMm,
    draw(x, y, turnDeg) {
      const at = (u: number, v: number) => turnedBy(x, y, u, v, turnDeg);
      const [xMm, yMm] = at(0, -halfHeight - ink[1]);
      const arrow: Mark = {
        pen: letteringPen(heightMm),
        title: `arrow to ${word}`,
        lines: [
          openLine(...at(-tip, shaft), ...at(tip, shaft)),
          openLine(
            ...at(tip + back * 1.6 * head, shaft - head),
            ...at(tip, shaft),
            ...at(tip + back * 1.6 * head, shaft + head),
          ),
        ],
      };
      return [arrow, lettered(word, { heightMm, xMm, yMm, turnDeg, align: 'middle' })];
    },
  };
}

/** The point (u, v) of a box that stands at (x, y), turned counter-clockwise as seen on the page. */
function turnedBy(x: number, y: number, u: number, v: number, turnDeg: number): [number, number] {
  const { cos, sin } = turn(turnDeg);
  return [x + u * cos + v * sin, y - u * sin + v * cos];
}
