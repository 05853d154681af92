import type { GltfContent, GltfNode } from './gltf-file.ts';
import { refuseDamaged } from './soup.ts';

/** A movement in space: 3 rows of 4; the last number of a row is the way along its axis. */
export type Placing = Float64Array;

/** y up, z to the front becomes z up, with the front to the south: (x, y, z) → (x, −z, y). */
const UPRIGHT: Placing = Float64Array.of(1, 0, 0, 0, 0, 0, -1, 0, 0, 1, 0, 0);

/**
 * Where each mesh of the scene stands, z up, in doubles. The scene is the one that the file names, else the first, else all
 * nodes; a file without nodes shows its meshes as they are. A node may hang in one place only.
 */
export function placedMeshes(
  { nodes, scenes, scene, meshes }: GltfContent,
  file: string,
): { mesh: number; placing: Placing }[] {
  if (nodes.length === 0) return meshes.map((_, mesh) => ({ mesh, placing: UPRIGHT }));
  if (scene !== undefined && scene >= scenes.length) refuseDamaged(file, `it has no scene ${scene}`);
  const children = new Set(nodes.flatMap((node) => node.children));
  const roots = scenes[scene ?? 0]?.nodes ?? nodes.map((_, i) => i).filter((i) => !children.has(i));
  const placed: { mesh: number; placing: Placing }[] = [];
  const isMet = new Uint8Array(nodes.length);
  const waiting = roots.map((node) => ({ node, under: UPRIGHT }));
  for (let step = waiting.pop(); step; step = waiting.pop()) {
    const node = nodes[step.node];
    if (!node) return refuseDamaged(file, `it has no node ${step.node}`);
    if (isMet[step.node] === 1) refuseDamaged(file, `node ${step.node} hangs in two places, or in itself`);
    isMet[step.node] = 1;
    const placing = composed(step.under, placingOf(node, step.node, file));
    if (node.mesh !== undefined) placed.push({ mesh: node.mesh, placing });
    for (const child of node.children) waiting.push({ node: child, under: placing });
  }
  return placed;
}

/** Whether a placing shows things as in a mirror: faces then run the other way round. */
export function isMirrored(m: Placing): boolean {
  const x = m[5] * m[10] - m[6] * m[9];
  const y = m[6] * m[8] - m[4] * m[10];
  const z = m[4] * m[9] - m[5] * m[8];
  return m[0] * x + m[1] * y + m[2] * z < 0;
}

/** By how much at most a placing lengthens. */
export function stretchOf(m: Placing): number {
  let most = 0;
  for (let row = 0; row < 12; row += 4) {
    most = Math.max(most, Math.abs(m[row]) + Math.abs(m[row + 1]) + Math.abs(m[row + 2]));
  }
  return most;
}

function placingOf({ matrix, translation, rotation, scale }: GltfNode, index: number, file: string): Placing {
  // Column by column in the file.
  if (matrix) return Float64Array.from({ length: 12 }, (_, i) => matrix[4 * (i % 4) + Math.floor(i / 4)]);
  const [tx, ty, tz] = translation ?? [0, 0, 0];
  const [sx, sy, sz] = scale ?? [1, 1, 1];
  const turn = rotation ?? [0, 0, 0, 1];
  const length = Math.sqrt(turn.reduce((sum, value) => sum + value * value, 0));
  if (!(length > 0)) refuseDamaged(file, `node ${index} has a rotation that is none`);
  const [x, y, z, w] = turn.map((value) => value / length);
  return Float64Array.of(
    (1 - 2 * (y * y + z * z)) * sx,
    2 * (x * y - z * w) * sy,
    2 * (x * z + y * w) * sz,
    tx,
    2 * (x * y + z * w) * sx,
    (1 - 2 * (x * x + z * z)) * sy,
    2 * (y * z - x * w) * sz,
    ty,
    2 * (x * z - y * w) * sx,
    2 * (y * z + x * w) * sy,
    (1 - 2 * (x * x + y * y)) * sz,
    tz,
  );
}

/** First `inner`, then `outer`. */
function composed(outer: Placing, inner: Placing): Placing {
  const made = new Float64Array(12);
  for (let row = 0; row < 12; row += 4) {
    for (let column = 0; column < 4; column++) {
      let sum = column === 3 ? outer[row + 3] : 0;
      for (let k = 0; k < 3; k++) sum += outer[row + k] * inner[4 * k + column];
      made[row + column] = sum;
    }
  }
  return made;
}
