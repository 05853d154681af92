import type { Surface } from '../../geometry/sections.ts';

/** A connected piece of a closed surface. */
interface Shell {
  /** Positive when its outside is out; a cavity has less than 0. */
  volume: number;
  /** Its highest vertex. */
  top: number;
  /** Least and largest x, y, z. */
  readonly box: Float64Array;
}

/** More shells than this with their outside in are cavities of some foam or sponge, and are left as they are. */
const MOST_CHECKED = 200;

/** More bodies than this are not held against each other two by two. */
const MOST_BODIES = 300;

export interface Outward {
  readonly triangles: Uint32Array;
  /** How many shells were turned. */
  readonly turned: number;
  readonly shells: number;
  /** What is enclosed; where bodies overlap it counts twice. */
  readonly volume: number;
  /** Whether the boxes of the bodies (shells that are no cavities) are known to lie apart from each other. */
  readonly areApart: boolean;
}

/**
 * Turn shells whose inside is out: those of negative volume that no other shell holds, which is what makes a cavity.
 * @param shellOf the number of the shell of each triangle.
 */
export function outwardTriangles({ positions, triangles }: Surface, shellOf: Uint32Array): Outward {
  const shells = new Map<number, Shell>();
  let id = -1;
  let shell: Shell = { volume: 0, top: 0, box: new Float64Array() };
  for (let i = 0; i < triangles.length; i += 3) {
    if (shellOf[i / 3] !== id) {
      id = shellOf[i / 3];
      const known = shells.get(id);
      shell = known ?? {
        volume: 0,
        top: triangles[i],
        box: Float64Array.of(1, 1, 1, -1, -1, -1).map((s) => s * Infinity),
      };
      if (!known) shells.set(id, shell);
    }
    shell.volume += volumeUnder(positions, triangles, i);
    for (let corner = 0; corner < 3; corner++) {
      const v = triangles[i + corner];
      if (positions[3 * v + 2] > positions[3 * shell.top + 2]) shell.top = v;
      for (let axis = 0; axis < 3; axis++) {
        const value = positions[3 * v + axis];
        if (value < shell.box[axis]) shell.box[axis] = value;
        if (value > shell.box[axis + 3]) shell.box[axis + 3] = value;
      }
    }
  }
  let volume = 0;
  const wrong = new Set<number>();
  const bodies: Float64Array[] = [];
  let checked = 0;
  for (const [own, { volume: enclosed, top, box }] of shells) {
    const isIn = enclosed < 0 && checked++ < MOST_CHECKED && !isHeld({ positions, triangles }, shellOf, own, top);
    if (isIn) wrong.add(own);
    if (isIn || enclosed >= 0) bodies.push(box);
    volume += isIn ? -enclosed : enclosed;
  }
  const result = wrong.size > 0 ? triangles.slice() : triangles;
  for (let i = 0; wrong.size > 0 && i < result.length; i += 3) {
    if (!wrong.has(shellOf[i / 3])) continue;
    result[i + 1] = triangles[i + 2];
    result[i + 2] = triangles[i + 1];
  }
  return { triangles: result, turned: wrong.size, shells: shells.size, volume, areApart: lieApart(bodies) };
}

function lieApart(boxes: readonly Float64Array[]): boolean {
  if (boxes.length > MOST_BODIES) return false;
  return boxes.every((a, i) =>
    boxes.slice(i + 1).every((b) => [0, 1, 2].some((axis) => a[axis] > b[axis + 3] || b[axis] > a[axis + 3])),
  );
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
function isHeld({ positions, triangles }: Surface, shellOf: Uint32Array, own: number, vertex: number): boolean {
  const x = positions[3 * vertex];
  const y = positions[3 * vertex + 1];
  const z = positions[3 * vertex + 2];
  let winding = 0;
  for (let i = 0; i < triangles.length; i += 3) {
    if (shellOf[i / 3] === own) continue;
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
