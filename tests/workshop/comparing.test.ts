/** Order of ways to build, and what would turn it: worked out apart. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Figures, flips, hoursAltogether, ranked } from '../../src/workshop/comparing.ts';

const hours = (least: number, most = least) => ({ least, most });

const figures = (more: Partial<Figures> = {}): Figures => ({
  stops: [],
  floatDays: 3,
  readyDay: null,
  money: 100,
  unpriced: 0,
  hours: { cut: hours(4, 8), carve: hours(2), place: hours(3), cover: hours(1) },
  wireHours: 5,
  wireM: 60,
  boards: 8,
  fewest: 6,
  trips: 1,
  kgWet: 50,
  deepestMm: 40,
  leastLapMm: 60,
  wasteM3: 0.2,
  watches: [],
  ...more,
});

const row = (name: string, more: Partial<Figures> = {}) => ({ name, figures: figures(more) });
const names = (rows: readonly { name: string }[]) => rows.map(({ name }) => name).join(' ');

describe('the order', () => {
  test('a stop is behind everything, then float under what is asked for, then money, then wire', () => {
    const all = [
      row('stopped', { stops: ['too heavy'], money: 1 }),
      row('late', { floatDays: 0.2, money: 2 }),
      row('wiry', { money: 90, wireM: 70 }),
      row('plain', { money: 90, wireM: 50 }),
      row('dear', { money: 120 }),
      row('unknown', { money: null }),
      row('undated', { floatDays: null, money: 95 }),
    ];
    expect(names(ranked(all, null, 0.5))).toBe('plain wiry undated dear unknown late stopped');
  });

  test('a rate puts hours to the money, and may turn the order', () => {
    const cheap = row('cheap', { money: 80, hours: { ...figures().hours, carve: hours(12) } });
    const quick = row('quick', { money: 100 });
    expect(names(ranked([quick, cheap], null, 0))).toBe('cheap quick');
    // Ten hours apart, 20 of money: an hour at 2 makes them even.
    expect(names(ranked([quick, cheap], 1.9, 0))).toBe('cheap quick');
    expect(names(ranked([quick, cheap], 2.1, 0))).toBe('quick cheap');
  });

  test('no order is lost or doubled, whatever the figures', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            money: fc.option(fc.integer({ min: 0, max: 3 })),
            floatDays: fc.option(fc.integer({ min: -2, max: 2 })),
            wireM: fc.integer({ min: 0, max: 2 }),
          }),
          { minLength: 1, maxLength: 7 },
        ),
        (all) => {
          const rows = all.map((more, i) => row(String(i), more));
          const order = ranked(rows, 3, 0.5);
          expect(names(order).split(' ').sort()).toEqual(names(rows).split(' ').sort());
          const judged = (list: readonly { figures: Figures }[]) =>
            list.map(({ figures: { floatDays, money, wireM } }) => [(floatDays ?? 9) < 0.5, money, wireM]);
          // Ties apart, the order does not hang on how the rows came.
          const sameHours = judged(ranked([...order].reverse(), 3, 0.5));
          expect(sameHours).toEqual(judged(order));
        },
      ),
      { seed: 4, numRuns: 200 },
    );
  });
});

describe('what would turn it', () => {
  test('without a rate: the hour’s worth at which money and hours balance', () => {
    const cheap = row('cheap', { money: 80, hours: { ...figures().hours, carve: hours(12) } });
    const quick = row('quick', { money: 100 });
    expect(flips([cheap, quick], null, 200)).toEqual(['quick wins where an hour of work counts for more than 2.00']);
    expect(flips([quick, row('worse', { money: 130 })], null, 200)).toEqual([]);
  });

  test('with a rate: the speed of the wire at which they balance, by trying it', () => {
    const best = row('hollow', { money: 100, wireHours: 9, hours: { ...figures().hours, cut: hours(10) } });
    const solid = row('solid', { money: 150, wireHours: 3, hours: { ...figures().hours, cut: hours(4) } });
    const [told] = flips([best, solid], 5, 200);
    const speed = Number(/below ([\d.]+) mm\/s/.exec(told)?.[1]);
    const at = (each: Figures, mmS: number) =>
      (each.money ?? 0) + 5 * (hoursAltogether(each) + each.wireHours * (1000 / mmS / 200 - 1));
    expect(at(best.figures, speed * 1.05)).toBeLessThan(at(solid.figures, speed * 1.05));
    expect(at(best.figures, speed * 0.95)).toBeGreaterThan(at(solid.figures, speed * 0.95));
  });

  test('nothing is told of what is stopped, or costs nobody knows what', () => {
    expect(flips([row('a'), row('b', { stops: ['no'], money: 1 }), row('c', { money: null })], null, 200)).toEqual([]);
    expect(flips([row('a', { money: null }), row('b')], 4, 200)).toEqual([]);
    expect(flips([], 4, 200)).toEqual([]);
  });
});
