import type { Surface } from '../../geometry/sections.ts';
import { boxTree } from '../../geometry/triangle-tree.ts';

/** A line of crossing shorter than this is two faces that touch. */
const SHORTEST_CROSSING_MM = 0.05;
/** Pairs of near triangles that are looked at before giving up. */
const MOST_PAIRS = 400_000_000;

type Place = readonly [number, number, number];

/** Where triangles cut through each other, first met: those of one shell, and those of two. */
export interface Crossing {
  readonly within: Place | null;
  readonly between: Place | null;
  /** False when there were too many pairs to look at them all. */
  readonly isSure: boolean;
}

/**
 * Find where a surface crosses itself: two triangles without a common corner cut through each other. Bodies that are meant to
 * run into one another do so as well, so shells are told apart.
 * By a tree of boxes over the triangles (three-mesh-bvh), in 32-bit numbers.
 * @param shellOf the number of the shell of each triangle.
 */
export async function selfCrossing(surface: Surface, shellOf: Uint32Array): Promise<Crossing> {
  const { Line3, Matrix4 } = await import('three');
  const { ExtendedTriangle } = await import('three-mesh-bvh');
  const { triangles } = surface;
  const { tree, points } = await boxTree(surface);
  const boxes = boxesOf(points, triangles);
  const one = new ExtendedTriangle();
  const other = new ExtendedTriangle();
  const line = new Line3();
  let pairs = 0;
  let within: Place | null = null;
  let between: Place | null = null;

  const place = (triangle: InstanceType<typeof ExtendedTriangle>, number: number) => {
    triangle.a.fromArray(points, 3 * triangles[3 * number]);
    triangle.b.fromArray(points, 3 * triangles[3 * number + 1]);
    triangle.c.fromArray(points, 3 * triangles[3 * number + 2]);
    triangle.needsUpdate = true;
  };
  const intersectsRanges = (start: number, count: number, otherStart: number, otherCount: number) => {
    // Every pair of leaves is met both ways round.
    if (start > otherStart) return false;
    pairs += count * otherCount;
    if (pairs > MOST_PAIRS) return true;
    for (let i = start; i < start + count; i++) {
      const a = tree.resolveTriangleIndex(i);
      for (let j = start === otherStart ? i + 1 : otherStart; j < otherStart + otherCount; j++) {
        const b = tree.resolveTriangleIndex(j);
        if (!boxesMeet(boxes, a, b) || shareCorner(triangles, a, b)) continue;
        const isOneShell = shellOf[a] === shellOf[b];
        if (!isOneShell && between) continue;
        place(one, a);
        place(other, b);
        if (!one.intersectsTriangle(other, line, true)) continue;
        if (line.start.distanceTo(line.end) < SHORTEST_CROSSING_MM) continue;
        const at: Place = [line.start.x, line.start.y, line.start.z];
        if (isOneShell) {
          within = at;
          return true;
        }
        between = at;
      }
    }
    return false;
  };
  tree.bvhcast(tree, new Matrix4(), { intersectsRanges });
  return { within, between, isSure: within !== null || pairs <= MOST_PAIRS };
}

/** Least and largest x, y, z of each triangle. */
function boxesOf(points: Float32Array, triangles: Uint32Array): Float32Array {
  const boxes = new Float32Array(2 * triangles.length);
  for (let i = 0; i < triangles.length; i += 3) {
    for (let axis = 0; axis < 3; axis++) {
      const a = points[3 * triangles[i] + axis];
      const b = points[3 * triangles[i + 1] + axis];
      const c = points[3 * triangles[i + 2] + axis];
      boxes[2 * i + axis] = Math.min(a, b, c);
      boxes[2 * i + 3 + axis] = Math.max(a, b, c);
    }
  }
  return boxes;
}

function boxesMeet(boxes: Float32Array, a: number, b: number): boolean {
  const i = 6 * a;
  const j = 6 * b;
  return (
    boxes[i] <= boxes[j + 3] &&
    boxes[j] <= boxes[i + 3] &&
    boxes[i + 1] <= boxes[j + 4] &&
    boxes[j + 1] <= boxes[i + 4] &&
    boxes[i + 2] <= boxes[j + 5] &&
    boxes[j + 2] <= boxes[i + 5]
  );
}

function shareCorner(triangles: Uint32Array, a: number, b: number): boolean {
  for (let i = 3 * a; i < 3 * a + 3; i++) {
    const v = triangles[i];
    if (v === triangles[3 * b] || v === triangles[3 * b + 1] || v === triangles[3 * b + 2]) return true;
  }
  return false;
}
