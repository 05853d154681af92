import { describe, expect, test } from 'vitest';
import { carry } from '../../src/checks/carry.ts';
import { turn } from '../../src/geometry/exact-math.ts';
import { placed, type Region, rectangle } from '../../src/geometry/ring.ts';
import type { Facts } from '../../src/model/facts.ts';
import { longestRoundCorner, passesDoor, passesStair } from '../../src/model/way.ts';
import { boardOf, layerOf, piecedPlan, pieceOf } from '../help/pieced.ts';

const NO_WAY: Facts['way'] = { door: null, stair: null, lift: null, van: null };
/** 1800 × 900 of 50, turned askew: no box square to the axes is as small. */
const askew: Region = [placed(rectangle(0, 0, 1800, 900), { turnDeg: 37, mirrored: false, xMm: 900, yMm: 0 })];
const small: Region = [rectangle(0, 0, 600, 400)];

const tell = (way: Partial<Facts['way']>, one: Partial<Facts['carry']> = {}, density = 15) => {
  const pieces = [pieceOf('1A', askew), pieceOf('1C', small)];
  const facts = { way: { ...NO_WAY, ...way }, carry: { sizeMm: null, massKg: null, ...one } };
  return carry(piecedPlan([layerOf(1, askew, small)], pieces, { facts, boards: [boardOf(pieces, density)] }));
};

test('where nothing is said of the way nothing is told', () => {
  expect(tell({})).toEqual([]);
});

test.each<[string, Partial<Facts['way']>, Partial<Facts['way']>]>([
  ['door', { door: { widthMm: 700, heightMm: 890 } }, { door: { widthMm: 60, heightMm: 905 } }],
  [
    'stair',
    { stair: { widthMm: 670, heightMm: null, turns: true } },
    { stair: { widthMm: 680, heightMm: null, turns: true } },
  ],
  [
    'stair',
    { stair: { widthMm: 690, heightMm: 890, turns: true } },
    { stair: { widthMm: 60, heightMm: 905, turns: false } },
  ],
  [
    'lift',
    { lift: { lengthMm: 1400, widthMm: 1100, heightMm: 1790, payloadKg: null } },
    { lift: { lengthMm: 1400, widthMm: 910, heightMm: 1810, payloadKg: 2 } },
  ],
  [
    'lift',
    { lift: { lengthMm: 1400, widthMm: 1100, heightMm: 2000, payloadKg: 1 } },
    { lift: { lengthMm: 1400, widthMm: 1100, heightMm: 2000, payloadKg: 2 } },
  ],
  [
    'van',
    { van: { lengthMm: 1790, widthMm: 1200, heightMm: 1300, payloadKg: null } },
    { van: { lengthMm: 1810, widthMm: 60, heightMm: 910, payloadKg: null } },
  ],
  [
    'payload',
    { van: { lengthMm: 2500, widthMm: 1200, heightMm: 1300, payloadKg: 1 } },
    { van: { lengthMm: 2500, widthMm: 1200, heightMm: 1300, payloadKg: 2 } },
  ],
])('a piece that does not pass the %s stops the plan; through a little more it goes', (code, narrow, wide) => {
  const [finding, ...more] = tell(narrow);
  expect(more).toEqual([]);
  expect(finding).toMatchObject({ level: 'stop', code: `checks/${code}`, where: { layer: 1, piece: '1A' } });
  expect(finding.where.atMm).toHaveLength(2);
  expect(tell(wide)).toEqual([]);
});

test('one carrier takes it by size and by weight, or is told', () => {
  expect(tell({}, { sizeMm: [1000, 1800] })).toEqual([]);
  expect(tell({}, { sizeMm: [1000, 1700] })).toMatchObject([
    { level: 'watch', code: 'checks/carry-size', where: { piece: '1A' } },
  ]);
  // 1.62 m² × 50 mm × 15 kg/m³ = 1.2 kg.
  expect(tell({}, { massKg: 1.22 })).toEqual([]);
  expect(tell({}, { massKg: 1.2 })).toMatchObject([{ level: 'watch', code: 'checks/carry-mass' }]);
  expect(tell({}, { massKg: 0.1 }).map(({ where }) => where.piece)).toEqual(['1A', '1C']);
});

describe('round a corner', () => {
  test('a ladder is as long as the published one: (a^⅔ + a^⅔)^(3/2) = 2 √2 a', () => {
    expect(longestRoundCorner(1000, 0)).toBeCloseTo(2828.427, 3);
  });

  /** Clearance of a rectangle in the corner, by trying every lean: the inner corner against its inner side. */
  const clears = (long: number, thick: number, a: number) => {
    for (let deg = 0; deg <= 90; deg += 0.05) {
      const { cos, sin } = turn(deg);
      if (a * sin + a * cos - long * sin * cos < thick - 1e-9) return false;
    }
    return true;
  };

  test.each([
    [900, 50],
    [700, 180],
    [1200, 400],
    [800, 560],
  ])('a way of %d lets a rectangle %d thick by as far as trying every lean does', (a, thick) => {
    const longest = longestRoundCorner(a, thick);
    expect(clears(longest - 0.01, thick, a)).toBe(true);
    expect(clears(longest + 0.1, thick, a)).toBe(false);
    const stair = { widthMm: a, heightMm: null, turns: true };
    expect(passesStair([longest - 0.01, 10, thick], stair)).toBe(true);
    expect(passesStair([longest + 0.01, 10, thick], stair)).toBe(false);
  });

  test('nothing thicker than the way goes up it, turn or none', () => {
    expect(passesStair([500, 400, 301], { widthMm: 300, heightMm: null, turns: false })).toBe(false);
  });
});

test('a door is passed lying or on edge, however long the piece', () => {
  const door = { widthMm: 760, heightMm: 1980 };
  expect(passesDoor([9000, 1900, 100], door)).toBe(true);
  expect(passesDoor([9000, 700, 1900], door)).toBe(true);
  expect(passesDoor([9000, 1990, 100], door)).toBe(false);
  expect(passesDoor([9000, 800, 770], door)).toBe(false);
});
