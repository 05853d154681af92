/** Rings out of shared blanks: figures of the trade recomputed, laws on random hills, refusals with their places. */
import { describe, expect, test } from 'vitest';
import { bearing } from '../../src/checks/bearing.ts';
import { seams } from '../../src/checks/seams.ts';
import { offset, subtract, unite } from '../../src/geometry/clip.ts';
import { fitsRectangle, flushRectangles } from '../../src/geometry/enclosing.ts';
import {
  ringsOf as allRings,
  areaOf,
  distanceToRings,
  type Region,
  rectangle,
  regionArea,
} from '../../src/geometry/ring.ts';
import { ringHull } from '../../src/geometry/ring-hull.ts';
import type { LayerStack } from '../../src/model/layer.ts';
import { unreachedMm2 } from '../help/reach.ts';
import { HUGE, ringsOf, round, stackOf } from '../help/rings-run.ts';
import { smallPlan } from '../help/small-plan.ts';
import { faultsOf, type Split } from '../help/split-run.ts';
import { randomStack, splitFacts } from '../help/stacks.ts';

const RANDOM = Number(process.env.LAWS ?? 60);
const regionsOf = (made: Split, layer: number) => made.of(layer).map(({ region }) => region);
const codes = ({ findings }: Split) => findings.map(({ code }) => code);
const noKerf = { ...HUGE, tool: { ...HUGE.tool, kerfMm: 0 } };

/** A cone of so many layers, its foot so wide. */
const cone = (layers: number, radius: number) =>
  stackOf(Array.from({ length: layers }, (_, k) => round(4000, 4000, (radius * (layers - k)) / layers)));

/** Net foam of blanks against that of whole layers, per cent saved. */
function savedPercent(made: Split, stack: LayerStack): number {
  const net = made.blanks.reduce((sum, { pieces }) => sum + areaOf(unite(pieces.map(({ region }) => region))), 0);
  return 100 * (1 - net / areaOf(stack.layers.flatMap(({ regions }) => regions)));
}

describe('the trade’s figures', () => {
  /** Memory for the teaching trick; numbers computed by us from closed forms (nested outlines, net area of blanks). */
  test.each([
    ['cone of 6 layers', 2, 33],
    ['cone of 12 layers', 2, 59],
    ['dome of 12 layers', 2, 77],
    ['ridge of 12 layers', 2, 71],
    ['cone of 6 layers', 3, 15],
    ['cone of 12 layers', 3, 44],
    ['dome of 12 layers', 3, 65],
  ])('%s out of %i blanks saves %i %', (shape, blanks, percent) => {
    const layers = shape.includes(' 6 ') ? 6 : 12;
    const widths = Array.from({ length: layers }, (_, k) =>
      shape.startsWith('dome') ? Math.sqrt(1 - (k / layers) ** 2) : (layers - k) / layers,
    );
    const outlines = widths.map((share, k) =>
      // A ridge so long that its ends hardly count; each end steps in by little more than the lap.
      shape.startsWith('ridge')
        ? rectangle(100 + 8 * k, 4000 - 700 * share, 30_000 - 8 * k, 4000 + 700 * share)
        : round(4000, 4000, 1000 * share),
    );
    const stack = stackOf(outlines);
    const facts = { ...HUGE, boardSizes: [{ ...HUGE.boardSizes[0], sizeMm: [31_000, 9000] as const }] };
    const made = ringsOf(stack, { blanks, lap: 5, span: '9 m' }, facts);
    expect(made.blanks.length).toBe(blanks);
    const saved = savedPercent(made, stack);
    // Rounded in the table; a ridge's ends take 0.06.
    expect(Math.abs(saved - percent)).toBeLessThan(0.56);
    const told = made.findings.find(({ code }) => code === 'split/rings');
    expect(told?.message).toContain(`${Math.round(saved)} % less foam`);
  });

  /** Lap = t ÷ tan(slope) for upright edges and two blanks: 87, 50 and 29 mm of 50 mm boards at 30, 45 and 60 degrees. */
  test.each([
    [30, 87],
    [45, 50],
    [60, 29],
  ])('at %i degrees boards of 50 mm lap by %i mm, out of three blanks by twice as much', (slopeDeg, lapMm) => {
    const step = 50 / Math.tan((slopeDeg * Math.PI) / 180);
    expect(Math.round(step)).toBe(lapMm);
    const stack = cone(7, 7 * step);
    for (const blanks of [2, 3]) {
      const made = ringsOf(stack, { blanks, lap: 5, span: '9 m' }, noKerf);
      for (let i = 0; i + blanks < 7; i++) {
        const hole = subtract(stack.layers[i].regions, regionsOf(made, i + 1));
        const laps = ringsAndCorners(hole).map(([x, y]) =>
          distanceToRings(x, y, allRings(stack.layers[i + 1].regions)),
        );
        expect(Math.min(...laps)).toBeCloseTo((blanks - 1) * step, 0);
      }
    }
  });

  /** Borrowing the mason's lap of a course's height: good to 45 degrees, at 1.5 times to 34, whatever the thickness. */
  test.each([
    [undefined, 45],
    ['1.5 x thickness', 33.7],
  ])('a lap of %s takes slopes up to %d degrees', (lap, limitDeg) => {
    const steep = (deg: number) => () =>
      ringsOf(cone(6, (6 * 50) / Math.tan((deg * Math.PI) / 180)), { ...(lap ? { lap } : {}), span: '9 m' }, noKerf);
    expect(faultsOf(steep(limitDeg - 0.4))).toEqual([]);
    const [fault] = faultsOf(steep(limitDeg + 0.4));
    expect(fault.code).toBe('split/rings-too-steep');
    expect(fault.message).toContain(`rings take ${Math.round(limitDeg)}°`);
  });
});

