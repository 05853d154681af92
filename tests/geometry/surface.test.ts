import { describe, expect, it } from 'vitest';
import { PI } from '../../src/geometry/exact-math.ts';
import { stream } from '../../src/geometry/random.ts';
import { type Given, type PostGrid, surfaceThrough } from '../../src/geometry/surface.ts';
import { walkNow } from '../../src/walk.ts';

const NONE: Given = { spots: new Float64Array(0), lines: [], creases: [], tears: [] };
const grid = (columns: number, rows: number, stepX: number, stepY = stepX): PostGrid => ({
  ...{ columns, rows, stepX, stepY },
  ...{ originX: 0, originY: 0 },
});
const lay = (given: Partial<Given>, on: PostGrid) => walkNow(surfaceThrough({ ...NONE, ...given }, on));
const heightAt = (values: Float64Array, { columns, stepX, stepY }: PostGrid, x: number, y: number) =>
  values[Math.round(y / stepY) * columns + Math.round(x / stepX)];

/** A closed line round (x, y), its radius swelling and shrinking by `lobes`. */
function ring(x: number, y: number, radius: number, z: number, points: number, lobes = 0): Float64Array {
  const line = new Float64Array(3 * (points + 1));
  for (let i = 0; i <= points; i++) {
    const angle = (2 * PI * (i % points)) / points;
    const r = radius * (1 + lobes * Math.sin(3 * angle + 1));
    line.set([x + r * Math.cos(angle), y + r * Math.sin(angle), z], 3 * i);
  }
  return line;
}
/** A level line from south to north, right across a grid. */
const meridian = (x: number, z: number) => new Float64Array([x, -50, z, x, 9000, z]);

function scattered(count: number, width: number, depth: number, zOf: (x: number, y: number) => number, seed = 3) {
  const next = stream(seed, 'spots', 0);
  return Float64Array.from(
    Array.from({ length: count }, () => [next() * width, next() * depth] as const).flatMap(([x, y]) => [
      ...[x, y],
      zOf(x, y),
    ]),
  );
}

describe('planes and less', () => {
  const plane = (x: number, y: number) => 0.31 * x - 0.74 * y + 2040;
  const on = grid(61, 41, 25, 37);

  it('gives a plane back exactly, from spots and from lines, also beyond them', () => {
    const spots = scattered(23, 700, 900, plane);
    const line = new Float64Array([90, 80, plane(90, 80), 400, 700, plane(400, 700), 310, 1100, plane(310, 1100)]);
    for (const given of [{ spots }, { lines: [line] }, { spots, lines: [line] }]) {
      const { values, worst } = lay(given, on);
      const errors = values.map((z, i) => Math.abs(z - plane((i % 61) * 25, Math.floor(i / 61) * 37)));
      expect(Math.max(...errors)).toBeLessThan(1e-9);
      expect(worst.off).toBeLessThan(1e-9);
    }
  });

  it('lays level ground where nothing or one height is given, and a plane level across it through points on one line', () => {
    expect(new Set(lay({}, on).values)).toEqual(new Set([0]));
    expect(lay({}, on).worst).toEqual({ off: 0, x: 0, y: 0 });
    const one = lay({ spots: new Float64Array([310, 220, 75.5]) }, on).values;
    expect(Math.max(...one) - Math.min(...one)).toBeLessThan(1e-12);
    const sloping = lay({ spots: new Float64Array([100, 200, 10, 300, 300, 20, 700, 500, 40]) }, on).values;
    // Along (2, 1) it climbs 10 in √50000; across, along (−1, 2), it is level.
    expect(heightAt(sloping, on, 1500, 1480) - heightAt(sloping, on, 0, 0)).toBeCloseTo((1500 * 2 + 1480) / 50, 6);
  });

  it('does not see what lies off the grid', () => {
    const spots = scattered(9, 700, 900, plane);
    const farther = new Float64Array([...spots, -10, 40, 9999, 40, 1500, -9999]);
    expect(lay({ spots: farther }, on)).toEqual(lay({ spots }, on));
  });
});

