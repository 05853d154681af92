import type { Block, Value } from '../../drawing/flow/block.ts';
import type { Finding } from '../../findings.ts';
import { dayText } from '../../model/day.ts';
import type { Plan } from '../../model/plan.ts';
import { type Known, PRACTICE, RULES, type RuleName } from '../../model/rules.ts';
import { definePlugin } from '../../plugin.ts';
import { numberText } from '../../units.ts';
import { type Clock, dayOfSlot } from '../../workshop/clock.ts';
import { paperOption } from '../pages/papers.ts';
import { sheetFile } from './sheet-file.ts';

/** One subject of the work on paper. */
export interface WorkSheet {
  /** Of the plugin and of its file. */
  readonly name: string;
  readonly title: string;
  readonly summary: string;
  blocks(plan: Plan): Block[];
  /** What is to be told besides. Codes start with `document/`. */
  findings?(plan: Plan): readonly Finding[];
}

/** The document of a sheet: a PDF of its own. */
export const sheetPlugin = ({ name, title, summary, blocks, findings }: WorkSheet) =>
  definePlugin({
    api: 1,
    stage: 'document',
    name,
    summary,
    options: (kit) => kit.z.strictObject({ paper: paperOption(kit) }),
    run: async (plan, { paper }, { tell }) => {
      for (const finding of findings?.(plan) ?? []) tell(finding);
      return [await sheetFile(plan, { path: `${name}.pdf`, title, paper, textPt: TEXT_PT }, blocks(plan), tell)];
    },
  });

/** Read at a table, and one page a subject where it can be. */
const TEXT_PT = 9;

export const heading = (text: string): Block => ({ kind: 'heading', level: 2, text });
export const words = (text: string): Block => ({ kind: 'text', text });
export const caution = (text: string): Block => ({ kind: 'caution', text });
export const ticks = (items: readonly string[]): Block => ({ kind: 'list', items, ticks: true });

/** Figures of the trade that a sheet counted with, a line each: assumed, with room for ours, where the job says none. */
export const rulesUsed = ({ facts }: Plan, names: readonly RuleName[]): Block => ({
  kind: 'table',
  head: ['What', 'Taken', 'Assumed; ours:', 'From'],
  rows: names.map((name) => {
    const { value, isAssumed } = facts.work.rules[name];
    const { what, source, value: usual } = RULES[name];
    return isAssumed
      ? [what, numberText(value), '____________', source]
      : [what, numberText(value), 'said in the job', `usual ${numberText(usual)}`];
  }),
  right: [1],
  note: `Each can be changed in the job, under rules: ${names.join(', ')}.`,
});

/** A value that the job said, or one assumed in its place. */
export const given = <T>(label: string, { value, isAssumed }: Known<T>, text = String(value)): Value => ({
  label,
  value: text,
  assumed: isAssumed,
  ...(isAssumed ? { source: PRACTICE } : {}),
});

/** A value that is worked out or said. */
export const plainValue = (label: string, value: string, source?: string): Value => ({
  label,
  value,
  ...(source === undefined ? {} : { source }),
});

/** When a slot of the clock begins. */
export function slotText({ isDated }: Clock, slot: number): string {
  if (isDated) return `${dayText(dayOfSlot(slot))}${slot % 2 === 0 ? '' : ', midday'}`;
  return slot === 0 ? 'opening' : `${numberText(-slot / 2, 1)} days before the opening`;
}

/** Of the reaction to fire: in hand, not to be had, or still to be asked for. */
export const certificateText = (hasCertificate: boolean | null): string =>
  hasCertificate === null
    ? '_______ (not said)'
    : hasCertificate
      ? 'in hand'
      : 'none; ask whether it may be used at all';

export const moneyText = (money: number | null): string => (money === null ? 'not worked out' : money.toFixed(2));

/** A number to so many figures that a crew reads it at a glance. */
export const about = (value: number): string =>
  numberText(value, Math.abs(value) >= 100 ? 0 : Math.abs(value) >= 10 ? 1 : 2);

export const hoursText = (hours: number): string => `${numberText(hours, hours < 10 ? 1 : 0)} h`;
