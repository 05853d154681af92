import { describe, expect, test } from 'vitest';
import { rectangle } from '../../src/geometry/ring.ts';
import { type Remainder, rocksFrom } from '../../src/workshop/left-rocks.ts';

const square = (name: string, side: number, thicknessMm = 50): Remainder => ({
  name,
  thicknessMm,
  rings: [rectangle(7, 3, 7 + side, 3 + side)],
});

describe('rocks from what is left', () => {
  test('each layer lies within its remainder (half an ellipsoid)', () => {
    const left = [square('d', 300), square('a', 520), square('c', 400), square('b', 500), square('thin', 900, 20)];
    const [rock, ...others] = rocksFrom(left);
    expect(others).toEqual([]);
    expect(rock.from).toEqual(['a', 'b', 'c', 'd']);
    const radius = rock.acrossMm / 2 + 20;
    const n = rock.from.length;
    const sides = new Map(left.map(({ name, rings }) => [name, rings[0][2] - rings[0][0]]));
    const slack = rock.from.map((name, i) => (sides.get(name) ?? 0) / 2 - radius * Math.sqrt(1 - (i / n) ** 2));
    for (const each of slack) expect(each).toBeGreaterThan(-1e-6);
    // One layer is nearly full: circles found by halving are within a few per cent of the largest.
    expect(Math.min(...slack)).toBeLessThan(0.05 * radius);
    expect(rock.heightMm).toBe(4 * 50 - 20);
  });

  test('too little left makes none', () => {
    expect(rocksFrom([])).toEqual([]);
    expect(rocksFrom([square('a', 700), square('b', 700)])).toEqual([]);
    expect(rocksFrom([square('a', 250), square('b', 250), square('c', 250), square('d', 250)])).toEqual([]);
  });
});
