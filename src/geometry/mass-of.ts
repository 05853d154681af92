import type { Surface } from './sections.ts';

/** Volume within a closed surface and its middle: that of the mass where it is even. The first vertex, for no volume. O(triangles). */
export function massOf({ positions: p, triangles }: Surface): {
  readonly volume: number;
  readonly middle: readonly [x: number, y: number, z: number];
} {
  // Measured from a vertex: far from the origin the sums would lose their digits.
  const [x0, y0, z0] = [p[0], p[1], p[2]];
  let six = 0;
  const moments = [0, 0, 0];
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t], 3 * triangles[t + 1], 3 * triangles[t + 2]];
    const [ax, ay, az] = [p[a] - x0, p[a + 1] - y0, p[a + 2] - z0];
    const [bx, by, bz] = [p[b] - x0, p[b + 1] - y0, p[b + 2] - z0];
    const [cx, cy, cz] = [p[c] - x0, p[c + 1] - y0, p[c + 2] - z0];
    // Six times the tetrahedron with that vertex; its middle is a quarter of the sum of its corners.
    const each = ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx);
    six += each;
    moments[0] += each * (ax + bx + cx);
    moments[1] += each * (ay + by + cy);
    moments[2] += each * (az + bz + cz);
  }
  const [x, y, z] = moments.map((moment) => (six === 0 ? 0 : moment / (4 * six)));
  return { volume: six / 6, middle: [x0 + x, y0 + y, z0 + z] };
}
