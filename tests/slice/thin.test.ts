import { describe, expect, test } from 'vitest';
import type { Finding } from '../../src/findings.ts';
import { subtract, unite } from '../../src/geometry/clip.ts';
import { stream } from '../../src/geometry/random.ts';
import { areaOf, type Region, rectangle, reversed } from '../../src/geometry/ring.ts';
import { thinPlaces } from '../../src/geometry/thin-places.ts';
import { heightfield } from '../../src/model/landform.ts';
import { layerOutlines } from '../../src/slice/layers/outlines.ts';
import { type Mended, mendThin, type ThinRule, tellThin } from '../../src/slice/layers/thin.ts';
import { walkNow } from '../../src/walk.ts';
import { refusal } from '../help/plugin-run.ts';

const FOOT: readonly Region[] = [[rectangle(0, 0, 400, 300)]];
const rule = (over: Partial<ThinRule> = {}): ThinRule => ({
  leastMm: 20,
  thin: 'tell',
  cut: 'proud',
  footprint: FOOT,
  ...over,
});
const mend = (outlines: readonly (readonly Region[])[], over: Partial<ThinRule>): Mended =>
  walkNow(mendThin(outlines, rule(over)));
const told = (made: Mended, over: Partial<ThinRule>): Finding[] => {
  const findings: Finding[] = [];
  tellThin(made, rule(over), (finding) => void findings.push(finding));
  return findings;
};
/** What of one lies outside the other, mm². Clipping rounds by half a thousandth along every edge. */
const outside = (a: readonly Region[], b: readonly Region[]) => areaOf(subtract(a, b));
const ROUNDED_MM2 = 1;

/** A broad area with a bar of 8 × 90 mm at its right. */
const BODY = new Float64Array([20, 40, 210, 40, 210, 121, 300, 121, 300, 129, 210, 129, 210, 230, 20, 230]);

describe('a bar of 8 mm', () => {
  test('is told with its layer, place, width and length, and left', () => {
    const made = mend([[[BODY]]], {});
    expect(made.outlines).toEqual([[[BODY]]]);
    const [finding, ...more] = told(made, {});
    expect(more).toEqual([]);
    expect(finding).toMatchObject({ level: 'watch', code: 'slice/thin', where: { layer: 1 } });
    expect(finding.message).toBe('The layer is 8 mm wide here, less than 20 mm over 90 mm.');
    expect(Math.abs((finding.where.atMm?.[0] ?? 0) - 255)).toBeLessThan(8);
    expect(finding.where.atMm?.[1]).toBeCloseTo(125, 6);
  });

  test('thickened, it is 20 to 25 mm wide, and the rest is as it was', () => {
    const made = mend([[[BODY]]], { thin: 'thicken' });
    expect(made.places).toEqual([[]]);
    expect(outside([[BODY]], made.outlines[0])).toBeLessThan(ROUNDED_MM2);
    const across = subtract(made.outlines[0], [[rectangle(0, 0, 240, 300)], [rectangle(260, 0, 400, 300)]]);
    expect(areaOf(across) / 20).toBeGreaterThan(19.9);
    expect(areaOf(across) / 20).toBeLessThan(25);
    expect(outside(made.outlines[0], unite([[BODY], [rectangle(190, 105, 315, 145)]]))).toBeLessThan(ROUNDED_MM2);
    expect(told(made, { thin: 'thicken' })[0]).toMatchObject({ code: 'slice/thickened', level: 'note' });
  });

  test('dropped, it is gone, and the rest is as it was', () => {
    const made = mend([[[BODY]]], { thin: 'drop' });
    expect(made.places).toEqual([[]]);
    const body = [[rectangle(20, 40, 210, 230)]];
    expect(outside(body, made.outlines[0])).toBeLessThan(ROUNDED_MM2);
    // The foot of it stays, as round as the least width lets it.
    expect(outside(made.outlines[0], body)).toBeLessThan(20);
    expect(told(made, { thin: 'drop' })[0].message).toBe('1 place narrower than 20 mm was dropped, in layer 1.');
  });

  test('says which side of the ground is kept', () => {
    const fix = (over: Partial<ThinRule>) => told(mend([[[BODY]]], over), over)[0].fix;
    expect(fix({ thin: 'thicken' })).toContain('Nothing need be done');
    expect(fix({ thin: 'thicken', cut: 'shy' })).toContain('carve it back');
    expect(fix({ thin: 'drop', cut: 'shy' })).toContain('Nothing need be done');
    expect(fix({ thin: 'drop' })).toContain('build it up');
  });
});

test('a feature on an edge of the layer beneath grows inward only; where there is no room it stays thin and is told', () => {
  const below: Region[] = [[rectangle(0, 0, 200, 30)]];
  const bar: Region[] = [[rectangle(10, 0, 190, 10)]];
  const made = mend([below, bar], { thin: 'thicken' });
  expect(made.outlines[0]).toEqual(below);
  expect(outside(made.outlines[1], below)).toBeLessThan(ROUNDED_MM2);
  expect(made.places[1]).toEqual([]);
  const narrow: Region[] = [[rectangle(0, 0, 200, 15)]];
  const stuck = mend([narrow, bar], { thin: 'thicken', footprint: narrow });
  const findings = told(stuck, { thin: 'thicken' });
  expect(findings.map(({ code, where }) => [code, where.layer])).toEqual([
    ['slice/thin', 1],
    ['slice/thin', 2],
  ]);
  expect(findings[1].fix).toContain('layer beneath');
  for (const regions of stuck.outlines) expect(outside(regions, narrow)).toBeLessThan(ROUNDED_MM2);
});

