import type { Finding } from '../findings.ts';
import type { Plan } from '../model/plan.ts';
import { bearing } from './bearing.ts';
import { layout } from './layout.ts';
import { seams } from './seams.ts';
import { treads } from './treads.ts';

/** A check reads a built plan and tells what it finds. */
export type Check = (plan: Plan) => readonly Finding[];

const CHECKS: readonly Check[] = [bearing, seams, layout, treads];

/** The plan with what every check tells added to its findings. */
export const inspect = (plan: Plan): Plan => ({
  ...plan,
  findings: [...plan.findings, ...CHECKS.flatMap((check) => check(plan))],
});
