import { type Affine, after, STILL } from '../../geometry/affine.ts';
import { turn } from '../../geometry/exact-math.ts';

const STEP = /\s*([a-zA-Z]+)\s*\(([^()]*)\)[\s,]*/y;
const NUMBER = /[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?/g;

/** A `transform` attribute (SVG 1.1, 7.6) as one map; null when it cannot be read. */
export function transformOf(written: string): Affine | null {
  if (written.trim() === '' || written.trim() === 'none') return STILL;
  let map = STILL;
  for (STEP.lastIndex = 0; STEP.lastIndex < written.length; ) {
    const step = STEP.exec(written);
    if (step === null || !areNumbers(step[2])) return null;
    const inner = stepOf(step[1], (step[2].match(NUMBER) ?? []).map(Number));
    if (inner === null || !inner.every(Number.isFinite)) return null;
    map = after(map, inner);
  }
  return map;
}

function stepOf(name: string, numbers: readonly number[]): Affine | null {
  const [p, q, r] = numbers;
  const many = numbers.length;
  if (name === 'matrix' && many === 6) return numbers as unknown as Affine;
  if (name === 'translate' && many <= 2) return [1, 0, 0, 1, p, q ?? 0];
  if (name === 'scale' && many <= 2) return [p, 0, 0, q ?? p, 0, 0];
  if (name === 'rotate' && (many === 1 || many === 3)) return turned(p, q ?? 0, r ?? 0);
  if (name === 'skewX' && many === 1) return [1, 0, tangent(p), 1, 0, 0];
  if (name === 'skewY' && many === 1) return [1, tangent(p), 0, 1, 0, 0];
  return null;
}

/** A turn about (x, y). Its sense is the plane's own: with y down it is clockwise. */
function turned(turnDeg: number, x: number, y: number): Affine {
  const { cos, sin } = turn(turnDeg);
  return after(after([1, 0, 0, 1, x, y], [cos, sin, -sin, cos, 0, 0]), [1, 0, 0, 1, -x, -y]);
}

function tangent(deg: number): number {
  const { cos, sin } = turn(deg);
  return sin / cos;
}

/** Whether a text holds numbers and what parts them, and nothing else. */
const areNumbers = (text: string): boolean => /^[\s,]*$/.test(text.replace(NUMBER, ''));
