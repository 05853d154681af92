/**
 * What the page computes: these functions are written into it as they stand, so each holds all that it needs and imports nothing.
 */

/** Where four taped crosses lie on a board, mm from its lower left corner, y up: A, B, C, D as x, y pairs. */
export interface Taped {
  readonly corners: readonly (readonly [number, number])[];
  /** By how much each measured distance differs from the corners', in the order that it was given. */
  readonly residualsMm: readonly number[];
}

/**
 * The corners that six tape measurements between four crosses fit best, AB, BC, CD, DA, AC, BD: one more than is needed, so that a
 * misreading shows. Least squares by Gauss and Newton from the triangles ABC and ABD; A, B, C, D run counter-clockwise. `a` is
 * A's distance from the left and the lower edge, `bUp` B's from the lower edge. Null when no such figure exists.
 */
export function tapedCorners(measured: readonly number[], a: readonly [number, number], bUp: number): Taped | null {
  const pairs = [
    [0, 1],
    [1, 2],
    [2, 3],
    [3, 0],
    [0, 2],
    [1, 3],
  ];
  const [ab, bc, , da, ac, bd] = measured;
  if (measured.length !== 6 || !measured.every((mm) => mm > 0)) return null;
  // A at the origin, B on the axis; C and D by their distances from both.
  const cx = (ab * ab + ac * ac - bc * bc) / (2 * ab);
  const dx = (ab * ab + da * da - bd * bd) / (2 * ab);
  const [cc, dd] = [ac * ac - cx * cx, da * da - dx * dx];
  if (!(cc > 0 && dd > 0)) return null;
  const at = [0, 0, ab, 0, cx, Math.sqrt(cc), dx, Math.sqrt(dd)];
  const free = [2, 4, 5, 6, 7];
  const residuals = () =>
    pairs.map(([p, q], k) => {
      const [x, y] = [at[2 * p] - at[2 * q], at[2 * p + 1] - at[2 * q + 1]];
      return Math.sqrt(x * x + y * y) - measured[k];
    });
  for (let round = 0; round < 20; round++) {
    const off = residuals();
    const normal = free.map(() => new Array<number>(free.length + 1).fill(0));
    for (const [k, [p, q]] of pairs.entries()) {
      const [x, y] = [at[2 * p] - at[2 * q], at[2 * p + 1] - at[2 * q + 1]];
      const length = Math.sqrt(x * x + y * y);
      if (length === 0) return null;
      const slope = new Array<number>(8).fill(0);
      slope[2 * p] = x / length;
      slope[2 * p + 1] = y / length;
      slope[2 * q] = -x / length;
      slope[2 * q + 1] = -y / length;
      for (const [i, u] of free.entries()) {
        for (const [j, v] of free.entries()) normal[i][j] += slope[u] * slope[v];
        normal[i][free.length] -= slope[u] * off[k];
      }
    }
    for (let i = 0; i < free.length; i++) {
      let best = i;
      for (let r = i + 1; r < free.length; r++) if (Math.abs(normal[r][i]) > Math.abs(normal[best][i])) best = r;
      [normal[i], normal[best]] = [normal[best], normal[i]];
      if (Math.abs(normal[i][i]) < 1e-12) return null;
      for (let r = 0; r < free.length; r++) {
        if (r === i) continue;
        const times = normal[r][i] / normal[i][i];
        for (let c = i; c <= free.length; c++) normal[r][c] -= times * normal[i][c];
      }
    }
    for (const [i, u] of free.entries()) at[u] += normal[i][free.length] / normal[i][i];
  }
  const sin = (bUp - a[1]) / at[2];
  if (!(Math.abs(sin) < 1)) return null;
  const cos = Math.sqrt(1 - sin * sin);
  const corners = [0, 1, 2, 3].map((i): [number, number] => [
    a[0] + at[2 * i] * cos - at[2 * i + 1] * sin,
    a[1] + at[2 * i] * sin + at[2 * i + 1] * cos,
  ]);
  return { corners, residualsMm: residuals() };
}

/**
 * The projective map that takes four points to four others: nine numbers, row by row, the last 1 (direct linear transformation; Hartley and Zisserman
 * 2004, 4.1). Null when three of either lie on a line.
 */
export function projection(
  from: readonly (readonly [number, number])[],
  to: readonly (readonly [number, number])[],
): number[] | null {
  const rows = from.flatMap(([x, y], i) => {
    const [u, v] = to[i];
    return [
      [x, y, 1, 0, 0, 0, -u * x, -u * y, u],
      [0, 0, 0, x, y, 1, -v * x, -v * y, v],
    ];
  });
  for (let i = 0; i < 8; i++) {
    let best = i;
    for (let r = i + 1; r < 8; r++) if (Math.abs(rows[r][i]) > Math.abs(rows[best][i])) best = r;
    [rows[i], rows[best]] = [rows[best], rows[i]];
    if (Math.abs(rows[i][i]) < 1e-9) return null;
    for (let r = 0; r < 8; r++) {
      if (r === i) continue;
      const times = rows[r][i] / rows[i][i];
      for (let c = i; c < 9; c++) rows[r][c] -= times * rows[i][c];
    }
  }
  return [...rows.map((row, i) => row[8] / row[i]), 1];
}
