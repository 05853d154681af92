import { expect, test } from 'vitest';
import { CannotMake, type Finding } from '../../src/findings.ts';
import { areaOf } from '../../src/geometry/ring.ts';
import { groundOf } from '../../src/model/ground.ts';
import type { Solid } from '../../src/model/landform.ts';
import { heightfield } from '../../src/model/landform.ts';
import { rasterOf } from '../../src/model/raster.ts';
import { judgeOpenings } from '../../src/slice/layers/openings.ts';
import { solidOutlines } from '../../src/slice/layers/solid.ts';
import { mesh } from '../../src/source/mesh.ts';
import { walkNow } from '../../src/walk.ts';
import { obj } from '../help/solid-files.ts';
import { fieldSolid, mapped, prism, solid, together, turned } from '../help/solids.ts';

async function read(of: Solid, closeMm = 10): Promise<{ solid: Solid; told: Finding[] }> {
  const told: Finding[] = [];
  const context = { facts: {}, others: {}, tell: (finding: Finding) => void told.push(finding), random: () => 0.5 };
  const options = { file: 'rock.obj', unit: 'mm', close: closeMm } as const;
  return { solid: await (mesh.run(new Map([['rock.obj', obj(of)]]), options, context) as Promise<Solid>), told };
}

const LEVELS = [0, 30, 60, 90, 120, 150, 180];

function judged(of: Solid, levels = LEVELS): Finding[] {
  const told: Finding[] = [];
  judgeOpenings(of, levels, (finding) => void told.push(finding));
  return told;
}

function refused(of: Solid) {
  try {
    judged(of);
  } catch (error) {
    if (error instanceof CannotMake) return error.faults;
    throw error;
  }
  throw new Error('was not refused');
}

const areas = (of: Solid, cut: 'proud' | 'shy' | 'middle') => walkNow(solidOutlines(of, LEVELS, cut)).map(areaOf);
const without = (of: Solid, isGone: (triangle: number) => boolean): Solid => ({
  ...of,
  triangles: of.triangles.filter((_, i) => !isGone(Math.floor(i / 3))),
});
const volume = (of: Solid) => groundOf(of).volumeMm3;

const ROCK = turned(
  [
    [0, 0],
    [130, 0],
    [170, 71],
    [96, 152.5],
    [0, 181],
  ],
  60,
  240,
  310,
);
/** Height of a triangle's middle. */
const middle = (of: Solid, triangle: number, axis: number) =>
  [0, 1, 2].reduce((sum, k) => sum + of.positionsMm[3 * of.triangles[3 * triangle + k] + axis] / 3, 0);

test('one triangle that is missing: closed as it was, told with layer, gap and place', async () => {
  // Of the girdle between z = 0 and 71, where a side is about 15 mm long.
  const gone = [...Array(ROCK.triangles.length / 3).keys()].find(
    (i) => Math.abs(middle(ROCK, i, 2) - 71 / 3) < 1,
  ) as number;
  const open = without(ROCK, (triangle) => triangle === gone);
  const whole = await read(ROCK);
  const { solid: made, told } = await read(open, 20);
  expect(told.map(({ code, level }) => [code, level])).toEqual([['source/open', 'watch']]);
  expect(made.triangles.length).toBe(ROCK.triangles.length);
  expect(volume(made)).toBeCloseTo(volume(whole.solid), 3);
  for (const cut of ['proud', 'shy', 'middle'] as const) {
    expect(areas(made, cut)).toEqual(areas(whole.solid, cut).map((area) => expect.closeTo(area, 6)));
  }
  const found = judged(made);
  expect(found.map(({ where, code }) => [code, where.layer])).toEqual([
    ['slice/closed', 1],
    ['slice/closed', 2],
    ['slice/closed', 3],
  ]);
  // Its foot is a side of the lowest ring: 2 × 130 × sin 3°.
  const foot = 2 * 130 * Math.sin(Math.PI / 60);
  expect(found[0].message).toContain(`${foot.toFixed(1)} mm`);
  expect(found[0].where.atMm?.[0]).toBeCloseTo(middle(ROCK, gone, 0) - 70, -1.5);
  // Stricter than the gap it is refused, layer by layer, with the same gap.
  const strict = await read(open, 8);
  const faults = refused(strict.solid);
  expect(faults.map(({ where, code }) => [code, where.layer])).toEqual([['slice/open', 1]]);
  expect(faults[0].message).toContain(`${foot.toFixed(1)} mm`);
  expect(faults[0].fix).toContain('close: 14 mm');
  expect(faults[0].where.atMm).toEqual(found[0].where.atMm);
});

