import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { stream } from '../../src/geometry/random.ts';
import { type Region, rectangle, reversed } from '../../src/geometry/ring.ts';
import type { Turns } from '../../src/model/facts.ts';
import { areaBound } from '../../src/nest/bounds/area.ts';
import { allBounds, leastBoards } from '../../src/nest/bounds/best.ts';
import { cliqueBound } from '../../src/nest/bounds/clique.ts';
import { circlesIn, countingBound } from '../../src/nest/bounds/counting.ts';
import { dualFeasibleBound } from '../../src/nest/bounds/dual-feasible.ts';
import { boundBoard, boundItem, boundOwned } from '../../src/nest/bounds/inside.ts';
import { leastPrice } from '../../src/nest/bounds/prices.ts';
import type { BoundBoard, BoundCase, BoundItem } from '../../src/nest/bounds/terms.ts';
import { lopsided } from '../help/nesting.ts';

const QUESTIONS = 20_000;
let shapes = 0;
const item = (region: Region, turns: Turns = 'free', gapMm = 0, mayMirror = false): BoundItem =>
  boundItem([region], gapMm, { shape: shapes++, turns, mayMirror });
const board = (width: number, height: number, more: Partial<BoundBoard> = {}, gapMm = 0): BoundBoard => ({
  ...boundBoard([[rectangle(0, 0, width, height)]], gapMm, { price: null, count: null }),
  ...more,
});
const box = (width: number, height: number): Region => [rectangle(0, 0, width, height)];
const given = (
  items: readonly BoundItem[],
  boards: readonly BoundBoard[],
  more: Partial<BoundCase> = {},
): BoundCase => ({
  items,
  boards,
  owned: [],
  ...more,
});
const regular = (sides: number, radius: number): Region => [
  Float64Array.from(
    Array.from({ length: sides }, (_, i) => (2 * Math.PI * i) / sides).flatMap((t) => [
      radius * Math.cos(t),
      radius * Math.sin(t),
    ]),
  ),
];

interface Jigsaw {
  readonly name: string;
  readonly size: readonly [number, number];
  readonly knownBoards: number;
  readonly outlines: readonly (readonly number[])[];
}

describe('never above what is known to be possible', () => {
  // The source stands in the file: boards that were cut up, so that the number is the least.
  const { instances } = JSON.parse(readFileSync(new URL('../data/jigsaws.json', import.meta.url), 'utf8')) as {
    instances: readonly Jigsaw[];
  };
  test.each(instances.map((each) => [each.name, each] as const))('jigsaw %s, in every choice of turns', (_, jigsaw) => {
    for (const turns of ['fixed', 'quarter', 'free'] as const) {
      const items = jigsaw.outlines.map((outline) => item([Float64Array.from(outline)], turns));
      const bound = leastBoards(given(items, [board(...jigsaw.size)]), QUESTIONS);
      expect(bound.boards).toBe(jigsaw.knownBoards);
    }
  });

  test.each([1, 2, 3, 4, 5, 6, 7, 8])('rectangles by brute force, seed %i', (seed) => {
    const random = stream(seed, 'tiny');
    const whole = (most: number) => 1 + Math.floor(random() * most);
    for (let round = 0; round < 25; round++) {
      const [width, height] = [4 + whole(3), 3 + whole(3)];
      const sizes = Array.from({ length: 2 + whole(3) }, (): [number, number] => [whole(width), whole(height)]);
      const known = fewestBoards(sizes, width, height);
      const all = given(
        sizes.map(([w, h]) => item(box(w, h), 'fixed')),
        [board(width, height)],
      );
      for (const bound of [
        areaBound(all),
        dualFeasibleBound(all),
        countingBound(all),
        cliqueBound(all, QUESTIONS).pairs,
        cliqueBound(all, QUESTIONS).pairsAndArea,
      ]) {
        expect(bound).toBeLessThanOrEqual(known);
      }
    }
  });

  test('what was laid out on a board by hand takes one board: touching, in each other’s corners, in holes, with a gap', () => {
    const ring: Region = [rectangle(0, 0, 700, 500), reversed(rectangle(90, 80, 610, 430))];
    const ell = (a: number): Region => [new Float64Array([0, 0, 600, 0, 600, a, a, a, a, 400, 0, 400])];
    const cases: readonly (readonly [readonly Region[], number, number, number])[] = [
      [[box(1000, 300), box(1000, 300)], 1000, 600, 0],
      [[box(1000, 300), box(1000, 300)], 1000, 612, 12],
      [[ring, box(496, 326)], 700, 500, 12],
      // Two Ls, one turned about, mesh: 90 + 12 + 90 wide where they pass each other.
      [[ell(90), ell(90)], 702, 502, 12],
    ];
    for (const [regions, width, height, gap] of cases) {
      for (const turns of ['free', 'half'] as const) {
        const items = regions.map((region) => item(region, turns, gap));
        expect(leastBoards(given(items, [board(width, height, {}, gap)]), QUESTIONS).boards).toBe(1);
      }
    }
  });
});

