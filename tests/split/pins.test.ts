/** Pins, glue and nicks on random lopsided hills, then on shapes whose answer is plain. */
import { describe, expect, test } from 'vitest';
import { pins as pinsHeld } from '../../src/checks/pins.ts';
import { intersect, subtract } from '../../src/geometry/clip.ts';
import {
  areaOf,
  distanceToRings,
  isInRegion,
  isInside,
  type Point,
  type Region,
  rectangle,
  ringsOf,
} from '../../src/geometry/ring.ts';
import type { LayerStack } from '../../src/model/layer.ts';
import type { Piece } from '../../src/model/piece.ts';
import { smallPlan } from '../help/small-plan.ts';
import { type Split, split } from '../help/split-run.ts';
import { randomStack, splitFacts } from '../help/stacks.ts';

const SEEDS = [1, 2, 3, 4, 5, 6, 7, 8];
const cases = SEEDS.flatMap((seed) => [['solid', seed] as const, ['hollow', seed] as const]);

const key = ([x, y]: Point) => `${x},${y}`;
const apart = ([ax, ay]: Point, [bx, by]: Point) => Math.hypot(ax - bx, ay - by);
const pinsInto = (piece: Piece, below: readonly Piece[]): Point[] => {
  const there = new Set(below.flatMap(({ pins }) => pins.map(key)));
  return piece.pins.filter((pin) => there.has(key(pin)));
};
/** The pieces that the check of pins tells as not held. */
const told = (stack: LayerStack, { pieces }: Split) =>
  new Set(pinsHeld({ ...smallPlan(), stack, pieces }).flatMap(({ message }) => message.match(/\d+[A-Z]+/g)));

