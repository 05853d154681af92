/** What the division of a stack promises: carry, stagger, zones, keys, tongues; and that it does not lean to one side. */
import { describe, expect, test } from 'vitest';
import { seams } from '../../src/checks/seams.ts';
import { subtract } from '../../src/geometry/clip.ts';
import { lengthInside } from '../../src/geometry/length-inside.ts';
import { areaOf, type Region, rectangle } from '../../src/geometry/ring.ts';
import type { LayerStack } from '../../src/model/layer.ts';
import type { Piece } from '../../src/model/piece.ts';
import { seamSegments, staggerMm } from '../../src/model/seam.ts';
import { jointOf, pieceOf } from '../help/pieced.ts';
import { smallPlan } from '../help/small-plan.ts';
import { faultsOf, split } from '../help/split-run.ts';
import { randomStack, splitFacts } from '../help/stacks.ts';

const flat = (layers: number, ...regions: Region[]): LayerStack => ({
  kind: 'flat',
  layers: Array.from({ length: layers }, (_, i) => ({ number: i + 1, bottomMm: 50 * i, thicknessMm: 50, regions })),
});
const BAR = [Float64Array.from([0, 0, 6130, 40, 6110, 910, 25, 870])];
const told = (stack: LayerStack, pieces: readonly Piece[], job = {}) => seams({ ...smallPlan(), stack, pieces, job });

test.each([
  [50, 1200, undefined, 150],
  [200, 1200, undefined, 200],
  [5, 310, undefined, 77.5],
  [50, 1200, 90, 90],
])('boards %i thick and %i wide, %s said: a stagger of %i mm', (thicknessMm, narrow, said, stagger) => {
  expect(staggerMm(said, thicknessMm, [{ sizeMm: [2400, narrow], thicknessMm }])).toBe(stagger);
});

describe('overlap rules of builders, recomputed', () => {
  const IN_MM = 25.4;
  const boards = (thicknessMm: number, narrow = 1200) =>
    staggerMm(undefined, thicknessMm, [{ sizeMm: [2400, narrow], thicknessMm }]);

  /** City of Everett, geofoam specification (lfportal.everettwa.gov): blocks offset by 6 in at least in alternate layers. To the 2.4 mm that 150 rounds off. */
  test('geofoam: 6 in at least, in boards of any thickness', () => {
    for (const thicknessMm of [20, 50, 100, 150, 200])
      expect(boards(thicknessMm)).toBeGreaterThanOrEqual(6 * IN_MM - 2.5);
  });

  /** Cyclopedia of Architecture, Carpentry and Building, "Bonding stone masonry" (chestofbooks.com): a stone laps by 1 to 1½ times its course. */
  test('stone: one height of the course at least', () => {
    for (const thicknessMm of [20, 50, 100, 150, 200, 400])
      expect(boards(thicknessMm)).toBeGreaterThanOrEqual(thicknessMm);
  });

  /** Construction for Landscape (safaribooksonline.com): bricks overlap by 25 % of a brick at least. Where boards are too narrow for 150 mm that is what is kept. */
  test('brick: a quarter of the piece, where narrow boards let no more be kept', () => {
    for (const narrow of [120, 300, 480, 590]) expect(boards(10, narrow)).toBe(narrow / 4);
    expect(boards(10, 600)).toBe(150);
  });

  /** Two layers with one seam each, straight over one another but for so much. */
  test.each([40, 149, 151])(
    'the check tells of seams %i mm apart where 150 are wanted, and of no others',
    (apartMm) => {
      const side = (name: string, from: number, to: number, seamMm: number) =>
        pieceOf(name, [rectangle(from, 0, to, 700)], {
          joints: [jointOf(`${Number.parseInt(name, 10)}/A`, 'other', seamMm, 0, seamMm, 700)],
        });
      const pieces = [...[500, 500 + apartMm].entries()].flatMap(([i, at]) => [
        side(`${i + 1}A`, 0, at, at),
        side(`${i + 1}C`, at, 1000, at),
      ]);
      const plan = { ...smallPlan(), stack: flat(2, [rectangle(0, 0, 1000, 700)]), pieces, job: {} };
      const boardSizes = [{ sizeMm: [2400, 1200] as const, thicknessMm: 50, densityKgM3: 15, trimMm: 0 }];
      const findings = seams({ ...plan, facts: { ...plan.facts, boardSizes } });
      expect(findings.map(({ code }) => code)).toEqual(apartMm < 150 ? ['checks/seam-over-seam'] : []);
    },
  );
});

test('the stagger that is said is kept, and the check holds a plan to it', () => {
  const stack = flat(4, BAR);
  const { pieces } = split('solid', stack, { seams: { stagger: 320 } });
  const job = { split: { solid: { seams: { stagger: 320 } } } };
  expect(told(stack, pieces, job)).toEqual([]);
  const xs = stack.layers.map(({ number }) =>
    seamSegments(pieces.filter(({ layer }) => layer === number)).filter((_, i) => i % 4 === 0),
  );
  for (let i = 1; i < xs.length; i++) {
    for (const x of xs[i]) for (const other of xs[i - 1]) expect(Math.abs(x - other)).toBeGreaterThan(320);
  }
});

test('a stagger that was not kept is told with its place', () => {
  const stack = flat(3, BAR);
  // Each divided for itself, they are divided alike.
  const pieces = stack.layers.flatMap((layer) => split('solid', { ...stack, layers: [layer] }).pieces);
  const [finding] = told(stack, pieces, { split: { solid: { seams: { stagger: 1400 } } } });
  expect(finding).toMatchObject({ code: 'checks/seam-over-seam', level: 'watch' });
  expect(finding.message).toContain('1400 mm');
});

