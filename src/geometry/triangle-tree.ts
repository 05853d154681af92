import type { Surface } from './sections.ts';

/** Asks many questions of one surface. */
export interface TriangleTree {
  /** The distance from a point to the nearest place of the surface. */
  distance(x: number, y: number, z: number): number;
}

/**
 * A tree of boxes over the triangles of a surface, open or closed (three-mesh-bvh, in 32-bit numbers: within 20 m right to a
 * thousandth of a millimetre). The libraries are loaded when they are first wanted. O(triangles) to build, about
 * O(log triangles) a question.
 */
export async function triangleTree({ positions, triangles }: Surface): Promise<TriangleTree> {
  const { BufferAttribute, BufferGeometry, Vector3 } = await import('three');
  const { MeshBVH } = await import('three-mesh-bvh');
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(Float32Array.from(positions), 3));
  // A copy: the tree may put the triangles in another order.
  geometry.setIndex(new BufferAttribute(triangles.slice(), 1));
  const tree = new MeshBVH(geometry, { indirect: false, verbose: false });
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