describe('what is given is met', () => {
  it('scattered spots of no order, some near each other: all to 0.1, whatever the shape of the cells', () => {
    for (const [stepX, stepY] of [
      [20, 20],
      [31, 17],
    ]) {
      const on = grid(Math.ceil(1500 / stepX) + 1, Math.ceil(1100 / stepY) + 1, stepX, stepY);
      const next = stream(11, 'heights', stepX);
      const spots = scattered(90, 1500, 1100, () => 400 * next());
      expect(lay({ spots }, on).worst.off).toBeLessThan(0.1);
    }
  });

  it('closed lines of a lobed hill all along, not only at their points', () => {
    const lines = [0, 1, 2, 3].map((k) => ring(1180, 830, 700 - 150 * k, 100 + 60 * k, 300, 0.1));
    expect(lay({ lines }, grid(121, 86, 20)).worst.off).toBeLessThan(0.1);
  });

  it.each([
    ['with corners', 8, 0, 40, 5],
    ['with corners', 12, 0, 40, 10],
    ['that turn within a cell', 2000, 0.15, 40, 5],
  ])('closed lines %s on a bank of 1.5 : 1 or steeper (%i points, lobes %f)', (_, points, lobes, gap, step) => {
    const lines = [0, 1, 2, 3, 4, 5].map((k) => ring(1180, 830, 700 - gap * k, 100 + 60 * k, points, lobes));
    const { worst } = lay({ lines }, grid(2400 / step + 1, 1700 / step + 1, step));
    expect(worst.off).toBeLessThan(0.1);
  });

  it('tells how far it is off, and where, when one cell is asked for more than its posts can hold', () => {
    const crowd = [510, 510, 10, 515, 511, 30, 511, 515, 5, 516, 516, 60, 513, 512, 0, 512, 513, 80];
    const { worst } = lay({ spots: new Float64Array([...crowd, 100, 100, 20, 900, 700, 20]) }, grid(51, 41, 20));
    expect(worst.off).toBeGreaterThan(5);
    expect([worst.x, worst.y].every((at) => at > 500 && at < 520)).toBe(true);
    // Posts a hundredth as far apart can.
    expect(
      lay({ spots: new Float64Array(crowd.map((v, i) => (i % 3 < 2 ? v - 500 : v))) }, grid(101, 101, 0.2)).worst.off,
    ).toBeLessThan(0.1);
  });

  it('stays near the data where lines contradict each other', () => {
    const lines = [ring(700, 600, 300, 100, 200), ring(800, 620, 300, 200, 200)];
    const { values, worst } = lay({ lines }, grid(81, 61, 20));
    expect(worst.off).toBeGreaterThan(1);
    expect(Math.max(...values)).toBeLessThan(500);
    expect(Math.min(...values)).toBeGreaterThan(-300);
  });
});

