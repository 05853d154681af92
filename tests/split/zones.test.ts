/** Zones: a deck by others is left clear, solid ground has no void, and what is said of each is told at its place. */
import { describe, expect, test } from 'vitest';
import { intersect, offset, subtract, unite } from '../../src/geometry/clip.ts';
import { areaOf, type Point, type Region, rectangle, regionArea } from '../../src/geometry/ring.ts';
import type { Zone } from '../../src/model/facts.ts';
import type { LayerStack } from '../../src/model/layer.ts';
import { faultsOf, type Split, split } from '../help/split-run.ts';
import { randomStack, splitFacts } from '../help/stacks.ts';

const OUTLINE: readonly Point[] = [
  [1210, 640],
  [2140, 905],
  [1930, 1390],
  [1377, 1411],
];
const POLYGON: Region = [Float64Array.from(OUTLINE.flat())];
const zone = (kind: Zone['kind'], more: Partial<Zone> = {}): Zone => ({
  kind,
  name: null,
  outline: OUTLINE,
  levelMm: null,
  clearanceMm: 0,
  loadKg: null,
  ...more,
});
/** Boards so large that hardly a seam is needed: these are no laws of seams. */
const boardSizes = [{ sizeMm: [4000, 2600], thicknessMm: 50, densityKgM3: 15, trimMm: 5 }] as const;
const withZones = (...zones: Zone[]) => splitFacts({ zones, boardSizes });
const regionsOf = (made: Split, number: number) => made.of(number).map(({ region }) => region);
const toldOf = (made: Split, code: string) => made.findings.filter((finding) => finding.code === code);
const SEEDS = [31, 32];
const MORE = { underFlats: 'hollow' };

describe.each(SEEDS)('hill %i with a deck', (seed) => {
  const stack = randomStack(seed, { layers: 4, points: 50 });
  const deck = zone('people', { clearanceMm: 40, name: 'stage' });
  const clear = offset([POLYGON], 40, { joins: 'miter' });

  test.each(['solid', 'hollow'] as const)('no piece of %s reaches into it, and all else is there', (name) => {
    const made = split(name, stack, { facts: withZones(deck), lap: 60, more: MORE });
    for (const { number, regions } of stack.layers) {
      const foam = regionsOf(made, number);
      expect(areaOf(intersect(foam, clear))).toBeLessThan(1);
      const wanted = subtract(regions, clear);
      expect(areaOf(subtract(foam, wanted))).toBeLessThan(1);
      if (name === 'solid') expect(areaOf(foam)).toBeCloseTo(areaOf(wanted), -1);
    }
  });

  test('layers lap round it as at any other edge', () => {
    const made = split('hollow', stack, { facts: withZones(deck), lap: 60, more: MORE });
    for (const { number } of stack.layers.slice(1)) {
      const beneath = stack.layers[number - 2].regions;
      const voids = subtract(beneath, [...regionsOf(made, number - 1), ...clear]).filter(
        (each) => regionArea(each) > 1,
      );
      const room = offset(subtract(stack.layers[number - 1].regions, clear), -60);
      expect(areaOf(subtract(voids, room))).toBeLessThan(1);
    }
  });

  test('it is told with its area and whom to ask', () => {
    const made = split('solid', stack, { facts: withZones({ ...deck, levelMm: 410 }) });
    const [finding, ...others] = toldOf(made, 'split/deck');
    expect(others).toEqual([]);
    expect(finding).toMatchObject({ level: 'note', where: { path: 'zones.0', atMm: OUTLINE[0] } });
    expect(finding.message).toContain('Zone stage: a deck by others stands here, its top at 410 mm.');
    const met = areaOf(intersect(stack.layers[0].regions, clear)) / 1e6;
    expect(finding.message).toContain(`${Number(met.toFixed(2))} m²`);
    expect(finding.fix).toContain('Foam carries nobody');
  });
});