/** The fewest boards for rectangles that are not turned, all whole numbers: every split into boards, every place in them. */
function fewestBoards(sizes: readonly (readonly [number, number])[], width: number, height: number): number {
  const fits = (set: number): boolean => {
    const taken = new Uint8Array(width * height);
    const put = (i: number): boolean => {
      if (i === sizes.length) return true;
      if (!(set & (1 << i))) return put(i + 1);
      const [w, h] = sizes[i];
      for (let y = 0; y + h <= height; y++) {
        for (let x = 0; x + w <= width; x++) {
          const cells = Array.from({ length: w * h }, (_, k) => (y + Math.floor(k / w)) * width + x + (k % w));
          if (cells.some((cell) => taken[cell])) continue;
          for (const cell of cells) taken[cell] = 1;
          if (put(i + 1)) return true;
          for (const cell of cells) taken[cell] = 0;
        }
      }
      return false;
    };
    return put(0);
  };
  const fewest: number[] = [0];
  for (let set = 1; set < 1 << sizes.length; set++) {
    fewest[set] = Infinity;
    for (let sub = set; sub > 0; sub = (sub - 1) & set) {
      if (fewest[set ^ sub] + 1 < fewest[set] && fits(sub)) fewest[set] = fewest[set ^ sub] + 1;
    }
  }
  return fewest[(1 << sizes.length) - 1];
}

describe('by area', () => {
  test('offcuts are taken off as far as anything fits them, the largest boards count first', () => {
    const items = [item(box(900, 700)), item(box(800, 600)), item(box(700, 500)), item(box(300, 200))];
    const boards = [board(1000, 800), board(500, 400)];
    expect(areaBound(given(items, boards))).toBe(2);
    const owned = (width: number, height: number) => boundOwned([[rectangle(0, 0, width, height)]], 0);
    // 1.52 m² in all; the offcut takes what fits it, the smallest piece, and no more.
    expect(areaBound(given(items, boards, { owned: [owned(480, 450)] }))).toBe(2);
    expect(areaBound(given(items, boards, { owned: [owned(910, 905)] }))).toBe(1);
    expect(areaBound(given(items, [board(1000, 800, { count: 1 }), board(500, 400)]))).toBe(1 + 4);
    expect(areaBound(given(items, [board(1000, 800, { count: 1 })]))).toBe(Infinity);
  });

  test('a hole in which nothing can lie counts as foam', () => {
    const ring = (hole: number): Region => [rectangle(0, 0, 600, 500), reversed(rectangle(50, 50, 50 + hole, 450))];
    const plain = (hole: number) => areaBound(given([item(ring(hole)), item(box(450, 390))], [board(560, 560)]));
    // 0.30 + 0.1755 m² over 0.3136 with the hole, 0.30 − hole without.
    expect(plain(400)).toBe(2);
    expect(plain(500)).toBe(1);
  });
});