describe('its shape', () => {
  it('rounds a paraboloid off at its top as the paraboloid does, 100 above the last line', () => {
    const levels = [0, 100, 200, 300, 400, 500, 600, 700];
    const lines = levels.map((z) => ring(2000, 1600, 1500 * Math.sqrt(1 - z / 800), z, 400));
    const on = grid(101, 81, 40);
    const { values } = lay({ lines }, on);
    expect(Math.abs(heightAt(values, on, 2000, 1600) - 800)).toBeLessThan(6);
  });

  it.each([
    ['a top', 1],
    ['a pit', -1],
  ])('leaves no terrace in %s: it goes on beyond the last line, and is level at one place only', (_, sign) => {
    const on = grid(97, 81, 20);
    const lines = [600, 460, 320].map((radius, k) => ring(940, 790, radius, sign * 100 * k, 240, 0.08));
    const { values } = lay({ lines }, on);
    const up = values.map((z) => sign * z);
    const top = up.indexOf(Math.max(...up));
    // The slope at the last line, kept up to the middle, would give 230; a third of that is a round top.
    expect(up[top]).toBeGreaterThan(250);
    expect(up[top]).toBeLessThan(430);
    let level = 0;
    for (let i = 98; i < up.length - 98; i++) {
      if (up[i] < 201) continue;
      const slope = Math.abs(up[i + 1] - up[i - 1]) + Math.abs(up[i + 97] - up[i - 97]);
      const away = Math.max(Math.abs((i % 97) - (top % 97)), Math.abs(Math.floor(i / 97) - Math.floor(top / 97)));
      if (slope < 1 && away > 3) level++;
    }
    expect(level).toBe(0);
  });

  it('rounds a steep hill’s top also amid wide gentle ground', () => {
    const on = grid(101, 81, 20);
    const lines = [600, 460, 320].map((radius, k) => ring(900, 790, radius, 100 + 100 * k, 240, 0.1));
    const { values } = lay({ lines, spots: new Float64Array([1800, 1450, 40, 100, 1500, 20, 60, 80, 60]) }, on);
    expect(Math.max(...values)).toBeGreaterThan(350);
  });

  it('climbs steadily between far lines, however steep the ground beside them', () => {
    const on = grid(131, 31, 30);
    const heights = [0, 100, 200, 300, 400, 500];
    const lines = [300, 400, 500, 3500, 3600, 3700].map((x, k) => meridian(x, heights[k]));
    for (const given of [lines, [meridian(510, 0), meridian(3390, 300)]]) {
      const { values } = lay({ lines: given }, on);
      const row = Array.from(values.subarray(15 * 131, 16 * 131));
      for (let i = 18; i < 114; i++) expect(row[i + 1], `post ${i}`).toBeGreaterThan(row[i]);
    }
  });

  it('runs flat again beside a scarp: little beyond the highest and the lowest line', () => {
    const on = grid(151, 21, 40);
    const lines = [300, 2000, 2080, 2160, 2240, 2320, 5500].map((x, k) =>
      meridian(x, [0, 10, 110, 210, 310, 410, 420][k]),
    );
    const { values } = lay({ lines }, on);
    expect(Math.max(...values.subarray(151 * 10, 151 * 10 + 138))).toBeLessThan(435);
    expect(Math.min(...values.subarray(151 * 10 + 8, 151 * 11))).toBeGreaterThan(-15);
  });
});

