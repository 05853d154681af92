import { arrange } from '../../src/geometry/arrange.ts';
import { contours } from '../../src/geometry/contour.ts';
import { stream } from '../../src/geometry/random.ts';
import { isInside, type Region, type Ring, ringsOf } from '../../src/geometry/ring.ts';
import { toWhole } from '../../src/geometry/whole.ts';

/** Outlines of one random hilly ground at rising levels, each inside the one before, in whole units. The last may be empty. */
export function nestedRegions(seed: number, levels: readonly number[], step = 7.3): Region[][] {
  const next = stream(seed, 'nested');
  const [columns, rows] = [17, 13];
  const [cx, cy] = [4 + 9 * next(), 3 + 7 * next()];
  const rough = seed % 3 === 0 ? 40 : 6;
  const values = Float64Array.from({ length: columns * rows }, (_, i) => {
    const dx = (i % columns) - cx;
    const dy = Math.floor(i / columns) - cy;
    // A cliff in the west of some, so that outlines lie close together and along the border.
    const cliff = seed % 2 === 0 && i % columns > 3 ? 60 : 0;
    return 90 - 1.7 * (dx * dx + 1.4 * dy * dy) + cliff + rough * next();
  });
  const at = contours({ columns, rows, stepX: step, stepY: 1.31 * step, originX: 0, originY: 0, values });
  return levels.map((level) => arrange(toWhole(at(level, 'above'))));
}

type Edge = readonly [ax: number, ay: number, bx: number, by: number];

const edgesOf = (rings: readonly Ring[]): Edge[] =>
  rings.flatMap((ring) =>
    Array.from({ length: ring.length / 2 }, (_, i): Edge => {
      const j = (2 * i + 2) % ring.length;
      return [ring[2 * i], ring[2 * i + 1], ring[j], ring[j + 1]];
    }),
  );

const side = ([ax, ay, bx, by]: Edge, x: number, y: number): number =>
  Math.sign((bx - ax) * (y - ay) - (by - ay) * (x - ax));

const isOn = (edge: Edge, x: number, y: number): boolean =>
  side(edge, x, y) === 0 &&
  Math.min(edge[0], edge[2]) <= x &&
  x <= Math.max(edge[0], edge[2]) &&
  Math.min(edge[1], edge[3]) <= y &&
  y <= Math.max(edge[1], edge[3]);

const cross = (e: Edge, f: Edge): boolean =>
  side(e, f[0], f[1]) * side(e, f[2], f[3]) < 0 && side(f, e[0], e[1]) * side(f, e[2], e[3]) < 0;

/** Two edges of the rings that cross or run along each other; null when they only touch. By brute force, as slow as plain. */
export function crossingIn(rings: readonly Ring[]): string | null {
  const edges = edgesOf(rings);
  for (const [i, e] of edges.entries()) {
    for (const f of edges.slice(i + 1)) {
      const met = [
        [e[0], e[1]],
        [e[2], e[3]],
        [f[0], f[1]],
        [f[2], f[3]],
      ].filter(([x, y]) => isOn(e, x, y) && isOn(f, x, y));
      if (cross(e, f) || new Set(met.map(String)).size > 1) return `${e.join(' ')} meets ${f.join(' ')}`;
    }
  }
  return null;
}

/**
 * Where one area sticks out of another; null when it lies in it, edges and corners included. Exact for whole numbers:
 * no edge crosses, and between the places where outlines touch the middle of every edge is inside or on an edge.
 */
export function sticksOut(inner: readonly Region[], outer: readonly Region[]): string | null {
  const edges = edgesOf(ringsOf(outer));
  for (const edge of edgesOf(ringsOf(inner))) {
    const [ax, ay, bx, by] = edge;
    if (edges.some((other) => cross(edge, other))) return `${edge.join(' ')} crosses`;
    const along = ([x, y]: readonly number[]) => (x - ax) * (bx - ax) + (y - ay) * (by - ay);
    const stops = [[ax, ay], [bx, by], ...edges.map(([x, y]) => [x, y]).filter(([x, y]) => isOn(edge, x, y))];
    stops.sort((a, b) => along(a) - along(b));
    for (let i = 1; i < stops.length; i++) {
      const x = (stops[i - 1][0] + stops[i][0]) / 2;
      const y = (stops[i - 1][1] + stops[i][1]) / 2;
      if (!edges.some((other) => isOn(other, x, y)) && !isInside(x, y, outer)) return `${x} ${y} lies out`;
    }
  }
  return null;
}
