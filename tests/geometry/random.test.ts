/** The streams: their definition in whole numbers, recorded numbers, independence of place, evenness. */
import { describe, expect, test } from 'vitest';
import { type Random, stream } from '../../src/geometry/random.ts';

const WORD = 0xffffffffn;

/** FNV-1a, 32 bits, over the characters of a text, in whole numbers without limit. */
function fnv1a(text: string): bigint {
  let hash = 0x811c9dc5n;
  for (const character of text) hash = ((hash ^ BigInt(character.codePointAt(0) as number)) * 0x01000193n) & WORD;
  return hash;
}

/** mulberry32 (T. Ettinger, public domain) in whole numbers without limit. */
function mulberry32(seed: bigint): Random {
  let state = seed;
  const times = (a: bigint, b: bigint) => (a * b) & WORD;
  return () => {
    state = (state + 0x6d2b79f5n) & WORD;
    let t = times(state ^ (state >> 15n), state | 1n);
    t ^= (t + times(t ^ (t >> 7n), t | 61n)) & WORD;
    return Number(t ^ (t >> 14n)) / 4294967296;
  };
}

const take = (random: Random, count: number) => Array.from({ length: count }, random);

describe('definition', () => {
  test('the hash of this test gives the published test vectors', () => {
    // L. C. Noll, FNV test vectors, 32 bits FNV-1a: "", "a", "foobar" (from memory).
    expect(fnv1a('')).toBe(0x811c9dc5n);
    expect(fnv1a('a')).toBe(0xe40c292cn);
    expect(fnv1a('foobar')).toBe(0xbf9cf968n);
  });

  test.each([
    [1, ['nest', 0], '1/nest/0'],
    [-77, ['shape', 'cover', 2], '-77/shape/cover/2'],
    [4294967296, ['grün'], '4294967296/grün'],
  ] as const)('stream %d of %j is mulberry32 started by the hash of its name', (seed, place, key) => {
    expect(take(stream(seed, ...place), 200)).toEqual(take(mulberry32(fnv1a(key)), 200));
  });

  test('the first numbers stay what they were: plans that were made once can be made again', () => {
    const first = take(stream(1, 'nest', 0), 4).map((value) => value * 4294967296);
    expect(first).toEqual([1626189281, 3289587971, 2769725938, 180750072]);
  });
});

test('a stream can be started again, and two streams do not disturb each other', () => {
  const [a, b] = [stream(5, 'source', 3), stream(5, 'source', 3)];
  const alone = take(stream(5, 'source', 3), 50);
  expect(Array.from({ length: 50 }, () => [a(), b()])).toEqual(alone.map((value) => [value, value]));
});

test('streams of different seeds and places have nothing in common', () => {
  const streams = [1, 2, 3, -1, 11].flatMap((seed) =>
    ['source', 'shape', 'nest'].flatMap((stage) => [0, 1, 2, 10, 12].map((at) => take(stream(seed, stage, at), 40))),
  );
  expect(new Set(streams.map(([value]) => value)).size).toBe(streams.length);
  for (const [i, values] of streams.entries()) {
    const next = streams[(i + 1) % streams.length];
    const covariance = values.reduce((sum, value, k) => sum + (value - 0.5) * (next[k] - 0.5), 0) / 40;
    // Six standard deviations of the mean of 40 products, each of variance 1/144.
    expect(Math.abs(covariance)).toBeLessThan(6 / 12 / Math.sqrt(40));
  }
});

/** Sum over bins of (seen − wanted)² / wanted. */
function chiSquare(bins: readonly number[], count: number): number {
  const wanted = count / bins.length;
  return bins.reduce((sum, seen) => sum + (seen - wanted) ** 2 / wanted, 0);
}

describe.each([1, 29, 100003])('evenness, seed %i', (seed) => {
  // Critical values: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4 (from memory): the distribution lies
  // between its 0.001 and 0.999 points. The seeds are fixed, so that this passes always or never.
  test('20 bins: 19 degrees of freedom, 5.407 to 43.820', () => {
    const random = stream(seed, 'even');
    const bins = new Array<number>(20).fill(0);
    const values = take(random, 20_000);
    expect(values.every((value) => value >= 0 && value < 1)).toBe(true);
    for (const value of values) bins[Math.floor(value * 20)]++;
    expect(chiSquare(bins, 20_000)).toBeGreaterThan(5.407);
    expect(chiSquare(bins, 20_000)).toBeLessThan(43.82);
  });

  test('each number with the next, 10 × 10 bins: 99 degrees of freedom, at most 148.230', () => {
    const random = stream(seed, 'pairs');
    const bins = new Array<number>(100).fill(0);
    for (let i = 0; i < 20_000; i++) bins[10 * Math.floor(10 * random()) + Math.floor(10 * random())]++;
    expect(chiSquare(bins, 20_000)).toBeLessThan(148.23);
  });
});