/** The corners of some regions. */
const ringsAndCorners = (regions: readonly Region[]): [number, number][] =>
  allRings(regions).flatMap((ring) =>
    Array.from({ length: ring.length / 2 }, (_, i): [number, number] => [ring[2 * i], ring[2 * i + 1]]),
  );

/** What must hold of every stack of rings. */
function hold(stack: LayerStack, made: Split, lapMm: number, facts: typeof HUGE): void {
  const [{ sizeMm, trimMm }] = facts.boardSizes;
  for (const { pieces, sharedCuts } of made.blanks) {
    const regions = pieces.map(({ region }) => region);
    const together = unite(regions);
    // Nest without overlap: what they cover together is what they are one by one.
    expect(Math.abs(areaOf(together) - areaOf(regions))).toBeLessThan(0.01);
    expect(new Set(pieces.map(({ thicknessMm }) => thicknessMm)).size).toBe(1);
    // A shared cut runs along both pieces, every point of it.
    const points = regions.map((region) => new Set(ringsAndCorners([region]).map(String)));
    for (const line of sharedCuts) {
      for (let i = 0; i < line.length; i += 2) {
        const owners = points.filter((set) => set.has(`${line[i]},${line[i + 1]}`));
        expect(owners.length).toBeGreaterThanOrEqual(2);
      }
    }
    // Between them no foam is lost: a blank has no more outlines than its outermost disc.
    for (const region of together) {
      const hull = ringsAndCorners([region]);
      const [xs, ys] = [hull.map(([x]) => x), hull.map(([, y]) => y)];
      const spans = [Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys)].sort((a, b) => b - a);
      expect(spans[1]).toBeLessThan(Math.hypot(...sizeMm) - 2 * trimMm);
    }
  }
  for (const [i, layer] of stack.layers.entries()) {
    const foam = regionsOf(made, layer.number);
    const left = subtract(layer.regions, foam).filter((region) => regionArea(region) > 0.5);
    expect(areaOf(subtract(foam, layer.regions))).toBeLessThan(0.5);
    expect(Math.abs(areaOf(unite(foam)) - areaOf(foam))).toBeLessThan(0.5);
    // What is left out lies under the next layer, a lap inside its outline: nothing that is seen is void.
    const next = stack.layers[i + 1]?.regions ?? [];
    expect(areaOf(subtract(left, offset(next, -lapMm + 0.05)))).toBeLessThan(0.5);
  }
  const labels = made.pieces.flatMap(({ joints }) => joints.map(({ label }) => label));
  for (const label of new Set(labels)) expect(labels.filter((other) => other === label).length).toBe(2);
  expect(new Set(made.pieces.map(({ name }) => name)).size).toBe(made.pieces.length);
}

