import { z } from 'zod';
import { dayOf } from '../model/day.ts';
import { SOLD_PINS_MM } from '../model/pin.ts';
import { known, RULES, type RuleName, rulesWith } from '../model/rules.ts';
import { NO_PRICES, NOTHING_SAID, PRICED, SKILLS, type Work } from '../model/work.ts';
import type { Kit } from '../plugin.ts';
import { type BlockSaid, type BoardSaid, blockOf, goodsOf, MOST_MONEY } from './goods.ts';
import { type WireSaid, wireOf } from './wire.ts';

// What no unit of the job touches is declared once: a schema costs more to make than to use.

const date = () =>
  z
    .string()
    .refine((written) => dayOf(written) !== null, {
      error: ({ input }) => `"${String(input).slice(0, 40)}" is no day.\nWrite year-month-day, as 2027-05-14.`,
    })
    .meta({ pattern: '^\\d{4}-\\d{2}-\\d{2}$' });

/** Who builds. */
export const crewSchema = z.strictObject({
  people: z.int().min(1).max(1000).optional().describe('how many'),
  cutters: z.int().min(1).max(100).optional().describe('bows, knives or saws that cut at the same time'),
  hours: z.number().positive().max(24).optional().describe('hours a day'),
  rate: z.number().min(0).max(MOST_MONEY).optional().describe('money for an hour of one person; none when not said'),
  skill: z.enum(SKILLS).optional().describe('how often they have done it'),
  strangers: z.boolean().optional().describe('whether people set up who did not build it'),
});

/** When it has to stand. */
export const readySchema = z
  .strictObject({
    date: date().optional().describe('the day of the opening, as 2027-05-14'),
    getIn: date().optional().describe('the first day on which the crew is let in'),
    today: date().optional().describe('what day it is; no clock is read'),
    temperature: z.number().min(-20).max(45).optional().describe('°C where glue and coats dry'),
  })
  .superRefine(({ date, getIn, today }, { issues }) => {
    const day = (written: string | undefined) => (written === undefined ? null : dayOf(written));
    const tell = (key: 'date' | 'getIn', input: unknown, message: string) =>
      void issues.push({ code: 'custom', message, path: [key], input });
    const [opening, inside, now] = [day(date), day(getIn), day(today)];
    if (opening !== null && now !== null && opening < now)
      tell('date', date, `${date} is past: today is ${today}.\nWrite a day to come, or mend ready.today.`);
    if (inside !== null && now !== null && inside < now)
      tell('getIn', getIn, `${getIn} is past: today is ${today}.\nWrite a day to come, or mend ready.today.`);
    if (opening !== null && inside !== null && inside > opening)
      tell('getIn', getIn, `The get-in, ${getIn}, is after the opening, ${date}.\nPut it on that day or before.`);
  });

/** What the venue wrote of its floor. */
export const floorSchema = z.strictObject({
  load: z.number().positive().max(1000).describe("kN/m² that the floor takes, in the venue's writing"),
  from: z.string().min(1).max(300).optional().describe('who wrote it, and when'),
});

/** Money for what is bought besides foam. */
function pricesSchemaOf() {
  const of = {
    glue: 'a litre of glue',
    pin: 'a pin',
    cover: 'a bag of cover',
    scrim: 'a square metre of scrim',
    coat: 'a litre of coating',
    wire: 'a metre of wire',
    paper: 'a square metre of paper for templates',
    safety: 'the safety kit',
    skip: 'a skip',
  } as const satisfies Record<(typeof PRICED)[number], string>;
  const price = (what: string) => z.number().min(0).max(MOST_MONEY).optional().describe(`money for ${what}`);
  return z.strictObject(
    Object.fromEntries(PRICED.map((what) => [what, price(of[what])])) as Record<
      (typeof PRICED)[number],
      ReturnType<typeof price>
    >,
  );
}

export const pricesSchema = pricesSchemaOf();

/** What the layers are pinned with. */
export const pinsSchema = ({ z, length }: Kit) =>
  z.strictObject({
    lengths: z
      .array(length({ least: 20, most: 3000 }))
      .min(1)
      .max(20)
      .optional()
      .describe(`in which skewers or dowels are sold; not said, ${SOLD_PINS_MM.join(', ')} mm`),
  });

/** Figures of the trade that this crew knows better. */
function rulesSchemaOf() {
  const one = ({ least, most, what, value }: (typeof RULES)[RuleName]) =>
    z.number().min(least).max(most).optional().describe(`${what}; not said, ${value}`);
  return z.strictObject(
    Object.fromEntries(Object.entries(RULES).map(([name, rule]) => [name, one(rule)])) as Record<
      RuleName,
      ReturnType<typeof one>
    >,
  );
}

export const rulesSchema = rulesSchemaOf();

interface Said {
  readonly crew?: z.output<typeof crewSchema>;
  readonly ready?: z.output<typeof readySchema>;
  readonly floor?: z.output<typeof floorSchema>;
  readonly prices?: z.output<typeof pricesSchema>;
  readonly rules?: z.output<typeof rulesSchema>;
  readonly pins?: z.output<ReturnType<typeof pinsSchema>>;
  readonly budget?: number;
  readonly stock: { readonly boards: readonly BoardSaid[]; readonly blocks?: readonly BlockSaid[] };
  readonly tool: WireSaid;
}

/** What was said of the work, as the documents read it. */
export function workOf({ crew, ready, floor, prices, rules: said, pins, budget, stock, tool }: Said): Work {
  const rules = rulesWith(said);
  const usual = NOTHING_SAID;
  const day = (written: string | undefined) => (written === undefined ? null : dayOf(written));
  return {
    crew: {
      people: known(crew?.people, usual.crew.people.value),
      cutters: known(crew?.cutters, usual.crew.cutters.value),
      hoursADay: known(crew?.hours, usual.crew.hoursADay.value),
      hourRate: crew?.rate ?? null,
      skill: known(crew?.skill, usual.crew.skill.value),
      strangers: known(crew?.strangers, usual.crew.strangers.value),
    },
    ready: {
      opening: day(ready?.date),
      getIn: day(ready?.getIn),
      today: day(ready?.today),
      dryingCelsius: known(ready?.temperature, usual.ready.dryingCelsius.value),
    },
    floor: floor ? { kNM2: floor.load, from: floor.from ?? null } : null,
    budget: budget ?? null,
    wire: wireOf(tool),
    goods: stock.boards.map((board) => goodsOf(board, rules)),
    blocks: (stock.blocks ?? []).map((block) => blockOf(block, rules)),
    prices: { ...NO_PRICES, ...prices },
    pinLengthsMm: known(pins?.lengths, usual.pinLengthsMm.value),
    rules,
  };
}
