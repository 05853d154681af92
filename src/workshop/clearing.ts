import { areaOf } from '../geometry/ring.ts';
import type { Plan } from '../model/plan.ts';

/** What has to go when the ground is struck. */
export interface Clearing {
  /** Foam that no cover or coat touched: recyclers may take it. */
  readonly cleanM3: number;
  readonly coatedM3: number;
  readonly coverKg: number | null;
  readonly bags: number | null;
  readonly pins: number;
  /** Of broken foam in skips, with the air between. */
  readonly looseM3: number;
  readonly skips: number;
}

/** Less than this share of a top laid open: it counts as clean once its rim is cut off (our choice). */
const CLEAN_SHARE = 0.02;

export function clearingOf({ pieces, quantities: q, facts }: Plan): Clearing {
  const { rules } = facts.work;
  const isCovered = facts.cover !== null || rules.coats.value > 0;
  let [cleanM3, coatedM3] = [0, 0];
  for (const { areaMm2, placing, thicknessMm } of pieces) {
    const open = areaMm2 - areaOf(placing);
    const m3 = (areaMm2 * thicknessMm) / 1e9;
    if (isCovered && open > CLEAN_SHARE * areaMm2) coatedM3 += m3;
    else cleanM3 += m3;
  }
  const looseM3 = (cleanM3 + coatedM3) * rules.looseTimes.value;
  return {
    cleanM3,
    coatedM3,
    coverKg: facts.cover === null ? 0 : q.coverMassKg,
    bags: facts.cover === null ? 0 : q.coverMassKg === null ? null : Math.ceil(q.coverMassKg / rules.bagKg.value),
    pins: q.pins,
    looseM3,
    skips: Math.ceil(looseM3 / rules.skipM3.value),
  };
}
