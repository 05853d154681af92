import { describe, expect, test } from 'vitest';
import { ribs as check } from '../../src/checks/ribs.ts';
import { fitsRectangle, flushRectangles } from '../../src/geometry/enclosing.ts';
import { boxOf, ringsOf } from '../../src/geometry/ring.ts';
import { ringHull } from '../../src/geometry/ring-hull.ts';
import { type Heightfield, heightfield } from '../../src/model/landform.ts';
import type { Piece } from '../../src/model/piece.ts';
import type { Plan } from '../../src/model/plan.ts';
import { holdRibs } from '../help/rib-laws.ts';
import { lapRibs, standRibs } from '../help/ribs-run.ts';
import { faultsOf, split } from '../help/split-run.ts';
import { randomStack, splitFacts } from '../help/stacks.ts';

/** Gentle ground, 7.1 × 3.9 m, lopsided. */
const ground: Heightfield = heightfield(
  72,
  40,
  100,
  100,
  Float64Array.from({ length: 72 * 40 }, (_, i) => {
    const [x, y] = [(i % 72) / 72, Math.floor(i / 72) / 40];
    return 110 + 190 * Math.exp(-((x - 0.37) ** 2) * 9 - (y - 0.6) ** 2 * 5) + 7 * Math.sin(9 * x + 5 * y);
  }),
);
const { stack } = standRibs(ground, { spacing: [610, 560] });
const short = splitFacts({ boardSizes: [{ sizeMm: [1250, 600], thicknessMm: 50, densityKgM3: 15, trimMm: 4 }] });

const bays = (pieces: readonly Piece[], layer: number) => {
  const crossings = stack.layers[layer - 1].rib?.crossings ?? [];
  const lines = new Map(
    pieces.filter((p) => p.layer === layer).flatMap(({ joints }) => joints.map((j) => [j.label, j.line])),
  );
  return [...lines.values()].map((line) => crossings.filter(({ atMm }) => atMm < line[0]).length);
};