test('by dual-feasible functions: three that are over half a board need a board each', () => {
  const all = given([item(box(1000, 520)), item(box(1000, 530)), item(box(900, 580))], [board(1000, 1000)]);
  expect(areaBound(all)).toBe(2);
  expect(dualFeasibleBound(all)).toBe(3);
  expect(dualFeasibleBound({ ...all, owned: [boundOwned([[rectangle(0, 0, 990, 990)]], 0)] })).toBe(2);
});

describe('by counting', () => {
  // Radii of the densest packings of n equal circles in the unit square (Specht, The best known packings of equal circles in
  // a square; proven optimal to n = 30 by Markót and Csendes 2005; these figures from memory).
  test.each([
    [1, 0.5],
    [2, 0.292893],
    [3, 0.254333],
    [4, 0.25],
    [5, 0.207106],
    [6, 0.18768],
    [7, 0.174457],
    [8, 0.17054],
    [9, 0.166666],
    [10, 0.148204],
  ])('no fewer than the %i circles that are known to fit', (count, radius) => {
    expect(circlesIn(1, 1, radius)).toBeGreaterThanOrEqual(count);
    expect(circlesIn(1, 1, radius)).toBeLessThanOrEqual(count + 3);
  });

  test('discs: more than area shows', () => {
    const discs = Array.from({ length: 12 }, () => item(regular(48, 260)));
    const all = given(discs, [board(1000, 1000)]);
    expect(countingBound(all)).toBeGreaterThan(areaBound(all));
    expect(countingBound(all)).toBeLessThanOrEqual(12);
  });
});

describe('by conflicts', () => {
  test('circles inside are enough where they are large', () => {
    const all = given(
      [300, 310, 320].map((radius) => item(regular(30, radius))),
      [board(1000, 800)],
    );
    expect(cliqueBound(all, 0).pairs).toBe(3);
  });

  test('outlines are asked where circles do not tell: triangles that only nest when turned', () => {
    const triangle = (size: number): Region => [new Float64Array([0, 0, size, 0, 0, size])];
    const pair = (turns: Turns, width = 1040) =>
      cliqueBound(given([item(triangle(1000), turns), item(triangle(1010), turns)], [board(width, 1040)]), QUESTIONS)
        .pairs;
    expect(pair('fixed')).toBe(2);
    expect(pair('half')).toBe(1);
    expect(pair('quarter')).toBe(1);
    expect(pair('free')).toBe(1);
    // A square of half the triangle's legs does not take two of them in any turn.
    expect(pair('half', 1011)).toBe(1);
  });

  test('a mirrored piece may find room where a turned one does not', () => {
    // Right-angled, legs 1000 and 600: two make a rectangle when one is turned by half, a kite when one is mirrored.
    const wedge = (): Region => [new Float64Array([0, 0, 1000, 0, 0, 600])];
    const pair = (turns: Turns, mayMirror: boolean, width: number, height: number) =>
      cliqueBound(
        given([item(wedge(), turns, 0, mayMirror), item(wedge(), turns, 0, mayMirror)], [board(width, height)]),
        QUESTIONS,
      ).pairs;
    expect(pair('fixed', false, 1010, 1100)).toBe(2);
    // Two right angles in the lower corners: they pass each other only if mirrored and high enough.
    expect(pair('fixed', true, 1010, 1100)).toBe(2);
    expect(pair('half', false, 1010, 610)).toBe(1);
  });

  test.each([1, 2, 3])('what can be laid side by side is never called a conflict, seed %i', (seed) => {
    const random = stream(seed, 'side-by-side');
    for (let round = 0; round < 6; round++) {
      const [a, b] = [lopsided(random, 800, 40), lopsided(random, 700, 40)];
      const size = (region: Region) => {
        const xs = region[0].filter((_, i) => i % 2 === 0);
        const ys = region[0].filter((_, i) => i % 2 === 1);
        return [Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys)];
      };
      const [[aw, ah], [bw, bh]] = [size(a), size(b)];
      const all = given([item(a, 'fixed', 9), item(b, 'fixed', 9)], [board(aw + bw + 9, Math.max(ah, bh), {}, 9)]);
      expect(leastBoards(all, QUESTIONS).boards).toBe(1);
    }
  });

  test('the area of the rest counts on top: what lies beside a large piece is little', () => {
    const large = [1, 2, 3].map((i) => item(box(700 + i, 700 + i), 'quarter'));
    const rest = Array.from({ length: 9 }, () => item(box(450, 420), 'quarter'));
    const all = given([...large, ...rest], [board(1000, 1000)]);
    const { pairs, pairsAndArea } = cliqueBound(all, QUESTIONS);
    // One of the small ones, too, has no room beside a large one.
    expect(pairs).toBe(4);
    expect(areaBound(all)).toBe(4);
    expect(pairsAndArea).toBe(5);
  });
});

