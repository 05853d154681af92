import { describe, expect, it } from 'vitest';
import { cos, PI, sin } from '../../src/geometry/exact-math.ts';
import { areaOf } from '../../src/geometry/ring.ts';
import { groundOf, groundRange } from '../../src/model/ground.ts';
import { extent, type Heightfield, heightfield, type Landform, type Solid } from '../../src/model/landform.ts';
import type { LayerStack } from '../../src/model/layer.ts';
import { crop } from '../../src/shape/crop.ts';
import { mirror } from '../../src/shape/mirror.ts';
import { turn } from '../../src/shape/turn.ts';
import { layers } from '../../src/slice/layers.ts';
import { planeGround, roughGround, wedge } from '../help/grounds.ts';
import { codes, refusal, runPlugin } from '../help/plugin-run.ts';

const turned = <T extends Landform>(landform: T, options: Record<string, unknown>) =>
  runPlugin<T>(turn, landform, options);
const cut = runPlugin<Heightfield>(crop, roughGround(6), {
  outline: [
    [13, 11],
    [150, 32],
    [101, 90],
    [140, 200],
    [37, 180],
  ],
}).made;
const areas = (landform: Landform) => {
  const ran = runPlugin<never>(layers, landform, { thickness: 10, simplify: 0 }, { facts: { thicknessesMm: [10] } });
  return (ran.made as LayerStack).layers.map(({ regions }) => areaOf(regions));
};

describe.each<[string, Landform]>([
  ['whole ground', roughGround(4)],
  ['ground cut between posts', cut],
  ['a solid', wedge()],
])('%s', (_, ground) => {
  it('four quarter turns make what it was, to the byte', () => {
    const before = structuredClone(ground);
    let now = ground;
    for (let i = 0; i < 4; i++) now = turned(now, { by: 90 }).made;
    expect(now).toEqual(ground);
    expect(ground).toEqual(before);
    expect(turned(ground, { by: -90 }).made).toEqual(turned(ground, { by: 270 }).made);
  });

  it('half a turn is both mirrorings', () => {
    const both = ['west-east', 'south-north'].reduce<Landform>(
      (now, sides) => runPlugin(mirror, now, { sides }).made,
      ground,
    );
    const half = turned(ground, { by: 180 }).made;
    expect(groundOf(half)).toEqual(groundOf(both));
    if (ground.kind === 'heightfield') expect((half as Heightfield).heightsMm).toEqual((both as Heightfield).heightsMm);
  });

  it('its layers have the same areas after a quarter turn', () => {
    const [before, after] = [areas(ground), areas(turned(ground, { by: 90 }).made)];
    expect(after.length).toBe(before.length);
    after.forEach((area, k) => void expect(area).toBeCloseTo(before[k], 1));
  });
});

it('turns counter-clockwise as seen from above: what lay east lies north', () => {
  const ramp = heightfield(3, 2, 10, 20, Float64Array.from([0, 1, 2, 0, 1, 2]));
  const { made } = turned(ramp, { by: 90 });
  expect([made.columns, made.rows, made.stepXMm, made.stepYMm]).toEqual([2, 3, 20, 10]);
  expect([...made.heightsMm]).toEqual([0, 0, 1, 1, 2, 2]);
});

describe('by no quarter turn', () => {
  it.each([30, -47.3, 200])('a plane stays a plane within its outline: %f degrees', (by) => {
    const plane = planeGround(40, 30);
    const ran = turned(plane, { by });
    expect(codes(ran)).toEqual(['shape/resampled']);
    const [before, after] = [groundOf(plane), groundOf(ran.made)];
    expect(after.planAreaMm2 / before.planAreaMm2).toBeCloseTo(1, 9);
    // The range is kept, so the lowest and the highest corner end flat over less than a cell.
    expect(after.volumeMm3 / before.volumeMm3).toBeCloseTo(1, 5);
    expect(after.surfaceAreaMm2 / before.surfaceAreaMm2).toBeCloseTo(1, 5);
  });

  it('keeps the range, the footprint with its area, and tells the largest difference at the old posts', () => {
    const ran = turned(cut, { by: 30 });
    const [before, after] = [groundRange(cut), groundRange(ran.made)];
    expect(after.lowMm).toBeGreaterThanOrEqual(before.lowMm - 1e-6);
    expect(after.highMm).toBeLessThanOrEqual(before.highMm + 1e-6);
    expect(areaOf(ran.made.footprint)).toBeCloseTo(areaOf(cut.footprint), 6);
    expect(extent(ran.made).box.slice(0, 2)).toEqual([0, 0]);
    expect(ran.made.heightsMm.every(Number.isFinite)).toBe(true);
    expect(Number(/differ by up to ([\d.]+) mm/.exec(ran.findings[0].message)?.[1])).toBeGreaterThan(1);
  });

  it('the difference falls with the square of the step on smooth ground', () => {
    const hill = (step: number) => {
      const n = 480 / step + 1;
      const at = (i: number) => 60 + 40 * sin(((i % n) * step * PI) / 240) * cos((Math.floor(i / n) * step * PI) / 160);
      const { findings } = turned(
        heightfield(
          n,
          n,
          step,
          step,
          Float64Array.from({ length: n * n }, (_, i) => at(i)),
        ),
        {
          by: 31,
        },
      );
      return Number(/differ by up to ([\d.]+) mm/.exec(findings[0].message)?.[1]);
    };
    expect(hill(20) / hill(40)).toBeLessThan(0.35);
  });

  it('looks at nothing outside the footprint', () => {
    const notched = runPlugin<Heightfield>(crop, roughGround(3, 19, 10), {
      outline: [
        [31, 20],
        [300, 44],
        [333, 250],
        [190, 180],
        [52, 301],
      ],
    }).made;
    const wild = { ...notched, heightsMm: notched.heightsMm.slice() };
    // North-east of the notch no ground hangs on this post.
    wild.heightsMm[(wild.rows - 1) * wild.columns + Math.round((190 - 31) / 20)] = 9e5;
    expect(groundRange(wild)).toEqual(groundRange(notched));
    expect(turned(wild, { by: 20 }).made).toEqual(turned(notched, { by: 20 }).made);
  });
});

