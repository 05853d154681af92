import type { Plan } from '../model/plan.ts';
import { type Cutting, cuttingOf, skillTimes } from './cutting.ts';

/** Hours of people, from and to. */
export interface Hours {
  readonly least: number;
  readonly most: number;
}

/** What each kind of work takes, in hours of people. */
export interface WorkHours {
  readonly cut: Hours;
  readonly dry: Hours;
  readonly pack: Hours;
  readonly setUp: Hours;
  readonly glue: Hours;
  readonly carve: Hours;
  readonly cover: Hours;
}

/** The middle of a range: what is planned with. */
export const middle = ({ least, most }: Hours): number => (least + most) / 2;

/** Of several kinds of work together. */
export function allHours(hours: WorkHours | Readonly<Record<string, Hours>>): Hours {
  const all: readonly Hours[] = Object.values(hours);
  return {
    least: all.reduce((sum, { least }) => sum + least, 0),
    most: all.reduce((sum, { most }) => sum + most, 0),
  };
}

/** Hours of people for a plan as it is to be built. */
export function hoursOf(plan: Plan, cutting: Cutting = cuttingOf(plan)): WorkHours {
  const { quantities: q, facts } = plan;
  const { rules, crew } = facts.work;
  const skill = skillTimes(facts.work);
  const range = (hours: number): Hours => ({
    least: hours * (1 - rules.timeSpread.value),
    most: hours * (1 + rules.timeSpread.value),
  });
  const pieces = (minutes: number, times = 1) => range((q.pieces * minutes * skill * times) / 60);
  const strangers = crew.strangers.value ? rules.strangersTimes.value : 1;
  const rounds = rules.scrimLayers.value + rules.coats.value + (facts.cover ? 1 : 0);
  return {
    cut: range(cutting.personMinutes / 60),
    dry: pieces(rules.dryMinutesAPiece.value),
    pack: pieces(rules.packMinutesAPiece.value),
    setUp: pieces(rules.setUpMinutesAPiece.value, strangers),
    glue: pieces(rules.glueMinutesAPiece.value),
    carve: range((1000 * q.carveM3 * skill) / rules.carveLitresAnHour.value),
    cover: range((q.surfaceAreaM2 * rounds * skill) / rules.coverM2AnHour.value),
  };
}
