import { stream } from '../../src/geometry/random.ts';
import { type Heightfield, heightfield, type Solid } from '../../src/model/landform.ts';

/** Lopsided ground, 9 × 7 posts, 20 by 35 mm apart, 30 to 230 mm high, the same for one seed. */
export function roughGround(seed: number, columns = 9, rows = 7): Heightfield {
  const random = stream(seed, 'ground');
  return heightfield(
    columns,
    rows,
    20,
    35,
    Float64Array.from({ length: columns * rows }, () => 30 + 200 * random()),
  );
}

/** Ground that is a plane: 40 mm in the south-west, rising 3 mm a column and falling 1.5 mm a row. */
export const planeGround = (columns: number, rows: number): Heightfield =>
  heightfield(
    columns,
    rows,
    20,
    35,
    Float64Array.from({ length: columns * rows }, (_, i) => 40 + 3 * (i % columns) - 1.5 * Math.floor(i / columns)),
  );

/** A closed wedge, 40 × 25 mm, rising from 0 in the west to 30 mm in the east. */
export const wedge = (): Solid => ({
  kind: 'solid',
  positionsMm: Float64Array.from([0, 0, 0, 40, 0, 0, 40, 25, 0, 0, 25, 0, 40, 0, 30, 40, 25, 30]),
  triangles: Uint32Array.from([0, 2, 1, 0, 3, 2, 0, 1, 4, 3, 5, 2, 1, 2, 5, 1, 5, 4, 0, 4, 5, 0, 5, 3]),
  footprint: null,
});
