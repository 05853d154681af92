/** Buying, cutting, carrying, floor, clock and clearing: laws on an invented plan. */
import { describe, expect, test } from 'vitest';
import { bendLength } from '../../src/geometry/bends.ts';
import { rectangle } from '../../src/geometry/ring.ts';
import { dayOf, isWorkday } from '../../src/model/day.ts';
import type { Plan } from '../../src/model/plan.ts';
import { known, rulesWith } from '../../src/model/rules.ts';
import { NOTHING_SAID, type Work } from '../../src/model/work.ts';
import { buyingOf, wholePacks } from '../../src/workshop/buying.ts';
import { bundlesOf, loadsOf, tripsOf } from '../../src/workshop/carrying.ts';
import { clearingOf } from '../../src/workshop/clearing.ts';
import { clockOf, dayOfSlot, dryingHours, savingsOf } from '../../src/workshop/clock.ts';
import { cuttingOf } from '../../src/workshop/cutting.ts';
import { builtLoad, floorLoad } from '../../src/workshop/floor-load.ts';
import { allHours, hoursOf } from '../../src/workshop/hours.ts';
import { smallPlan } from '../help/small-plan.ts';

const BOARD = {
  name: 'EPS 70',
  sizeMm: [2400, 1200],
  thicknessMm: 50,
  densityKgM3: 15,
  price: 14.1,
  count: null,
  trimMm: 5,
  faced: true,
} as const;

function planned(work: Partial<Work> = {}, changes: Partial<Plan> = {}): Plan {
  const plan = smallPlan();
  const cover = { material: 'dry sand', depthMm: 20, densityKgM3: null };
  const facts = { ...plan.facts, cover, stock: { boards: [BOARD], offcuts: [] }, work: { ...NOTHING_SAID, ...work } };
  const quantities = {
    ...plan.quantities,
    coverVolumeM3: 0.018,
    coverMassKg: 28,
    carveM3: 0.03,
    pinStock: [{ soldMm: 100, sticks: 4, pins: 4, pulled: 1, leastMm: 60, mostMm: 60 }],
  };
  return { ...plan, facts, quantities, ...changes };
}

const crew = (people: number, cutters: number): Work['crew'] => ({
  ...NOTHING_SAID.crew,
  people: known(people, 1),
  cutters: known(cutters, 1),
});
const ready = (date: string, today: string | null, getIn: string | null = null): Work['ready'] => ({
  ...NOTHING_SAID.ready,
  opening: dayOf(date),
  today: today === null ? null : dayOf(today),
  getIn: getIn === null ? null : dayOf(getIn),
});

describe('buying', () => {
  test('spares are one board or the share, in whole packs, and no fewer than are sold', () => {
    const [{ orders }] = buyingOf(planned()).suppliers;
    expect(orders).toMatchObject([{ stock: 'EPS 70', needed: 1, spare: 1, ordered: 2, money: 28.2 }]);
    const terms = (pack: number, least: number) => ({ pack: known(pack, 1), least: known(least, 1) });
    expect([
      wholePacks(13, terms(6, 1)),
      wholePacks(2, terms(1, 10)),
      wholePacks(2, terms(4, 10)),
      wholePacks(0, terms(4, 10)),
    ]).toEqual([18, 10, 12, 0]);
  });

  test('what has no price is named and not counted', () => {
    const { known: sum, unpriced } = buyingOf(planned());
    expect(sum).toBe(28.2);
    expect(unpriced).toEqual(expect.arrayContaining(['delivery by the supplier', 'pins', 'glue', 'dry sand', 'wire']));
    const prices = { glue: 9, pin: 0.1, cover: 4, scrim: 1, coat: 6, wire: 2, paper: 1, safety: 50, skip: 200 };
    const all = buyingOf(planned({ prices }));
    expect(all.unpriced).toEqual(['delivery by the supplier']);
    expect(all.known).toBeGreaterThan(28.2 + 50);
  });

  test('bags are those of the cover with its spare share', () => {
    const cover = buyingOf(planned({ rules: rulesWith({ bagKg: 10 }) })).sundries.find(
      ({ what }) => what === 'dry sand',
    )!;
    expect(cover.amount.at(-1)).toBe(`), ${Math.ceil((28 * 1.12) / 10)} bags`);
  });
});

