/** Crew, dates, floor, money, wire, foam, blocks and rules as a job says them. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { dayOf, dayText, isoText, isWorkday } from '../src/model/day.ts';
import { RULES } from '../src/model/rules.ts';
import { faultsOf, LEAST, read } from './help/job-texts.ts';

const SAID = `${LEAST}
crew: { people: 3, cutters: 2, hours: 6.5, rate: 21, skill: first time, strangers: true }
ready: { date: 2027-05-14, getIn: 2027-05-10, today: 2027-03-02, temperature: 9 }
floor: { load: 4.5, from: the hall's letter }
budget: 900
prices: { glue: 8.5 }
rules: { secondsAMetre: 150, coats: 3 }
`;

const stocked = (board: string, more = '') => `name: Heron ford
source: { slope: { size: [4300, 2700] } }
stock: { boards: [ { name: any, size: [2400, 1200], thickness: 50, ${board} } ] }
documents: [ board-svg ]
${more}`;

const codes = (text: string) => faultsOf(text).map(({ code, where }) => `${code} ${where.path}`);

describe('the work', () => {
  test('comes out as said, with the rest assumed, and reads back from the plan the same', () => {
    const job = read(SAID);
    const { work } = job.facts;
    expect(work.crew).toEqual({
      people: { value: 3, isAssumed: false },
      cutters: { value: 2, isAssumed: false },
      hoursADay: { value: 6.5, isAssumed: false },
      hourRate: 21,
      skill: { value: 'first time', isAssumed: false },
      strangers: { value: true, isAssumed: false },
    });
    expect(dayText(work.ready.opening!)).toBe('Fri 14 May 2027');
    expect([work.floor, work.budget, work.prices.glue, work.prices.pin]).toEqual([
      { kNM2: 4.5, from: "the hall's letter" },
      900,
      8.5,
      null,
    ]);
    expect(work.rules.secondsAMetre).toEqual({ value: 150, isAssumed: false });
    expect(work.rules.bagKg).toEqual({ value: RULES.bagKg.value, isAssumed: true });
    expect(read(JSON.stringify(job.written)).facts.work).toEqual(work);
  });

  test('is assumed where nothing is said', () => {
    const { work } = read(LEAST).facts;
    expect(work.crew.people).toEqual({ value: 2, isAssumed: true });
    expect([work.ready.opening, work.ready.today, work.floor, work.budget]).toEqual([null, null, null, null]);
    for (const [name, { value, isAssumed }] of Object.entries(work.rules)) {
      expect([value, isAssumed], name).toEqual([RULES[name as keyof typeof RULES].value, true]);
    }
  });

  test.each([
    ['crew: { people: 0 }', 'job/bad-value crew.people'],
    ['crew: { people: 2.5 }', 'job/bad-value crew.people'],
    ['crew: { hours: 25 }', 'job/bad-value crew.hours'],
    ['crew: { skill: master }', 'job/bad-value crew.skill'],
    ['ready: { date: 2027-02-29 }', 'job/bad-value ready.date'],
    ['ready: { date: 14 May }', 'job/bad-value ready.date'],
    ['ready: { date: 2027-05-14, today: 2027-05-15 }', 'job/bad-value ready.date'],
    ['ready: { getIn: 2027-05-01, today: 2027-05-15 }', 'job/bad-value ready.getIn'],
    ['ready: { date: 2027-05-14, getIn: 2027-05-15 }', 'job/bad-value ready.getIn'],
    ['floor: { load: 0 }', 'job/bad-value floor.load'],
    ['budget: -1', 'job/bad-value budget'],
    ['prices: { glue: free }', 'job/bad-value prices.glue'],
    ['rules: { bagKg: 0 }', 'job/bad-value rules.bagKg'],
    ['rules: { wireCelsius: 450 }', 'job/bad-value rules.wireCelsius'],
    ['rules: { bagkg: 20 }', 'job/unknown-key rules.bagkg'],
    ['tool: { supply: { volts: 0, amps: 5, current: DC } }', 'job/bad-value tool.supply.volts'],
    ['tool: { supply: { volts: 24, amps: 5 } }', 'job/missing tool.supply.current'],
    ['tool: { diameter: 0 }', 'job/bad-value tool.diameter'],
  ])('%s is refused: %s', (line, wanted) => {
    expect(codes(`${LEAST}${line}\n`)).toContain(wanted);
  });

  test('an opening today is not past', () => {
    expect(codes(`${LEAST}ready: { date: 2027-05-14, today: 2027-05-14 }\n`)).toEqual([]);
  });
});

describe('the supply of a wire', () => {
  const supply = (text: string, more = '') => `${LEAST}tool: { ${more} supply: { ${text} } }\n`;
  test.each([
    ['volts: 230, amps: 10, current: AC', '', 'never fed from the mains, with a dimmer or without'],
    ['volts: 26, amps: 5, current: AC', '', 'at most 25 V AC'],
    ['volts: 24, amps: 5, current: AC, noLoad: 29', '', 'without load too'],
    ['volts: 61, amps: 5, current: DC', '', 'at most 60 V DC'],
    ['volts: 24, amps: 5, current: AC', 'damp: true,', 'in the damp: at most 12 V AC'],
    ['volts: 36, amps: 5, current: DC', 'damp: true,', 'in the damp: at most 30 V DC'],
  ])('of { %s } %s is refused, with the ways out', (text, more, wanted) => {
    const [fault, ...others] = faultsOf(supply(text, more));
    expect([fault.code, fault.where.path, others.length]).toEqual(['job/unsafe-supply', 'tool.supply', 0]);
    expect(fault.message).toContain(wanted);
    expect(fault.fix).toMatch(/shorter bow, a thicker wire, a slower feed or a foam of lower density/);
  });

  test.each([
    ['volts: 25, amps: 5, current: AC', ''],
    ['volts: 60, amps: 5, current: DC', ''],
    ['volts: 12, amps: 9, current: AC', 'damp: true,'],
    ['volts: 230, amps: 10, current: AC', 'kind: router,'],
  ])('of { %s } %s passes', (text, more) => {
    expect(codes(supply(text, more))).toEqual([]);
  });
});

describe('foam', () => {
  test.each([
    ['foam: polyurethane', 'job/foam-under-wire stock.boards.0.foam'],
    ['foam: PVC', 'job/foam-under-wire stock.boards.0.foam'],
    ['foam: unknown', 'job/foam-under-wire stock.boards.0.foam'],
  ])('said as %s never meets a wire', (board, wanted) => {
    expect(codes(stocked(board))).toEqual([wanted]);
    expect(codes(stocked(board, 'tool: { kind: saw }\n'))).toEqual([]);
  });

  test('that its name tells is refused, too', () => {
    expect(codes(stocked('foam: EPS').replace('name: any', 'name: PU board').replace(', foam: EPS', ''))).toEqual([
      'job/foam-under-wire stock.boards.0.name',
    ]);
  });

  test.each([
    ['price: 3', { value: 'unknown', isAssumed: true }, { value: 15, isAssumed: true }],
    ['foam: XPS', { value: 'XPS', isAssumed: false }, { value: 33, isAssumed: true }],
    ['foam: EPS, density: 22', { value: 'EPS', isAssumed: false }, { value: 22, isAssumed: false }],
    [
      'foam: EPS, grade: { name: EPS 100, system: EN 13163 }',
      { value: 'EPS', isAssumed: false },
      { value: 19, isAssumed: true },
    ],
  ])('of a board { %s }: kind and density, said or assumed', (board, foam, density) => {
    const job = read(stocked(board));
    expect(job.facts.work.goods[0]).toMatchObject({ foam, densityKgM3: density });
    expect(job.facts.stock.boards[0].densityKgM3).toBe(density.value);
    expect(read(JSON.stringify(job.written)).facts.work.goods).toEqual(job.facts.work.goods);
  });
});

test('the same work in any unit', () => {
  const length = fc.double({ min: 0.2, max: 1.9, noNaN: true });
  fc.assert(
    fc.property(fc.constantFrom('mm', 'cm', 'm', 'in', 'ft'), length, length, (unit, mm, wire) => {
      const said = (u: string) =>
        `${LEAST}unit: ${u}\ntool: { diameter: ${mm} mm, wire: ${wire} m }\nlift: { width: ${wire} m, depth: 1 m, height: 2 m }\n`
          .replace('size: [4300, 2700]', 'size: [4300 mm, 2700 mm]')
          .replace('[2400, 1200], thickness: 50', '[2400 mm, 1200 mm], thickness: 50 mm');
      const [one, other] = [read(said('mm')), read(said(unit))];
      expect(other.facts.work).toEqual(one.facts.work);
      expect(other.facts.way).toEqual(one.facts.way);
    }),
    { numRuns: 30, seed: 2 },
  );
});

describe('days', () => {
  test('are those of the platform from 1600 to 2400, and back', () => {
    for (let day = -146_100; day < 146_100; day += 367) {
      const iso = new Date(Date.UTC(2000, 0, 1) + day * 86_400_000).toISOString().slice(0, 10);
      expect(isoText(day)).toBe(iso);
      expect(dayOf(iso)).toBe(day);
    }
  });

  test('that are none are none', () => {
    for (const text of ['2027-13-01', '2027-00-10', '2100-02-29', '2027-5-1', '20270501', ''])
      expect(dayOf(text)).toBeNull();
    expect(dayOf('2000-02-29')).not.toBeNull();
  });

  test('of work leave out the end of the week', () => {
    const week = [0, 1, 2, 3, 4, 5, 6].map((i) => dayOf('2027-05-10')! + i); // Monday on
    expect(week.map((day) => isWorkday(day, 5))).toEqual([true, true, true, true, true, false, false]);
    expect(week.map((day) => isWorkday(day, 6))).toEqual([true, true, true, true, true, true, false]);
    expect(week.every((day) => isWorkday(day, 7))).toBe(true);
  });
});
