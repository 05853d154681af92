import { describe, expect, test } from 'vitest';
import { intersect, offset } from '../../../src/geometry/clip.ts';
import { areaOf, placed, type Region } from '../../../src/geometry/ring.ts';
import {
  compareRanks,
  type Found,
  type Improved,
  type ImproveInput,
  improve,
  isMirrored,
  type Packing,
  type Problem,
  prepareShape,
  preview,
  type Shortened,
  searchBoards,
  shorten,
  stripOf,
  turnDegOf,
} from '../../../src/nest/engine/engine.ts';
import type { Lanes } from '../../../src/plugin.ts';
import { walkNow } from '../../../src/walk.ts';
import { LISTED, problemOf, shapesOf } from './help.ts';

const TASKS = { improve, shorten };
const GAP = 10;

const search = (problem: Problem, effort: number, seed = 3): Found =>
  walkNow(searchBoards(problem, { seed, effort, least: 0 }), TASKS);

/** Every item once, nothing nearer than the gap, all within its board: asked of clipper-lib on the finished outlines. */
function faultsOf(problem: Problem, { boards, left }: Packing, regions: readonly Region[]): string[] {
  const faults: string[] = [];
  const standing = boards.flatMap(({ stood }) => stood.map(({ item }) => item));
  const all = [...standing, ...left].sort((a, b) => a - b);
  if (all.join() !== problem.items.map((_, item) => item).join()) faults.push(`placed: ${all}`);
  for (const { stock, stood } of boards) {
    const { box } = stock < 0 ? problem.owned[-1 - stock] : problem.kinds[stock].container;
    const outlines = stood.map(({ item, pose, x, y }) =>
      regions[problem.items[item]].map((ring) =>
        placed(ring, { turnDeg: turnDegOf(pose), mirrored: isMirrored(pose), xMm: x, yMm: y }),
      ),
    );
    for (const [i, outline] of outlines.entries()) {
      for (let k = 0; k < outline[0].length; k += 2) {
        const [px, py] = [outline[0][k], outline[0][k + 1]];
        if (px < box[0] - 1e-9 || py < box[1] - 1e-9 || px > box[2] + 1e-9 || py > box[3] + 1e-9) {
          faults.push(`item ${stood[i].item} is off its board`);
          break;
        }
      }
      const around = offset([outline], problem.gapMm - 0.06);
      for (const other of outlines.slice(0, i)) {
        if (areaOf(intersect(around, [other])) > 0.02) faults.push(`item ${stood[i].item} is too near another`);
      }
    }
  }
  return faults;
}

