import type { Finding } from '../findings.ts';
import type { Plan } from '../model/plan.ts';
import { restsOf } from './bearing/rests.ts';
import { bearing } from './bearing.ts';
import { carry } from './carry.ts';
import { closure } from './closure.ts';
import { type Course, coursesOf } from './courses.ts';
import { feather } from './feather.ts';
import { joints } from './joints.ts';
import { layout } from './layout.ts';
import { load } from './load.ts';
import { pins } from './pins.ts';
import { reach } from './reach.ts';
import { ribs } from './ribs.ts';
import { seams } from './seams.ts';
import { slivers } from './slivers.ts';
import { treads } from './treads.ts';

/** A check reads a built plan, and its lying layers laid against their pieces, and tells what it finds. */
export type Check = (plan: Plan, courses: readonly Course[]) => readonly Finding[];

/** What holds of pieces whichever way they stand. */
const ANY: readonly Check[] = [layout, joints, reach, carry];
const LYING: readonly Check[] = [
  closure,
  (plan, courses) => bearing(plan, courses, plan.rests),
  pins,
  seams,
  slivers,
  feather,
  load,
  treads,
];
const UPRIGHT: readonly Check[] = [ribs];

/** The plan with how its pieces rest, and what every check tells added to its findings. */
export function inspect(plan: Plan): Plan {
  const isLying = plan.stack.kind === 'flat';
  const courses = isLying ? coursesOf(plan) : [];
  const checks = [...(isLying ? LYING : UPRIGHT), ...ANY];
  const known = { ...plan, rests: restsOf(plan, courses) };
  return { ...known, findings: [...plan.findings, ...checks.flatMap((check) => check(known, courses))] };
}
