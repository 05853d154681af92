import { turn } from '../../geometry/exact-math.ts';
import type { Line, Mark } from '../page.ts';
import type { Pen } from '../pen.ts';
import { literal } from './stroke-face.ts';

/** Coordinates are whole micrometres, the grid that plans lie on. A board is written once, so that the digits cost little. */
export const UNITS_IN_MM = 1000;

export const units = (valueMm: number): number => Math.round(valueMm * UNITS_IN_MM);

/**
 * Marks as operators of a content stream (ISO 32000-2, 8.5 and 9.4), one string: a call of the writer for each number would take
 * most of the time. Lettering is text in the face of single strokes, known as /L: a tenth of the bytes of its strokes, and
 * a reader can search it.
 */
export function operatorsOf(marks: readonly Mark[]): string {
  const operators: string[] = [];
  let last: Pen | undefined;
  for (const { pen, lines, text } of marks) {
    const stroked = text ? (text.underlined ? lines.slice(0, 1) : []) : lines;
    if (stroked.length > 0) {
      if (pen.widthMm !== last?.widthMm || pen.dashMm.join() !== last.dashMm.join()) {
        operators.push(`${units(pen.widthMm)} w`, `[${pen.dashMm.map(units).join(' ')}] 0 d`);
        last = pen;
      }
      for (const line of stroked) addPath(operators, line);
      operators.push('S');
    }
    if (text) {
      const { cos, sin } = turn(text.turnDeg);
      const [c, s] = [decimal(cos), decimal(-sin)];
      const matrix = `${c} ${s} ${s} ${decimal(-cos)} ${units(text.xMm)} ${units(text.yMm)}`;
      operators.push(`BT /L ${units(text.heightMm)} Tf ${matrix} Tm ${literal(text.text)} Tj ET`);
    }
  }
  return operators.join('\n');
}

function addPath(operators: string[], { points, closed }: Line) {
  operators.push(`${units(points[0])} ${units(points[1])} m`);
  for (let i = 2; i < points.length; i += 2) operators.push(`${units(points[i])} ${units(points[i + 1])} l`);
  if (closed) operators.push('h');
}

/** Never an exponent, never −0. */
export const decimal = (value: number): string => {
  const text = value.toFixed(12).replace(/\.?0+$/, '');
  return text === '-0' ? '0' : text;
};
