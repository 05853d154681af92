/** Laws of every division, solid or hollow, on random lopsided hills; then what the splitters refuse. */
import { describe, expect, test } from 'vitest';
import { seams } from '../../src/checks/seams.ts';
import { alongside } from '../../src/geometry/alongside.ts';
import { intersect, unite } from '../../src/geometry/clip.ts';
import { convexHull, roomiestTurn } from '../../src/geometry/hull.ts';
import { areaOf, distanceToRings, rectangle, regionArea, reversed, ringArea } from '../../src/geometry/ring.ts';
import { partedAtTouches } from '../../src/geometry/touching.ts';
import type { LayerStack } from '../../src/model/layer.ts';
import { LETTERS, type Piece } from '../../src/model/piece.ts';
import { seamSegments } from '../../src/model/seam.ts';
import { smallPlan } from '../help/small-plan.ts';
import { faultsOf, split } from '../help/split-run.ts';
import { blob, randomStack, splitFacts } from '../help/stacks.ts';

const SEEDS = [1, 2, 3, 4, 5, 6, 7, 8];
const cases = SEEDS.flatMap((seed) => [['solid', seed] as const, ['hollow', seed] as const]);

const onGrid = (value: number) => value === Math.round(value * 1000) / 1000;
const edges = (piece: Piece): string[] =>
  piece.region.flatMap((ring) =>
    Array.from({ length: ring.length / 2 }, (_, i) => {
      const j = (2 * i + 2) % ring.length;
      return `${ring[2 * i]},${ring[2 * i + 1]} ${ring[j]},${ring[j + 1]}`;
    }),
  );
const edgesOfLine = (line: Float64Array, way: 1 | -1): string[] =>
  Array.from({ length: line.length / 2 - 1 }, (_, i) => {
    const [a, b] = [`${line[2 * i]},${line[2 * i + 1]}`, `${line[2 * i + 2]},${line[2 * i + 3]}`];
    return way === 1 ? `${a} ${b}` : `${b} ${a}`;
  });

describe.each(cases)('%s, hill %i', (name, seed) => {
  const stack = randomStack(seed);
  const before = structuredClone(stack);
  const made = split(name, stack);

  test('piece areas add up, and no two overlap', () => {
    for (const layer of stack.layers) {
      const pieces = made.of(layer.number);
      const sum = pieces.reduce((area, piece) => area + piece.areaMm2, 0);
      expect(Math.abs(areaOf(unite(pieces.map(({ region }) => region))) - sum)).toBeLessThan(0.01);
      if (name === 'solid' || layer.number === stack.layers.length) {
        expect(Math.abs(areaOf(layer.regions) - sum)).toBeLessThan(0.01);
      } else expect(sum).toBeLessThanOrEqual(areaOf(layer.regions) + 0.01);
      for (const { region, areaMm2 } of pieces) expect(areaMm2).toBe(regionArea(region));
    }
  });

  test('every piece fits the board in some turn', () => {
    for (const { region } of made.pieces) {
      expect(roomiestTurn(convexHull([...region]), 2390, 1190).room).toBeGreaterThanOrEqual(0);
    }
  });

  test('every piece is one area on the grid, outline counter-clockwise, holes clockwise', () => {
    for (const { region } of made.pieces) {
      expect(partedAtTouches(region)).toHaveLength(1);
      for (const [i, ring] of region.entries()) {
        expect(Math.sign(ringArea(ring))).toBe(i === 0 ? 1 : -1);
        expect(ring.every(onGrid)).toBe(true);
      }
    }
  });

  test('names are the layer and letters in order, each once', () => {
    const alphabet = new RegExp(`^[1-9][0-9]*[${LETTERS}]+$`);
    expect(new Set(made.pieces.map((piece) => piece.name)).size).toBe(made.pieces.length);
    for (const piece of made.pieces) {
      expect(piece.name).toMatch(alphabet);
      expect(Number.parseInt(piece.name, 10)).toBe(piece.layer);
    }
    expect(made.of(1)[0].name).toBe('1A');
  });

  test('a joint has one label on both sides, and both outlines hold its points in its order', () => {
    const sides = new Map<string, Piece[]>();
    for (const piece of made.pieces) {
      for (const { label } of piece.joints) sides.set(label, [...(sides.get(label) ?? []), piece]);
    }
    for (const [label, both] of sides) {
      expect(both).toHaveLength(2);
      const [one, other] = both.map((piece) => piece.joints.find((joint) => joint.label === label));
      expect(one?.line).toEqual(other?.line);
      expect(one?.matches).toEqual(other?.matches);
      expect([one?.neighbour, other?.neighbour]).toEqual([both[1].name, both[0].name]);
      const line = one?.line ?? new Float64Array();
      for (const [piece, way] of [
        [both[0], 1],
        [both[1], -1],
      ] as const) {
        const own = new Set(edges(piece));
        for (const edge of edgesOfLine(line, way)) expect(own.has(edge)).toBe(true);
      }
      for (const [x, y] of one?.matches ?? []) {
        expect(both.map(({ region }) => distanceToRings(x, y, region) < 0.001)).toEqual([true, true]);
      }
    }
  });

  test('two pieces that share an edge share a joint', () => {
    const owner = new Map(made.pieces.flatMap((piece) => edges(piece).map((edge) => [edge, piece] as const)));
    for (const piece of made.pieces) {
      for (const edge of edges(piece)) {
        const across = owner.get(edge.split(' ').reverse().join(' '));
        if (across?.layer === piece.layer) {
          expect(piece.joints.map(({ neighbour }) => neighbour)).toContain(across.name);
        }
      }
    }
  });

  test('placing lines are the foam of the next layer, parted among the pieces it stands on', () => {
    for (const piece of made.pieces) {
      const above = made.of(piece.layer + 1).map(({ region }) => region);
      expect(areaOf(piece.placing)).toBeCloseTo(areaOf(intersect(above, [piece.region])), 0);
    }
    expect(made.of(stack.layers.length).flatMap(({ placing }) => placing)).toEqual([]);
  });

  test('the input is left alone, and twice the same gives the same', () => {
    expect(stack).toEqual(before);
    expect(split(name, stack)).toEqual({ ...made, of: expect.any(Function) });
  });
});