describe('laws', () => {
  const small = splitFacts({ boardSizes: [{ sizeMm: [2400, 1200], thicknessMm: 50, densityKgM3: 15, trimMm: 5 }] });
  test.each(Array.from({ length: Math.ceil(RANDOM / 10) }, (_, i) => 7000 + i))('random hill %i', (seed) => {
    const stack = randomStack(seed, { layers: 7, points: 60 });
    // Walls of the pits step in by 17 mm a layer.
    const lap = seed % 4 < 2 ? 12 : 40;
    for (const facts of [HUGE, small]) {
      const made = ringsOf(stack, { blanks: 2 + (seed % 2), lap, span: '3 m', steep: 'keep' }, facts);
      const isNested = made.blanks.some(({ pieces }) => pieces.length > 1);
      expect(codes(made)).toContain(isNested ? 'split/rings' : 'split/no-rings');
      if (lap === 12) expect(isNested).toBe(true);
      hold(stack, made, lap, facts);
      const plan = { ...smallPlan(), stack, pieces: made.pieces, job: { split: { rings: { lap } } } };
      expect(bearing(plan).filter(({ level }) => level === 'stop')).toEqual([]);
    }
  });
});

describe('where rings are not to be had', () => {
  /** A cone pushed to the east: its east side is steep, its west side gentle. */
  const leaning = stackOf(Array.from({ length: 6 }, (_, k) => round(3000 + 95 * k, 3000, 900 - 130 * k)));

  test('too steep: refused, with the worst place, the lap found and wanted, and the slope', () => {
    const [{ code, message, fix, where }] = faultsOf(() => ringsOf(leaning, { span: '9 m' }));
    expect(code).toBe('split/rings-too-steep');
    // Steps of 130 − 95 = 35 mm in the east, less 2 mm of kerf.
    expect(message).toMatch(
      /^Layer \d would lap the ring under it by 33 mm only, 50 mm are wanted: the ground is 57° steep/,
    );
    expect(message).toContain('the worst of 4 places');
    expect(fix).toContain('blanks: 3');
    expect(fix).toContain('smaller lap');
    expect(fix).toContain('hollow');
    expect(where.layer).toBeGreaterThanOrEqual(1);
    const [x, y] = where.atMm ?? [0, 0];
    expect(x).toBeGreaterThan(3600);
    expect(Math.abs(y - 3000)).toBeLessThan(30);
  });

  test('three blanks lap twice as far there', () => {
    expect(codes(ringsOf(leaning, { blanks: 3, span: '9 m' }))).toContain('split/rings');
    const [{ fix }] = faultsOf(() => ringsOf(leaning, { blanks: 3, lap: 90, span: '9 m' }));
    expect(fix).not.toContain('blanks: 3');
  });

  test('kept: the hearts stay in, which is told with the place', () => {
    const made = ringsOf(leaning, { steep: 'keep', span: '9 m' });
    expect(codes(made)).toEqual(expect.arrayContaining(['split/no-rings', 'split/rings-kept-steep']));
    expect(made.blanks.map(({ pieces }) => pieces.length)).toEqual([1, 1, 1, 1, 1, 1]);
    expect(made.findings.find(({ code }) => code === 'split/rings-kept-steep')?.where.atMm?.[0]).toBeGreaterThan(3600);
  });

  test('a wall at the edge of the footprint is refused; layers that are all wall stay whole', () => {
    const base = rectangle(0, 0, 2000, 1500);
    const inner = Array.from({ length: 4 }, (_, k) =>
      rectangle(120 * (k + 1), 120 * (k + 1), 2000 - 120 * (k + 1), 1500 - 120 * (k + 1)),
    );
    const made = ringsOf(stackOf([base, base, base, ...inner]), { span: '9 m' });
    expect(made.of(1).map(({ region }) => region)).toEqual([[base]]);
    expect(made.blanks.map(({ pieces }) => pieces.map(({ name }) => name).join(' '))).toEqual([
      '1A',
      '2A 4A 6A',
      '3A 5A 7A',
    ]);
    const cut = inner.map((ring) => ring.map((value, i) => (i % 2 === 1 ? Math.max(value, 0) : value)));
    const atWall = cut.map((_, k) => rectangle(0, 120 * (k + 1), 2000 - 120 * (k + 1), 1500 - 120 * (k + 1)));
    const [{ code, message, where }] = faultsOf(() => ringsOf(stackOf([base, ...atWall]), { span: '9 m' }));
    expect(code).toBe('split/rings-too-steep');
    expect(message).toContain('by 0 mm only');
    expect(where.atMm?.[0]).toBe(0);
  });

  test('layers that stick out over those beneath are refused', () => {
    const overhang = stackOf([
      round(2000, 2000, 900),
      round(2000, 2000, 500),
      round(2000, 2000, 700),
      round(2000, 2000, 400),
    ]);
    const [{ code, where }] = faultsOf(() => ringsOf(overhang, { span: '9 m' }));
    expect(code).toBe('split/rings-too-steep');
    expect(where.layer).toBe(1);
  });

  test('under a flat shelf the heart stays in, and what lies over the next void is told as a lid', () => {
    // The shelf: layer 4 steps in by 700 mm.
    const radii = [1900, 1800, 1700, 1000, 900, 800, 700];
    const stack = stackOf(radii.map((radius) => round(3000, 3000, radius)));
    const made = ringsOf(stack, {});
    expect(codes(made)).toEqual(expect.arrayContaining(['split/rings-shelf', 'split/rings-lid']));
    // Layer 2 would hang 700 mm over the void of layer 1: that void is not made.
    expect(areaOf(regionsOf(made, 1))).toBeCloseTo(areaOf(stack.layers[0].regions), 0);
    expect(areaOf(regionsOf(made, 2))).toBeLessThan(areaOf(stack.layers[1].regions) - 1e6);
    const lid = made.findings.find(({ code }) => code === 'split/rings-lid');
    expect(lid?.where.atMm?.[0]).toBeCloseTo(3000, -2);
    expect(codes(ringsOf(stack, { span: '9 m' }))).not.toContain('split/rings-shelf');
  });

  test('blocks stand under a lid, layer on layer from the floor, so that no point of it is further from foam than it spans', () => {
    const radii = [1900, 1800, 1700, 1000, 900, 800, 700];
    const stack = stackOf(radii.map((radius) => round(3000, 3000, radius)));
    const made = ringsOf(stack, { lap: 40 });
    const told = made.findings.find(({ code }) => code === 'split/rings-lid');
    const single = made.blanks.filter(({ pieces: [{ areaMm2 }] }) => areaMm2 <= 150 * 150 + 1);
    expect(told?.level).toBe('note');
    expect(told?.message).toContain(`${single.length} blocks stand`);
    const layersOf = single.map(({ pieces: [{ layer }] }) => layer);
    // Layer 6 lies whole over what layer 7 left of layer 5; beneath that is the void of layer 4, out of which layer 6 came.
    expect(Math.max(...layersOf)).toBe(5);
    for (let place = 0; place < 5; place++) {
      const foam = regionsOf(made, place + 1);
      const left = subtract(stack.layers[place].regions, foam);
      const lid = regionsOf(made, place + 2);
      const isLid = areaOf(left) > 1 && areaOf(subtract(left, lid)) < 1;
      if (isLid) expect(unreachedMm2(lid, foam, left, 200.5)).toBeLessThan(1);
    }
    // Each rests on foam, wherever it does not stand on the floor.
    for (const {
      pieces: [block],
    } of single) {
      const beneath = block.layer === 1 ? [block.region] : regionsOf(made, block.layer - 1);
      expect(areaOf(subtract([block.region], beneath))).toBeLessThan(0.4 * block.areaMm2);
    }
    expect(bearing({ ...smallPlan(), stack, pieces: made.pieces, job: { split: { rings: { lap: 40 } } } })).toEqual([
      expect.objectContaining({ code: 'checks/least-bearing' }),
    ]);
    hold(stack, made, 40, HUGE);
  });

  test('nothing is left out under a zone that is to stay solid', () => {
    const stack = cone(7, 1400);
    const outline: [number, number][] = [
      [3950, 3950],
      [4050, 3950],
      [4050, 4050],
      [3950, 4050],
    ];
    const zone = { kind: 'solid' as const, outline, name: null, levelMm: null, clearanceMm: 0, loadKg: null };
    const made = ringsOf(stack, { span: '9 m' }, { ...HUGE, zones: [zone] });
    expect(made.blanks.every(({ pieces }) => pieces.length === 1)).toBe(true);
  });

  test('layers of two thicknesses do not come out of one board', () => {
    const { kind, layers } = cone(7, 1400);
    let bottomMm = 0;
    const mixed = layers.map((layer, i) => {
      const thicknessMm = i < 3 ? 50 : 30;
      bottomMm += thicknessMm;
      return { ...layer, thicknessMm, bottomMm: bottomMm - thicknessMm };
    });
    const boardSizes = [50, 30].map((thicknessMm) => ({ ...HUGE.boardSizes[0], thicknessMm }));
    const made = ringsOf({ kind, layers: mixed }, { span: '9 m' }, { ...HUGE, boardSizes });
    for (const { pieces } of made.blanks) expect(new Set(pieces.map(({ thicknessMm }) => thicknessMm)).size).toBe(1);
    expect(made.blanks.some(({ pieces }) => pieces.length > 1)).toBe(true);
  });
});