describe('beyond the outermost data', () => {
  const on = grid(211, 161, 10);
  const eight = [0, 1, 2, 3, 4, 5, 6, 7];
  /** Steepest slope at the posts that lie so far out of a radius. */
  function steepest(values: Float64Array, x: number, y: number, from: number): number {
    let most = 0;
    for (let i = 212; i < values.length - 212; i++) {
      const [dx, dy] = [(i % 211) * 10 - x, Math.floor(i / 211) * 10 - y];
      if (dx * dx + dy * dy < from * from || i % 211 === 0 || i % 211 === 210) continue;
      most = Math.max(
        most,
        Math.abs(values[i + 1] - values[i - 1]) / 20,
        Math.abs(values[i + 211] - values[i - 211]) / 20,
      );
    }
    return most;
  }

  it.each([
    ['hill', 'in the middle', 1, 1000, 800],
    ['bowl', 'in the middle', -1, 1000, 800],
    ['hill', 'in a corner', 1, 620, 610],
  ])('a steep %s %s runs out level, less than half an interval beyond its outermost line', (_, __, sign, x, y) => {
    const lines = eight.map((k) => ring(x, y, 540 - 60 * k, sign * (50 + 50 * k), 300, 0.08));
    const { values, worst } = lay({ lines }, on);
    expect(worst.off).toBeLessThan(0.1);
    const up = values.map((z) => sign * z);
    expect(Math.min(...up)).toBeGreaterThan(25);
    // Round its summit as before: above the last line, not by a whole slope.
    expect(Math.max(...up)).toBeGreaterThan(425);
    expect(Math.max(...up)).toBeLessThan(470);
    // The lines slope by 0.83. Two spacings beyond the lobes' outermost reach, a twelfth of it is left.
    expect(steepest(values, x, y, 540 * 1.08 + 120)).toBeLessThan(0.07);
  });

  it('a slope whose lines leave the grid goes on at a dying slope at its foot and its head, and never turns', () => {
    const lines = eight.map((k) => meridian(705 + 60 * k, 50 + 50 * k));
    const { values } = lay({ lines }, on);
    const row = Array.from(values.subarray(80 * 211, 81 * 211));
    for (let i = 0; i < 210; i++) expect(row[i + 1] - row[i], `post ${i}`).toBeGreaterThan(-1e-3);
    expect(row[0]).toBeGreaterThan(25);
    expect(row[210]).toBeLessThan(425);
    expect(row[70 - 12] - row[70 - 13]).toBeLessThan(0.5);
    // Between its outermost lines it is the plane that they lie on.
    for (let i = 71; i <= 112; i++) expect(Math.abs(row[i] - (50 + ((10 * i - 705) * 50) / 60))).toBeLessThan(0.1);
  });

  it.each([
    ['a little', 100],
    ['at its middle', 20],
    ['beyond its middle', -60],
  ])('a top that the grid cuts open %s rounds on beyond its last line like a whole one', (_, x) => {
    const hill = (at: number) => {
      const lines = [0, 1, 2, 3, 4].map((k) => ring(at, 800, 700 - 100 * k, 50 + 50 * k, 300, 0.05));
      return Math.max(...lay({ lines }, on).values) - 250;
    };
    const whole = hill(1000);
    expect(whole).toBeGreaterThan(50);
    expect(hill(x) / whole).toBeGreaterThan(0.9);
    expect(hill(x) / whole).toBeLessThan(1.4);
  });

  it('a valley that the grid cuts open falls on to its middle, no deeper than its banks lead', () => {
    const bow = (k: number) =>
      Float64Array.from(
        [-60, 20, 300, 700, 1050, 700, 300, 20, -60].flatMap((x, i) => [
          x + (i > 0 && i < 8 ? 70 * k : 0),
          800 + (i - 4) * (60 + 30 * k),
          50 * k,
        ]),
      );
    const { values } = lay({ lines: [1, 2, 3, 4].map(bow) }, on);
    // Beside the lowest line, 240 across, the banks fall by about 0.8: a round floor is some 50 below it.
    expect(Math.min(...values)).toBeGreaterThan(-50);
    expect(Math.min(...values)).toBeLessThan(30);
  });

  it('two hills stand in one level ground, and a top cut open by the grid does not shoot up', () => {
    const west = [0, 1, 2, 3, 4].map((k) => ring(500, 500, 340 - 60 * k, 50 + 50 * k, 300, 0.08));
    const east = [0, 1, 2, 3].map((k) => ring(1450, 1100, 380 - 90 * k, 50 + 50 * k, 300, 0.12));
    expect(Math.min(...lay({ lines: [...west, ...east] }, on).values)).toBeGreaterThan(20);
    const cut = eight.map((k) => ring(100, 800, 700 - 60 * k, 50 + 50 * k, 300, 0.08));
    const { values } = lay({ lines: cut }, on);
    // The last line is at 400: a cone would reach 630, a round top half as far above it.
    expect(Math.max(...values)).toBeLessThan(530);
    expect(Math.min(...values)).toBeGreaterThan(20);
  });

  it('spots in the ground beyond a hill are met, without a deep ditch between', () => {
    const lines = eight.map((k) => ring(1000, 800, 540 - 60 * k, 50 + 50 * k, 300, 0.08));
    const spots = new Float64Array([30, 30, 10, 2000, 60, 20, 1950, 1500, 5, 100, 1500, 30]);
    const { values, worst } = lay({ lines, spots }, on);
    expect(worst.off).toBeLessThan(0.1);
    expect(Math.min(...values)).toBeGreaterThan(-10);
  });

  it('one line with a spot inside it makes a hill on level ground', () => {
    const { values } = lay(
      { lines: [ring(1000, 800, 400, 100, 300, 0.08)], spots: new Float64Array([1000, 800, 190]) },
      on,
    );
    expect(heightAt(values, on, 1000, 800)).toBeCloseTo(190, 1);
    expect(Math.min(...values)).toBeGreaterThan(90);
  });

  it('spots alone: the waves between them die away on the plane of best fit', () => {
    const wave = (x: number, y: number) => 60 * Math.sin(x / 60) * Math.cos(y / 70);
    const spots = scattered(14, 300, 300, (x, y) => 100 + 0.2 * x + wave(x, y));
    const { values } = lay({ spots }, grid(121, 101, 25));
    const plane = (i: number) =>
      values[100 * 121 + 120] - 25 * (120 - (i % 121)) * slopeX - 25 * (100 - Math.floor(i / 121)) * slopeY;
    const slopeX = (values[100 * 121 + 120] - values[100 * 121 + 80]) / 1000;
    const slopeY = (values[100 * 121 + 120] - values[60 * 121 + 120]) / 1000;
    const off = values.map((z, i) => Math.abs(z - plane(i)));
    expect(Math.max(...off)).toBeLessThan(200);
  });
});

