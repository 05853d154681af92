import { type Ring, ringArea } from './ring.ts';

/** The ring that a wire's stations make at a share of the height: 0 the feet, 1 the tops. */
export function ringAt(stations: Float64Array, share: number): Ring {
  const ring = new Float64Array(stations.length / 2);
  for (let i = 0, j = 0; i < stations.length; i += 4, j += 2) {
    ring[j] = stations[i] + share * (stations[i + 2] - stations[i]);
    ring[j + 1] = stations[i + 1] + share * (stations[i + 3] - stations[i + 1]);
  }
  return ring;
}

/**
 * The volume within the ruled surfaces of several rounds (those about holes run clockwise). Between two stations both ends
 * move evenly, so that the surface is a bilinear patch and the section's area a square function of the height: the
 * prismoidal rule, a sixth of the height × (foot + 4 × middle + top), is exact.
 */
export function ruledVolume(rounds: readonly Float64Array[], height: number): number {
  let sum = 0;
  for (const stations of rounds) {
    sum += ringArea(ringAt(stations, 0)) + 4 * ringArea(ringAt(stations, 0.5)) + ringArea(ringAt(stations, 1));
  }
  return (height * sum) / 6;
}
