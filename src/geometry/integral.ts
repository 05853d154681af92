import type { Ring } from './ring.ts';

/** A triangle in space: x, y, z of its corners in turn. */
export type Triangle = readonly [number, number, number, number, number, number, number, number, number];

/** What of a ring lies on the side a x + b y ≥ c. Pieces may hang together by lines run there and back, which enclose nothing. */
export function ringBeyond(ring: Ring, a: number, b: number, c: number): Ring {
  const kept: number[] = [];
  for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
    const from = a * ring[j] + b * ring[j + 1] - c;
    const to = a * ring[i] + b * ring[i + 1] - c;
    if (from >= 0 !== to >= 0) {
      const t = from / (from - to);
      kept.push(ring[j] + t * (ring[i] - ring[j]), ring[j + 1] + t * (ring[i + 1] - ring[j + 1]));
    }
    if (to >= 0) kept.push(ring[i], ring[i + 1]);
  }
  return new Float64Array(kept);
}

/** What of a ring lies in an upright box (Sutherland and Hodgman, CACM 17, 1974). */
export function ringInBox(ring: Ring, minX: number, minY: number, maxX: number, maxY: number): Ring {
  const inX = ringBeyond(ringBeyond(ring, 1, 0, minX), -1, 0, -maxX);
  return ringBeyond(ringBeyond(inX, 0, 1, minY), 0, -1, -maxY);
}

/** What of a ring lies under or over a triangle, seen from above. Either sense of the triangle will do. */
export function ringInTriangle(ring: Ring, [ax, ay, , bx, by, , cx, cy]: Triangle): Ring {
  const sense = Math.sign((bx - ax) * (cy - ay) - (cx - ax) * (by - ay));
  const inAB = leftOf(ring, ax, ay, bx, by, sense);
  return leftOf(leftOf(inAB, bx, by, cx, cy, sense), cx, cy, ax, ay, sense);
}

/** Signed area of a ring and the volume between it and the plane of a triangle: area × the plane's height at its centroid. */
export function underPlane(ring: Ring, triangle: Triangle): { area: number; volume: number } {
  const [ax, ay, az, bx, by, bz, cx, cy, cz] = triangle;
  const twice = (bx - ax) * (cy - ay) - (cx - ax) * (by - ay);
  if (ring.length < 6 || twice === 0) return { area: 0, volume: 0 };
  const slopeX = ((bz - az) * (cy - ay) - (cz - az) * (by - ay)) / twice;
  const slopeY = ((bx - ax) * (cz - az) - (cx - ax) * (bz - az)) / twice;
  let area = 0;
  let volume = 0;
  // A fan about the ring's first point; over each triangle the mean height is that of its corners.
  for (let i = 2; i + 3 < ring.length; i += 2) {
    const dx = ring[i] - ring[0];
    const dy = ring[i + 1] - ring[1];
    const ex = ring[i + 2] - ring[0];
    const ey = ring[i + 3] - ring[1];
    const part = (dx * ey - ex * dy) / 2;
    area += part;
    volume += part * (az + slopeX * (ring[0] - ax + (dx + ex) / 3) + slopeY * (ring[1] - ay + (dy + ey) / 3));
  }
  return { area, volume };
}

const leftOf = (ring: Ring, ax: number, ay: number, bx: number, by: number, sense: number): Ring =>
  ringBeyond(ring, sense * (ay - by), sense * (bx - ax), sense * ((ay - by) * ax + (bx - ax) * ay));
