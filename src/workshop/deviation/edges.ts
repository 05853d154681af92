import { distanceToRings, ringsOf } from '../../geometry/ring.ts';
import { ringAt } from '../../geometry/ruled.ts';
import type { Surface } from '../../geometry/sections.ts';
import { triangleTree } from '../../geometry/triangle-tree.ts';
import { heightOf } from '../../model/ground-height.ts';
import type { Heightfield, Landform } from '../../model/landform.ts';
import type { Layer } from '../../model/layer.ts';
import type { Deviation } from '../../model/plan.ts';

/** Corners of edges that are measured; of more, every n-th. */
const MOST_CORNERS = 20_000;
/** Cells of a heightfield that the tree is built over; of more, every n-th post each way. */
const MOST_CELLS = 120_000;
/** What stands nearer to the footprint's rim than this is its wall, which is no step of the ground. */
const RIM_MM = 0.5;

/**
 * Find the corner of a layer's edge that is farthest from the ground's surface: the upper corner where foam stands out, the
 * lower where it stands back. For a slope θ and boards t thick that is t · cos θ (proud and shy) or half of it (middle).
 */
export async function farthestEdge(landform: Landform, layers: readonly Layer[]): Promise<Deviation['largestStep']> {
  const corners = layers.reduce(
    (sum, { regions }) => sum + ringsOf(regions).reduce((n, ring) => n + ring.length / 2, 0),
    0,
  );
  const stride = 2 * Math.max(1, Math.ceil(corners / MOST_CORNERS));
  const tree = await triangleTree(surfaceOf(landform));
  let farthest: Deviation['largestStep'] = null;
  for (const { number, bottomMm, thicknessMm, regions, slope } of layers) {
    const edges = slope
      ? slope.stations.map((stations) => [ringAt(stations, 0), ringAt(stations, 1)])
      : ringsOf(regions).map((ring) => [ring, ring]);
    for (const [lower, upper] of edges) {
      for (let i = 0; i < lower.length; i += stride) {
        for (const [ring, z] of [[lower, bottomMm] as const, [upper, bottomMm + thicknessMm] as const]) {
          const x = ring[i];
          const y = ring[i + 1];
          if (isInWall(landform, x, y, z)) continue;
          const mm = tree.distance(x, y, z);
          if (farthest === null || mm > farthest.mm) farthest = { mm, layer: number, atMm: [x, y] };
        }
      }
    }
  }
  return farthest;
}

/** Whether a point lies in the upright wall that a heightfield's rim stands on, or that a crop has left of a solid. */
function isInWall(landform: Landform, x: number, y: number, z: number): boolean {
  if (!landform.footprint || distanceToRings(x, y, ringsOf(landform.footprint)) > RIM_MM) return false;
  return landform.kind === 'solid' || z <= heightOf(landform, x, y);
}

function surfaceOf(landform: Landform): Surface {
  if (landform.kind === 'solid') return { positions: landform.positionsMm, triangles: landform.triangles };
  return posts(landform, Math.max(1, Math.ceil(Math.sqrt((landform.columns * landform.rows) / MOST_CELLS))));
}

/** The ground's triangles over every n-th post, four a cell; the last post of each line is always one of them. */
function posts({ columns, rows, stepXMm, stepYMm, originMm, heightsMm }: Heightfield, n: number): Surface {
  const along = (count: number) =>
    Array.from({ length: Math.ceil((count - 1) / n) + 1 }, (_, i) => Math.min(i * n, count - 1));
  const [across, up] = [along(columns), along(rows)];
  const [wide, high] = [across.length, up.length];
  const positions = new Float64Array(3 * (wide * high + (wide - 1) * (high - 1)));
  const triangles = new Uint32Array(12 * (wide - 1) * (high - 1));
  let at = 0;
  for (const row of up) {
    for (const column of across) {
      positions[at++] = originMm[0] + column * stepXMm;
      positions[at++] = originMm[1] + row * stepYMm;
      positions[at++] = heightsMm[row * columns + column];
    }
  }
  let to = 0;
  for (let j = 0; j + 1 < high; j++) {
    for (let i = 0; i + 1 < wide; i++) {
      const around = [j * wide + i, j * wide + i + 1, (j + 1) * wide + i + 1, (j + 1) * wide + i];
      const middle = at / 3;
      for (let axis = 0; axis < 3; axis++) {
        positions[at++] = around.reduce((sum, post) => sum + positions[3 * post + axis], 0) / 4;
      }
      for (let side = 0; side < 4; side++) {
        triangles[to++] = around[side];
        triangles[to++] = around[(side + 1) % 4];
        triangles[to++] = middle;
      }
    }
  }
  return { positions, triangles };
}
