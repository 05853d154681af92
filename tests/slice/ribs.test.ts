import { describe, expect, test } from 'vitest';
import { boxOf, rectangle, ringsOf } from '../../src/geometry/ring.ts';
import type { Zone } from '../../src/model/facts.ts';
import { type Heightfield, heightfield } from '../../src/model/landform.ts';
import type { LayerStack } from '../../src/model/layer.ts';
import { foamOver, holdRibs } from '../help/rib-laws.ts';
import { standRibs } from '../help/ribs-run.ts';
import { fieldSolid, prism, together } from '../help/solids.ts';
import { faultsOf } from '../help/split-run.ts';

/** Ground of a formula over posts, lopsided in every way. */
function groundOf(
  height: (x: number, y: number) => number,
  { columns = 47, rows = 31, stepX = 61, stepY = 83 } = {},
): Heightfield {
  const heights = Float64Array.from({ length: columns * rows }, (_, i) =>
    height((i % columns) * stepX, Math.floor(i / columns) * stepY),
  );
  return heightfield(columns, rows, stepX, stepY, heights);
}

const hill = groundOf((x, y) => {
  const [dx, dy] = [(x - 1100) / 900, (y - 1400) / 700];
  return 95 + 260 / (1 + dx * dx + dy * dy + 0.3 * dx * dy) + 9 * Math.sin(x / 170) * Math.cos(y / 240);
});
const plane = groundOf((x, y) => 120 + 0.05 * x - 0.03 * y);

/** The layers as if each stretch were one piece. */
const whole = ({ layers }: LayerStack) =>
  layers.flatMap(({ number, regions, thicknessMm }) =>
    regions.map((region, i) => ({
      name: `${number}${'ACDEFGHJ'[i]}`,
      layer: number,
      region,
      joints: [],
      areaMm2: region.reduce((sum, ring) => sum + areaIn(ring), 0),
      thicknessMm,
    })),
  );

function areaIn(ring: Float64Array): number {
  let twice = 0;
  for (let i = 0; i < ring.length; i += 2) {
    const k = (i + 2) % ring.length;
    twice += ring[i] * ring[k + 1] - ring[k] * ring[i + 1];
  }
  return twice / 2;
}

const hold = (ground: Heightfield, stack: LayerStack, depthMm = 0) =>
  holdRibs({ layers: stack.layers, pieces: whole(stack), ground, depthMm });

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