describe.each(cases)('%s, hill %i', (name, seed) => {
  const stack = randomStack(seed, { layers: 7 });
  const made = split(name, stack);
  const holders = new Map<string, Piece[]>();
  for (const piece of made.pieces) {
    for (const pin of piece.pins) holders.set(key(pin), [...(holders.get(key(pin)) ?? []), piece]);
  }

  test('a pin runs through two layers or more, one over the other, no farther than it is long', () => {
    expect(holders.size).toBeGreaterThan(5);
    for (const pieces of holders.values()) {
      const layers = pieces.map(({ layer }) => layer);
      expect(layers.length).toBeGreaterThanOrEqual(2);
      expect(layers).toEqual(layers.map((_, i) => layers[0] + i));
      expect(layers.length * 50).toBeLessThanOrEqual(300);
    }
  });

  test('pins that can run through three layers or more are in line: none ends over foam in which it could go on', () => {
    if (name === 'solid') {
      expect([...holders.values()].filter((pieces) => pieces.length >= 3).length).toBeGreaterThan(3);
    }
    for (const [place, pieces] of holders) {
      const at = place.split(',').map(Number) as [number, number];
      const [low, high] = [pieces[0].layer, pieces[pieces.length - 1].layer];
      // A layer more over its highest, clear of that one's edge, covers it deep enough to stay.
      const over = stack.layers[high]?.regions ?? [];
      const isDeep = isInside(...at, over) && distanceToRings(...at, ringsOf(over)) > 5;
      if (!isDeep || low === 1 || (high - low + 2) * 50 > 300) continue;
      const below = made.of(low - 1).find(({ region }) => isInRegion(...at, region));
      const rims = [...(below?.region ?? [])];
      const slits = [...made.of(low - 1), ...made.of(low)].flatMap((piece) => piece.slits);
      const isClear =
        below && distanceToRings(...at, rims) > 12 && slits.every((slit) => distanceToRings(...at, [slit]) > 12);
      expect(isClear ?? false, `pin at ${place} ends in layer ${low}`).toBe(false);
    }
  });

  test('it is clear of edges, seams, voids and slits by 6 mm, and of other pins by 30', () => {
    for (const piece of made.pieces) {
      for (const [i, pin] of piece.pins.entries()) {
        const [x, y] = pin;
        expect(isInRegion(x, y, piece.region)).toBe(true);
        expect(distanceToRings(x, y, piece.region)).toBeGreaterThan(5.9);
        for (const slit of piece.slits) expect(distanceToRings(x, y, [slit])).toBeGreaterThan(5.9);
        for (const other of piece.pins.slice(0, i)) expect(apart(pin, other)).toBeGreaterThan(11.9);
      }
    }
    for (const piece of made.pieces) {
      const down = new Set(pinsInto(piece, made.of(piece.layer - 1)).map(key));
      for (const pin of piece.pins.filter((each) => down.has(key(each)))) {
        for (const other of piece.pins.filter((each) => !down.has(key(each)))) {
          expect(apart(pin, other)).toBeGreaterThan(29.9);
        }
      }
    }
  });

  test('a piece is held by two pins into what is below, or by one and a neighbour that is; else it is told', () => {
    const few = told(stack, made);
    for (const piece of made.pieces.filter(({ layer }) => layer > 1)) {
      const below = made.of(piece.layer - 1);
      const count = pinsInto(piece, below).length;
      const neighbours = made.of(piece.layer).filter((other) => piece.joints.some((j) => j.neighbour === other.name));
      const isHeld = count >= 2 || (count === 1 && neighbours.some((other) => pinsInto(other, below).length > 0));
      expect(isHeld, piece.name).toBe(!few.has(piece.name));
    }
  });

  test('each pin ends deep under the next layers, or stands open where it can be pulled', () => {
    for (const pieces of holders.values()) {
      const [x, y] = pieces[0].pins.find((pin) => holders.get(key(pin)) === pieces) as Point;
      const top = pieces[pieces.length - 1];
      // Layers of 50 mm: under the next outline there are 50 mm of foam over the layer's underside, 15 of bite and 20 over it.
      const next = stack.layers[top.layer]?.regions ?? [];
      const edge = distanceToRings(x, y, ringsOf(next));
      // 4 mm, less the sag of rounded corners.
      expect(edge).toBeGreaterThan(3.79);
      // One that goes on through a third layer stays: it cannot be pulled.
      if (pieces.length > 2) expect(isInside(x, y, next)).toBe(true);
    }
  });

  test('glue lies where the next layer stands, 15 mm off every outer edge of both', () => {
    for (const layer of stack.layers) {
      const outer = [layer, stack.layers[layer.number]].flatMap((each) => (each ? ringsOf(each.regions) : []));
      for (const { glue = [], placing } of made.of(layer.number)) {
        expect(areaOf(subtract(glue, placing))).toBeLessThan(1);
        for (const ring of ringsOf(glue)) {
          for (let i = 0; i < ring.length; i += 2) {
            expect(distanceToRings(ring[i], ring[i + 1], outer)).toBeGreaterThan(14.9);
          }
        }
      }
      const pieces = made.of(layer.number);
      const under = areaOf(pieces.flatMap(({ placing }) => [...placing]));
      if (under > 2e5) expect(areaOf(pieces.flatMap(({ glue = [] }) => [...glue]))).toBeGreaterThan(0.4 * under);
    }
  });

  test('nicks lie on the outline, one toward the front and two to the right, or there are none', () => {
    let with3 = 0;
    for (const { nicks = [], region, pins, slits, joints } of made.pieces) {
      expect([0, 3]).toContain(nicks.length);
      if (nicks.length === 0) continue;
      with3++;
      expect(nicks.map(({ side }) => side)).toEqual(['front', 'right', 'right']);
      const marks = joints.flatMap(({ matches }) => [...matches]);
      for (const { at } of nicks) {
        expect(distanceToRings(at[0], at[1], [region[0]])).toBeLessThan(0.002);
        for (const other of [...pins, ...marks]) expect(apart(at, other)).toBeGreaterThan(14.9);
        for (const slit of slits) expect(distanceToRings(at[0], at[1], [slit])).toBeGreaterThan(14.9);
      }
      const [front, low, high] = nicks.map(({ at }) => at);
      expect(Math.abs(high[1] - low[1])).toBeCloseTo(16, 1);
      // The front is south: nothing of the piece lies south of the one, or east of the two.
      for (const [x, y, u, v] of [
        [front[0], front[1] - 1, front[0], -1e5],
        [low[0] + 1, low[1], 1e5, low[1]],
        [high[0] + 1, high[1], 1e5, high[1]],
      ]) {
        const beyond = rectangle(Math.min(x, u) - 0.01, Math.min(y, v) - 0.01, Math.max(x, u) + 0.01, Math.max(y, v));
        expect(areaOf(intersect([[region[0]]], [[beyond]]))).toBeLessThan(0.02);
      }
    }
    expect(with3).toBeGreaterThan(0.8 * made.pieces.length);
  });

  test('most layers have their nicks on one plane each way', () => {
    for (const [side, axis] of [
      ['front', 0],
      ['right', 1],
    ] as const) {
      const layersAt = new Map<number, Set<number>>();
      for (const { nicks = [], layer } of made.pieces) {
        for (const nick of nicks.filter((each) => each.side === side)) {
          const at = Math.round(nick.at[axis] * 100);
          layersAt.set(at, (layersAt.get(at) ?? new Set()).add(layer));
        }
      }
      const most = Math.max(...[...layersAt.values()].map(({ size }) => size));
      expect(most).toBeGreaterThanOrEqual(0.7 * stack.layers.length);
    }
  });
});