describe('creases and tears', () => {
  const on = grid(101, 76, 20);
  const line = new Float64Array([1010, -100, 1010, 2000]);

  it('bends sharply across a crease and stays whole', () => {
    const spots = scattered(40, 2000, 1500, (x) => 300 - 0.4 * Math.abs(x - 1010));
    const plain = lay({ spots }, on).values;
    const creased = lay({ spots, creases: [line] }, on).values;
    const bend = (values: Float64Array) =>
      Math.min(
        ...[49, 50, 51].map((c) => values[37 * 101 + c + 1] - 2 * values[37 * 101 + c] + values[37 * 101 + c - 1]),
      );
    expect(bend(creased)).toBeLessThan(3 * bend(plain));
    expect(Math.abs(creased[37 * 101 + 51] - creased[37 * 101 + 50])).toBeLessThan(12);
  });

  it.each([
    ['upright, between posts', line, (x: number, y: number) => (x < 1010 ? 300 : 100 + 0 * y)],
    ['slanting, through posts', new Float64Array([0, 0, 1500, 1500]), (x: number, y: number) => (x < y ? 300 : 100)],
  ])('falls from one side of a tear to the other within a cell: %s', (_, tear, zOf) => {
    const spots = scattered(60, 2000, 1500, zOf);
    const { values, worst } = lay({ spots, tears: [tear] }, on);
    expect(worst.off).toBeLessThan(0.1);
    const [low, high] = _.startsWith('upright') ? [49, 52] : [33, 41];
    expect(values[37 * 101 + low] - 300).toBeGreaterThan(-12);
    expect(values[37 * 101 + high] - 100).toBeLessThan(12);
  });
});

describe('it has no favoured direction', () => {
  const on = grid(71, 53, 20);
  const lines = [ring(640, 520, 420, 60, 150, 0.09), ring(660, 540, 250, 140, 120, 0.06)];
  const spots = new Float64Array([1200, 900, 20, 1300, 120, 45, 655, 530, 190]);
  const { values } = lay({ lines, spots }, on);
  const mapped = (flat: Float64Array, map: (x: number, y: number) => [number, number]) =>
    flat.map((_, i) => (i % 3 === 2 ? flat[i] : map(flat[i - (i % 3)], flat[i - (i % 3) + 1])[i % 3]));

  it.each([
    [
      'mirrored',
      71,
      53,
      (x: number, y: number) => [1400 - x, y],
      (i: number) => Math.floor(i / 71) * 71 + 70 - (i % 71),
    ],
    [
      'turned a quarter',
      53,
      71,
      (x: number, y: number) => [1040 - y, x],
      (i: number) => (i % 71) * 53 + 52 - Math.floor(i / 71),
    ],
  ] as const)('%s data make the surface so', (_, columns, rows, map, post) => {
    const given = {
      lines: lines.map((each) => mapped(each, (x, y) => [...map(x, y)] as [number, number])),
      spots: mapped(spots, (x, y) => [...map(x, y)] as [number, number]),
    };
    const other = lay(given, grid(columns, rows, 20)).values;
    // What is met to a twentieth of a millimetre leaves this much play out at the rim, beyond all lines.
    expect(Math.max(...values.map((z, i) => Math.abs(z - other[post(i)])))).toBeLessThan(1);
  });

  it('gives the same bytes twice, with progress that grows', () => {
    const work = surfaceThrough({ ...NONE, lines, spots }, on);
    let last = 0;
    let step = work.next();
    for (; !step.done; step = work.next()) {
      expect(step.value).toBeGreaterThanOrEqual(last);
      last = step.value;
    }
    expect(last).toBeLessThanOrEqual(1);
    expect(step.value.values).toEqual(values);
  });
});
