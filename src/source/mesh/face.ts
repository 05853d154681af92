import { ears } from '../../geometry/ears.ts';

/**
 * Add a face of three corners or more to a list of triangles. One that is bent inward is divided so that its triangles
 * do not fold over each other. `points` is flat x, y, z …; a fan is made when some of them are not known yet.
 */
export function addFace(face: readonly number[], points: ArrayLike<number>, triangles: number[]): void {
  if (face.length === 3) {
    triangles.push(face[0], face[1], face[2]);
    return;
  }
  // Laid flat along the axis that its normal (Newell's sum) runs most along.
  const normal = [0, 0, 0];
  face.forEach((v, i) => {
    const w = face[(i + 1) % face.length];
    for (let axis = 0; axis < 3; axis++) {
      const [p, q] = [(axis + 1) % 3, (axis + 2) % 3];
      normal[axis] += (points[3 * v + p] - points[3 * w + p]) * (points[3 * v + q] + points[3 * w + q]);
    }
  });
  const sizes = normal.map(Math.abs);
  const along = Math.max(0, sizes.indexOf(Math.max(...sizes)));
  const flat = face.flatMap((v) => [points[3 * v + ((along + 1) % 3)], points[3 * v + ((along + 2) % 3)]]);
  for (const corner of ears(flat)) triangles.push(face[corner]);
}
