import Flatbush from 'flatbush';
import { squaredDistanceToSegment } from './ring.ts';
import { segmentsMeet } from './whole.ts';

/** A stretch of a line found near a place. */
export interface Near {
  /** Number of the line. */
  readonly line: number;
  readonly distance: number;
}

/** Where two lines meet. */
export interface Meet {
  readonly lines: readonly [number, number];
  readonly x: number;
  readonly y: number;
}

/** Flatbush knows its kinds of arrays by identity: the engine's own, whatever stands in its place when a tree is made. */
const DOUBLES = Float64Array;

/** So many stretches are compared with each other; lines that only a scribble could need more for are let be. */
const MOST_LOOKED = 100_000_000;

/** Finds which of some open or closed lines (flat x, y) pass near a place, and where they meet each other. */
export class SegmentIndex {
  readonly #lines: readonly Float64Array[];
  readonly #tree: Flatbush | null;
  readonly #lineOf: Int32Array;
  /** Place of a segment's first x in its line. */
  readonly #atOf: Int32Array;

  constructor(lines: readonly Float64Array[]) {
    const count = lines.reduce((sum, line) => sum + Math.max(0, line.length / 2 - 1), 0);
    this.#lines = lines;
    this.#tree = count > 0 ? new Flatbush(count, undefined, DOUBLES) : null;
    this.#lineOf = new Int32Array(count);
    this.#atOf = new Int32Array(count);
    for (let k = 0, segment = 0; k < lines.length; k++) {
      const line = lines[k];
      for (let i = 0; i + 3 < line.length; i += 2, segment++) {
        this.#lineOf[segment] = k;
        this.#atOf[segment] = i;
        const [ax, ay, bx, by] = [line[i], line[i + 1], line[i + 2], line[i + 3]];
        this.#tree?.add(Math.min(ax, bx), Math.min(ay, by), Math.max(ax, bx), Math.max(ay, by));
      }
    }
    this.#tree?.finish();
  }

  /** The lines that pass within a distance of a place, each once, at its nearest; in order of their numbers. */
  near(x: number, y: number, reach: number): Near[] {
    const nearest = new Map<number, number>();
    for (const segment of this.#tree?.search(x - reach, y - reach, x + reach, y + reach) ?? []) {
      const line = this.#lineOf[segment];
      const [points, i] = [this.#lines[line], this.#atOf[segment]];
      const squared = squaredDistanceToSegment(x, y, points[i], points[i + 1], points[i + 2], points[i + 3]);
      if (squared <= reach * reach && squared < (nearest.get(line) ?? Infinity)) nearest.set(line, squared);
    }
    return [...nearest].sort(([a], [b]) => a - b).map(([line, squared]) => ({ line, distance: Math.sqrt(squared) }));
  }

  /** How far the nearest line of those that count is from a place; Infinity when none is within reach. */
  distance(x: number, y: number, reach: number, counts: (line: number) => boolean = () => true): number {
    return this.near(x, y, reach).reduce(
      (least, { line, distance }) => (counts(line) ? Math.min(least, distance) : least),
      Infinity,
    );
  }

  /**
   * One place for each pair of lines that meet, ends included, of the pairs that count; at most so many. Yields its progress.
   * O(segments × log) but for lines that lie on each other.
   */
  *meetings(counts: (a: number, b: number) => boolean, most: number): Generator<number, Meet[]> {
    const found: Meet[] = [];
    const met = new Set<number>();
    const lines = this.#lines;
    let looked = 0;
    for (let segment = 0; segment < this.#lineOf.length && looked < MOST_LOOKED; segment++) {
      if (segment % 1000 === 999) yield segment / this.#lineOf.length;
      const [a, i] = [this.#lineOf[segment], this.#atOf[segment]];
      const [px, py, qx, qy] = [lines[a][i], lines[a][i + 1], lines[a][i + 2], lines[a][i + 3]];
      const isAsked = (other: number) => {
        looked++;
        const b = this.#lineOf[other];
        return b > a && counts(a, b) && !met.has(a * lines.length + b);
      };
      const box = [Math.min(px, qx), Math.min(py, qy), Math.max(px, qx), Math.max(py, qy)] as const;
      for (const other of this.#tree?.search(...box, isAsked) ?? []) {
        const [b, j] = [this.#lineOf[other], this.#atOf[other]];
        const [rx, ry, sx, sy] = [lines[b][j], lines[b][j + 1], lines[b][j + 2], lines[b][j + 3]];
        if (met.has(a * lines.length + b) || !segmentsMeet(px, py, qx, qy, rx, ry, sx, sy)) continue;
        met.add(a * lines.length + b);
        const t = shareToLine(px, py, qx, qy, rx, ry, sx, sy);
        found.push({ lines: [a, b], x: px + t * (qx - px), y: py + t * (qy - py) });
        if (found.length >= most) return found;
      }
    }
    return found;
  }
}

/** How far along p–q, 0…1, it first has a point in common with r–s, which it meets. */
function shareToLine(
  px: number,
  py: number,
  qx: number,
  qy: number,
  rx: number,
  ry: number,
  sx: number,
  sy: number,
): number {
  const across = (qx - px) * (sy - ry) - (qy - py) * (sx - rx);
  if (across === 0) {
    const squared = (qx - px) * (qx - px) + (qy - py) * (qy - py);
    if (squared === 0) return 0;
    const along = (x: number, y: number) => ((x - px) * (qx - px) + (y - py) * (qy - py)) / squared;
    return Math.min(1, Math.max(0, Math.min(along(rx, ry), along(sx, sy))));
  }
  return Math.min(1, Math.max(0, ((rx - px) * (sy - ry) - (ry - py) * (sx - rx)) / across));
}
