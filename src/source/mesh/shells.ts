import type { Surface } from '../../geometry/sections.ts';

/** A connected piece of a closed surface. */
interface Shell {
  /** Positive when its outside is out; a cavity has less than 0. */
  volume: number;
  /** Its highest vertex. */
  top: number;
}

/** More shells than this with their outside in are cavities of some foam or sponge, and are left as they are. */
const MOST_CHECKED = 200;

/**
 * Turn shells whose inside is out: those of negative volume that no other shell holds, which is what makes a cavity.
 * @returns the triangles, how many shells were turned of how many, and the volume enclosed.
 */
export function outwardTriangles(surface: Surface): {
  triangles: Uint32Array;
  turned: number;
  shells: number;
  volume: number;
} {
  const { positions, triangles } = surface;
  const ids = connected(positions.length / 3, triangles);
  const shells = new Map<number, Shell>();
  for (let i = 0; i < triangles.length; i += 3) {
    let shell = shells.get(ids[triangles[i]]);
    if (!shell) shells.set(ids[triangles[i]], (shell = { volume: 0, top: triangles[i] }));
    shell.volume += volumeUnder(positions, triangles, i);
    for (let corner = 0; corner < 3; corner++) {
      if (positions[3 * triangles[i + corner] + 2] > positions[3 * shell.top + 2]) shell.top = triangles[i + corner];
    }
  }
  let volume = 0;
  const wrong = new Set<number>();
  let checked = 0;
  for (const [id, shell] of shells) {
    const isIn = shell.volume < 0 && checked++ < MOST_CHECKED && !isHeld(surface, ids, shell.top);
    if (isIn) wrong.add(id);
    volume += isIn ? -shell.volume : shell.volume;
  }
  const result = wrong.size > 0 ? triangles.slice() : triangles;
  for (let i = 0; wrong.size > 0 && i < result.length; i += 3) {
    if (!wrong.has(ids[triangles[i]])) continue;
    result[i + 1] = triangles[i + 2];
    result[i + 2] = triangles[i + 1];
  }
  return { triangles: result, turned: wrong.size, shells: shells.size, volume };
}

/** For each vertex the lowest vertex number that it is connected with. */
function connected(vertices: number, triangles: Uint32Array): Uint32Array {
  const parent = Uint32Array.from({ length: vertices }, (_, v) => v);
  const find = (v: number): number => {
    let root = v;
    while (parent[root] !== root) root = parent[root];
    for (let w = v; parent[w] !== root; ) [w, parent[w]] = [parent[w], root];
    return root;
  };
  for (let i = 0; i < triangles.length; i++) {
    const a = find(triangles[i]);
    const b = find(triangles[i % 3 === 2 ? i - 2 : i + 1]);
    if (a !== b) parent[a < b ? b : a] = a < b ? a : b;
  }
  for (let v = 0; v < vertices; v++) parent[v] = find(v);
  return parent;
}

/** Signed volume of the upright prism between a triangle and z = 0: over a closed surface they add up to its volume. */
function volumeUnder(positions: Float64Array, triangles: Uint32Array, i: number): number {
  const [a, b, c] = [3 * triangles[i], 3 * triangles[i + 1], 3 * triangles[i + 2]];
  const twice =
    (positions[b] - positions[a]) * (positions[c + 1] - positions[a + 1]) -
    (positions[c] - positions[a]) * (positions[b + 1] - positions[a + 1]);
  return (twice * (positions[a + 2] + positions[b + 2] + positions[c + 2])) / 6;
}

/**
 * Whether a vertex lies in the material of the other shells: how often, straight up from it, more faces look up than
 * down. Edges over the vertex fall to one side by their ends' x, so that none is counted twice or missed.
 */
function isHeld({ positions, triangles }: Surface, ids: Uint32Array, vertex: number): boolean {
  const x = positions[3 * vertex];
  const y = positions[3 * vertex + 1];
  const z = positions[3 * vertex + 2];
  let winding = 0;
  for (let i = 0; i < triangles.length; i += 3) {
    if (ids[triangles[i]] === ids[vertex]) continue;
    let around = 0;
    for (let corner = 0; corner < 3; corner++) {
      const p = 3 * triangles[i + corner];
      const q = 3 * triangles[i + ((corner + 1) % 3)];
      if (positions[p] > x === positions[q] > x) continue;
      const [l, r] = positions[p] < positions[q] ? [p, q] : [q, p];
      const t = (x - positions[l]) / (positions[r] - positions[l]);
      const isOver = positions[l + 1] + t * (positions[r + 1] - positions[l + 1]) > y;
      if (isOver) around += positions[q] > x ? -1 : 1;
    }
    if (around !== 0 && heightOver(positions, triangles, i, x, y) > z) winding += around;
  }
  return winding > 0;
}

/** Height of a triangle's plane over a point of the plan. */
function heightOver(positions: Float64Array, triangles: Uint32Array, i: number, x: number, y: number): number {
  const [a, b, c] = [3 * triangles[i], 3 * triangles[i + 1], 3 * triangles[i + 2]];
  const [ux, uy, uz] = [0, 1, 2].map((axis) => positions[b + axis] - positions[a + axis]);
  const [vx, vy, vz] = [0, 1, 2].map((axis) => positions[c + axis] - positions[a + axis]);
  const nz = ux * vy - uy * vx;
  const nx = uy * vz - uz * vy;
  const ny = uz * vx - ux * vz;
  return positions[a + 2] - (nx * (x - positions[a]) + ny * (y - positions[a + 1])) / nz;
}