describe('cutting', () => {
  test('takes the length of the outlines and slits, the run-ins besides, and every piece once', () => {
    const plan = planned();
    const { boards, wireMm } = cuttingOf(plan);
    const outlines = boards.reduce((sum, cut) => sum + cut.wireMm - cut.runInMm, 0);
    expect(wireMm).toBeGreaterThan(outlines);
    expect(boards.flatMap(({ pieces }) => pieces.map(({ name }) => name)).sort()).toEqual(
      plan.pieces.map(({ name }) => name).sort(),
    );
    for (const { pieces } of boards) {
      for (let i = 1; i < pieces.length; i++) expect(pieces[i - 1].areaMm2).toBeGreaterThanOrEqual(pieces[i].areaMm2);
    }
  });

  test('run-ins and breaking-down cuts of the layout are taken as they are', () => {
    const plan = planned();
    const line = (...points: number[]) => Float64Array.from(points);
    const boards = plan.boards.map((board, i) =>
      i > 0
        ? board
        : { ...board, runIns: [{ blank: 1, line: line(0, 0, 30, 40) }], breakDowns: [line(0, 600, 2400, 600)] },
    );
    const [cut] = cuttingOf({ ...plan, boards }).boards;
    expect([cut.runInMm, cut.breakDowns]).toEqual([50, 1]);
    const before = cuttingOf(plan).boards[0];
    expect(cut.wireMm).toBeCloseTo(before.wireMm - before.runInMm + 50 + 2400, 6);
  });

  test('a slower metre, more handling or less skill never takes less', () => {
    const minutes = (work: Partial<Work>) => cuttingOf(planned(work)).minutes;
    const usual = minutes({});
    expect(minutes({ rules: rulesWith({ secondsAMetre: 300 }) })).toBeGreaterThan(usual);
    expect(minutes({ rules: rulesWith({ minutesAPiece: 9 }) })).toBeGreaterThan(usual);
    expect(minutes({ crew: { ...NOTHING_SAID.crew, skill: known('first time', 'practised') } })).toBeGreaterThan(usual);
    expect(minutes({ crew: { ...NOTHING_SAID.crew, skill: known('practised', 'practised') } })).toBeLessThan(usual);
    const { cut } = hoursOf(planned());
    expect(cut.least).toBeLessThan(cut.most);
    expect(allHours(hoursOf(planned())).most).toBeGreaterThan(cut.most);
  });

  test('bends: a small circle is all bend, a large one none, of a rectangle only its corners', () => {
    const circle = (radius: number) => {
      const points = Array.from({ length: 360 }, (_, i) => [
        radius * Math.cos((i * Math.PI) / 180),
        radius * Math.sin((i * Math.PI) / 180),
      ]);
      return Float64Array.from(points.flat());
    };
    expect(bendLength(circle(90), 150)).toBeCloseTo(2 * Math.PI * 90, -1);
    expect(bendLength(circle(400), 150)).toBe(0);
    const corners = bendLength(rectangle(0, 0, 2300, 900), 150);
    expect(corners).toBeGreaterThan(4 * 75);
    expect(corners).toBeLessThan(4 * 225);
  });
});