/** Layers of 50 mm, each a list of regions. */
const stackOf = (...layers: Region[][]): LayerStack => ({
  kind: 'flat',
  layers: layers.map((regions, i) => ({ number: i + 1, bottomMm: 50 * i, thicknessMm: 50, regions })),
});
const box = (x: number, y: number, width: number, depth: number): Region => [rectangle(x, y, x + width, y + depth)];

describe('plain shapes', () => {
  test('nested blocks: pins under the summit go through all layers in one line, and nicks stand in one line', () => {
    const made = split(
      'solid',
      stackOf([box(0, 0, 1010, 830)], [box(90, 70, 820, 660)], [box(210, 160, 590, 470)], [box(330, 260, 390, 310)]),
    );
    const through = made.of(3)[0].pins.filter((pin) => made.of(1)[0].pins.some((other) => key(other) === key(pin)));
    expect(through.length).toBeGreaterThanOrEqual(2);
    const nicks = made.pieces.map(({ nicks = [] }) => nicks.map(({ at }) => at));
    expect(new Set(nicks.map(([[x]]) => x)).size).toBe(1);
    expect(new Set(nicks.map(([, low, high]) => `${low[1]} ${high[1]}`)).size).toBe(1);
    expect(nicks.map(([[, y]]) => y)).toEqual([0, 70, 160, 260]);
    expect(nicks.map(([, [x]]) => x)).toEqual([1010, 910, 800, 720]);
  });

  test.each([
    ['north', [830, 0]],
    ['west', [0, 0]],
    ['east', [1010, 830]],
  ] as const)('seen from the %s, nicks are on that side and to the right of it', (side, [front, right]) => {
    const facts = splitFacts({ front: { side, word: 'HOUSE' } });
    const [{ nicks = [] }] = split('solid', stackOf([box(0, 0, 1010, 830)]), { facts }).pieces;
    const axis = side === 'north' ? 1 : 0;
    expect(nicks[0].at[axis]).toBe(front);
    expect(nicks.slice(1).map(({ at }) => at[1 - axis])).toEqual([right, right]);
  });

  test('the lowest layer is pinned to nothing beneath, and one layer alone has no pin', () => {
    expect(split('solid', stackOf([box(0, 0, 900, 700)])).pieces.flatMap(({ pins }) => pins)).toEqual([]);
  });

  test('a piece too small for two pins, alone, is told; too small to be felt, it has no nicks', () => {
    const stack = stackOf([box(0, 0, 900, 700)], [box(80, 90, 31, 22)]);
    const made = split('solid', stack);
    expect([...told(stack, made)]).toEqual(['2A']);
    expect(made.of(2)[0].nicks).toEqual([]);
    expect(made.findings).toEqual([]);
  });
});
