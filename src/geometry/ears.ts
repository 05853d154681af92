/**
 * Divide a simple polygon into triangles by cutting off ears. Every corner is kept, those on a straight edge too, so
 * that neighbours in a surface still share their edges: n − 2 triangles, some perhaps without area. Convex ones become a
 * fan. `points` is flat x, y …, of either sense; the answer is three corner numbers a triangle, of the same sense.
 * O(n) when convex, else O(n²) for ordinary shapes. Where the polygon crosses itself the triangles overlap, but their
 * outline is still its.
 */
export function ears(points: ArrayLike<number>): number[] {
  const corners = Array.from({ length: points.length / 2 }, (_, i) => i);
  const cross = (a: number, b: number, c: number) =>
    (points[2 * b] - points[2 * a]) * (points[2 * c + 1] - points[2 * a + 1]) -
    (points[2 * c] - points[2 * a]) * (points[2 * b + 1] - points[2 * a + 1]);
  let twiceArea = 0;
  for (let i = 2; i < corners.length; i++) twiceArea += cross(0, i - 1, i);
  const sense = twiceArea < 0 ? -1 : 1;
  const triangles: number[] = [];
  let at = 0;
  let misses = 0;
  while (corners.length > 3) {
    const n = corners.length;
    const [a, b, c] = [corners[(at + n - 1) % n], corners[at], corners[(at + 1) % n]];
    // Once round in vain: first take corners without area, and at last any corner.
    const turn = sense * cross(a, b, c);
    const isEar = (turn > 0 && isFree(a, b, c)) || (misses >= n && turn === 0) || misses >= 2 * n;
    if (!isEar) {
      misses++;
      at = (at + 1) % n;
      continue;
    }
    triangles.push(a, b, c);
    corners.splice(at, 1);
    // Stepping over the next corner keeps the triangles of round shapes broad.
    at = (at + 1) % corners.length;
    misses = 0;
  }
  if (corners.length === 3) triangles.push(...corners);
  return triangles;

  function isFree(a: number, b: number, c: number): boolean {
    for (const p of corners) {
      if (p === a || p === b || p === c) continue;
      const isCorner = [a, b, c].some(
        (q) => points[2 * p] === points[2 * q] && points[2 * p + 1] === points[2 * q + 1],
      );
      if (isCorner) continue;
      if (sense * cross(a, b, p) >= 0 && sense * cross(b, c, p) >= 0 && sense * cross(c, a, p) >= 0) return false;
    }
    return true;
  }
}
