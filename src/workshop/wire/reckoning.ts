import { PI } from '../../geometry/exact-math.ts';
import type { Plan } from '../../model/plan.ts';
import type { Rules } from '../../model/rules.ts';
import type { Supply } from '../../model/work.ts';
import { GRAVITY } from '../../units.ts';
import { ALLOY, type Alloy, heatFactor, ohmsAMetre } from './alloys.ts';
import { ampsInAir, celsiusInAir, ROOM_CELSIUS, wattsInAir, wattsIntoFoam } from './heat.ts';
import { mostVolts, noLoadVolts } from './limits.ts';
import { tableAmps } from './tables.ts';

/** What a wire is asked to do. */
export interface WireTask {
  readonly alloy: Alloy;
  readonly isNichrome: boolean;
  readonly diameterMm: number;
  /** Between its holders. */
  readonly lengthMm: number;
  /** Of it in foam at one time. */
  readonly inFoamMm: number;
  readonly densityKgM3: number;
  readonly kerfMm: number;
  readonly feedMmS: number;
  readonly celsius: number;
  readonly riseK: number;
}

/** A setting of the supply. */
export interface Setting {
  readonly amps: number;
  readonly volts: number;
  readonly watts: number;
  readonly wattsAMetre: number;
}

export interface WireReckoning {
  readonly coldOhms: number;
  readonly hotOhms: number;
  /** To hold the heat in still air, before foam meets it. */
  readonly inAir: Setting;
  /** To hold it in the foam at the wanted feed. */
  readonly cutting: Setting;
  /** Of the wire outside the foam while cutting, which nothing cools; null where the table of resistances ends below. */
  readonly idleCelsius: number | null;
  /** By the published table, for the same heat in air; null outside it. */
  readonly tableAmps: number | null;
}

/** What the wire needs; null where nothing is known of its alloy at that heat. */
export function reckonWire(task: WireTask): WireReckoning | null {
  const { alloy, diameterMm, lengthMm, inFoamMm, celsius } = task;
  const factor = heatFactor(alloy, celsius);
  const amps = ampsInAir(alloy, diameterMm, celsius);
  if (factor === null || amps === null) return null;
  const cold = ohmsAMetre(alloy, diameterMm);
  const [whole, inside] = [lengthMm / 1000, Math.min(lengthMm, inFoamMm) / 1000];
  const foam = wattsIntoFoam(task.densityKgM3, task.kerfMm, task.feedMmS, task.riseK);
  const perMetre = wattsInAir(diameterMm, celsius) + foam;
  const cutAmps = Math.sqrt(perMetre / (cold * factor));
  const idleCelsius = celsiusInAir(alloy, diameterMm, cutAmps);
  const lastFactor = alloy.factors[alloy.factors.length - 1][1];
  const idle = idleCelsius === null ? lastFactor : (heatFactor(alloy, idleCelsius) ?? lastFactor);
  const cutOhms = cold * (factor * inside + idle * (whole - inside));
  const hotOhms = cold * factor * whole;
  return {
    coldOhms: cold * whole,
    hotOhms,
    inAir: setting(amps, hotOhms, amps * amps * cold * factor),
    cutting: setting(cutAmps, cutOhms, perMetre),
    idleCelsius,
    tableAmps: task.isNichrome ? tableAmps(diameterMm, celsius) : null,
  };
}

const setting = (amps: number, ohms: number, wattsAMetre: number): Setting => ({
  amps,
  volts: amps * ohms,
  watts: amps * amps * ohms,
  wattsAMetre,
});

/** Length of a bow's wire where the job says none: what a bow is usually strung with. */
export const USUAL_WIRE_MM = 1200;

/** Cutting through a thickness of the stock at the feed of the timed metre. */
export function wireTask(plan: Plan, inFoamMm: number, densityKgM3: number, feedMmS: number): WireTask {
  const { tool, work } = plan.facts;
  const { alloy, diameterMm } = work.wire;
  return {
    alloy: ALLOY[alloy.value],
    isNichrome: alloy.value.startsWith('nichrome'),
    diameterMm: diameterMm.value,
    lengthMm: Math.max(tool.wireMm ?? USUAL_WIRE_MM, inFoamMm),
    inFoamMm,
    densityKgM3,
    kerfMm: tool.kerfMm,
    feedMmS,
    celsius: work.rules.wireCelsius.value,
    riseK: work.rules.meltRiseK.value,
  };
}

/** One thing that has to hold of a supply. */
export interface Verdict {
  readonly what: string;
  readonly holds: boolean;
}

/** The label against what the wire needs: volts and amps at load, and what it stands at without. */
export function judgeSupply(supply: Supply, { cutting }: WireReckoning, isDamp: boolean, rules: Rules): Verdict[] {
  const most = mostVolts(supply.current, isDamp);
  const noLoad = noLoadVolts(supply, rules.noLoadShare.value);
  const round = (value: number) => Math.round(value * 10) / 10;
  return [
    {
      what: `gives the ${round(cutting.volts)} V needed: its label says ${supply.volts} V`,
      holds: supply.volts >= cutting.volts,
    },
    {
      what: `gives the ${round(cutting.amps)} A needed: its label says ${supply.amps} A`,
      holds: supply.amps >= cutting.amps,
    },
    {
      what: `stands at ${round(noLoad)} V without load${supply.noLoadVolts === null ? ' (assumed)' : ''}: at most ${most} V ${supply.current} may be touched${isDamp ? ' in the damp' : ''}`,
      holds: noLoad <= most,
    },
  ];
}

/** Supplies as they are sold: volts and current (common practice, no source). */
const ON_SALE: readonly (readonly [volts: number, current: Supply['current']])[] = [
  [5, 'DC'],
  [12, 'AC'],
  [12, 'DC'],
  [15, 'DC'],
  [18, 'DC'],
  [24, 'DC'],
  [30, 'DC'],
  [36, 'DC'],
  [48, 'DC'],
];

/** The lowest common supply that does it; null when none that may be touched does. */
export function lowestSupply({ cutting }: WireReckoning, isDamp: boolean) {
  const found = ON_SALE.find(([volts, current]) => volts >= cutting.volts && volts <= mostVolts(current, isDamp));
  return found ? { volts: found[0], current: found[1], amps: Math.ceil(cutting.amps * 1.25 * 2) / 2 } : null;
}

/** Whether what the wire needs is more than may be touched, on any current. */
export const needsTooMuch = ({ cutting }: WireReckoning, isDamp: boolean): boolean =>
  cutting.volts > mostVolts('DC', isDamp);

/** Sag in the middle, stress, growth and the spring for it. */
export function tension({ alloy, diameterMm, lengthMm, celsius }: WireTask, pullN: number, lossShare: number) {
  const areaMm2 = (PI * diameterMm * diameterMm) / 4;
  const weightNMm = ((alloy.densityKgM3 * areaMm2) / 1e9) * GRAVITY;
  const growthMm = (alloy.growthPerMillionK / 1e6) * lengthMm * (celsius - ROOM_CELSIUS);
  return {
    sagMm: (weightNMm * lengthMm * lengthMm) / (8 * pullN),
    stressMPa: pullN / areaMm2,
    growthMm,
    stiffestNMm: growthMm > 0 ? (lossShare * pullN) / growthMm : Infinity,
    shareOfBreak: pullN / areaMm2 / alloy.breaksMPa,
  };
}
