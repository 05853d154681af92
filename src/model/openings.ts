import type { Solid } from './landform.ts';

/** How wide a hole is at its widest, and where. */
export interface Gap {
  readonly gapMm: number;
  /** Half way across it. */
  readonly atMm: readonly [x: number, y: number, z: number];
}

/** More heights than these between two levels are not measured at. */
const MOST_HEIGHTS = 64;
/** A hole this many times as wide as high lies flat. */
const FLAT_SHARE = 10;

/**
 * Measure the gap of a hole between two heights: how far apart the ends of an outline are there that runs into its rim.
 * Of a hole that lies flat, ten times as wide as high, its height counts: a missing floor opens no outline. Null when it
 * does not reach between them.
 */
export function gapBetween(
  positionsMm: Float64Array,
  rim: ArrayLike<number>,
  lowMm: number,
  highMm: number,
): Gap | null {
  let bottom = Infinity;
  let top = -Infinity;
  const heights: number[] = [];
  for (let i = 0; i < rim.length; i++) {
    const z = positionsMm[3 * rim[i] + 2];
    if (z < bottom) bottom = z;
    if (z > top) top = z;
    if (z > lowMm && z < highMm) heights.push(z);
  }
  if (!(top > lowMm && bottom < highMm)) return null;
  heights.sort((a, b) => a - b);
  const every = Math.ceil(heights.length / MOST_HEIGHTS);
  const measured = heights.filter((_, i) => i % every === 0 || i === heights.length - 1);
  let widest: Gap = { gapMm: 0, atMm: middleOf(positionsMm, rim, bottom) };
  for (const z of [Math.max(lowMm, bottom), ...measured, Math.min(highMm, top)]) {
    for (const isStrict of [true, false]) {
      const across = gapAt(positionsMm, rim, z, isStrict);
      if (across && across.gapMm > widest.gapMm) widest = across;
    }
  }
  return widest.gapMm > FLAT_SHARE * (top - bottom) ? { gapMm: top - bottom, atMm: widest.atMm } : widest;
}

/** The widest gap of a rim at a level: its crossings, in order along the line through the two farthest, two by two. */
function gapAt(p: Float64Array, rim: ArrayLike<number>, z: number, isStrict: boolean): Gap | null {
  const points: [number, number][] = [];
  for (let i = 0; i < rim.length; i++) {
    const a = 3 * rim[i];
    const b = 3 * rim[(i + 1) % rim.length];
    const isUp = isStrict ? p[a + 2] > z : p[a + 2] >= z;
    if (isUp === (isStrict ? p[b + 2] > z : p[b + 2] >= z)) continue;
    const t = (z - p[a + 2]) / (p[b + 2] - p[a + 2]);
    points.push([p[a] + t * (p[b] - p[a]), p[a + 1] + t * (p[b + 1] - p[a + 1])]);
  }
  if (points.length < 2) return null;
  const far = (from: readonly [number, number]) =>
    points.reduce((most, point) => (apart(point, from) > apart(most, from) ? point : most), points[0]);
  const one = far(points[0]);
  const other = far(one);
  const along = ([x, y]: readonly [number, number]) => x * (other[0] - one[0]) + y * (other[1] - one[1]);
  points.sort((a, b) => along(a) - along(b));
  let widest: Gap | null = null;
  for (let i = 0; i + 1 < points.length; i += 2) {
    const gapMm = apart(points[i], points[i + 1]);
    if (widest && widest.gapMm >= gapMm) continue;
    widest = { gapMm, atMm: [(points[i][0] + points[i + 1][0]) / 2, (points[i][1] + points[i + 1][1]) / 2, z] };
  }
  return widest;
}

/** The mean of a rim's corners, at a height. */
function middleOf(p: Float64Array, rim: ArrayLike<number>, z: number): [number, number, number] {
  let [x, y] = [0, 0];
  for (let i = 0; i < rim.length; i++) {
    x += p[3 * rim[i]] / rim.length;
    y += p[3 * rim[i] + 1] / rim.length;
  }
  return [x, y, z];
}

function apart(a: readonly [number, number], b: readonly [number, number]): number {
  const [dx, dy] = [a[0] - b[0], a[1] - b[1]];
  return Math.sqrt(dx * dx + dy * dy);
}

/** The rims of a solid in plan, each with its widest gap. */
export function openingsInPlan({ positionsMm, open }: Solid): { rim: Float64Array; gap: Gap }[] {
  return (open?.rims ?? []).map((rim) => ({
    rim: Float64Array.from({ length: 2 * rim.length }, (_, i) => positionsMm[3 * rim[i >> 1] + (i % 2)]),
    gap: gapBetween(positionsMm, rim, -Infinity, Infinity) as Gap,
  }));
}