describe.each(SEEDS)('hill %i with solid ground', (seed) => {
  const stack = randomStack(seed, { layers: 4, points: 50 });

  test('no layer has a void there, and elsewhere there are some', () => {
    const made = split('hollow', stack, { facts: withZones(zone('solid')), lap: 60, more: MORE });
    const plain = split('hollow', stack, { facts: withZones(), lap: 60, more: MORE });
    let before = 0;
    for (const { number, regions } of stack.layers) {
      const left = subtract(regions, regionsOf(made, number));
      expect(areaOf(intersect(left, [POLYGON]))).toBeLessThan(1);
      before += areaOf(intersect(subtract(regions, regionsOf(plain, number)), [POLYGON]));
    }
    expect(before).toBeGreaterThan(1e4);
  });
});

describe('zones', () => {
  const stack = randomStack(31, { layers: 3, points: 50 });
  const ground = stack.layers[0].regions;

  test('a polygon run the other way is the same zone', () => {
    const back = zone('people', { outline: [...OUTLINE].reverse() });
    const [a, b] = [zone('people'), back].map((each) => split('solid', stack, { facts: withZones(each) }).pieces);
    expect(b).toEqual(a);
  });

  test('two decks that overlap are cut once', () => {
    const other = zone('people', { outline: OUTLINE.map(([x, y]) => [x + 300, y + 90]) });
    const made = split('solid', stack, { facts: withZones(zone('people'), other) });
    const clear = unite([POLYGON, [Float64Array.from(other.outline.flat())]]);
    expect(areaOf(regionsOf(made, 1))).toBeCloseTo(areaOf(subtract(ground, clear)), -1);
  });

  test('what leans on is told with the pieces that are seen there', () => {
    const made = split('solid', stack, { facts: withZones(zone('seen'), zone('lean')) });
    const [finding] = toldOf(made, 'split/lean');
    expect(finding).toMatchObject({ level: 'note', where: { path: 'zones.1' } });
    const next = (layer: number) => stack.layers[layer]?.regions ?? [];
    const named = finding.message.match(/\d+[A-Z]+/g);
    const seen = made.pieces.filter(
      ({ layer, region }) => areaOf(subtract(intersect([region], [POLYGON]), next(layer))) > 100,
    );
    expect(seen.length).toBeGreaterThan(0);
    expect(named).toEqual(seen.map(({ name }) => name));
    expect(finding.fix).toContain('denser grade');
  });

  test.each(['people', 'solid', 'seen', 'lean'] as const)(
    'of kind %s far outside changes nothing and is told',
    (kind) => {
      const outside = zone(kind, { outline: OUTLINE.map(([x, y]) => [x + 90_000, y]) });
      const made = split('hollow', stack, { facts: withZones(zone('seen'), outside), lap: 60 });
      expect(toldOf(made, 'split/zone-outside')).toMatchObject([
        { level: 'watch', where: { path: 'zones.1.outline' } },
      ]);
      const plain = split('hollow', stack, { facts: withZones(zone('seen')), lap: 60 });
      expect(made.pieces).toEqual(plain.pieces);
    },
  );

  test('a deck over all of the ground is refused', () => {
    const all = zone('people', {
      outline: [
        [-50, -50],
        [9000, -50],
        [9000, 9000],
        [-50, 9000],
      ],
    });
    const [fault] = faultsOf(() => split('solid', stack, { facts: withZones(all) }));
    expect(fault).toMatchObject({ code: 'split/all-deck', where: { path: 'zones' } });
  });

  test('a deck may take a whole layer from the top', () => {
    const block: LayerStack = {
      kind: 'flat',
      layers: [rectangle(0, 0, 2370, 1900), rectangle(900, 600, 2200, 1500)].map((ring, i) => ({
        number: i + 1,
        bottomMm: 50 * i,
        thicknessMm: 50,
        regions: [[ring]],
      })),
    };
    const over = zone('people', {
      outline: [
        [880, 580],
        [2220, 580],
        [2220, 1520],
        [880, 1520],
      ],
    });
    const made = split('hollow', block, { facts: withZones(over), lap: 60 });
    expect(made.of(2)).toEqual([]);
    expect(areaOf(regionsOf(made, 1))).toBeCloseTo(2370 * 1900 - 1340 * 940, 0);
  });
});