test('a missing floor or lid opens no outline: closed flat whatever its size, and noted', async () => {
  for (const z of [0, 152.5]) {
    const body = mapped(ROCK, (x, y, height) => [x, y, Math.min(height, 152.5)]);
    const { solid: made, told } = await read(without(body, (i) => Math.abs(middle(body, i, 2) - z) < 0.001));
    expect(told.map(({ code, level }) => [code, level])).toEqual([['source/cracks-closed', 'note']]);
    const whole = await read(body);
    expect(volume(made) / volume(whole.solid)).toBeCloseTo(1, 9);
    expect(made.open).toBeUndefined();
    expect(judged(made)).toEqual([]);
    for (const cut of ['proud', 'shy'] as const) {
      expect(areas(made, cut)).toEqual(areas(whole.solid, cut).map((area) => expect.closeTo(area, 3)));
    }
  }
});

test('ground with walls but no floor: the floor is made, bent inward as its outline is', async () => {
  const L: [number, number][] = [
    [0, 0],
    [300, 0],
    [300, 80],
    [90, 80],
    [90, 250],
    [0, 250],
  ];
  const walls = L.map((_, i) => [i, (i + 1) % 6, 6 + ((i + 1) % 6), 6 + i]);
  const top = [
    [6, 7, 8, 9],
    [6, 9, 10, 11],
  ];
  const cut = solid(
    [...L.map(([x, y]) => [x, y, 12] as const), ...L.map(([x, y]) => [x, y, 70] as const)],
    [...walls, ...top],
  );
  const { solid: made } = await read(cut);
  expect(volume(made)).toBeCloseTo((300 * 80 + 90 * 170) * 58, 3);
  // Its underside hangs in the first layer: proud covers the L, not its hull.
  expect(areaOf(walkNow(solidOutlines(made, [0, 40, 80], 'proud'))[0])).toBeCloseTo(300 * 80 + 90 * 170, 3);
});

test('joints that do not share corners, and cracks a hair wide, are stitched without a word of layers', async () => {
  // A wall's side has a corner half way up that the wall beside does not have.
  const block = prism(
    [
      [10, 20],
      [210, 40],
      [190, 180],
      [30, 150],
    ],
    0,
    120,
  );
  const positions = [...block.positionsMm, ...[210, 40, 51.3].map((value, i) => value + (i < 2 ? 0.02 : 0))];
  const extra = positions.length / 3 - 1;
  const triangles: number[] = [];
  let isSplit = false;
  for (let i = 0; i < block.triangles.length; i += 3) {
    const [a, b, c] = block.triangles.subarray(i, i + 3);
    const at = [a, b, c].findIndex((v, k, all) => v === 1 && all[(k + 1) % 3] === 5);
    if (at < 0 || isSplit) triangles.push(a, b, c);
    else {
      const third = [a, b, c][(at + 2) % 3];
      triangles.push(1, extra, third, extra, 5, third);
      isSplit = true;
    }
  }
  expect(isSplit).toBe(true);
  const { solid: made, told } = await read({
    ...block,
    positionsMm: Float64Array.from(positions),
    triangles: Uint32Array.from(triangles),
  });
  expect(told.map(({ code }) => code)).toEqual(['source/cracks-closed']);
  expect(Math.abs(volume(made) / volume(block) - 1)).toBeLessThan(1e-4);
  expect(judged(made)).toEqual([]);
});

