import { describe, expect, it } from 'vitest';
import { rectangle } from '../../src/geometry/ring.ts';
import { groundOf } from '../../src/model/ground.ts';
import { type Heightfield, heightfield, type Solid } from '../../src/model/landform.ts';

const LOPSIDED = heightfield(4, 3, 20, 35, Float64Array.from([3, 8, 1, 12, 7, 30, 22, 5, 2, 11, 40, 9]));

describe('groundOf', () => {
  it('gives a tilted plane its prism volume and its area over the cosine of the slope', () => {
    // Rises 3 in 4 west to east and nothing south to north: a 3-4-5 slope, so the true area is 5/4 of the plan.
    const heights = Float64Array.from({ length: 12 }, (_, i) => 10 + (i % 4) * 20 * 0.75);
    const sums = groundOf(heightfield(4, 3, 20, 35, heights));
    expect(sums.planAreaMm2).toBeCloseTo(60 * 70, 9);
    expect(sums.surfaceAreaMm2).toBeCloseTo((60 * 70 * 5) / 4, 9);
    expect(sums.volumeMm3).toBeCloseTo(60 * 70 * (10 + 22.5), 6);
  });

  it('gives a rough ground the trapezoidal volume: each cell its area times the mean of its posts', () => {
    let wanted = 0;
    for (const at of [0, 1, 2, 4, 5, 6]) {
      const h = LOPSIDED.heightsMm;
      wanted += (20 * 35 * (h[at] + h[at + 1] + h[at + 4] + h[at + 5])) / 4;
    }
    expect(groundOf(LOPSIDED).volumeMm3).toBeCloseTo(wanted, 6);
  });

  it('adds up over two footprints that share a cut between the posts, hole and all', () => {
    const cut = Float64Array.from([0, 0, 33, 0, 17, 70, 0, 70]);
    const rest = Float64Array.from([33, 0, 60, 0, 60, 70, 17, 70]);
    const hole = Float64Array.from([41, 12, 39, 51, 52, 44]);
    const over = (footprint: Heightfield['footprint']) => groundOf({ ...LOPSIDED, footprint });
    const parts = [over([[cut]]), over([[rest, hole]]), over([[hole.slice()]])];
    const whole = groundOf(LOPSIDED);
    // The hole runs clockwise, so that taken alone it counts negative.
    for (const key of ['planAreaMm2', 'surfaceAreaMm2', 'volumeMm3'] as const) {
      expect(parts[0][key] + parts[1][key] - parts[2][key]).toBeCloseTo(whole[key], 6);
    }
    expect(parts[2].planAreaMm2).toBeLessThan(0);
  });

  it('gives a wedge-shaped solid half its box, and what a footprint leaves of it', () => {
    const positionsMm = Float64Array.from([0, 0, 0, 40, 0, 0, 40, 25, 0, 0, 25, 0, 40, 0, 30, 40, 25, 30]);
    const triangles = Uint32Array.from([0, 2, 1, 0, 3, 2, 0, 1, 4, 3, 5, 2, 1, 2, 5, 1, 5, 4, 0, 4, 5, 0, 5, 3]);
    const solid: Solid = { kind: 'solid', positionsMm, triangles, footprint: null };
    const sums = groundOf(solid);
    expect(sums.volumeMm3).toBeCloseTo(15000, 9);
    expect(sums.planAreaMm2).toBeCloseTo(1000, 9);
    expect(sums.surfaceAreaMm2).toBeCloseTo(50 * 25, 9);
    const west = groundOf({ ...solid, footprint: [[rectangle(0, 0, 16, 25)]] });
    expect(west.volumeMm3).toBeCloseTo((16 * 12 * 25) / 2, 9);
    expect(west.planAreaMm2).toBeCloseTo(400, 9);
  });
});
