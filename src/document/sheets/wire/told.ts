import type { Finding, Where } from '../../../findings.ts';
import { type Foam, foamNamed, isPolystyrene } from '../../../model/foam.ts';
import type { Plan } from '../../../model/plan.ts';
import { numberText } from '../../../units.ts';
import { mostVolts } from '../../../workshop/wire/limits.ts';
import {
  judgeSupply,
  needsTooMuch,
  reckonWire,
  type WireReckoning,
  type WireTask,
  wireTask,
} from '../../../workshop/wire/reckoning.ts';
import { waysOutOf } from '../../../workshop/wire/ways-out.ts';

/** What is told of the wire: foam it must not meet, volts that may not be touched, a supply that does not do. */
export function wireFindings(plan: Plan): Finding[] {
  if (plan.facts.tool.kind !== 'hot wire') return [];
  const foam = foamRefused(plan);
  if (foam) return [foam];
  const task = taskOf(plan);
  const reckoned = reckonWire(task);
  return reckoned ? [...tooManyVolts(task, reckoned, plan), ...supplyFails(reckoned, plan)] : [];
}

/** The longest way of the wire through foam: the thickest layer, along the wire where it leans. */
export function taskOf(plan: Plan): WireTask {
  let inFoamMm = 0;
  for (const { thicknessMm, slope } of plan.stack.layers) {
    let leanMm = 0;
    for (const stations of slope?.stations ?? []) {
      for (let i = 0; i < stations.length; i += 4) {
        const [dx, dy] = [stations[i + 2] - stations[i], stations[i + 3] - stations[i + 1]];
        leanMm = Math.max(leanMm, Math.sqrt(dx * dx + dy * dy));
      }
    }
    inFoamMm = Math.max(inFoamMm, Math.sqrt(thicknessMm * thicknessMm + leanMm * leanMm));
  }
  const densest = plan.boards.reduce((most, { densityKgM3 }) => Math.max(most, densityKgM3), 0);
  return wireTask(plan, inFoamMm, densest, 1000 / plan.facts.work.rules.secondsAMetre.value);
}

/** A board of this plan that no wire may meet. What the job says is refused on reading; here what it does not say. */
export function foamRefused({ boards, facts }: Plan): Finding | undefined {
  const { goods } = facts.work;
  const isUnsafe = (foam: Foam) => !isPolystyrene(foam);
  const i = goods.findIndex(({ stock, foam }) => isUnsafe(foam.value) && boards.some((board) => board.stock === stock));
  if (i >= 0) return unknownFoam(goods[i].stock, { path: `stock.boards.${i}.foam` });
  // An offcut is of the board that it was left from.
  const kept = facts.stock.offcuts.find(({ name, material }) => {
    const foam = goods.find(({ stock }) => stock === material)?.foam.value ?? foamNamed(material);
    return isUnsafe(foam) && boards.some((board) => board.rings && board.stock === name);
  });
  return kept && unknownFoam(kept.name, { path: 'stock.offcuts' });
}

const unknownFoam = (name: string, where: Where): Finding => ({
  level: 'stop',
  code: 'document/foam-unknown',
  message: `What foam "${name}" is, nobody said: no hot wire goes through unknown foam, its fumes may poison.`,
  fix: 'Find out and say foam: EPS or XPS, or cut it with a knife or saw (tool.kind).',
  where,
});

function tooManyVolts(task: WireTask, reckoned: WireReckoning, plan: Plan): Finding[] {
  const isDamp = plan.facts.work.wire.isDamp.value;
  if (!needsTooMuch(reckoned, isDamp)) return [];
  const most = mostVolts('DC', isDamp);
  const message = `The wire wants ${numberText(reckoned.cutting.volts, 0)} V; one that can be touched gets at most ${most} V DC${isDamp ? ' in the damp' : ''}.`;
  const fix = waysOutOf(task, most, plan.unit).join(' Or: ');
  return [{ level: 'stop', code: 'document/wire-volts', message, fix, where: { path: 'tool.wire' } }];
}

function supplyFails(reckoned: WireReckoning, { facts }: Plan): Finding[] {
  const { supply, isDamp } = facts.work.wire;
  if (!supply || needsTooMuch(reckoned, isDamp.value)) return [];
  const [volts, amps, noLoad] = judgeSupply(supply, reckoned, isDamp.value, facts.work.rules);
  const where = { path: 'tool.supply' };
  const weak = [volts, amps].filter(({ holds }) => !holds);
  const findings: Finding[] = [];
  if (weak.length > 0) {
    const message = `The supply is too weak for the wanted feed: it must be one that ${weak.map(({ what }) => what).join('; and ')}.`;
    const fix = 'Cut slower (rules.secondsAMetre), shorten the bow, or take a stronger isolated supply.';
    findings.push({ level: 'watch', code: 'document/supply-weak', message, fix, where });
  }
  if (!noLoad.holds) {
    const message = `The supply is too high without load: it ${noLoad.what}.`;
    const fix = 'Measure it without load and say tool.supply.noLoad, or take a supply of lower volts or DC.';
    findings.push({ level: 'stop', code: 'document/supply-no-load', message, fix, where });
  }
  return findings;
}