describe('ribs', () => {
  test('reproduce heights along every line to a tenth of a millimetre, and their slots meet at every crossing', () => {
    const { stack, codes } = standRibs(hill, { spacing: [430, 510], covering: { material: 'ply', thickness: 6 } });
    const { checked, crossings } = hold(hill, stack, 6);
    expect(stack.layers.length).toBe(8 + 6);
    expect(crossings).toBe(2 * 8 * 6);
    expect(checked).toBeGreaterThan(3000);
    expect(codes).toEqual(['slice/rib-grid']);
  });

  test('are the same of heights and of the solid that they make, to the last thousandths', () => {
    const [field, solid] = [hill, fieldSolid(hill)].map((ground) => standRibs(ground, { spacing: 640 }).stack);
    hold(hill, solid);
    expect(solid.layers.map(({ rib }) => rib?.gridLine)).toEqual(field.layers.map(({ rib }) => rib?.gridLine));
    for (const [i, { regions }] of solid.layers.entries()) {
      const other = field.layers[i];
      const [from, , to] = boxOf(ringsOf(regions));
      expect(boxOf(ringsOf(other.regions))[2]).toBeCloseTo(to, 2);
      for (let u = from + 1.1; u < to; u += 23.7) {
        if (other.rib?.crossings.some(({ atMm, widthMm }) => Math.abs(Math.abs(u - atMm) - widthMm / 2) < 0.1))
          continue;
        for (const [k, height] of foamOver(regions, u).entries()) {
          expect(Math.abs(height - foamOver(other.regions, u)[k])).toBeLessThan(0.062);
        }
      }
    }
  });

  test('of a plane are straight: the corners of a rib are its ends and its slots', () => {
    const { stack } = standRibs(plane, { spacing: 700 });
    for (const { regions, rib } of stack.layers) {
      expect(regions.length).toBe(1);
      expect(regions[0][0].length / 2).toBe(4 + 4 * (rib?.crossings.length ?? 0));
    }
    // By hand: at (x, y) the slots meet at half of 120 + 0.05 x − 0.03 y.
    const [south] = stack.layers;
    const y = south.rib?.frame.originMm[1] ?? 0;
    for (const { atMm, meetMm } of south.rib?.crossings ?? []) {
      expect(meetMm).toBeCloseTo((120 + 0.05 * atMm - 0.03 * y) / 2, 2);
    }
  });

  test('stand evenly, no further apart than said, two thicknesses inside the edge; slots are the measured board and the clearance', () => {
    const facts = { thicknessesMm: [48.7], soldAs: [{ thicknessMm: 48.7, nominalMm: 50 }] };
    const { stack } = standRibs(plane, { spacing: [500, 900], clearance: 1.5, thickness: 50 }, facts);
    const at = (axis: 0 | 1) =>
      stack.layers
        .filter(({ rib }) => rib?.frame.along[axis] === 1)
        .map(({ rib }) => rib?.frame.originMm[1 - axis] as number);
    const [xs, ys] = [at(1), at(0)];
    expect([xs[0], ys[0]]).toEqual([97.4, 97.4]);
    expect(xs[xs.length - 1]).toBeCloseTo(46 * 61 - 97.4, 3);
    expect(ys[ys.length - 1]).toBeCloseTo(30 * 83 - 97.4, 3);
    expect(xs.length).toBe(7);
    expect(ys.length).toBe(4);
    const gaps = xs.slice(1).map((x, i) => x - xs[i]);
    expect(Math.max(...gaps) - Math.min(...gaps)).toBeLessThan(0.0021);
    expect(mean(gaps)).toBeLessThanOrEqual(500);
    for (const { thicknessMm, rib } of stack.layers) {
      expect(thicknessMm).toBe(48.7);
      expect(rib?.crossings.every(({ widthMm }) => widthMm === 50.2)).toBe(true);
    }
  });

  test('those west to east are numbered first and open upward; the others are let down into them', () => {
    const { layers } = standRibs(hill).stack;
    const isFirst = layers.map(({ rib }) => rib?.frame.along[0] === 1);
    expect(isFirst).toEqual([...isFirst].sort((a, b) => Number(b) - Number(a)));
    for (const [i, { rib, number }] of layers.entries()) {
      expect(number).toBe(i + 1);
      expect(new Set(rib?.crossings.map(({ opens }) => opens))).toEqual(new Set([isFirst[i] ? 'top' : 'bottom']));
    }
  });

  test('end where the ground is too low for them, exactly there, and that is told', () => {
    // A cone 300 high and 1200 in radius on flat ground at 10: it is 60 high where its radius is 960 (plain proportion, on its posts' facets).
    const cone = groundOf((x, y) => 10 + Math.max(0, 290 * (1 - Math.sqrt((x - 1403) ** 2 + (y - 1245) ** 2) / 1200)), {
      stepX: 23,
      columns: 123,
      stepY: 30,
      rows: 84,
    });
    const { stack, codes, findings } = standRibs(cone, { spacing: 400, least: 60 });
    expect(codes).toContain('slice/low-ground');
    expect(findings.find(({ code }) => code === 'slice/low-ground')?.where).toEqual({ path: 'slice.ribs.least' });
    hold(cone, stack);
    for (const { regions, rib } of stack.layers) {
      for (const region of regions) {
        const [from, , to] = boxOf(region);
        for (const u of [from, to]) {
          const [ox, oy] = rib?.frame.originMm ?? [0, 0];
          const [ex, ey] = rib?.frame.along ?? [0, 0];
          const radius = Math.sqrt((ox + u * ex - 1403) ** 2 + (oy + u * ey - 1245) ** 2);
          // Or it ends against a rib that it has no room to pass.
          const isAgainst = stack.layers.some(
            (other) =>
              other.rib?.frame.along[0] !== ex && Math.abs((other.rib?.frame.originMm[ex === 1 ? 0 : 1] ?? 0) - u) < 27,
          );
          if (!isAgainst) expect(Math.abs(10 + 290 * (1 - radius / 1200) - 60)).toBeLessThan(0.6);
        }
        expect(Math.min(...foamOver([region], from + 0.01), ...foamOver([region], to - 0.01))).toBe(0);
      }
    }
  });

  test('keep clear of what is not ground, and of decks by others with their clearance', () => {
    const pond = { ...hill, footprint: [[rectangle(0, 0, 2806, 2490), rectangle(700, 900, 1300, 1500).reverse()]] };
    // Reversed as numbers, x and y change places: put them back.
    for (let i = 0; i < 8; i += 2) {
      const ring = pond.footprint[0][1];
      [ring[i], ring[i + 1]] = [ring[i + 1], ring[i]];
    }
    const deck: Zone = {
      kind: 'people',
      name: 'deck',
      outline: [
        [1700, 300],
        [1700, 1100],
        [2400, 1100],
        [2400, 300],
      ],
      levelMm: 300,
      clearanceMm: 25,
      loadKg: null,
    };
    const { stack } = standRibs(pond, { spacing: 350 }, { zones: [deck] });
    hold(pond, stack);
    const inPond = (x: number, y: number) => x > 700.01 && x < 1299.99 && y > 900.01 && y < 1499.99;
    const inDeck = (x: number, y: number) => x > 1675.01 && x < 2424.99 && y > 275.01 && y < 1124.99;
    let over = 0;
    for (const { regions, rib } of stack.layers) {
      const [from, , to] = boxOf(ringsOf(regions));
      for (let u = from; u < to; u += 3.1) {
        const x = (rib?.frame.originMm[0] ?? 0) + u * (rib?.frame.along[0] ?? 0);
        const y = (rib?.frame.originMm[1] ?? 0) + u * (rib?.frame.along[1] ?? 0);
        const isFoam = foamOver(regions, u).length > 0;
        if (inPond(x, y) || inDeck(x, y)) {
          expect(isFoam).toBe(false);
          over++;
        }
      }
    }
    expect(over).toBeGreaterThan(500);
    expect(stack.layers.some(({ regions }) => regions.length === 2)).toBe(true);
  });

  test('no rib stands in another where a slot has no room: it ends against it', () => {
    // A footprint whose slanting edge brings ends near crossings in every way.
    const slant = {
      ...hill,
      footprint: [[Float64Array.of(0, 0, 2806, 310, 2500, 2490, 190, 2100)]],
    };
    const { stack, codes } = standRibs(slant, { spacing: 290 });
    expect(codes).toContain('slice/rib-ends');
    hold(slant, stack);
    const [a, b] = [0, 1].map((axis) => stack.layers.filter(({ rib }) => rib?.frame.along[axis] === 1));
    for (const one of a) {
      for (const two of b) {
        const [u, v] = [two.rib?.frame.originMm[0] ?? 0, one.rib?.frame.originMm[1] ?? 0];
        for (const du of [-24.9, 0, 24.9]) {
          const [p, q] = [foamOver(one.regions, u + du), foamOver(two.regions, v + du)];
          if (p.length > 0 && q.length > 0) expect(Math.min(p[1], q[1]) - Math.max(p[0], q[0])).toBeLessThan(0.1);
        }
      }
    }
  });

  test('of a solid that overhangs are foam up to its highest, and that is told with the line', () => {
    const [low, high] = [
      prism(
        [
          [0, 0],
          [2000, 0],
          [2000, 1500],
          [0, 1500],
        ],
        0,
        130,
      ),
      prism(
        [
          [600, 500],
          [1700, 500],
          [1700, 1100],
          [600, 1100],
        ],
        200,
        260,
      ),
    ];
    const { findings, stack } = standRibs(together(low, high), { spacing: 450 });
    const told = findings.find(({ code }) => code === 'slice/overhang');
    expect(told?.message).toMatch(/line \d from the (south|west)/);
    expect(Math.max(...stack.layers.map(({ regions }) => boxOf(ringsOf(regions))[3]))).toBe(260);
    expect(standRibs(fieldSolid(plane)).codes).not.toContain('slice/overhang');
  });

  test('are hollow under zones that ask for foam or may be loaded, and that is told', () => {
    const outline = [
      [300, 300],
      [900, 300],
      [900, 900],
    ] as const;
    const zone = { name: null, outline, levelMm: null, clearanceMm: 0, loadKg: null };
    const zones: Zone[] = [
      { ...zone, kind: 'seen' },
      { ...zone, kind: 'lean', name: 'the cart' },
      { ...zone, kind: 'solid' },
    ];
    const { findings, stack } = standRibs(plane, {}, { zones });
    const told = findings.find(({ code }) => code === 'slice/rib-zones');
    expect(told).toMatchObject({ level: 'watch', where: { path: 'zones' } });
    expect(told?.message).toContain('the zone the cart (lean), the zone solid (solid)');
    expect(stack).toEqual(standRibs(plane).stack);
    expect(standRibs(plane, {}, { zones: zones.slice(0, 1) }).codes).toEqual(['slice/rib-grid']);
  });

  test('what covers them is quantified: the sides hang down round the edge', () => {
    const { stack } = standRibs(plane, { covering: { material: 'scrim' } });
    const { material, thicknessMm, sidesMm2 } = stack.covering ?? { material: '', thicknessMm: -1, sidesMm2: 0 };
    expect([material, thicknessMm]).toEqual(['scrim', 0]);
    // By hand: a plane's mean height round its rectangle is that of its middle, by symmetry.
    const [width, depth] = [46 * 61, 30 * 83];
    const wanted = 2 * (width + depth) * (120 + (0.05 * width) / 2 - (0.03 * depth) / 2);
    expect(Math.abs(sidesMm2 / wanted - 1)).toBeLessThan(0.01);
  });
});