describe('seams of neighbouring layers', () => {
  const bar = (thicknessMm: number): LayerStack => ({
    kind: 'flat',
    layers: [1, 2, 3, 4].map((number) => ({
      number,
      bottomMm: (number - 1) * thicknessMm,
      thicknessMm,
      regions: [[Float64Array.from([0, 0, 6130, 40, 6110, 910, 25, 870])]],
    })),
  });

  test('keep clear of each other where the layers are alike and there is a way', () => {
    const stack = bar(50);
    const { pieces } = split('solid', stack);
    expect(pieces).toHaveLength(12);
    expect(seams({ ...smallPlan(), stack, pieces })).toEqual([]);
  });

  test('run over each other far less than when each layer is divided for itself', () => {
    let heeded = 0;
    let alone = 0;
    for (const seed of [5, 9]) {
      // Alike, layers divided for themselves are divided alike.
      const hill = randomStack(seed, { widthMm: 6100, depthMm: 3900, layers: 3, points: 60 });
      const stack = { ...hill, layers: hill.layers.map((layer) => ({ ...layer, regions: hill.layers[0].regions })) };
      const apart = stack.layers.flatMap((layer) => split('solid', { ...stack, layers: [layer] }).pieces);
      heeded += lengthOver(split('solid', stack).pieces, stack);
      alone += lengthOver(apart, stack);
    }
    expect(alone).toBeGreaterThan(2000);
    expect(heeded).toBeLessThan(alone / 8);
  });

  function lengthOver(pieces: readonly Piece[], { layers }: LayerStack): number {
    let total = 0;
    for (const { number, thicknessMm } of layers) {
      const below = seamSegments(pieces.filter(({ layer }) => layer === number - 1));
      const here = seamSegments(pieces.filter(({ layer }) => layer === number));
      for (let i = 0; i < here.length; i += 4) {
        total += alongside(here[i], here[i + 1], here[i + 2], here[i + 3], below, 3 * thicknessMm).length;
      }
    }
    return total;
  }
});

const one = (region: readonly Float64Array[], thicknessMm = 50): LayerStack => ({
  kind: 'flat',
  layers: [{ number: 1, bottomMm: 0, thicknessMm, regions: [region] }],
});