test('no piece weighs more than may be carried, by the heaviest board on offer', () => {
  const boardSizes = [15, 31].map((densityKgM3) => ({
    sizeMm: [2400, 1200] as const,
    thicknessMm: 50,
    densityKgM3,
    trimMm: 5,
  }));
  const facts = splitFacts({ boardSizes, carry: { sizeMm: null, massKg: 1.7 } });
  const stack = randomStack(5);
  const { pieces } = split('solid', stack, { facts });
  for (const { areaMm2 } of pieces) expect(areaMm2 * 50 * 31e-9).toBeLessThanOrEqual(1.7);
  expect(pieces.length).toBeGreaterThan(split('solid', stack).pieces.length);
});

test('a mass that no piece has is refused', () => {
  const facts = splitFacts({ carry: { sizeMm: null, massKg: 0.0002 } });
  const [fault] = faultsOf(() => split('solid', flat(1, BAR), { facts }));
  expect(fault).toMatchObject({ code: 'split/carry-too-light', where: { path: 'carry.mass', layer: 1 } });
});

test('seams keep out of a zone that is looked at closely, where there is a way', () => {
  const plain = seamSegments(split('solid', flat(1, BAR)).pieces);
  const [x] = plain;
  const outline = [
    [x - 60, -10],
    [x + 60, -10],
    [x + 60, 990],
    [x - 60, 990],
  ] as const;
  const zone = { ...smallPlan().facts.zones[0], kind: 'seen' as const, name: null, outline, clearanceMm: 0 };
  const made = seamSegments(split('solid', flat(1, BAR), { facts: { ...splitFacts(), zones: [zone] } }).pieces);
  const inside = (segments: readonly number[]) => {
    let sum = 0;
    for (let i = 0; i < segments.length; i += 4) {
      sum += lengthInside(segments[i], segments[i + 1], segments[i + 2], segments[i + 3], [
        [rectangle(x - 60, -10, x + 60, 990)],
      ]);
    }
    return sum;
  };
  expect(inside(plain)).toBeGreaterThan(800);
  expect(inside(made)).toBe(0);
  expect(made).toHaveLength(plain.length);
});

test.each([2, 4])('a quarter turn of the ground keeps the areas of its pieces, hill %i', (seed) => {
  const stack = randomStack(seed, { widthMm: 4300, layers: 3 });
  const turned: LayerStack = {
    ...stack,
    layers: stack.layers.map((layer) => ({
      ...layer,
      regions: layer.regions.map((region) =>
        region.map((ring) => ring.map((_, i) => (i % 2 === 0 ? 5000 - ring[i + 1] : ring[i - 1]))),
      ),
    })),
  };
  const areas = (of: LayerStack) =>
    split('solid', of)
      .pieces.map(({ areaMm2 }) => areaMm2)
      .sort((a, b) => a - b);
  const [one, other] = [areas(stack), areas(turned)];
  expect(other).toHaveLength(one.length);
  // Points on edges find their places on the grid along x or along y.
  for (const [i, area] of one.entries()) expect(Math.abs(area - other[i])).toBeLessThan(1e-5 * area + 100);
});

describe.each(['solid', 'hollow'] as const)('keys, %s', (name) => {
  const stack = randomStack(6, { widthMm: 5900, depthMm: 3900, layers: 3 });
  const made = split(name, stack, { seams: { style: 'key', clearance: 5 } });
  const keyed = made.pieces.flatMap(({ joints }) => joints).filter(({ line }) => line.length > 4);

  test('stand in seams, and are counted; play that the kerf does not give is told', () => {
    expect(keyed.length).toBeGreaterThan(4);
    expect(made.findings.map(({ code }) => code)).toEqual(expect.arrayContaining(['split/keys', 'split/tight-keys']));
  });

  test('pieces fill the layer and fit their boards; both sides hold each line', () => {
    for (const layer of stack.layers) {
      const pieces = made.of(layer.number);
      let rest: Region[] = [...layer.regions];
      let sum = 0;
      for (const { region, areaMm2 } of pieces) {
        sum += areaMm2;
        rest = subtract(rest, [region]);
      }
      expect(Math.abs(areaOf(layer.regions) - areaOf(rest) - sum)).toBeLessThan(0.01 * pieces.length);
    }
    for (const { label, line } of keyed) {
      const sides = made.pieces.filter(({ joints }) => joints.some((joint) => joint.label === label));
      expect(sides).toHaveLength(2);
      for (const { region } of sides) {
        const own = new Set(
          region.flatMap((ring) =>
            Array.from({ length: ring.length / 2 }, (_, i) => `${ring[2 * i]},${ring[2 * i + 1]}`),
          ),
        );
        for (let i = 0; i < line.length; i += 2) expect(own.has(`${line[i]},${line[i + 1]}`)).toBe(true);
      }
    }
  });
});

test('slots for tongues lie on their straight joints, clear of the ends, and are counted', () => {
  const { pieces, findings } = split('solid', flat(2, BAR), { seams: { style: 'tongue' } });
  const joints = pieces.flatMap((piece) => piece.joints);
  expect(findings.find(({ code }) => code === 'split/tongues')?.message).toMatch(
    /^\d+ loose tongues in \d+ joints, 150 mm long/,
  );
  for (const { line, tongues = [] } of joints) {
    expect(tongues.length).toBeGreaterThan(0);
    for (const [ax, ay, bx, by] of tongues) {
      expect(lengthOf(ax, ay, bx, by)).toBeCloseTo(150, 2);
      for (const end of [0, line.length - 2]) expect(lengthOf(ax, ay, line[end], line[end + 1])).toBeGreaterThan(99);
    }
  }
});

const lengthOf = (ax: number, ay: number, bx: number, by: number) => Math.sqrt((ax - bx) ** 2 + (ay - by) ** 2);
