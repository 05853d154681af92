/**
 * Path data as it is drawn. Written here and not taken from svgpath 2.6: a run of 100,000 points after one letter takes it
 * 3.4 s and a million minutes, and its arcs come from `Math.sin`. The tests hold the two against each other.
 */
import type { Flattener } from '../../geometry/flatten.ts';

/** Numbers that each command takes. */
const TAKES: Readonly<Record<string, number>> = { M: 2, L: 2, H: 1, V: 1, C: 6, S: 4, Q: 4, T: 2, A: 7, Z: 0 };
const COMMAND = /[MmLlHhVvCcSsQqTtAaZz]/y;
const NUMBER = /[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?/y;
const FLAG = /[01]/y;
const APART = /[\s,]*/y;

/** Where path data cannot be read on, counted in characters from 0. */
export interface PathFault {
  readonly at: number;
  readonly wanted: string;
}

/** Draw path data (SVG 2, 9.3). Gives the place where it breaks off; null when it is whole. */
export function drawPath(data: string, pen: Flattener): PathFault | null {
  let at = 0;
  const token = (pattern: RegExp): string | null => {
    APART.lastIndex = at;
    APART.test(data);
    pattern.lastIndex = at = APART.lastIndex;
    const found = pattern.exec(data);
    if (found === null) return null;
    at = pattern.lastIndex;
    return found[0];
  };
  // The last control point, for curves that go on smoothly, and of which kind.
  let [controlX, controlY, controlOf] = [0, 0, ''];
  let letter = '';
  const taken: number[] = [];
  for (let isFirst = true; !pen.isFull; isFirst = false) {
    const written = token(COMMAND);
    if (written !== null) letter = written;
    else if (at >= data.length) break;
    else if (isFirst || letter === '' || TAKES[letter.toUpperCase()] === 0) return { at, wanted: 'a letter' };
    if (isFirst && letter.toUpperCase() !== 'M') return { at: 0, wanted: 'M' };

    const command = letter.toUpperCase();
    taken.length = 0;
    for (let i = 0; i < TAKES[command]; i++) {
      const isFlag = command === 'A' && (i === 3 || i === 4);
      const value = token(isFlag ? FLAG : NUMBER);
      if (value === null) return { at, wanted: isFlag ? '0 or 1' : 'a number' };
      taken.push(Number(value));
    }
    const isRelative = letter !== command;
    const [left, low] = isRelative ? [pen.x, pen.y] : [0, 0];
    const [p, q, r, s, t, u, v] = taken;
    const smoothX = controlOf === command ? 2 * pen.x - controlX : pen.x;
    const smoothY = controlOf === command ? 2 * pen.y - controlY : pen.y;
    controlOf = '';
    switch (command) {
      case 'M':
        pen.moveTo(left + p, low + q);
        // More points after a move are lines.
        letter = isRelative ? 'l' : 'L';
        break;
      case 'L':
        pen.lineTo(left + p, low + q);
        break;
      case 'H':
        pen.lineTo(left + p, pen.y);
        break;
      case 'V':
        pen.lineTo(pen.x, low + p);
        break;
      case 'C':
        [controlX, controlY, controlOf] = [left + r, low + s, 'S'];
        pen.cubicTo(left + p, low + q, controlX, controlY, left + t, low + u);
        break;
      case 'S':
        [controlX, controlY, controlOf] = [left + p, low + q, 'S'];
        pen.cubicTo(smoothX, smoothY, controlX, controlY, left + r, low + s);
        break;
      case 'Q':
        [controlX, controlY, controlOf] = [left + p, low + q, 'T'];
        pen.quadraticTo(controlX, controlY, left + r, low + s);
        break;
      case 'T':
        [controlX, controlY, controlOf] = [smoothX, smoothY, 'T'];
        pen.quadraticTo(smoothX, smoothY, left + p, low + q);
        break;
      case 'A':
        pen.arcTo(p, q, r, s === 1, t === 1, left + u, low + v);
        break;
      default:
        pen.close();
    }
  }
  pen.end();
  return null;
}
