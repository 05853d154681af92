import { describe, expect, test } from 'vitest';
import { chordsOfLine, dividedByChords, isClearChord, onGrid } from '../../src/geometry/chord.ts';
import { withInsertions } from '../../src/geometry/insertions.ts';
import { stream } from '../../src/geometry/random.ts';
import { areaOf, type Region, regionArea, reversed } from '../../src/geometry/ring.ts';
import { gridPointOnEdge } from '../../src/geometry/snap.ts';
import { blob } from '../help/stacks.ts';

const holed = (seed: number): Region => [
  blob(900, 700, 800, 620, 57, seed),
  reversed(blob(860, 740, 310, 230, 23, seed + 40)),
];
const points = (region: Region) =>
  region.flatMap((ring) => Array.from({ length: ring.length / 2 }, (_, i) => `${ring[2 * i]},${ring[2 * i + 1]}`));

describe('cutting along a line', () => {
  test.each(Array.from({ length: 60 }, (_, seed) => seed))(
    'areas add up and both sides hold the ends, seed %i',
    (seed) => {
      const random = stream(seed, 'line');
      const region = holed(seed);
      const angle = 3.1 * random();
      const [nx, ny] = [Math.cos(angle), Math.sin(angle)];
      const c = nx * (500 + 800 * random()) + ny * (400 + 600 * random());
      for (const reach of [0, 60]) {
        const chords = chordsOfLine(region, nx, ny, c, reach)
          .map((chord) => chord && onGrid(region, chord))
          .filter((chord) => chord !== null);
        if (chords.length === 0) continue;
        const divided = dividedByChords(region, chords);
        if (divided === null) {
          const ends = chords.flatMap(({ a, b }) => [`${a.x},${a.y}`, `${b.x},${b.y}`]);
          expect(new Set(ends).size).toBeLessThan(ends.length);
          continue;
        }
        const { regions, insertions } = divided;
        expect(areaOf(regions)).toBeCloseTo(regionArea(region), reach === 0 ? 2 : 5);
        expect(insertions.length > 0).toBe(chords.some(({ a, b }) => a.isNew || b.isNew));
        for (const { a, b } of chords) {
          for (const end of [a, b]) {
            const holders = regions.filter((each) => points(each).includes(`${end.x},${end.y}`));
            expect(holders.length).toBe(Math.min(2, regions.length));
          }
        }
        const before = new Set(points(region));
        const fresh = regions.flatMap(points).filter((point) => !before.has(point));
        expect(new Set(fresh).size).toBe(insertions.length);
      }
    },
  );

  test('one chord between the outline and a hole divides nothing', () => {
    const region = holed(3);
    const [first] = chordsOfLine(region, 0, 1, 740, 30);
    expect(first).not.toBeNull();
    const divided = first && dividedByChords(region, [first]);
    expect(divided?.regions).toHaveLength(1);
    expect(areaOf(divided?.regions ?? [])).toBeCloseTo(regionArea(region), 6);
  });

  test('a bay parts the line in two chords, and each of them cuts off its own end', () => {
    const bay: Region = [Float64Array.from([0, 0, 900, 0, 900, 500, 610, 500, 450, 130, 330, 500, 0, 480])];
    const chords = chordsOfLine(bay, 0, 1, 300, 0);
    expect(chords).toHaveLength(2);
    for (const chord of chords) expect(chord && dividedByChords(bay, [chord])?.regions).toHaveLength(2);
    const all = chords.filter((chord) => chord !== null);
    expect(dividedByChords(bay, all)?.regions).toHaveLength(3);
  });
});

describe('a chord is clear', () => {
  const bay: Region = [Float64Array.from([0, 0, 900, 0, 900, 500, 610, 500, 450, 130, 330, 500, 0, 480])];
  const corner = (i: number) => ({ x: bay[0][2 * i], y: bay[0][2 * i + 1], ring: 0, edge: i, isNew: false });

  test.each([
    [0, 4, true, 'through foam'],
    [6, 2, false, 'across the bay'],
    [3, 5, false, 'over the mouth of the bay, outside'],
    [0, 1, false, 'along an edge'],
    [2, 4, true, 'to the end of the bay'],
  ] as const)('from %i to %i: %s, %s', (from, to, isClear, _where) => {
    expect(isClearChord(bay, { a: corner(from), b: corner(to) })).toBe(isClear);
  });

  test('not past a corner that it touches', () => {
    const notch: Region = [Float64Array.from([0, 0, 800, 0, 800, 400, 500, 200, 310, 400, 0, 200])];
    const end = (i: number) => ({ x: notch[0][2 * i], y: notch[0][2 * i + 1], ring: 0, edge: i, isNew: false });
    const onRight = { x: 800, y: 200, ring: 0, edge: 1, isNew: true };
    expect(isClearChord(notch, { a: end(5), b: onRight })).toBe(false);
    expect(isClearChord(notch, { a: end(5), b: end(3) })).toBe(true);
  });
});

describe('a point put on an edge', () => {
  test('lies on the grid, near where it was wanted, and almost exactly on the edge', () => {
    for (let seed = 0; seed < 40; seed++) {
      const random = stream(seed, 'edge');
      const [ax, ay, bx, by] = [0, 0, 0, 0].map(() => Math.round(6e6 * random()) / 1000);
      const t = 0.1 + 0.8 * random();
      const [x, y] = gridPointOnEdge(ax, ay, bx, by, ax + t * (bx - ax), ay + t * (by - ay));
      expect([x, y]).toEqual([Math.round(x * 1000) / 1000, Math.round(y * 1000) / 1000]);
      expect(Math.abs(x - ax - t * (bx - ax)) + Math.abs(y - ay - t * (by - ay))).toBeLessThan(2.1);
      // Twice the area between the edge and the way by the point.
      expect(Math.abs((bx - ax) * (y - ay) - (by - ay) * (x - ax))).toBeLessThan(0.02);
    }
  });

  test('points put on an edge from both of its sides are on both, in order along it', () => {
    const south: Region = [Float64Array.from([0, 0, 0, -50, 90, -50, 90, 0])];
    const north: Region = [Float64Array.from([90, 0, 90, 40, 0, 40, 0, 0])];
    const at = (...numbers: [number, number, number, number, number, number]) => ({ at: numbers });
    // The north has cut at 31 and then between it and the end at 12; the south, run the other way, at 57 and again at 31.
    const cutNorth: Region = [Float64Array.from([90, 0, 90, 40, 0, 40, 0, 0, 12, 0, 31, 0])];
    const [one, other] = withInsertions(
      [south, cutNorth],
      [at(0, 0, 90, 0, 31, 0), at(0, 0, 31, 0, 12, 0), at(90, 0, 0, 0, 57, 0), at(57, 0, 0, 0, 31, 0)],
    );
    expect([...one[0]]).toEqual([0, 0, 0, -50, 90, -50, 90, 0, 57, 0, 31, 0, 12, 0]);
    expect([...other[0]]).toEqual([90, 0, 90, 40, 0, 40, 0, 0, 12, 0, 31, 0, 57, 0]);
    expect(withInsertions([north], [at(5, 5, 7, 7, 6, 6)])[0][0]).toBe(north[0]);
  });
});