describe('by prices', () => {
  const priced = (price: number | null, count: number | null = null) => ({ price, count });
  test('the least money for an area, by brute force', () => {
    const random = stream(4, 'prices');
    for (let round = 0; round < 40; round++) {
      const boards = [1, 2, 3].map(() =>
        board(
          500 + Math.floor(random() * 900),
          700,
          priced(1 + Math.floor(random() * 30), 1 + Math.floor(random() * 4)),
        ),
      );
      const items = Array.from({ length: 3 + Math.floor(random() * 5) }, () => item(box(300 + random() * 400, 500)));
      const all = given(items, boards);
      const area = items.reduce((sum, { areaMm2 }) => sum + areaMm2, 0);
      let known = Infinity;
      for (let a = 0; a <= (boards[0].count ?? 0); a++) {
        for (let b = 0; b <= (boards[1].count ?? 0); b++) {
          for (let c = 0; c <= (boards[2].count ?? 0); c++) {
            const counts = [a, b, c];
            const sum = (of: (one: BoundBoard) => number) => counts.reduce((s, n, i) => s + n * of(boards[i]), 0);
            if (sum((one) => one.areaMm2) >= area * (1 - 1e-12))
              known = Math.min(
                known,
                sum((one) => one.price ?? 0),
              );
          }
        }
      }
      expect(leastPrice(all, 0)).toBe(known);
    }
  });

  test('none where a price is missing; as many boards as are needed cost at least the cheapest', () => {
    const items = [item(box(700, 700)), item(box(710, 690))];
    expect(leastPrice(given(items, [board(1000, 1000, priced(9)), board(900, 800)]), 0)).toBe(null);
    expect(leastPrice(given(items, [board(1000, 1000, priced(9)), board(800, 800, priced(8))]), 2)).toBe(16);
  });
});

describe('told', () => {
  test('the plainest reason of equals, all thicknesses together', () => {
    const few = leastBoards(given([item(box(700, 700))], [board(1000, 1000)]), QUESTIONS);
    expect(few).toEqual({ boards: 1, why: 'total area' });
    const pairs = leastBoards(given([item(box(700, 600)), item(box(710, 600))], [board(1000, 1000)]), QUESTIONS);
    expect(pairs).toEqual({ boards: 2, why: 'pieces too large to share a board' });
    expect(allBounds([few, pairs])).toEqual({ boards: 3, why: 'total area; pieces too large to share a board' });
    expect(allBounds([])).toEqual({ boards: 0, why: 'total area' });
    expect(allBounds([{ ...few, price: 4 }, pairs])).not.toHaveProperty('price');
    expect(
      allBounds([
        { ...few, price: 4 },
        { ...pairs, price: 7.5 },
      ]).price,
    ).toBe(11.5);
  });

  test('nothing to place, and no board at all', () => {
    expect(leastBoards(given([], [board(1000, 1000)]), QUESTIONS).boards).toBe(0);
    expect(leastBoards(given([item(box(10, 10))], []), QUESTIONS).boards).toBe(0);
  });
});