describe('carrying', () => {
  test('shares of the cover add up to all of it, and wet is heavier', () => {
    const loads = loadsOf(planned());
    const cover = loads.reduce((sum, { coveredKg, rawKg }) => sum + (coveredKg as number) - rawKg, 0);
    expect(cover).toBeCloseTo(28, 9);
    for (const { rawKg, coveredKg, wetKg } of loads) {
      expect(coveredKg!).toBeGreaterThanOrEqual(rawKg);
      expect(wetKg!).toBeGreaterThanOrEqual(coveredKg!);
    }
  });

  test('a door smaller than any piece lets none pass', () => {
    const plan = planned();
    const way = { ...plan.facts.way, door: { widthMm: 40, heightMm: 45 } };
    expect(loadsOf({ ...plan, facts: { ...plan.facts, way } }).filter(({ passes }) => passes)).toEqual([]);
    expect(loadsOf(plan).every(({ passes }) => passes)).toBe(true);
    // Room enough, and too heavy for the lift, or for the van: what the findings stop does not pass here either.
    const room = { lengthMm: 9000, widthMm: 9000, heightMm: 9000, payloadKg: 0.05 };
    for (const tooHeavy of [
      { ...plan.facts.way, lift: room },
      { ...plan.facts.way, van: room },
    ]) {
      const passing = loadsOf({ ...plan, facts: { ...plan.facts, way: tooHeavy } }).filter(({ passes }) => passes);
      expect(passing.every(({ rawKg }) => rawKg <= 0.05)).toBe(true);
      expect(passing.length).toBeLessThan(plan.pieces.length);
    }
  });

  test('trips carry everything, the ground first, the last needed first in; none above room or payload', () => {
    const bundles = bundlesOf(loadsOf(planned()));
    const van = { lengthMm: 1500, widthMm: 1000, heightMm: 60, payloadKg: 0.4 };
    const trips = tripsOf(bundles, van, 0.8);
    const sum = (of: (each: { massKg: number }) => number) => trips.reduce((total, trip) => total + of(trip), 0);
    expect(sum(({ massKg }) => massKg)).toBeCloseTo(
      bundles.reduce((total, { massKg }) => total + massKg, 0),
      9,
    );
    for (const { massKg, volumeM3, bundles: loaded } of trips) {
      expect(massKg).toBeLessThanOrEqual(0.4 + 1e-9);
      expect(volumeM3).toBeLessThanOrEqual(0.09 * 0.8 + 1e-9);
      for (let i = 1; i < loaded.length; i++) expect(loaded[i - 1].layer).toBeGreaterThanOrEqual(loaded[i].layer);
    }
    const order = trips.flatMap(({ bundles: loaded }) => [...loaded].reverse().map(({ layer }) => layer));
    expect([...order].sort((a, b) => a - b)).toEqual(order);
  });
});

describe('the floor', () => {
  test('wet presses more than dry; a pallet of bags more than this hill ever does', () => {
    const load = floorLoad(planned());
    expect(load.wet!).toBeGreaterThan(load.finished!);
    expect(load.pallet).toBeGreaterThan(builtLoad(load));
    expect(load.pallet).toBeCloseTo((1000 / 1.2) * 0.00980665, 9);
  });

  test('1 m of foam of 20 kg/m³ under 10 mm of wet sand: 0.38 kN/m² (worked by hand)', () => {
    const plan = planned();
    const facts = { ...plan.facts, cover: { material: 'wet sand', depthMm: 10, densityKgM3: null } };
    const boards = plan.boards.map((board) => ({ ...board, densityKgM3: 20 }));
    const layers = [{ number: 1, bottomMm: 0, thicknessMm: 1000, regions: plan.stack.layers[0].regions }];
    const load = floorLoad({ ...plan, facts, boards, stack: { kind: 'flat', layers } });
    expect(load.highest!).toBeCloseTo(0.383, 2);
  });

  test('a cover of unknown weight is not worked out, never 0', () => {
    const plan = planned();
    const facts = { ...plan.facts, cover: { material: 'moss', depthMm: 20, densityKgM3: null } };
    const quantities = { ...plan.quantities, coverMassKg: null };
    expect(floorLoad({ ...plan, facts, quantities })).toMatchObject({
      finished: null,
      wet: null,
      highest: null,
      heap: null,
    });
  });
});