describe('ribs longer than a board', () => {
  test.each([
    ['large', splitFacts()],
    ['small', short],
  ])('are lapped so that every piece fits %s boards, and go together to the ground', (_, facts) => {
    const { pieces, findings } = lapRibs(stack, {}, facts);
    const { crossings } = holdRibs({ layers: stack.layers, pieces, ground, depthMm: 0 });
    expect(crossings).toBeGreaterThan(100);
    expect(findings.map(({ code }) => code)).toEqual(['split/laps']);
    const [{ sizeMm, trimMm }] = facts.boardSizes;
    for (const { region } of pieces) {
      const hull = ringHull(region[0]);
      const fits = fitsRectangle(hull, flushRectangles(hull), sizeMm[0] - 2 * trimMm, sizeMm[1] - 2 * trimMm);
      expect(fits).toBe(true);
    }
    // No fewer pieces would do: a lap of 150 aside, each rib takes its length by the board's, or one more where bays are in the way.
    for (const { number, regions } of stack.layers) {
      const [from, , to] = boxOf(ringsOf(regions));
      const least = Math.ceil((to - from - 150) / (sizeMm[0] - 2 * trimMm - 150));
      const count = pieces.filter(({ layer }) => layer === number).length;
      expect(count).toBeGreaterThanOrEqual(least);
      expect(count).toBeLessThanOrEqual(2 * least);
    }
  });

  test('have no lap beside a lap of the next rib where another bay would do, nor else at the same place', () => {
    const { pieces } = lapRibs(stack);
    const beside = [0, 0];
    for (const { number, rib } of stack.layers.slice(1)) {
      const axis = rib?.frame.along[0] === 1 ? 0 : 1;
      if (stack.layers[number - 2].rib?.frame.along[axis] !== 1) continue;
      beside[axis] += bays(pieces, number).filter((bay) => bays(pieces, number - 1).includes(bay)).length;
      const [here, there] = [number, number - 1].map((layer) =>
        pieces.filter((piece) => piece.layer === layer).flatMap(({ joints }) => joints.map(({ line }) => line[0])),
      );
      expect(here.filter((at) => there.includes(at))).toEqual([]);
    }
    // Ribs of 3.9 m in two pieces of a board of 2.39 m have room for their lap in one bay only.
    expect(beside).toEqual([0, 12]);
  });

  test('have a step half as high as the rib: the left side keeps the lower tongue, as long as said', () => {
    const { pieces } = lapRibs(stack, { lap: 120 });
    let laps = 0;
    for (const { name, joints } of pieces) {
      for (const { line, matches } of joints) {
        const xs = [line[0], line[2], line[4], line[6]];
        expect(line.length).toBe(8);
        const [left, right] = [Math.min(...xs), Math.max(...xs)];
        expect(right - left).toBeCloseTo(120, 3);
        const low = Math.min(...[1, 3, 5, 7].map((i) => line[i]));
        const high = Math.max(...[1, 3, 5, 7].map((i) => line[i]));
        expect(low).toBe(0);
        expect(line[3]).toBe(line[5]);
        expect(Math.abs(line[3] / high - 0.5)).toBeLessThan(0.08);
        expect(matches.length, name).toBeGreaterThan(1);
        laps++;
      }
    }
    expect(laps).toBeGreaterThan(20);
  });

  test('that fit are left whole', () => {
    const wide = splitFacts({ boardSizes: [{ sizeMm: [8000, 1200], thicknessMm: 50, densityKgM3: 15, trimMm: 0 }] });
    const { pieces, findings } = lapRibs(stack, {}, wide);
    expect(pieces.length).toBe(stack.layers.length);
    expect(findings).toEqual([]);
    expect(pieces.map(({ region }) => region)).toEqual(stack.layers.map(({ regions }) => regions[0]));
  });

  test('higher than a board is wide have their pieces stood across it', () => {
    const narrow = splitFacts({ boardSizes: [{ sizeMm: [1900, 290], thicknessMm: 50, densityKgM3: 15, trimMm: 4 }] });
    const tall = stack.layers.filter(({ regions }) => boxOf(ringsOf(regions))[3] > 282);
    expect(tall.length).toBeGreaterThan(2);
    const close = standRibs(ground, { spacing: [212, 205] }).stack;
    const { pieces } = lapRibs(close, { lap: 60 }, narrow);
    holdRibs({ layers: close.layers, pieces, ground, depthMm: 0 });
    const across = pieces.filter(({ region }) => boxOf(region)[3] > 282);
    expect(across.length).toBeGreaterThan(5);
    for (const { region } of across) {
      const [from, , to] = boxOf(region);
      expect(to - from).toBeLessThanOrEqual(282);
    }
  });

  test('that the layout wishes otherwise have one lap more within the piece, where there is room for one', () => {
    const plain = lapRibs(stack).pieces;
    const { name, layer, region } = plain[1];
    const { pieces } = lapRibs(stack, {}, splitFacts(), [{ piece: name }]);
    holdRibs({ layers: stack.layers, pieces, ground, depthMm: 0 });
    const [from, , to] = boxOf(region);
    const own = pieces.filter((piece) => piece.layer === layer);
    expect(own.length).toBeGreaterThanOrEqual(plain.filter((piece) => piece.layer === layer).length);
    for (const piece of own) {
      const [left, , right] = boxOf(piece.region);
      expect(left <= from && right >= to).toBe(false);
    }
    expect(pieces.filter((piece) => piece.layer !== layer)).toHaveLength(
      plain.filter((piece) => piece.layer !== layer).length,
    );
    // One bay long: no lap fits within it.
    const tiny = splitFacts({ carry: { sizeMm: [700, 700], massKg: null } });
    const short = lapRibs(stack, { lap: 60 }, tiny).pieces;
    expect(
      lapRibs(
        stack,
        { lap: 60 },
        tiny,
        short.map((piece) => ({ piece: piece.name })),
      ).pieces,
    ).toEqual(short);
  });

  test('obey the largest size that may be carried', () => {
    const facts = splitFacts({ carry: { sizeMm: [1500, 900], massKg: null } });
    for (const { region } of lapRibs(stack, {}, facts).pieces) {
      const [from, , to] = boxOf(region);
      expect(to - from).toBeLessThanOrEqual(1500);
    }
  });
});

