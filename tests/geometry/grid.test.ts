/** The grid verbs that ground stands on: cells under an outline, outlines of cells, values for posts without one. */
import { describe, expect, it } from 'vitest';
import { regionsFromRings } from '../../src/geometry/clip.ts';
import { cellsUnder, cornersOf } from '../../src/geometry/grid-cells.ts';
import { fillMembrane, fillNearest } from '../../src/geometry/grid-fill.ts';
import { outlineOfCells } from '../../src/geometry/grid-outline.ts';
import { stream } from '../../src/geometry/random.ts';
import { areaOf, isInside, type Region, ringArea, ringsOf } from '../../src/geometry/ring.ts';

/** A picture of cells, north on top, as the rows of a grid from the south. */
const picture = (...lines: readonly string[]) =>
  Uint8Array.from([...lines].reverse().flatMap((line) => [...line].map((mark) => (mark === '#' ? 1 : 0))));
const grid = (across: number, up: number) => ({ across, up, stepX: 3, stepY: 7, originX: 0, originY: 0 });

describe('outlineOfCells', () => {
  it('gives one rectangle, corners only, for a whole grid', () => {
    const [[ring], ...others] = outlineOfCells(picture('###', '###'), 3, 3, 7);
    expect(others).toEqual([]);
    expect([...ring].sort((a, b) => a - b)).toEqual([0, 0, 0, 0, 9, 9, 14, 14]);
    expect(ringArea(ring)).toBe(9 * 14);
  });

  it('parts cells that touch at a corner, and a hole that touches the outer ring or another hole', () => {
    expect(outlineOfCells(picture('#..', '.##'), 3, 3, 7).length).toBe(2);
    const touching = outlineOfCells(picture('#####', '#.###', '##.##', '#####', '.####'), 5, 3, 7);
    expect(touching.map((region) => region.length)).toEqual([3]);
    const atTheRim = outlineOfCells(picture('.###', '#.##', '####'), 4, 3, 7);
    expect(atTheRim.map((region) => region.length)).toEqual([2]);
  });

  it('knows an island in a lake from the land round it', () => {
    const regions = outlineOfCells(picture('#####', '#...#', '#.#.#', '#...#', '#####'), 5, 3, 7);
    expect(regions.map((region) => region.length)).toEqual([2, 1]);
  });

  it.each([3, 8, 21, 34])(
    'is undone by cellsUnder, agrees with clipping, and its rings are simple, seed %i',
    (seed) => {
      const random = stream(seed, 'cells');
      const [across, up] = [13, 9];
      const cells = Uint8Array.from({ length: across * up }, () => (random() < 0.62 ? 1 : 0));
      const regions = outlineOfCells(cells, across, 3, 7);
      expect(cellsUnder(regions, grid(across, up), 0.001)).toEqual(cells);
      expect(areaOf(regions)).toBe(21 * cells.reduce((sum, cell) => sum + cell, 0));
      expect(areaOf(regionsFromRings(ringsOf(regions)))).toBeCloseTo(areaOf(regions), 6);
      for (const [outer, ...holes] of regions) {
        expect(ringArea(outer)).toBeGreaterThan(0);
        for (const ring of [outer, ...holes]) {
          const points = Array.from({ length: ring.length / 2 }, (_, i) => `${ring[2 * i]} ${ring[2 * i + 1]}`);
          expect(new Set(points).size).toBe(points.length);
        }
        for (const hole of holes) expect(ringArea(hole)).toBeLessThan(0);
      }
    },
  );
});

