import { turn } from '../../geometry/exact-math.ts';

/** A height over the plan, −1…1: ask for a row, then along it. */
export type Noise = (y: number) => (x: number) => number;

const DIRECTIONS = 64;

/**
 * Gradient noise on a square lattice, summed over octaves of half the size and half the height each. Never beyond ±1 and
 * seldom beyond ±0.6; its mean is 0. Lengths are the caller's unit; `size` is the lattice's width, about that of a lump.
 *
 * Gradients as in Perlin, "An image synthesizer" (1985), blended by the quintic of Perlin, "Improving noise" (2002). The
 * directions come from an integer hash of octave, lattice point and seed: the same bits on every engine, no period. Each
 * octave is shifted by a share of its own, else all of them would be 0 together where the largest has its lattice points.
 */
export function gradientNoise(seed: number, size: number, octaves: number): Noise {
  const directions = new Float64Array(2 * DIRECTIONS);
  for (let i = 0; i < DIRECTIONS; i++) {
    const { cos, sin } = turn((i * 360) / DIRECTIONS);
    directions[2 * i] = cos;
    directions[2 * i + 1] = sin;
  }
  const layers: Layer[] = [];
  let total = 0;
  for (let octave = 0, scale = 1 / size, share = 1; octave < octaves; octave++, scale *= 2, share /= 2) {
    const key = mixed(mixed(seed) ^ octave);
    layers.push({ key, scale, share, shiftX: shareOf(mixed(key ^ 1)), shiftY: shareOf(mixed(key ^ 2)) });
    total += share;
  }
  // Unit gradients reach √½ in the middle of a cell, and nowhere more.
  const height = Math.sqrt(2) / total;
  return (y) => {
    const rows = layers.map((layer) => rowOf(layer, y, directions));
    return (x) => {
      let sum = 0;
      for (let i = 0; i < rows.length; i++) sum += rows[i](x);
      return height * sum;
    };
  };
}

/** One octave. */
interface Layer {
  readonly key: number;
  /** Cells in one unit of length. */
  readonly scale: number;
  readonly share: number;
  /** In cells, 0…1. */
  readonly shiftX: number;
  readonly shiftY: number;
}

function rowOf({ key, scale, share, shiftX, shiftY }: Layer, y: number, directions: Float64Array) {
  const row = y * scale + shiftY;
  const j = Math.floor(row);
  const v = row - j;
  const southKey = mixed(key ^ Math.imul(j, 0x27d4eb2f));
  const northKey = mixed(key ^ Math.imul(j + 1, 0x27d4eb2f));
  const blendV = share * quintic(v);
  const slope = (rowKey: number, i: number, u: number, w: number) => {
    const at = 2 * (mixed(rowKey ^ Math.imul(i, 0x165667b1)) & (DIRECTIONS - 1));
    return directions[at] * u + directions[at + 1] * w;
  };
  return (x: number): number => {
    const column = x * scale + shiftX;
    const i = Math.floor(column);
    const u = column - i;
    const blendU = quintic(u);
    const west = slope(southKey, i, u, v);
    const east = slope(southKey, i + 1, u - 1, v);
    const northWest = slope(northKey, i, u, v - 1);
    const northEast = slope(northKey, i + 1, u - 1, v - 1);
    const south = west + blendU * (east - west);
    const north = northWest + blendU * (northEast - northWest);
    return share * south + blendV * (north - south);
  };
}

/** 6t⁵ − 15t⁴ + 10t³: no kink in slope or curvature from cell to cell. */
const quintic = (t: number): number => t * t * t * (t * (6 * t - 15) + 10);

/** Every bit of a 32-bit integer depends on every other: the finaliser of MurmurHash3 (Appleby, public domain). */
function mixed(key: number): number {
  let h = key | 0;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return h ^ (h >>> 16);
}

/** A 32-bit integer as a share 0 ≤ s < 1. */
const shareOf = (h: number): number => (h >>> 0) / 4294967296;
