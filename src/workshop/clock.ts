import { type Day, isWorkday } from '../model/day.ts';
import type { Plan } from '../model/plan.ts';
import { type Buying, buyingOf } from './buying.ts';
import { tripsFor } from './carrying.ts';
import { type Cutting, cuttingOf } from './cutting.ts';
import { hoursOf, middle } from './hours.ts';

/** One job of the whole, with when it has to start at the latest. Slots are half days, two a day, from the day 0 on. */
export interface Step {
  readonly what: string;
  readonly who: string;
  /** Hours of the clock while people work; 0 for what only waits. */
  readonly workHours: number;
  /** Hours that pass of themselves: drying, delivery. */
  readonly waitHours: number;
  readonly startSlot: number;
  readonly endSlot: number;
}

export interface Clock {
  /** From the order to the inspection. Slots count from the opening where the job says no day: they are below 0. */
  readonly steps: readonly Step[];
  readonly isDated: boolean;
  /** Days between today and the latest start; null where today or the opening is not said. */
  readonly floatDays: number | null;
  /** Days between the get-in and the latest start of the setting up; null where either is not said. */
  readonly getInFloatDays: number | null;
}

/** What a crew may change to be in time. */
export interface Change {
  readonly people?: number;
  readonly cutters?: number;
  readonly coats?: number;
  readonly scrimLayers?: number;
  readonly strangers?: boolean;
  readonly daysAWeek?: number;
}

export const dayOfSlot = (slot: number): Day => Math.floor(slot / 2);

/** What no change of crew, coats or days alters: for several clocks of one plan. */
export interface Basis {
  readonly cutting: Cutting;
  readonly trips: number;
  readonly deliveryDays: number;
}

export function basisOf(plan: Plan, buying: Buying = buyingOf(plan)): Basis {
  return {
    cutting: cuttingOf(plan),
    trips: tripsFor(plan).length,
    deliveryDays: Math.max(0, ...buying.suppliers.map((supplier) => supplier.deliveryDays)),
  };
}

/** Every job backwards from the opening, each as late as it may start. */
export function clockOf(plan: Plan, change: Change = {}, basis: Basis = basisOf(plan)): Clock {
  const { work } = plan.facts;
  const { opening, today, getIn } = work.ready;
  const changed = changedPlan(plan, change);
  const daysAWeek = change.daysAWeek ?? work.rules.daysAWeek.value;
  const onWorkday = (at: number) => (opening === null ? at : workdaySlot(at, daysAWeek));
  let slot = 2 * (opening ?? 0);
  const steps: Step[] = [];
  const jobs = jobsOf(changed, basis);
  for (const { what, who, workHours, waitHours } of [...jobs].reverse()) {
    const endSlot = slot;
    slot -= Math.ceil(waitHours / 12 - 1e-9);
    const halfDays = Math.ceil((2 * workHours) / work.crew.hoursADay.value - 1e-9);
    for (let i = 0; i < halfDays; i++) slot = onWorkday(slot - 1);
    // Orders go out while someone is there to take them.
    if (steps.length === jobs.length - 1) slot = onWorkday(slot);
    steps.unshift({ what, who, workHours, waitHours, startSlot: slot, endSlot });
  }
  const setUp = steps.find(({ what }) => what === SET_UP);
  return {
    steps,
    isDated: opening !== null,
    floatDays: opening === null || today === null ? null : (slot - 2 * today) / 2,
    getInFloatDays: opening === null || getIn === null || !setUp ? null : (setUp.startSlot - 2 * getIn) / 2,
  };
}

/** The last slot of a working day, not after a slot. */
function workdaySlot(slot: number, daysAWeek: number): number {
  let last = slot;
  while (!isWorkday(dayOfSlot(last), daysAWeek)) last--;
  return last;
}

/** When an order has to go out that takes so many days, for the first job to begin in time: orders go out on working days. */
export function orderSlot({ steps, isDated }: Clock, deliveryDays: number, daysAWeek: number): number {
  const latest = steps[1].startSlot - 2 * deliveryDays;
  return isDated ? workdaySlot(latest, daysAWeek) : latest;
}

export const SET_UP = 'set up at the venue';