describe('awkward layers', () => {
  test('a ring wider than any board falls into arcs that each fit, with a joint at either end', () => {
    const ring = [blob(2900, 2100, 2700, 1900, 120, 5), reversed(blob(2900, 2100, 2300, 1550, 90, 5))];
    const { pieces } = split('solid', one(ring));
    expect(pieces.length).toBeLessThanOrEqual(8);
    for (const { joints, region } of pieces) {
      expect(joints).toHaveLength(2);
      expect(region).toHaveLength(1);
    }
  });

  test('a region that touches itself at a point is two pieces, with no joint between them', () => {
    const { pieces } = split(
      'solid',
      one([Float64Array.from([0, 0, 410, 130, 930, -40, 760, 620, 410, 130, 210, 560])]),
    );
    expect(pieces.map(({ name }) => name)).toEqual(['1A', '1C']);
    expect(pieces.flatMap(({ joints }) => joints)).toEqual([]);
  });

  test('boards a hand wide still hold every piece', () => {
    const facts = splitFacts({ boardSizes: [{ sizeMm: [310, 190], thicknessMm: 5, densityKgM3: 15, trimMm: 2 }] });
    const { pieces } = split('solid', randomStack(3, { widthMm: 900, depthMm: 610, layers: 3, thicknessMm: 5 }), {
      facts,
    });
    for (const { region } of pieces) {
      expect(roomiestTurn(convexHull([...region]), 306, 186).room).toBeGreaterThanOrEqual(0);
    }
  });

  test('pieces are no larger than can be carried', () => {
    const facts = splitFacts({ carry: { sizeMm: [700, 1300], massKg: null } });
    for (const { region } of split('solid', randomStack(4), { facts }).pieces) {
      expect(roomiestTurn(convexHull([...region]), 1300, 700).room).toBeGreaterThanOrEqual(0);
    }
  });

  test('where boards of several sizes are on offer, a piece may be as large as any of them', () => {
    const region = [Float64Array.from([0, 0, 2930, 15, 2950, 570, 20, 590])];
    const sizes = [
      { sizeMm: [2400, 1200], thicknessMm: 50, densityKgM3: 15, trimMm: 5 },
      { sizeMm: [3000, 620], thicknessMm: 50, densityKgM3: 15, trimMm: 5 },
    ] as const;
    expect(split('solid', one(region)).pieces).toHaveLength(2);
    expect(split('solid', one(region), { facts: splitFacts({ boardSizes: sizes }) }).pieces).toHaveLength(1);
  });

  test('names read from the front to the back, whichever side that is', () => {
    const places = [
      [200, 150],
      [900, 260],
      [330, 2900],
    ];
    const regions = places.map(([x, y]) => [rectangle(x, y, x + 310, y + 210)]);
    const stack: LayerStack = { kind: 'flat', layers: [{ number: 4, bottomMm: 0, thicknessMm: 50, regions }] };
    const leftEdges = (side: 'south' | 'north' | 'west' | 'east') =>
      split('solid', stack, { facts: splitFacts({ front: { side, word: 'HOUSE' } }) }).pieces.map(
        ({ region }) => region[0][0],
      );
    expect(leftEdges('south')).toEqual([200, 900, 330]);
    expect(leftEdges('north')).toEqual([330, 900, 200]);
    expect(leftEdges('west')).toEqual([330, 200, 900]);
    // From here two stand in one row, half a board deep.
    expect(leftEdges('east')).toEqual([900, 330, 200]);
  });

  test('a wished piece is divided once more, and the names follow', () => {
    const stack = randomStack(6);
    const before = split('solid', stack);
    const after = split('solid', stack, { wishes: [{ piece: '1A' }, { piece: '1C' }, { piece: '77A' }] });
    expect(after.of(1).length).toBe(before.of(1).length + 2);
    const owner = new Set(after.of(1).flatMap(edges));
    for (const { joints } of after.of(1)) {
      for (const { line } of joints) {
        for (const way of [1, -1] as const)
          for (const edge of edgesOfLine(line, way)) expect(owner.has(edge)).toBe(true);
      }
    }
  });
});

describe('what cannot be divided is refused, with the layer and a way out', () => {
  const stack = randomStack(2);
  const sizes = (...boardSizes: ReturnType<typeof splitFacts>['boardSizes'][number][]) => splitFacts({ boardSizes });

  test('no board of the thickness', () => {
    const facts = sizes({ sizeMm: [2400, 1200], thicknessMm: 40, densityKgM3: 15, trimMm: 5 });
    const [fault] = faultsOf(() => split('solid', stack, { facts }));
    expect(fault).toMatchObject({ code: 'split/no-board', where: { layer: 1 } });
    expect(fault.message).toContain('50 mm thick');
    expect(fault.fix).toContain('stock');
  });

  test('boards of which the trim leaves nothing', () => {
    const facts = sizes({ sizeMm: [900, 27], thicknessMm: 50, densityKgM3: 15, trimMm: 5 });
    const [fault] = faultsOf(() => split('hollow', stack, { facts }));
    expect(fault).toMatchObject({ code: 'split/boards-too-small', where: { layer: 1 } });
  });

  test('a carrier for whom nothing is small enough', () => {
    const facts = splitFacts({ carry: { sizeMm: [1200, 12], massKg: null } });
    const [fault] = faultsOf(() => split('solid', stack, { facts }));
    expect(fault).toMatchObject({ code: 'split/carry-too-small', where: { path: 'carry.size' } });
  });

  test('ribs that stand', () => {
    const [fault] = faultsOf(() => split('solid', { ...stack, kind: 'upright' }));
    expect(fault).toMatchObject({ code: 'split/upright' });
  });
});