describe('refused, with the place and the way out', () => {
  test('layers that lie, and ribs in a splitter for layers', () => {
    expect(faultsOf(() => lapRibs(randomStack(3)))).toMatchObject([{ code: 'split/lying', where: { path: 'split' } }]);
    for (const name of ['solid', 'hollow'] as const) {
      const [fault] = faultsOf(() => split(name, stack));
      expect(fault).toMatchObject({ code: 'split/upright', where: { path: 'split' } });
      expect(fault.fix).toContain('ribs');
    }
  });

  test('a rib higher than any board is wide', () => {
    const low = splitFacts({ boardSizes: [{ sizeMm: [1250, 180], thicknessMm: 50, densityKgM3: 15, trimMm: 4 }] });
    const [fault] = faultsOf(() => lapRibs(stack, {}, low));
    expect(fault.code).toBe('split/rib-too-high');
    expect(fault.where.layer).toBeGreaterThan(0);
    expect(fault.where.atMm?.[1]).toBeCloseTo(
      stack.layers[(fault.where.layer ?? 0) - 1].rib?.frame.originMm[1] ?? -1,
      6,
    );
  });

  test('bays wider than a board is long, and laps longer than a bay', () => {
    const tiny = splitFacts({ boardSizes: [{ sizeMm: [560, 500], thicknessMm: 50, densityKgM3: 15, trimMm: 4 }] });
    expect(faultsOf(() => lapRibs(stack, {}, tiny))).toMatchObject([
      { code: 'split/rib-too-long', where: { layer: 1 } },
    ]);
    expect(faultsOf(() => lapRibs(stack, { lap: 600 }))).toMatchObject([{ code: 'split/rib-too-long' }]);
  });

  test('no board of the thickness', () => {
    const thin = splitFacts({ boardSizes: [{ sizeMm: [2400, 1200], thicknessMm: 40, densityKgM3: 15, trimMm: 4 }] });
    expect(faultsOf(() => lapRibs(stack, {}, thin))).toMatchObject([{ code: 'split/no-board', where: { layer: 1 } }]);
  });
});

describe('the check of ribs', () => {
  const { pieces } = lapRibs(stack, {}, short);
  const told = (changed: readonly Piece[]) => check({ stack, pieces: changed } as unknown as Plan);
  const moved = (name: string, by: readonly [number, number], isMeant: (u: number, v: number) => boolean) =>
    pieces.map((piece) =>
      piece.name === name
        ? {
            ...piece,
            region: piece.region.map((ring) => {
              const result = ring.slice();
              for (let i = 0; i < ring.length; i += 2) {
                if (!isMeant(ring[i], ring[i + 1])) continue;
                result[i] += by[0];
                result[i + 1] += by[1];
              }
              return result;
            }),
          }
        : piece,
    );
  const [slot] = stack.layers[2].rib?.crossings ?? [];
  const atSlot = (u: number, v: number) => Math.abs(u - slot.atMm) < 26 && Math.abs(v - slot.meetMm) < 0.01;
  const holder = pieces.find(({ layer, region }) => layer === 3 && boxOf(region)[0] < slot.atMm)?.name ?? '';

  test('has nothing to say of ribs that go together', () => {
    expect(told(pieces).filter(({ level }) => level === 'stop')).toEqual([]);
  });

  test('tells of a slot that is too deep, too shallow or in the wrong place, with the crossing', () => {
    const where = { layer: 3, atMm: [slot.atMm, stack.layers[2].rib?.frame.originMm[1]] };
    expect(told(moved(holder, [0, -0.3], atSlot))).toContainEqual(
      expect.objectContaining({ level: 'stop', code: 'checks/slots-miss', where }),
    );
    expect(told(moved(holder, [0, 0.3], atSlot))).toContainEqual(
      expect.objectContaining({ level: 'stop', code: 'checks/ribs-collide', where }),
    );
    expect(told(moved(holder, [0, 0.05], atSlot)).filter(({ level }) => level === 'stop')).toEqual([]);
    expect(told(moved(holder, [9, 0], () => true)).map(({ code }) => code)).toContain('checks/ribs-collide');
  });

  test('tells of a lap in a slot, and of pieces that one rib alone holds upright', () => {
    const [first] = pieces.filter(({ joints }) => joints.length > 0);
    const crossing = stack.layers[first.layer - 1].rib?.crossings[1];
    const line = first.joints[0].line.map((value, i) => (i % 2 === 0 ? (crossing?.atMm ?? 0) + i : value));
    const wrong = pieces.map((piece) =>
      piece === first ? { ...piece, joints: [{ ...piece.joints[0], line }] } : piece,
    );
    expect(told(wrong)).toContainEqual(
      expect.objectContaining({ code: 'checks/lap-in-slot', where: { piece: first.name } }),
    );
    const [, , to] = boxOf(first.region);
    const cutOff = pieces.map((piece) =>
      piece === first
        ? { ...piece, joints: [], region: [Float64Array.of(to - 200, 0, to, 0, to, 90, to - 200, 90)] }
        : piece,
    );
    expect(told(cutOff)).toContainEqual(
      expect.objectContaining({ code: 'checks/rib-tips', where: { piece: first.name } }),
    );
  });
});