function changedPlan(plan: Plan, { people, cutters, coats, scrimLayers, strangers }: Change): Plan {
  const { crew, rules } = plan.facts.work;
  const said = <T>(value: T | undefined, was: { value: T; isAssumed: boolean }) =>
    value === undefined ? was : { ...was, value };
  const work = {
    ...plan.facts.work,
    crew: {
      ...crew,
      people: said(people, crew.people),
      cutters: said(cutters, crew.cutters),
      strangers: said(strangers, crew.strangers),
    },
    rules: { ...rules, coats: said(coats, rules.coats), scrimLayers: said(scrimLayers, rules.scrimLayers) },
  };
  return { ...plan, facts: { ...plan.facts, work } };
}

interface Task {
  readonly what: string;
  readonly who: string;
  readonly workHours: number;
  readonly waitHours: number;
}

/** Drying takes twice as long for so many degrees colder; no shorter where it is warm. */
export const dryingHours = (at20: number, celsius: number, doublesEveryK: number): number =>
  at20 * doubled(Math.max(0, 20 - celsius) / doublesEveryK);

/** 2 to the x for x ≥ 0, straight between whole numbers: nobody knows drying better. */
function doubled(x: number): number {
  let result = 1;
  let left = x;
  for (; left >= 1; left--) result *= 2;
  return result * (1 + left);
}

function jobsOf(plan: Plan, { cutting, trips, deliveryDays }: Basis): Task[] {
  const { facts } = plan;
  const { crew, rules, ready } = facts.work;
  const hours = hoursOf(plan, cutting);
  const people = crew.people.value;
  const cutters = Math.min(crew.cutters.value, people);
  const everyone = people === 1 ? '1 person' : `${people} people`;
  const shared = (of: number) => of / people;
  const drive = trips * (2 * rules.driveHours.value + rules.loadMinutesATrip.value / 60) - rules.driveHours.value;
  const rounds = rules.scrimLayers.value + rules.coats.value;
  const dry = dryingHours(rules.coatDryHours.value, ready.dryingCelsius.value, rules.doublesEveryK.value) * rounds;
  // Two who hold one long bow cut no faster than one could: what counts is how long the bows run.
  const bows = Math.max(cutting.minutes / 60 / cutters, middle(hours.cut) / people);
  const task = (what: string, who: string, workHours: number, waitHours = 0): Task => ({
    what,
    who,
    workHours,
    waitHours,
  });
  return [
    task('order, and wait for delivery', 'supplier', 0, 24 * deliveryDays),
    task(
      facts.tool.kind === 'hot wire' ? 'rig the wire, cut test strip and timed metre' : 'try the tool, time a metre',
      '1 person',
      rules.wireHours.value,
    ),
    task('cut', `${cutters} ${cutters === 1 ? 'cutter' : 'cutters'}`, bows),
    task('dry build in the workshop', everyone, shared(middle(hours.dry))),
    task('pack', everyone, shared(middle(hours.pack))),
    task('drive', 'driver', Math.max(0, drive)),
    task(SET_UP, crew.strangers.value ? 'strangers' : everyone, shared(middle(hours.setUp))),
    task('glue, then wait under weight', everyone, shared(middle(hours.glue)), rules.cureHours.value),
    task('carve', everyone, shared(middle(hours.carve))),
    task('scrim, coat and cover, then dry', everyone, shared(middle(hours.cover)), dry),
    task('inspection by the venue', 'venue', rules.inspectionHours.value),
  ];
}

/** Something to drop or add, and by how many days the latest start moves on. */
export interface Saving {
  readonly what: string;
  readonly days: number;
}

/** What helps when it does not fit, what gains most first. What gains nothing is left out. */
export function savingsOf(plan: Plan, basis: Basis = basisOf(plan)): Saving[] {
  const { crew, rules } = plan.facts.work;
  const start = (change: Change) => clockOf(plan, change, basis).steps[0].startSlot;
  const now = start({});
  const ways: readonly (readonly [string, Change])[] = [
    ['one coat less', { coats: Math.max(0, rules.coats.value - 1) }],
    ['no scrim', { scrimLayers: 0 }],
    ['one person more', { people: crew.people.value + 1 }],
    ['one bow or saw more, with a person', { cutters: crew.cutters.value + 1, people: crew.people.value + 1 }],
    ['those who built it set up', { strangers: false }],
    ['work every day of the week', { daysAWeek: 7 }],
  ];
  return ways
    .map(([what, change]) => ({ what, days: (start(change) - now) / 2 }))
    .filter(({ days }) => days > 0)
    .sort((a, b) => b.days - a.days);
}
