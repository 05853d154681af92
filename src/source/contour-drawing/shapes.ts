import type { Flattener } from '../../geometry/flatten.ts';
import { drawPath } from './path.ts';
import type { Element } from './xml.ts';

/** Elements that are drawn as lines. */
export const SHAPES: ReadonlySet<string> = new Set([
  'path',
  'line',
  'polyline',
  'polygon',
  'rect',
  'circle',
  'ellipse',
]);

const LENGTH = /^\s*([+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d+)?)\s*(px|mm|cm|in|pt|pc|q)?\s*$/i;
/** User units in a length that names one (CSS Values 3, 5.2). */
const UNITS: Readonly<Record<string, number>> = {
  px: 1,
  mm: 96 / 25.4,
  cm: 960 / 25.4,
  q: 24 / 25.4,
  in: 96,
  pt: 96 / 72,
  pc: 16,
};

/** A length in user units; NaN for a share, which only the whole page could tell, and for what is no length. */
export function userLength(written: string | undefined): number {
  const match = LENGTH.exec(written ?? '');
  return match === null ? Number.NaN : Number(match[1]) * UNITS[(match[2] ?? 'px').toLowerCase()];
}

/** Draw a shape; gives what is wrong with it, or null. A shape of no size draws nothing, as the standard has it. */
export function drawShape({ name, attributes }: Element, pen: Flattener): string | null {
  const lengths = (...keys: string[]) => keys.map((key) => (attributes.has(key) ? userLength(attributes.get(key)) : 0));
  const unread = (...keys: string[]) => {
    const key = keys.find((each) => attributes.has(each) && !Number.isFinite(userLength(attributes.get(each))));
    return key === undefined ? null : `its ${key} is "${attributes.get(key)?.slice(0, 40)}", which is no length`;
  };
  switch (name) {
    case 'path': {
      const data = attributes.get('d') ?? '';
      const fault = /^\s*(none\s*)?$/.test(data) ? null : drawPath(data, pen);
      if (fault === null) return null;
      const found = data.slice(fault.at, fault.at + 12);
      const seen = found === '' ? 'the path ends' : `"${found}" stands`;
      return `where ${fault.wanted} should be, at character ${fault.at + 1} of its path, ${seen}`;
    }
    case 'line': {
      const [x1, y1, x2, y2] = lengths('x1', 'y1', 'x2', 'y2');
      pen.moveTo(x1, y1);
      pen.lineTo(x2, y2);
      pen.end();
      return unread('x1', 'y1', 'x2', 'y2');
    }
    case 'polyline':
    case 'polygon':
      return drawPoints(attributes.get('points') ?? '', name === 'polygon', pen);
    case 'rect':
      drawRect(pen, lengths('x', 'y', 'width', 'height'), attributes.get('rx'), attributes.get('ry'));
      return unread('x', 'y', 'width', 'height', 'rx', 'ry');
    case 'circle': {
      const [x, y, r] = lengths('cx', 'cy', 'r');
      drawEllipse(pen, x, y, r, r);
      return unread('cx', 'cy', 'r');
    }
    default: {
      const [x, y, rx, ry] = lengths('cx', 'cy', 'rx', 'ry');
      drawEllipse(pen, x, y, rx, ry);
      return unread('cx', 'cy', 'rx', 'ry');
    }
  }
}

function drawPoints(written: string, isClosed: boolean, pen: Flattener): string | null {
  const parts = (written.match(/[^\s,]+/g) ?? []).flatMap((part) => part.split(/(?<=\d)(?=-)/));
  const wrong = parts.findIndex((part) => !Number.isFinite(Number(part)));
  if (wrong >= 0) return `"${parts[wrong].slice(0, 20)}" is number ${wrong + 1} of its points`;
  for (let i = 0; i + 1 < parts.length; i += 2) {
    if (i === 0) pen.moveTo(Number(parts[0]), Number(parts[1]));
    else pen.lineTo(Number(parts[i]), Number(parts[i + 1]));
  }
  if (isClosed) pen.close();
  else pen.end();
  return parts.length % 2 === 0 ? null : 'its last point has no y';
}

function drawRect(pen: Flattener, [x, y, width, height]: readonly number[], rx?: string, ry?: string): void {
  if (!(width > 0 && height > 0)) return;
  // One radius stands for both; "auto" is none.
  const said = [userLength(rx), userLength(ry)];
  const radius = (i: 0 | 1) => (Number.isFinite(said[i]) ? said[i] : Number.isFinite(said[1 - i]) ? said[1 - i] : 0);
  const a = Math.min(Math.max(0, radius(0)), width / 2);
  const b = Math.min(Math.max(0, radius(1)), height / 2);
  const [right, bottom] = [x + width, y + height];
  pen.moveTo(x + a, y);
  pen.lineTo(right - a, y);
  pen.arcTo(a, b, 0, false, true, right, y + b);
  pen.lineTo(right, bottom - b);
  pen.arcTo(a, b, 0, false, true, right - a, bottom);
  pen.lineTo(x + a, bottom);
  pen.arcTo(a, b, 0, false, true, x, bottom - b);
  pen.lineTo(x, y + b);
  pen.arcTo(a, b, 0, false, true, x + a, y);
  pen.close();
}

function drawEllipse(pen: Flattener, x: number, y: number, rx: number, ry: number): void {
  if (!(rx > 0 && ry > 0)) return;
  pen.moveTo(x + rx, y);
  pen.arcTo(rx, ry, 0, false, true, x - rx, y);
  pen.arcTo(rx, ry, 0, false, true, x + rx, y);
  pen.close();
}
