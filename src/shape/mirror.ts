import { type Region, reversed } from '../geometry/ring.ts';
import { tidyMm } from '../model/ground.ts';
import { extent, type Heightfield, heightfield, isWhole, type Landform, type Solid } from '../model/landform.ts';
import { definePlugin } from '../plugin.ts';

/**
 * Mirror the ground in plan: two opposite sides change places. Exact: posts are renumbered, a solid keeps its inside inside.
 * Mirrored twice, it is what it was.
 */
export const mirror = definePlugin({
  api: 1,
  stage: 'shape',
  name: 'mirror',
  summary: 'mirrors the ground: west becomes east, or south north',
  options: ({ z }) =>
    z.strictObject({ sides: z.enum(['west-east', 'south-north']).describe('the two that change places') }),
  run(landform, { sides }) {
    const way = sides === 'west-east' ? 0 : 1;
    const farMm = extent(landform).box[2 + way];
    const footprint = landform.footprint?.map((region) => mirroredRegion(region, way, farMm));
    if (landform.kind === 'solid') return { ...mirroredSolid(landform, way, farMm), footprint: footprint ?? null };
    return mirroredField(landform, way, farMm, footprint ?? []);
  },
});

/** A mirrored ring runs the other way round: it is reversed, so that it keeps its sense. */
const mirroredRegion = (region: Region, way: number, farMm: number): Region =>
  region.map((ring) => reversed(ring.map((value, i) => (i % 2 === way ? tidyMm(farMm - value) : value))));

function mirroredField(field: Heightfield, way: number, farMm: number, footprint: readonly Region[]): Landform {
  const { columns, rows, stepXMm, stepYMm, originMm } = field;
  const heightsMm = field.heightsMm.slice();
  for (let row = 0; row < rows; row++) {
    const from = (way === 0 ? row : rows - 1 - row) * columns;
    const line = field.heightsMm.slice(from, from + columns);
    heightsMm.set(way === 0 ? line.reverse() : line, row * columns);
  }
  if (isWhole(field)) return heightfield(columns, rows, stepXMm, stepYMm, heightsMm);
  const lastMm = originMm[way] + ((way === 0 ? columns : rows) - 1) * (way === 0 ? stepXMm : stepYMm);
  const from = tidyMm(farMm - lastMm);
  return { ...field, heightsMm, originMm: way === 0 ? [from, originMm[1]] : [originMm[0], from], footprint };
}

/** Triangles run the other way round too, so that they still look outward. */
function mirroredSolid(solid: Solid, way: number, farMm: number): Solid {
  const triangles = solid.triangles.slice();
  for (let t = 0; t < triangles.length; t += 3) {
    triangles[t + 1] = solid.triangles[t + 2];
    triangles[t + 2] = solid.triangles[t + 1];
  }
  return {
    ...solid,
    triangles,
    positionsMm: solid.positionsMm.map((value, i) => (i % 3 === way ? farMm - value : value)),
  };
}