describe('the clock', () => {
  const start = (work: Partial<Work>) => clockOf(planned(work)).steps[0].startSlot;

  test('each job ends where the next begins, and the last with the opening', () => {
    const { steps, isDated } = clockOf(planned({ ready: ready('2027-06-11', null) }));
    expect(isDated).toBe(true);
    for (let i = 1; i < steps.length; i++) expect(steps[i - 1].endSlot).toBe(steps[i].startSlot);
    expect(steps.at(-1)!.endSlot).toBe(2 * dayOf('2027-06-11')!);
    for (const { workHours, startSlot } of steps) {
      if (workHours > 0) expect(isWorkday(dayOfSlot(startSlot), 5)).toBe(true);
    }
  });

  test('more people or more bows never later, more coats or cold never earlier', () => {
    const day = ready('2027-06-11', null);
    for (const people of [1, 2, 3, 5, 8]) {
      expect(start({ ready: day, crew: crew(people + 1, 1) })).toBeGreaterThanOrEqual(
        start({ ready: day, crew: crew(people, 1) }),
      );
      expect(start({ ready: day, crew: crew(8, people + 1) })).toBeGreaterThanOrEqual(
        start({ ready: day, crew: crew(8, people) }),
      );
      const coats = (n: number) => start({ ready: day, rules: rulesWith({ coats: n }) });
      expect(coats(people + 1)).toBeLessThanOrEqual(coats(people));
    }
    expect(dryingHours(12, 10, 10)).toBe(24);
    expect(dryingHours(12, 0, 10)).toBe(48);
    expect(dryingHours(12, 15, 10)).toBe(18);
    expect(dryingHours(12, 30, 10)).toBe(12);
  });

  test('float is what is left before the order; unknown without a day, never 0', () => {
    const work = (today: string | null) => ({ ready: ready('2027-06-11', today, '2027-06-01') });
    const early = clockOf(planned(work('2027-01-11')));
    const later = clockOf(planned(work('2027-01-18')));
    expect(early.floatDays! - later.floatDays!).toBe(7);
    expect(clockOf(planned(work(null))).floatDays).toBeNull();
    expect(clockOf(planned()).floatDays).toBeNull();
    expect(early.getInFloatDays).not.toBeNull();
  });

  test('strangers take longer; what to drop gains what it says', () => {
    const day = ready('2027-06-11', null);
    const strangers = { ...NOTHING_SAID.crew, strangers: known(true, false) };
    const many = rulesWith({ setUpMinutesAPiece: 300 });
    expect(start({ ready: day, crew: strangers, rules: many })).toBeLessThan(start({ ready: day, rules: many }));
    const plan = planned({ ready: day, crew: strangers, rules: many });
    const savings = savingsOf(plan);
    expect(savings.map(({ what }) => what)).toContain('those who built it set up');
    for (let i = 1; i < savings.length; i++) expect(savings[i - 1].days).toBeGreaterThanOrEqual(savings[i].days);
    const coat = savings.find(({ what }) => what === 'one coat less')!;
    expect(clockOf(plan, { coats: 1 }).steps[0].startSlot - clockOf(plan).steps[0].startSlot).toBe(2 * coat.days);
  });
});

test('clearing: clean and coated foam are all the foam; everything is clean where nothing covers it', () => {
  const plan = planned();
  const all = plan.pieces.reduce((sum, { areaMm2, thicknessMm }) => sum + (areaMm2 * thicknessMm) / 1e9, 0);
  const left = clearingOf(plan);
  expect(left.cleanM3 + left.coatedM3).toBeCloseTo(all, 12);
  expect(left.coatedM3).toBeGreaterThan(0);
  expect(left).toMatchObject({ bags: 2, pins: 4, skips: 1 });
  const bare = clearingOf({
    ...plan,
    facts: { ...plan.facts, cover: null, work: { ...NOTHING_SAID, rules: rulesWith({ coats: 0 }) } },
  });
  expect([bare.coatedM3, bare.bags]).toEqual([0, 0]);
});