test('boards of a covering that do not reach from rib to rib are told of, and not counted', () => {
  const covering = { material: 'card', thickness: 2, size: [700, 300] };
  const { stack, findings } = standRibs(plane, { spacing: [430, 510], covering });
  expect(stack.covering?.boards).toBeUndefined();
  const told = findings.find(({ code }) => code === 'slice/covering-short');
  expect(told).toMatchObject({ level: 'watch', where: { path: 'slice.ribs.covering.size' } });
  expect(told?.message).toContain('700 mm × 300 mm');
  expect(standRibs(plane, { spacing: [430, 510], covering: { ...covering, size: [700, 560] } }).codes).toEqual([
    'slice/rib-grid',
  ]);
});

describe('refusals say what, where and the way out', () => {
  const cases: [string, string, Heightfield, Record<string, unknown>, readonly number[]][] = [
    ['slice/below-zero', 'shape', groundOf((x) => x / 10 - 3), {}, [50]],
    ['slice/which-board', 'slice.ribs.thickness', plane, {}, [40, 50]],
    ['slice/which-board', 'slice.ribs.thickness', plane, {}, []],
    ['slice/no-board', 'slice.ribs.thickness', plane, { thickness: 60 }, [40, 50]],
    ['slice/rib-spacing', 'slice.ribs.spacing', plane, { spacing: 140 }, [50]],
    ['slice/rib-edge', 'slice.ribs.edge', plane, { edge: 40 }, [50]],
    ['slice/too-small', 'slice.ribs', groundOf(() => 90, { columns: 4, rows: 30 }), {}, [50]],
    ['slice/too-many', 'slice.ribs.spacing', groundOf(() => 90, { stepX: 10_000 }), { spacing: 200 }, [50]],
    ['slice/nothing', 'slice.ribs', groundOf(() => 30), {}, [50]],
  ];
  test.each(cases)('%s at %s', (code, path, ground, written, thicknesses) => {
    const soldAs = thicknesses.map((thicknessMm) => ({ thicknessMm, nominalMm: thicknessMm }));
    const faults = faultsOf(() => standRibs(ground, written, { thicknessesMm: thicknesses, soldAs }));
    expect(faults).toMatchObject([{ code, where: { path } }]);
    expect(faults[0].fix.length).toBeGreaterThan(10);
  });
});
