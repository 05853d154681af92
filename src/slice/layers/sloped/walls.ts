import { ringsOf } from '../../../geometry/ring.ts';
import type { Walls } from '../../../geometry/stations.ts';
import { CLIP_UNITS, SNAP } from '../../../geometry/tolerance.ts';
import { toWhole } from '../../../geometry/whole.ts';
import { heightOf } from '../../../model/ground-height.ts';
import type { Landform, Solid } from '../../../model/landform.ts';
import type { Layer } from '../../../model/layer.ts';

/**
 * Where the ground stands upright in a layer: round its footprint, save where it goes down to the layer's bottom there, and
 * along the upright faces of a solid. Such an edge is a wall, although the outline at the top has left it further on.
 */
export function wallsOf(landform: Landform): (layer: Layer) => Walls {
  const rim = toWhole(ringsOf(landform.footprint ?? []));
  if (landform.kind === 'heightfield') {
    return ({ bottomMm }) => ({
      rings: rim,
      stands: (x, y) => heightOf(landform, x * SNAP, y * SNAP) > bottomMm + SNAP,
    });
  }
  const { positionsMm: p } = landform;
  const upright = uprightFaces(landform);
  return (layer) => {
    const faces = upright.filter(
      (face) =>
        Math.max(...face.map((at) => p[at + 2])) > layer.bottomMm &&
        Math.min(...face.map((at) => p[at + 2])) < layer.bottomMm + layer.thicknessMm,
    );
    const sides = faces.flatMap(([a, b, c]) => [
      [a, b],
      [b, c],
      [c, a],
    ]);
    const segments = sides
      .filter(([a, b]) => p[a] !== p[b] || p[a + 1] !== p[b + 1])
      .map(([a, b]) => Float64Array.of(p[a], p[a + 1], p[b], p[b + 1]).map((mm) => Math.round(mm * CLIP_UNITS)));
    return { rings: [...rim, ...segments], stands: () => true };
  };
}

/** The triangles of a solid that seen from above are lines, as places in its positions. */
function uprightFaces({ positionsMm: p, triangles }: Solid): [number, number, number][] {
  const faces: [number, number, number][] = [];
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t], 3 * triangles[t + 1], 3 * triangles[t + 2]];
    if ((p[b] - p[a]) * (p[c + 1] - p[a + 1]) === (p[b + 1] - p[a + 1]) * (p[c] - p[a])) faces.push([a, b, c]);
  }
  return faces;
}
