import { describe, expect, test } from 'vitest';
import { load } from '../../src/checks/load.ts';
import { type Region, rectangle, reversed } from '../../src/geometry/ring.ts';
import type { Facts, Zone } from '../../src/model/facts.ts';
import { lastingKPa } from '../../src/workshop/foam-load.ts';
import { boardOf, layerOf, piecedPlan, pieceOf } from '../help/pieced.ts';

/** 0.5 × 0.4 m: 0.2 m². */
const lean = (loadKg: number | null, name: string | null = 'the boulder'): Zone => ({
  ...{ kind: 'lean', name, levelMm: null, clearanceMm: 0, loadKg },
  outline: [
    [300, 200],
    [800, 200],
    [800, 600],
    [300, 600],
  ],
});
const whole: Region = [rectangle(0, 0, 1200, 900)];
const hollow: Region = [rectangle(0, 0, 1200, 900), reversed(rectangle(550, 150, 900, 650))];

function tell(zone: Zone, { density = 15, below = whole, cover = null as Facts['cover'] } = {}) {
  const pieces = [pieceOf('1A', below), pieceOf('2A', whole)];
  const facts = { zones: [zone], cover };
  return load(
    piecedPlan([layerOf(1, whole), layerOf(2, whole)], pieces, { facts, boards: [boardOf(pieces, density)] }),
  );
}

test('a zone on which nothing is said to stand is nothing to tell', () => {
  expect(tell(lean(null))).toEqual([]);
});

test('a light load is noted with its pressure, the comparison and its source, and permits nothing', () => {
  // 100 kg on 0.2 m² and 0.75 kg/m² of foam above layer 1: 500.75 × 9.80665 / 1000.
  const [finding, ...more] = tell(lean(100));
  expect(more).toEqual([]);
  expect(finding).toMatchObject({ level: 'note', code: 'checks/load', where: { layer: 1, atMm: [550, 400] } });
  expect(finding.message).toContain('The load on the boulder presses with 4.91 kPa');
  expect(finding.message).toContain('27 kPa (stress at 1 % strain, ASTM D6817');
  expect(finding.fix).toContain('no permission');
  expect(`${finding.message}${finding.fix}`).not.toMatch(/\b(safe|allowed|may stand|enough|permitted)\b/);
});

test('a heavy one stops the plan', () => {
  expect(tell(lean(600))).toMatchObject([{ level: 'stop', code: 'checks/load-over', where: { layer: 1 } }]);
});

test('a void takes its share from the foam beside it, where the pressure is then told', () => {
  // Half of the zone lies over the void.
  const [finding] = tell(lean(100), { below: hollow });
  expect(finding.message).toContain('9.82 kPa');
  const gone: Region = [rectangle(0, 0, 1200, 900), reversed(rectangle(250, 150, 900, 650))];
  expect(tell(lean(100), { below: gone })).toMatchObject([
    { level: 'stop', code: 'checks/load-hollow', where: { layer: 1 } },
  ]);
});

test('the cover counts', () => {
  // 20 mm of sand at 1555 kg/m³ are 31.1 kg/m².
  const [finding] = tell(lean(100), { cover: { material: 'dry sand', depthMm: 20, densityKgM3: null } });
  expect(finding.message).toContain('5.22 kPa');
});

test('a zone that no layer reaches under whole, and foam that the table does not hold, are told as not known', () => {
  const wide = {
    ...lean(50, null),
    outline: [
      [1000, 200],
      [1500, 200],
      [1500, 600],
    ] as const,
  };
  expect(tell(wide)).toMatchObject([{ level: 'watch', code: 'checks/load-beside', where: { path: 'zones.0' } }]);
  for (const density of [9, 45]) {
    const [finding] = tell(lean(1), { density });
    expect(finding).toMatchObject({ level: 'watch', code: 'checks/load-unknown' });
    expect(finding.message).toContain('from 11.2 to 38.4 kg/m³');
  }
});

describe('lasting pressure by density', () => {
  // ASTM D6817, stress at 1 % strain, as printed by makers of geofoam (geofoamusa.com, plymouthfoam.com).
  test.each([
    ['EPS12', 11.2, 15],
    ['EPS15', 14.4, 25],
    ['EPS19', 18.4, 40],
    ['EPS22', 21.6, 50],
    ['EPS29', 28.8, 75],
    ['EPS39', 38.4, 103],
  ])('%s', (_, density, kPa) => {
    expect(lastingKPa(density)).toBe(kPa);
  });

  test('lies between those of its neighbours, and is not guessed beyond them', () => {
    expect(lastingKPa(16.4)).toBeCloseTo(32.5, 9);
    expect(lastingKPa(11.1)).toBeNull();
    expect(lastingKPa(38.5)).toBeNull();
  });
});
