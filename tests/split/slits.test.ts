/** Entry slits: where they end, what they keep off, and that each inner outline is reached. */
import { describe, expect, test } from 'vitest';
import { linesInside } from '../../src/geometry/clip.ts';
import { distanceToRings, rectangle, reversed } from '../../src/geometry/ring.ts';
import type { Facts } from '../../src/model/facts.ts';
import type { LayerStack } from '../../src/model/layer.ts';
import type { Piece } from '../../src/model/piece.ts';
import { NOT_SAID } from '../help/board-facts.ts';
import { split } from '../help/split-run.ts';
import { randomStack, splitFacts } from '../help/stacks.ts';

const SEEDS = [1, 2, 4, 5, 7, 8, 10, 11];
const cases = SEEDS.flatMap((seed) => [['solid', seed] as const, ['hollow', seed] as const]);
const ON_MM = 0.002;

const ends = (slit: Float64Array) => [slit.slice(0, 2), slit.slice(2)] as const;
const isOn = ([x, y]: Float64Array, ring: Float64Array) => distanceToRings(x, y, [ring]) < ON_MM;
const long = ([x, y, u, v]: Float64Array) => Math.hypot(x - u, y - v);

/** The slits' ends on the outer outline that a viewer in the south looks at: none is a seam, and foam lies north of each. */
function seenEnds(piece: Piece): Float64Array[] {
  const onOuter = piece.slits.flatMap((slit) => ends(slit).filter((end) => isOn(end, piece.region[0])));
  return onOuter.filter(([x, y]) => {
    if (piece.joints.some(({ line }) => isOn(new Float64Array([x, y]), line))) return false;
    // Over the width of what a hand sees as one edge, the outside lies to the south.
    const outside = (dy: number) =>
      linesInside([new Float64Array([x - 40, y + dy, x + 40, y + dy])], [[piece.region[0]]]).reduce(
        (sum, line) => sum + long(line),
        0,
      );
    return outside(8) > 70 && outside(-8) < 10;
  });
}

describe.each(cases)('%s, hill %i', (name, seed) => {
  const stack = randomStack(seed, { widthMm: 2300, depthMm: 1150 });
  const made = split(name, stack);

  test('each inner outline has a slit that leads, by way of others at most, to the outer one', () => {
    for (const { region, slits } of made.pieces) {
      expect(slits).toHaveLength(region.length - 1);
      const reached = new Set([0]);
      for (const slit of slits) {
        const [from, to] = ends(slit).map((end) => region.findIndex((ring) => isOn(end, ring)));
        expect(reached.has(from)).toBe(true);
        expect(reached.has(to)).toBe(false);
        reached.add(to);
      }
      expect(reached.size).toBe(region.length);
    }
  });

  test('a slit runs in the foam, clear of pins and match marks, and ends where the front does not see it', () => {
    for (const piece of made.pieces) {
      for (const slit of piece.slits) {
        const inside = linesInside([slit], [piece.region]).reduce((sum, line) => sum + long(line), 0);
        expect(inside).toBeGreaterThan(long(slit) - 0.05);
        for (const [x, y] of piece.pins) expect(distanceToRings(x, y, [slit])).toBeGreaterThan(5.9);
        for (const [x, y] of piece.joints.flatMap(({ matches }) => [...matches])) {
          expect(distanceToRings(x, y, [slit])).toBeGreaterThan(14.9);
        }
      }
      expect(seenEnds(piece)).toEqual([]);
    }
  });

  test('no slit is in line with one of the layer below', () => {
    for (const piece of made.pieces) {
      for (const slit of piece.slits) {
        for (const below of made.of(piece.layer - 1).flatMap(({ slits }) => [...slits])) {
          for (let share = 0; share <= 1; share += 0.1) {
            const [x, y] = [slit[0] + share * (slit[2] - slit[0]), slit[1] + share * (slit[3] - slit[1])];
            expect(distanceToRings(x, y, [below])).toBeGreaterThan(49.9);
          }
        }
      }
    }
  });
});

const holed = [
  Float64Array.from([0, 0, 1900, 30, 1870, 1010, 40, 980]),
  Float64Array.from([300, 200, 290, 420, 610, 430, 620, 210]),
  Float64Array.from([640, 240, 650, 400, 900, 380]),
];
const layers = (count: number): LayerStack => ({
  kind: 'flat',
  layers: Array.from({ length: count }, (_, i) => ({
    number: i + 1,
    bottomMm: 50 * i,
    thicknessMm: 50,
    regions: [holed],
  })),
});
const lengthsOf = (facts: Parameters<typeof split>[2], count = 1) =>
  split('solid', layers(count), facts).pieces.map(({ slits }) => slits.map((slit) => Math.round(long(slit))));
const from = (side: Facts['front']['side']) => ({ facts: splitFacts({ front: { side, word: 'HOUSE' } }) });

describe('the shortest way', () => {
  test('from a hidden edge to the first hole, and from that across to the second', () => {
    // The south edge is 195 mm away, the west edge 273 mm.
    expect(lengthsOf(from('north'))).toEqual([[195, 21]]);
    expect(lengthsOf(from('east'))).toEqual([[195, 21]]);
    expect(lengthsOf(from('south'))).toEqual([[273, 21]]);
  });

  test('goes another way where the layer above has its slit, a little longer', () => {
    const [low, high] = lengthsOf(from('north'), 2);
    expect(high).toEqual([195, 21]);
    expect(low[0]).toBeGreaterThan(195);
    expect(low[0]).toBeLessThan(202);
  });

  test('keeps out of a zone that is seen, while there is another', () => {
    const seen = (outline: [number, number][]) => {
      const facts = splitFacts({ front: { side: 'north', word: 'HOUSE' } });
      return lengthsOf({ facts: { ...facts, zones: [{ kind: 'seen', outline }] as never } });
    };
    const south: [number, number][] = [
      [-10, -10],
      [1950, -10],
      [1950, 90],
      [-10, 90],
    ];
    expect(seen(south)[0][0]).toBe(273);
    // All of it is seen: then the shortest.
    expect(seen([south[0], south[1], [1950, 1100], [-10, 1100]])).toEqual([[195, 21]]);
  });

  test.each(['knife', 'saw', 'router'] as const)('a %s needs none', (kind) => {
    const facts = splitFacts({ tool: { kind, kerfMm: 3, ...NOT_SAID } });
    expect(lengthsOf({ facts }, 2)).toEqual([[], []]);
  });

  test('a ring of foam no wider than a slit is apart still gets one', () => {
    const ring = [rectangle(0, 0, 90, 70), reversed(rectangle(8, 8, 82, 62))];
    const stack: LayerStack = {
      kind: 'flat',
      layers: [1, 2, 3].map((number) => ({ number, bottomMm: 0, thicknessMm: 50, regions: [ring] })),
    };
    for (const { slits } of split('solid', stack).pieces) expect(slits).toHaveLength(1);
  });
});
