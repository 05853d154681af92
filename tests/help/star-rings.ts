import { turn } from '../../src/geometry/exact-math.ts';
import type { Random } from '../../src/geometry/random.ts';
import type { Ring } from '../../src/geometry/ring.ts';

/** To a thousandth, as clipping takes it: what goes in is then exactly what is compared. */
const snapped = (value: number): number => Math.round(value * 1000) / 1000;

/** A ragged simple ring round a point, counter-clockwise, its corners between two radii. */
export function starRing(random: Random, x: number, y: number, least: number, most: number, corners: number): Ring {
  const ring = new Float64Array(2 * corners);
  for (let i = 0; i < corners; i++) {
    const { cos, sin } = turn((360 * (i + 0.8 * random())) / corners);
    const radius = least + (most - least) * random();
    ring[2 * i] = snapped(x + radius * cos);
    ring[2 * i + 1] = snapped(y + radius * sin);
  }
  return ring;
}

/** A ring through points at random: it crosses itself many times. */
export const tangledRing = (random: Random, wide: number, deep: number, corners: number): Ring =>
  Float64Array.from({ length: 2 * corners }, (_, i) => snapped((i % 2 === 0 ? wide : deep) * random()));

/** The corners of a ring as pairs, the form other libraries take. */
export const pairsOf = (ring: Ring): [number, number][] =>
  Array.from({ length: ring.length / 2 }, (_, i) => [ring[2 * i], ring[2 * i + 1]]);