test('two halves that were never joined: the seam between is closed, not each half by itself', async () => {
  const round = ROCK.triangles.length / 3;
  const isLeft = (triangle: number) => middle(ROCK, triangle, 0) < 240;
  const left = without(ROCK, (triangle) => !isLeft(triangle));
  const right = mapped(without(ROCK, isLeft), (x, y, z) => [x + 1.7, y, z]);
  expect(left.triangles.length + right.triangles.length).toBe(3 * round);
  const { solid: made, told } = await read(together(left, right));
  expect(told.map(({ code }) => code)).toEqual(['source/open']);
  const whole = await read(ROCK);
  expect(volume(made) / volume(whole.solid)).toBeGreaterThan(1);
  expect(volume(made) / volume(whole.solid)).toBeLessThan(1.02);
  const found = judged(made);
  expect(found.length).toBe(6);
  for (const { message } of found) expect(message).toMatch(/gap of (1\.[67]|2\.\d) mm/);
  areas(made, 'middle').forEach((area, k) => {
    const before = areas(whole.solid, 'middle')[k];
    expect(area / before).toBeGreaterThan(1);
    expect(area / before).toBeLessThan(1.03);
  });
  // Wider apart than is closed, it is refused.
  const apart = await read(
    together(
      left,
      mapped(right, (x, y, z) => [x + 30, y, z]),
    ),
  );
  expect(refused(apart.solid)[0].code).toBe('slice/open');
});

test('bare ground is refused with layer, gap and place, and says how it could be had', async () => {
  const heights = Float64Array.from({ length: 9 * 7 }, (_, i) => 40 + 13 * (i % 4) + 7 * (i % 3));
  const field = fieldSolid(heightfield(9, 7, 50, 40, heights));
  const bare = without(field, (i) =>
    field.triangles.subarray(3 * i, 3 * i + 3).some((v) => field.positionsMm[3 * v + 2] === 0),
  );
  const { solid: made, told } = await read(bare);
  expect(told.map(({ code }) => code)).toContain('source/open');
  const [fault] = refused(made);
  expect(fault.fix).toContain('base and walls');
  expect(fault.where.layer).toBeGreaterThan(0);
  expect(fault.where.atMm).toHaveLength(2);
});

test('a hole right through a wall, of many corners, is drawn together; other readers see a closed body', async () => {
  const fine = turned(
    [[0, 0], ...Array.from({ length: 31 }, (_, k) => [120 + 20 * Math.sin(k / 5), 6 * k] as const), [0, 180]],
    90,
    240,
    310,
  );
  const isHole = (i: number) => {
    const [y, z] = [middle(fine, i, 1), middle(fine, i, 2)];
    return middle(fine, i, 0) > 300 && Math.abs(y - 300) < 16 && Math.abs(z - 95) < 13;
  };
  const open = without(fine, isHole);
  expect(fine.triangles.length - open.triangles.length).toBeGreaterThan(60);
  const { solid: made } = await read(open, 50);
  expect(made.open?.rims.length).toBe(1);
  const whole = (await read(fine)).solid;
  expect(Math.abs(volume(made) / volume(whole) - 1)).toBeLessThan(2e-3);
  const [a, b] = [made, whole].map((of) => rasterOf(of, 40).heightsMm);
  expect([...a].map(Number.isNaN)).toEqual([...b].map(Number.isNaN));
  expect(judged(made).map(({ where }) => where.layer)).toEqual(expect.arrayContaining([3, 4]));
  // Every edge as often one way as the other.
  const net = new Map<string, number>();
  made.triangles.forEach((v, i) => {
    const w = made.triangles[i % 3 === 2 ? i - 2 : i + 1];
    const key = v < w ? `${v} ${w}` : `${w} ${v}`;
    net.set(key, (net.get(key) ?? 0) + (v < w ? 1 : -1));
  });
  expect([...net.values()].every((value) => value === 0)).toBe(true);
});

test('of many layers the widest gaps are told, and how many there are', async () => {
  const tall = prism(
    [
      [0, 0],
      [200, 10],
      [180, 150],
    ],
    0,
    400,
  );
  const open = without(tall, (i) => i === 2);
  const { solid: made } = await read(open, 300);
  const found = judged(
    made,
    Array.from({ length: 21 }, (_, k) => 20 * k),
  );
  expect(found).toHaveLength(6);
  expect(found[0].message).toContain('Of 20 layers');
});