describe('a solid', () => {
  const positions = (solid: Solid) =>
    Array.from({ length: solid.positionsMm.length / 3 }, (_, i) => [...solid.positionsMm.slice(3 * i, 3 * i + 3)]);
  it.each([
    ['y', [3, -2, 1], [3, -1, -2]],
    ['-y', [3, -2, 1], [3, 1, 2]],
    ['x', [3, -2, 1], [-2, 1, 3]],
    ['-x', [3, -2, 1], [-2, -1, -3]],
    ['-z', [3, -2, 1], [3, 2, -1]],
  ])('with %s up: its own %s comes to point to z, unmirrored', (up, from, to) => {
    // A lopsided body: the difference between two of its corners tells where a direction went.
    const body = { ...wedge(), positionsMm: Float64Array.from([...wedge().positionsMm.slice(0, 15), ...from]) };
    const { made } = turned<Solid>(body, { up });
    const [first, , , , , last] = positions(made);
    expect(last.map((value, k) => value - first[k])).toEqual(to);
    expect(made.triangles).toEqual(body.triangles);
  });

  it('any angle keeps its volume, its inside inside, and its distances', () => {
    const whole = wedge();
    const volume = (solid: Solid) => {
      const p = solid.positionsMm;
      let sum = 0;
      for (let t = 0; t < solid.triangles.length; t += 3) {
        const [a, b, c] = [0, 1, 2].map((k) => p.slice(3 * solid.triangles[t + k], 3 * solid.triangles[t + k] + 3));
        sum +=
          a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) + a[2] * (b[0] * c[1] - b[1] * c[0]);
      }
      return sum / 6;
    };
    for (const about of ['x', 'y', 'z']) {
      const { made } = turned<Solid>(whole, { by: 37, about, up: '-y' });
      expect(volume(made) / volume(whole)).toBeCloseTo(1, 12);
      expect(extent(made).box.slice(0, 2)).toEqual([0, 0]);
    }
  });

  it('by any angle gives layers of the areas that it had', () => {
    const [before, after] = [areas(wedge()), areas(turned(wedge(), { by: 37 }).made)];
    expect(after.length).toBe(before.length);
    // Outlines lie on the grid of a thousandth of a millimetre: over 130 mm around, about 0.1 mm².
    after.forEach((area, k) => void expect(Math.abs(area - before[k])).toBeLessThan(0.2));
  });

  it('about x and y turns y up, and z to x: counter-clockwise from the end of the axis', () => {
    const heights = (about: string) => positions(turned<Solid>(wedge(), { by: 90, about }).made).map((p) => p[2]);
    expect(heights('x')).toEqual(positions(wedge()).map((p) => p[1]));
    expect(heights('y')).toEqual(positions(wedge()).map((p) => 0 - p[0]));
  });

  it('a cropped one turns in plan with its crop, and not on its side', () => {
    const cropped = runPlugin<Solid>(crop, wedge(), {
      rectangle: [
        [5, 3],
        [33, 21],
      ],
    }).made;
    const { made } = turned<Solid>(cropped, { by: 25 });
    expect(areaOf(made.footprint ?? [])).toBeCloseTo(28 * 18, 9);
    expect(groundOf(made).volumeMm3 / groundOf(cropped).volumeMm3).toBeCloseTo(1, 9);
    expect(refusal(() => turned(cropped, { up: 'x' })).code).toBe('shape/cropped');
  });
});

it('refuses to lay heights on their side, and a turn that says nothing', () => {
  const about = refusal(() => turned(roughGround(1), { by: 90, about: 'x' }));
  expect([about.code, about.where.path]).toEqual(['shape/heights', 'shape.turn.about']);
  const up = refusal(() => turned(roughGround(1), { up: 'y' }));
  expect([up.code, up.where.path]).toEqual(['shape/heights', 'shape.turn.up']);
  for (const options of [{}, { by: 400 }, { by: 'left' }, { by: 5, up: 'north' }])
    expect(() => turned(wedge(), options)).toThrow();
});

it('refuses more posts than are taken', () => {
  // Two posts each way, steps that differ a hundred-thousandfold: turned, the closer step fills the longer way.
  const long = heightfield(2, 2, 1, 1e9, new Float64Array(4));
  const fault = refusal(() => turned(long, { by: 45 }));
  expect([fault.code, fault.where.path]).toEqual(['shape/too-many-posts', 'shape.turn.by']);
});