describe('blanks that no board holds', () => {
  const facts = splitFacts({ boardSizes: [{ sizeMm: [1800, 1300], thicknessMm: 50, densityKgM3: 15, trimMm: 5 }] });
  const stack = cone(8, 1500);
  const made = ringsOf(stack, { span: '9 m' }, facts);

  test('seams run through all rings of a blank, and keep off those of the next layers', () => {
    expect(made.blanks.length).toBeGreaterThan(2);
    expect(savedPercent(made, stack)).toBeCloseTo(savedPercent(ringsOf(stack, { span: '9 m' }), stack), 1);
    expect(made.blanks.some(({ pieces }) => pieces.length > 2)).toBe(true);
    expect(seams({ ...smallPlan(), stack, pieces: made.pieces, facts: { ...smallPlan().facts, ...facts } })).toEqual(
      [],
    );
  });

  test.each([8101, 8102, 8103])('random hill %i: seams of layers next to one another keep clear', (seed) => {
    const hill = randomStack(seed, { layers: 6, points: 60, widthMm: 3600, depthMm: 2500 });
    const rings = ringsOf(hill, { lap: 12, span: '3 m', steep: 'keep' }, facts);
    const plan = { ...smallPlan(), stack: hill, pieces: rings.pieces, facts: { ...smallPlan().facts, ...facts } };
    expect(rings.pieces.some(({ joints }) => joints.length > 0)).toBe(true);
    expect(seams(plan)).toEqual([]);
  });

  test.each(['key', 'tongue'] as const)('joints have a %s where the ring is broad enough, which is told', (style) => {
    const flat = stackOf([2000, 1750, 1500, 1250].map((radius) => round(3000, 3000, radius)));
    const joined = ringsOf(flat, { lap: 200, span: '9 m', seams: { style } }, facts);
    const told = joined.findings.find(({ code }) => code === `split/${style}s`);
    expect(Number(/^(\d+)/.exec(told?.message ?? '')?.[1])).toBeGreaterThan(3);
    hold(flat, joined, 200, facts);
    const [{ sizeMm, trimMm }] = facts.boardSizes;
    for (const { pieces } of joined.blanks) {
      const hull = ringHull(Float64Array.from(pieces.flatMap(({ region }) => [...region[0]])));
      const [long, short] = [sizeMm[0] - 2 * trimMm, sizeMm[1] - 2 * trimMm];
      expect(fitsRectangle(hull, flushRectangles(hull), long, short)).toBe(true);
    }
  });

  test('a piece that the layout wishes otherwise has its blank divided again', () => {
    const [{ pieces }] = made.blanks;
    const again = ringsOf(stack, { span: '9 m' }, facts, [{ piece: pieces[0].name }]);
    expect(again.blanks.length).toBe(made.blanks.length + 1);
    hold(stack, again, 50, facts);
  });
});

test('the kerf of a shared cut is told, and is no part of the lap', () => {
  const message = (kerfMm: number) =>
    ringsOf(cone(6, 900), { span: '9 m' }, { ...HUGE, tool: { ...HUGE.tool, kerfMm } }).findings.find(
      ({ code }) => code === 'split/rings',
    )?.message ?? '';
  expect(message(0)).toContain('by 149.9 mm or more');
  expect(message(0)).not.toContain('kerf');
  expect(message(7)).toContain('by 142.9 mm or more');
  expect(message(7)).toContain('the 7 mm of the kerf');
});
