import type { Finding } from '../findings.ts';
import type { Facts } from '../model/facts.ts';
import type { Landform } from '../model/landform.ts';
import type { LayerStack } from '../model/layer.ts';
import type { Layout } from '../model/layout.ts';
import type { Blank } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import type { Unit } from '../units.ts';

export interface Built {
  readonly name: string;
  readonly unit: Unit;
  /** The job as it is written in plan.json. */
  readonly job: Plan['job'];
  readonly facts: Facts;
  readonly landform: Landform;
  readonly stack: LayerStack;
  readonly blanks: readonly Blank[];
  readonly layout: Layout;
  readonly findings: readonly Finding[];
}

/** Count and weigh what was built. */
export function tally(_built: Built): Plan {
  throw new Error('not written yet');
}
