import type { Surface } from './sections.ts';

/** Asks many questions of one surface. */
export interface TriangleTree {
  /** The distance from a point to the nearest place of the surface. */
  distance(x: number, y: number, z: number): number;
}

/**
 * A tree of boxes over the triangles of a surface, open or closed (three-mesh-bvh), and the surface's points in the 32-bit numbers
 * that it counts in. The libraries are loaded when they are first wanted. Triangles keep their order. O(triangles).
 */
export async function boxTree({ positions, triangles }: Surface) {
  const { BufferAttribute, BufferGeometry } = await import('three');
  const { MeshBVH } = await import('three-mesh-bvh');
  const points = Float32Array.from(positions);
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(points, 3));
  geometry.setIndex(new BufferAttribute(triangles, 1));
  // Not indirect, it would put the triangles in another order, in place.
  return { tree: new MeshBVH(geometry, { indirect: true, verbose: false }), points };
}

/** Make ready to ask for distances: within 20 m right to a thousandth of a millimetre. About O(log triangles) a question. */
export async function triangleTree(surface: Surface): Promise<TriangleTree> {
  const { tree } = await boxTree(surface);
  const { Vector3 } = await import('three');
  const from = new Vector3();
  return {
    distance(x, y, z) {
      from.x = x;
      from.y = y;
      from.z = z;
      return tree.closestPointToPoint(from)?.distance ?? Infinity;
    },
  };
}
