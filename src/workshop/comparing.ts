import { areaOf } from '../geometry/ring.ts';
import type { Plan } from '../model/plan.ts';
import { buyingOf } from './buying.ts';
import { tripsFor } from './carrying.ts';
import { clockOf } from './clock.ts';
import { cuttingOf } from './cutting.ts';
import { allHours, type Hours, hoursOf, middle } from './hours.ts';
import { coverOf } from './materials.ts';

/** What a way to build comes to, for setting it beside others. null: not worked out, never 0. */
export interface Figures {
  /** What stops it: the messages of its findings of that level. */
  readonly stops: readonly string[];
  /** Days between today and the latest start; negative: too late. */
  readonly floatDays: number | null;
  /** A day's number when all starts today. */
  readonly readyDay: number | null;
  /** Still to spend; what has no price is not in it. */
  readonly money: number | null;
  readonly unpriced: number;
  readonly hours: {
    readonly cut: Hours;
    readonly carve: Hours;
    /** Laying dry, packing, setting up and gluing. */
    readonly place: Hours;
    readonly cover: Hours;
  };
  /** The part of the middle hours of cutting that goes by the speed of the wire. */
  readonly wireHours: number;
  readonly wireM: number;
  readonly boards: number;
  readonly fewest: number;
  readonly trips: number;
  readonly kgWet: number | null;
  /** Deepest carve, square to the ground. */
  readonly deepestMm: number | null;
  readonly leastLapMm: number | null;
  /** Foam bought that is in no piece and in no offcut that is kept. */
  readonly wasteM3: number;
  readonly watches: readonly string[];
}

/** Read a plan for comparison. */
export function figuresOf(plan: Plan): Figures {
  const { quantities: q, facts, findings, bound } = plan;
  const { work } = facts;
  const clock = clockOf(plan);
  const buying = buyingOf(plan);
  const hours = hoursOf(plan);
  const { opening } = work.ready;
  const laps = plan.rests.flatMap(({ leastLap }) => (leastLap ? [leastLap.mm] : []));
  const told = (level: string) => findings.filter((each) => each.level === level).map(({ message }) => message);
  return {
    stops: told('stop'),
    floatDays: clock.floatDays,
    readyDay: opening === null || clock.floatDays === null ? null : opening - Math.floor(clock.floatDays),
    money: q.price === null && q.boardsBought > 0 ? null : buying.known,
    unpriced: buying.unpriced.length,
    hours: {
      cut: hours.cut,
      carve: hours.carve,
      place: allHours({ dry: hours.dry, pack: hours.pack, setUp: hours.setUp, glue: hours.glue }),
      cover: hours.cover,
    },
    wireHours: wireHours(plan),
    wireM: cuttingOf(plan).wireMm / 1000,
    boards: q.boardsBought,
    fewest: bound.boards,
    trips: tripsFor(plan).length,
    kgWet:
      facts.cover === null
        ? q.foamMassKg
        : q.coverMassKg === null
          ? null
          : q.foamMassKg + q.coverMassKg * coverOf(facts.cover).wetTimes,
    deepestMm: q.largestStepMm,
    leastLapMm: laps.length === 0 ? null : Math.min(...laps),
    wasteM3: wasteM3(plan),
    watches: told('watch'),
  };
}

/** Hours of people that a wire or a blade is at work: what doubling the seconds of each metre adds. */
function wireHours(plan: Plan): number {
  const { work } = plan.facts;
  const twice = ({ value, isAssumed }: { value: number; isAssumed: boolean }) => ({ value: 2 * value, isAssumed });
  const rules = {
    ...work.rules,
    secondsAMetre: twice(work.rules.secondsAMetre),
    bendSecondsAMetre: twice(work.rules.bendSecondsAMetre),
  };
  const slow = { ...plan, facts: { ...plan.facts, work: { ...work, rules } } };
  return (cuttingOf(slow).personMinutes - cuttingOf(plan).personMinutes) / 60;
}

function wasteM3({ boards, pieces }: Plan): number {
  let mm3 = 0;
  for (const { rings, sizeMm, thicknessMm, offcuts } of boards) {
    const area = rings ? areaOf([rings]) : sizeMm[0] * sizeMm[1];
    mm3 += thicknessMm * (area - areaOf(offcuts.map((offcut) => offcut.rings)));
  }
  for (const { areaMm2, thicknessMm } of pieces) mm3 -= areaMm2 * thicknessMm;
  return Math.max(0, mm3) / 1e9;
}

/** A way to build beside others. */
export interface Contender {
  readonly name: string;
  readonly figures: Figures;
}

/** Middle hours of all work. */
export const hoursAltogether = ({ hours }: Figures): number => middle(allHours(hours));

/** Money and, where an hour has a rate, hours at that; null when the money is not worked out. */
const cost = (figures: Figures, rate: number | null): number | null =>
  figures.money === null ? null : figures.money + (rate ?? 0) * hoursAltogether(figures);

/**
 * Contenders in order, the best first: none that is stopped before one that is not; those with the float that is asked for before those without;
 * then less money with hours at the rate, then fewer wire metres. What is not worked out comes after what is. No score.
 */
export function ranked<T extends Contender>(all: readonly T[], rate: number | null, leastFloatDays: number): T[] {
  const key = ({ figures }: T): number[] => [
    Math.min(1, figures.stops.length),
    figures.floatDays !== null && figures.floatDays < leastFloatDays ? 1 : 0,
    cost(figures, rate) ?? Infinity,
    figures.wireM,
  ];
  const keys = new Map(all.map((each) => [each, key(each)]));
  return [...all].sort((a, b) => {
    const [ka, kb] = [keys.get(a) ?? [], keys.get(b) ?? []];
    const place = ka.findIndex((value, i) => value !== kb[i]);
    return place < 0 ? 0 : ka[place] - kb[place];
  });
}

/** Speeds further than this from the job's own are no answer to anybody. */
const SPEEDS: readonly [number, number] = [0.2, 5];
/** Nor are rates above this, in any money. */
const MOST_RATE = 1000;

/**
 * What would have to be otherwise for another contender to win by cost: the wire's speed where an hour has a rate, the rate where it has
 * none. Both are straight lines, money + hours × rate, and cross once.
 */
export function flips(order: readonly Contender[], rate: number | null, secondsAMetre: number): string[] {
  const [best, ...others] = order;
  if (!best || best.figures.stops.length > 0 || best.figures.money === null) return [];
  const a = best.figures;
  return others.flatMap(({ name, figures: b }) => {
    if (b.stops.length > 0 || b.money === null || a.money === null) return [];
    const money = b.money - a.money;
    const hours = hoursAltogether(b) - hoursAltogether(a);
    if (rate === null) {
      const at = -money / hours;
      return money > 0 && hours < 0 && at <= MOST_RATE
        ? [`${name} wins where an hour of work counts for more than ${at.toFixed(2)}`]
        : [];
    }
    // money + rate × (hours + wire × (times − 1)) = 0, times as long a metre takes.
    const wire = b.wireHours - a.wireHours;
    const times = 1 - (money / rate + hours) / wire;
    if (!(times > SPEEDS[0] && times < SPEEDS[1]) || rate === 0) return [];
    const speed = 1000 / (secondsAMetre * times);
    return [`${name} wins if the wire runs ${wire < 0 ? 'below' : 'above'} ${speed.toFixed(1)} mm/s`];
  });
}