describe('cellsUnder', () => {
  it.each([5, 13, 29])('marks the cells that a slanted outline lies in, and no others, seed %i', (seed) => {
    const random = stream(seed, 'outline');
    const at = (x: number, y: number) => [x + 4 * random(), y + 4 * random()];
    const outer = Float64Array.from([...at(1, 2), ...at(30, 5), ...at(33, 50), ...at(17, 31), ...at(2, 55)]);
    const hole = Float64Array.from([...at(9, 12), ...at(12, 24), ...at(22, 13)]);
    const regions: Region[] = [[outer, hole]];
    const cells = cellsUnder(regions, grid(13, 9), 0.001);
    for (let cell = 0; cell < cells.length; cell++) {
      const [x, y] = [(cell % 13) * 3, Math.floor(cell / 13) * 7];
      let hits = 0;
      for (let k = 0; k < 400; k++) if (isInside(x + 3 * random(), y + 7 * random(), regions)) hits++;
      // A handful of hits could be missed, never made up.
      if (hits > 0) expect(cells[cell]).toBeGreaterThan(0);
      if (cells[cell] === 1) expect(hits).toBe(400);
      if (cells[cell] === 0) expect(hits).toBe(0);
      if (hits === 0 && cells[cell] !== 0) expect(nearRing(x, y, [outer, hole])).toBe(true);
    }
  });

  it('does not count what only shares an edge, off by less than the slack', () => {
    const ring = Float64Array.from([3.0004, 7, 9, 6.9996, 9.0004, 21, 3, 21]);
    expect([...cellsUnder([[ring]], grid(4, 4), 0.001)]).toEqual([0, 0, 0, 0, 0, 1, 1, 0, 0, 1, 1, 0, 0, 0, 0, 0]);
    expect([...cornersOf(picture('.#', '..'), 2)]).toEqual([0, 0, 0, 0, 1, 1, 0, 1, 1]);
  });
});

describe('filling', () => {
  const columns = 11;
  const known = picture('###########', '##...######', '##....#####', '##...######', '#########..', '#########..');
  const values = Float64Array.from({ length: 66 }, (_, i) =>
    known[i] ? 5 + 2 * (i % columns) - 3 * Math.floor(i / columns) : Number.NaN,
  );

  it('takes a known neighbour, and leaves the known and the input alone', () => {
    const before = values.slice();
    const filled = fillNearest(values, known, columns);
    expect(values).toEqual(before);
    const wanted = new Set(values.filter((_, i) => known[i] === 1));
    for (let i = 0; i < 66; i++) {
      if (known[i]) expect(filled[i]).toBe(values[i]);
      else expect(wanted.has(filled[i])).toBe(true);
    }
  });

  it('stretches a film that is the mean of its neighbours, within the range of the known, the progress growing', () => {
    const work = fillMembrane(values, known, columns);
    let last = -1;
    let step = work.next();
    for (; !step.done; step = work.next()) {
      expect(step.value).toBeGreaterThan(last);
      last = step.value;
    }
    const filled = step.value;
    const low = Math.min(...values.filter(Number.isFinite));
    const high = Math.max(...values.filter(Number.isFinite));
    for (let i = 0; i < 66; i++) {
      if (known[i]) continue;
      const [x, y] = [i % columns, Math.floor(i / columns)];
      const around = [
        x > 0 ? i - 1 : -1,
        x < 10 ? i + 1 : -1,
        y > 0 ? i - columns : -1,
        y < 5 ? i + columns : -1,
      ].filter((n) => n >= 0);
      expect(filled[i]).toBeCloseTo(around.reduce((sum, n) => sum + filled[n], 0) / around.length, 3);
      expect(filled[i]).toBeGreaterThanOrEqual(low);
      expect(filled[i]).toBeLessThanOrEqual(high);
    }
  });
});

function nearRing(x: number, y: number, rings: readonly Float64Array[]): boolean {
  // Some edge point, walked finely, lies in the cell.
  for (const ring of rings) {
    for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
      for (let t = 0; t <= 1; t += 0.0005) {
        const px = ring[j] + t * (ring[i] - ring[j]);
        const py = ring[j + 1] + t * (ring[i + 1] - ring[j + 1]);
        if (px >= x && px <= x + 3 && py >= y && py <= y + 7) return true;
      }
    }
  }
  return false;
}