test('what stands on a dropped feature goes with it, and what hangs on that; what overhangs elsewhere stays', () => {
  const stem: Region[] = [[rectangle(20, 20, 140, 140)], [rectangle(250, 60, 258, 200)]];
  const cap: Region[] = [[rectangle(30, 30, 150, 130)], [rectangle(220, 50, 290, 210)]];
  const made = mend([stem, cap, [[rectangle(225, 60, 285, 200)]]], { thin: 'drop' });
  expect(made.outlines.length).toBe(2);
  expect(outside(made.outlines[0], [[rectangle(20, 20, 140, 140)]])).toBeLessThan(ROUNDED_MM2);
  expect(made.outlines[1]).toHaveLength(1);
  expect(outside([[rectangle(30, 30, 150, 130)]], made.outlines[1])).toBeLessThan(ROUNDED_MM2);
  expect(told(made, { thin: 'drop' })[0].message).toBe(
    '1 place narrower than 20 mm was dropped, in layer 1; what stood on that went with it, in layers 2, 3.',
  );
});

test('a throat is thickened to the least width; dropping leaves it, and says so', () => {
  const body: Region[] = [[rectangle(20, 20, 120, 120), reversed(rectangle(40, 40, 100, 108))]];
  const walled = mend([body], { thin: 'thicken' });
  expect(walled.places).toEqual([[]]);
  const bowTie: Region[] = [[new Float64Array([0, 0, 100, 45, 200, 0, 200, 100, 100, 55, 0, 100])]];
  expect(mend([bowTie], { thin: 'thicken' }).places).toEqual([[]]);
  const dropped = mend([bowTie], { thin: 'drop' });
  expect(dropped.outlines[0].length).toBeGreaterThan(0);
});

test('all of it thin and dropped, and sloping edges that are mended, are refused', () => {
  const bar: Region[] = [[rectangle(10, 0, 190, 10)]];
  expect(refusal(() => mend([bar], { thin: 'drop' }))).toMatchObject({
    code: 'slice/all-thin',
    where: { path: 'slice.layers.least' },
  });
  expect(refusal(() => mend([bar], { thin: 'thicken', cut: 'sloped' }))).toMatchObject({
    code: 'slice/thin-sloped',
    where: { path: 'slice.layers.thin' },
  });
  expect(mend([bar], { cut: 'sloped' }).places[0]).toHaveLength(1);
});

test('many layers are told by their thinnest twelve and a sum', () => {
  const bars = Array.from({ length: 15 }, (_, k): Region[] => [
    [rectangle(10, 0, 190, 4 + k / 2)],
    [rectangle(10, 60, 190, 68)],
  ]);
  const findings = told(mend(bars, { thin: 'tell' }), {});
  expect(findings).toHaveLength(13);
  expect(findings.map(({ where }) => where.layer)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, undefined]);
  expect(findings[0].message).toBe(
    'The layer is 4 mm wide here, less than 20 mm over 180 mm; so is 1 place more of it.',
  );
  expect(findings[12].message).toBe('In 3 more layers 6 places are narrower than 20 mm.');
});

/** Rough ground whose layers have many thin features: 25 × 19 posts, 16 by 16 mm apart. */
function rough(seed: number) {
  const next = stream(seed, 'thin');
  const heights = Float64Array.from({ length: 25 * 19 }, (_, i) => {
    const away = ((i % 25) / 24 - 0.45) ** 2 + (Math.floor(i / 25) / 18 - 0.5) ** 2;
    return Math.max(0, 160 - 500 * away + 60 * (next() - 0.5));
  });
  return heightfield(25, 19, 16, 16, heights);
}

describe.each([1, 2, 3, 4, 5, 6])('rough ground of seed %i', (seed) => {
  const field = rough(seed);
  const levels = Float64Array.from({ length: 5 }, (_, k) => 32 * k);
  const outlines = walkNow(layerOutlines(field, levels, 'proud', 500)).filter((regions) => regions.length > 0);
  const footprint = field.footprint;

  test('thickened layers hold what was there, lie in one another and in the footprint, and are thinner nowhere', () => {
    const { outlines: made, places } = mend(outlines, { thin: 'thicken', footprint });
    for (const [k, regions] of made.entries()) {
      expect(outside(outlines[k], regions)).toBeLessThan(ROUNDED_MM2);
      expect(outside(regions, k > 0 ? made[k - 1] : footprint)).toBeLessThan(ROUNDED_MM2);
      expect(places[k]).toEqual(thinPlaces(regions, 20));
    }
    // What has room is thick afterwards: what is left has an edge of the layer beneath beside it.
    const before = outlines.reduce((sum, regions) => sum + thinPlaces(regions, 20).length, 0);
    const after = places.reduce((sum, each) => sum + each.length, 0);
    expect(before).toBeGreaterThan(5);
    expect(after).toBeLessThan(before);
  });

  test('dropped layers lie in what was there, and in one another', () => {
    const { outlines: made } = mend(outlines, { thin: 'drop', footprint });
    for (const [k, regions] of made.entries()) {
      expect(outside(regions, outlines[k])).toBeLessThan(ROUNDED_MM2);
      if (k > 0) expect(outside(regions, made[k - 1])).toBeLessThan(ROUNDED_MM2);
      expect(areaOf(regions)).toBeGreaterThan(0);
    }
  });
});