describe('boards', () => {
  const { shapes, regions } = shapesOf(21, 16, GAP, false, 40);
  const problem = problemOf(shapes, 1100, 800, GAP);
  const first = walkNow(preview(problem, 3)) as Found;

  test('a preview and a search place every item once, at least the gap apart', () => {
    expect(faultsOf(problem, first.packing, regions)).toEqual([]);
    expect(first.packing.left).toEqual([]);
    const found = search(problem, 60_000);
    expect(faultsOf(problem, found.packing, regions)).toEqual([]);
    expect(found.evaluations).toBeGreaterThanOrEqual(60_000);
  });

  test('the same seed gives the same, another seed another, more effort nothing worse', () => {
    const [short, again, long] = [15_000, 15_000, 100_000].map((effort) => search(problem, effort));
    expect(again).toEqual(short);
    expect(compareRanks(short.packing.rank, first.packing.rank)).toBeLessThanOrEqual(0);
    expect(compareRanks(long.packing.rank, short.packing.rank)).toBeLessThanOrEqual(0);
    expect(search(problem, 15_000, 4).packing).not.toEqual(short.packing);
  });

  test('lanes give the same when they are copied to elsewhere, in any order', () => {
    const inLine = search(problem, 30_000);
    const work = searchBoards(problem, { seed: 3, effort: 30_000, least: 0 });
    let step = work.next({ say: 'go', results: [] });
    while (!step.done) {
      const { lanes } = step.value as Lanes;
      const results: Improved[] = [];
      for (let i = lanes.length - 1; i >= 0; i--) {
        const input = structuredClone(lanes[i].input) as ImproveInput;
        results[i] = structuredClone(walkNow(improve(input)) as Improved);
      }
      step = work.next({ say: 'go', results });
    }
    expect(step.value).toEqual(inLine);
  });

  test('turns between those listed are taken where they may be', () => {
    const free = shapesOf(22, 10, GAP, true, 40);
    const freely = problemOf(free.shapes, 900, 700, GAP);
    const { packing } = search(freely, 30_000);
    expect(faultsOf(freely, packing, free.regions)).toEqual([]);
    const poses = packing.boards.flatMap(({ stood }) => stood.map(({ pose }) => pose));
    expect(poses.some((pose) => pose % 9000 !== 0)).toBe(true);
  });

  test('a board is done without that the first packing needs: the search reaches the known least number', () => {
    // Two boards of four quarters each, cut so that no straight order of placing finds them (common practice, no source).
    const corner = (w: number, h: number, cut: number) =>
      Float64Array.of(0, 0, w, 0, w, h - cut, w - cut, h - cut, w - cut, h, 0, h);
    const options = { gapMm: 0, poses: LISTED, turnsFreely: false, hasOddContainers: false };
    const made = [
      corner(60, 60, 20),
      Float64Array.of(0, 0, 40, 0, 40, 40, 0, 40),
      Float64Array.of(0, 0, 40, 0, 40, 60, 0, 60),
    ];
    const pieces = made.map((ring) => prepareShape([[ring]], options));
    const areaMm2 = 100 * 100;
    const container = { box: [0, 0, 100, 100] as const, outline: null, areaMm2 };
    const jigsaw: Problem = {
      shapes: pieces,
      items: [0, 0, 1, 1, 2, 2, 2, 2],
      kinds: [{ container, cost: 1, grossMm2: areaMm2, count: null }],
      owned: [],
      fixed: [],
      gapMm: 0,
    };
    expect(search(jigsaw, 100_000).packing.boards.length).toBe(2);
  });

  test('nothing to place, and what fits nowhere', () => {
    const none = search(problemOf([], 500, 400, GAP), 1000);
    expect(none.packing).toMatchObject({ boards: [], left: [] });
    const tight = search(problemOf(shapes, 150, 120, GAP), 1000);
    expect(tight.packing.left.length).toBeGreaterThan(0);
    expect(faultsOf(problemOf(shapes, 150, 120, GAP), tight.packing, regions)).toEqual([]);
    const noBoards: Problem = { ...problem, kinds: [] };
    expect(search(noBoards, 1000).packing.left.length).toBe(16);
  });

  test('owned odd containers: nothing leaves the outline, nor runs into a keep-out, and what is held stays', () => {
    const made = shapesOf(23, 10, GAP, false, 40);
    const odd = made.regions.map((region) =>
      prepareShape([region], { gapMm: GAP, poses: LISTED, turnsFreely: false, hasOddContainers: true }),
    );
    const bay: Region = [
      Float64Array.of(0, 0, 1300, 0, 1300, 500, 700, 500, 700, 1000, 0, 1000),
      Float64Array.of(300, 300, 300, 420, 420, 420, 420, 300),
    ];
    const owned = [{ box: [0, 0, 1300, 1000] as const, outline: bay, areaMm2: areaOf([bay]) }];
    const held = { item: 2, owned: 0, pose: 0, x: 900, y: 250 };
    const mixed: Problem = { ...problemOf(odd, 900, 700, GAP), owned, fixed: [held] };
    const { packing } = search(mixed, 40_000);
    const [onBay] = packing.boards.filter(({ stock }) => stock === -1);
    expect(onBay.stood.length).toBeGreaterThan(1);
    expect(onBay.stood).toContainEqual({ item: 2, pose: 0, x: 900, y: 250 });
    for (const { item, pose, x, y } of onBay.stood) {
      if (item === 2) continue;
      const outline = made.regions[item].map((ring) =>
        placed(ring, { turnDeg: turnDegOf(pose), mirrored: false, xMm: x, yMm: y }),
      );
      expect(areaOf([outline]) - areaOf(intersect([outline], [bay]))).toBeLessThan(0.02);
    }
    expect(faultsOf(mixed, packing, made.regions).filter((fault) => !fault.includes('item 2 '))).toEqual([]);
  });
});

describe('a strip', () => {
  const { shapes, regions } = shapesOf(31, 12, 0, false, 40);
  const problem = { shapes, items: shapes.map((_, shape) => shape), widthMm: 700 };
  const strip = (effort: number) => walkNow(stripOf(problem, { seed: 5, effort }), TASKS) as Omit<Shortened, 'memory'>;

  test('more effort is never longer, the same gives the same, and nothing overlaps', () => {
    const [short, again, long] = [1, 1, 80_000].map(strip);
    expect(again).toEqual(short);
    expect(long.strip.lengthMm).toBeLessThan(short.strip.lengthMm);
    const box = [0, 0, long.strip.lengthMm, 700] as const;
    const container = { box, outline: null, areaMm2: 1 };
    const asBoards: Problem = {
      ...problemOf(shapes, 1, 1, 0.06),
      kinds: [{ container, cost: 1, grossMm2: 1, count: null }],
    };
    const packing = { boards: [{ stock: 0, stood: long.strip.stood }], left: [], rank: [] };
    expect(faultsOf(asBoards, packing, regions)).toEqual([]);
  });
});
