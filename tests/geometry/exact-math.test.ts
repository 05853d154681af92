/** The transcendental functions against published values, and turns and directions against each other. */
import { describe, expect, test } from 'vitest';
import { atan2, cos, directionDeg, exp, length, ln, PI, pow, sin, turn } from '../../src/geometry/exact-math.ts';

/**
 * Published values to 20 digits: the On-Line Encyclopedia of Integer Sequences (numbers in brackets) and Abramowitz &
 * Stegun, Handbook of Mathematical Functions, tables 1.1, 4.2, 4.4, 4.6. Quoted from memory, and each reckoned again
 * with mpmath 1.x at 30 digits.
 */
const PUBLISHED: readonly (readonly [string, number, string])[] = [
  ['sin 1 (A049469)', sin(1), '0.84147098480789650665'],
  ['cos 1 (A049470)', cos(1), '0.54030230586813971740'],
  ['sin 10', sin(10), '-0.54402111088936981340'],
  ['cos 10', cos(10), '-0.83907152907645245226'],
  ['sin 22: 22 is close to 7 π', sin(22), '-0.0088513092904038759217'],
  ['sin 100', sin(100), '-0.50636564110975879366'],
  ['cos 100', cos(100), '0.86231887228768393410'],
  ['sin 355: 355 is very close to 113 π', sin(355), '-0.000030144353359488449214'],
  ['sin 18°, (√5 − 1) / 4 (A019827)', turn(18).sin, '0.30901699437494742410'],
  ['cos 36°, (√5 + 1) / 4 (A019863)', turn(36).cos, '0.80901699437494742410'],
  ['e (A001113)', exp(1), '2.7182818284590452354'],
  ['1/e (A068985)', exp(-1), '0.36787944117144232160'],
  ['e² (A072334)', exp(2), '7.3890560989306502272'],
  ['e to the −10', exp(-10), '0.000045399929762484851536'],
  ['ln 2 (A002162)', ln(2), '0.69314718055994530942'],
  ['ln 3 (A002391)', ln(3), '1.0986122886681096914'],
  ['ln 10 (A002392)', ln(10), '2.3025850929940456840'],
  ['twelfth root of 2 (A010774)', pow(2, 1 / 12), '1.0594630943592952646'],
  ['√2 (A002193)', pow(2, 0.5), '1.4142135623730950488'],
  ['10 to the −0.3', pow(10, -0.3), '0.50118723362727228500'],
  ['arc tangent of 2 (A105199)', atan2(2, 1), '1.1071487177940905030'],
  ['arc tangent of ½ (A073000)', atan2(1, 2), '0.46364760900080611621'],
  ['π / 4 (A003881)', atan2(7, 7), '0.78539816339744830962'],
  ['π (A000796)', PI, '3.1415926535897932385'],
];

test.each(PUBLISHED)('%s', (_, value, published) => {
  expect(Math.abs(value / Number(published) - 1)).toBeLessThan(1e-15);
});

test('identities hold far from zero', () => {
  for (const x of [0.37, -2.9, 47.11, 1e4 + 0.3, -7.7e5]) {
    expect(sin(x) * sin(x) + cos(x) * cos(x)).toBeCloseTo(1, 15);
    expect(sin(-x)).toBe(-sin(x));
    expect(cos(-x)).toBe(cos(x));
  }
  for (const x of [0.013, 1.9, 31, 4.4e7]) {
    expect(exp(ln(x)) / x).toBeCloseTo(1, 13);
    expect(pow(x, 3) / (x * x * x)).toBeCloseTo(1, 14);
  }
  expect(pow(9, 0)).toBe(1);
  expect(pow(1.5, 2)).toBe(2.25);
});

test('atan2 knows the four quadrants', () => {
  expect(atan2(1, -2)).toBeCloseTo(PI - 0.4636476090008061, 15);
  expect(atan2(-1, -2)).toBeCloseTo(0.4636476090008061 - PI, 15);
  expect(atan2(-1, 2)).toBe(-atan2(1, 2));
});

test('length is that of Pythagorean triples', () => {
  // Plimpton 322 (about 1800 BC), line 1: 119, 120, 169.
  expect(length(119, 120)).toBe(169);
  expect(length(-5, 12)).toBe(13);
  expect(length(0, 0)).toBe(0);
});

describe('turn', () => {
  test.each([
    [0, 1, 0],
    [90, 0, 1],
    [180, -1, 0],
    [270, 0, -1],
    [360, 1, 0],
    [-90, 0, -1],
    [-450, 0, -1],
    [1170, 0, 1],
  ])('%d° is exact', (deg, c, s) => {
    // Compared by ===: 0 and −0 are the same point.
    expect(turn(deg).cos === c && turn(deg).sin === s).toBe(true);
  });

  test('30°, 45° and 60° are what school says', () => {
    expect(turn(30).sin).toBeCloseTo(0.5, 15);
    expect(turn(60).cos).toBeCloseTo(0.5, 15);
    expect(turn(45).cos).toBeCloseTo(Math.SQRT1_2, 15);
    expect(turn(-45).sin).toBeCloseTo(-Math.SQRT1_2, 15);
  });

  test('two turns after one another are one turn of the sum', () => {
    const [a, b] = [turn(37.2), turn(101.9)];
    const sum = turn(139.1);
    expect(a.cos * b.cos - a.sin * b.sin).toBeCloseTo(sum.cos, 14);
    expect(a.sin * b.cos + a.cos * b.sin).toBeCloseTo(sum.sin, 14);
  });
});

describe('directionDeg', () => {
  test('gives back what was turned', () => {
    for (const deg of [0.001, 12.5, 45, 89.999, 90, 133.3, 180, 201.7, 270, 271, 359.99]) {
      const { cos: c, sin: s } = turn(deg);
      expect(directionDeg(731 * c, 731 * s)).toBeCloseTo(deg, 10);
    }
  });

  test('is exact on the axes, and 0 for no direction at all', () => {
    expect([directionDeg(3, 0), directionDeg(0, 8), directionDeg(-5, 0), directionDeg(0, -2)]).toEqual([
      0, 90, 180, 270,
    ]);
    expect(directionDeg(-5, -0)).toBe(180);
    expect(directionDeg(0, 0)).toBe(0);
  });

  test('stays below 360, however little below the axis', () => {
    for (const y of [-1e-3, -1e-14, -1e-17, -1e-300]) {
      const deg = directionDeg(1, y);
      expect(deg).toBeGreaterThanOrEqual(0);
      expect(deg).toBeLessThan(360);
    }
  });
});
