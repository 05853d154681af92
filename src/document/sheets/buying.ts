import type { Block } from '../../drawing/flow/block.ts';
import type { Finding } from '../../findings.ts';
import { gradeText, isPolystyrene } from '../../model/foam.ts';
import type { Plan } from '../../model/plan.ts';
import type { Goods } from '../../model/work.ts';
import { fineText, isInFeet, lengthText, thicknessText, type Unit } from '../../units.ts';
import { type BoardOrder, type Buying, buyingOf, SAFETY_KIT, type Supplier } from '../../workshop/buying.ts';
import { basisOf, type Clock, clockOf, orderSlot } from '../../workshop/clock.ts';
import { densityText } from '../../workshop/density-text.ts';
import type { Wording } from '../../workshop/sundries.ts';
import { stackTolerance, thicknessTolerance } from '../../workshop/tolerances.ts';
import { areaText, boardText, massText, volumeText } from '../report/amounts.ts';
import {
  about,
  caution,
  certificateText,
  heading,
  moneyText,
  rulesUsed,
  slotText,
  ticks,
  type WorkSheet,
  words,
} from './sheet.ts';

/** What to order, from whom, until when; and money against the budget. */
export const BUYING: WorkSheet = {
  name: 'buying-list',
  title: 'Buying list',
  summary: 'what to order from whom until when, with spares, and money against the budget',
  blocks: (plan) => {
    const buying = buyingOf(plan);
    const clock = clockOf(plan, {}, basisOf(plan, buying));
    return [
      caution('All foam burns. Ask the fire authority and the venue before you order, and ask for the certificate.'),
      ...buying.suppliers.flatMap((supplier) => ofSupplier(supplier, clock, plan)),
      heading('Besides foam'),
      {
        kind: 'table',
        head: ['What', 'For', 'How much', 'Money'],
        rows: buying.sundries.map(({ what, how, amount, money }) => [
          what,
          said(how, plan.unit),
          said(amount, plan.unit),
          moneyText(money),
        ]),
        right: [3],
        ticks: true,
      },
      ...moneyBlocks(buying, plan),
      heading('Safety kit'),
      ticks(SAFETY_KIT),
      heading('Counted with'),
      rulesUsed(plan, [
        'spareShare',
        'pinSpareShare',
        'glueLitresAM2',
        'glueLitresATube',
        'coverSpareShare',
        'bagKg',
        'scrimLayers',
        'coats',
        'coatLitresAM2',
        'deliveryDays',
      ]),
    ];
  },
  findings: (plan) => {
    const buying = buyingOf(plan);
    return [...overBudget(buying, plan), ...shortOfBoards(buying, plan)];
  },
};

/** Words with their figures in the units of the job. */
const said = (wording: Wording, unit: Unit): string =>
  wording
    .map((each) => {
      if (typeof each === 'string') return each;
      const { of, value } = each;
      if (of === 'length') return fineText(value, unit);
      if (of === 'litres') return litresText(value, unit);
      return of === 'area' ? areaText(value, unit) : of === 'mass' ? massText(value, unit) : volumeText(value, unit);
    })
    .join('');

/** A US gallon is 231 cubic inches. */
const GALLON_L = 3.785411784;

const litresText = (litres: number, unit: Unit): string =>
  isInFeet(unit) ? `${about(litres / GALLON_L)} gal (US)` : `${about(litres)} l`;

function ofSupplier({ name, orders, deliveryCost, deliveryDays }: Supplier, clock: Clock, plan: Plan): Block[] {
  // The first step of the clock waits for the slowest of all; each may be ordered when its own days are left.
  const latest = orderSlot(clock, deliveryDays, plan.facts.work.rules.daysAWeek.value);
  const assumed = orders.some(({ goods }) => goods?.terms.deliveryDays.isAssumed !== false);
  const when = `Order by ${slotText(clock, latest)}: ${deliveryDays} days to delivery${assumed ? ' (assumed: ask)' : ''}.`;
  return [
    heading(name ?? 'Boards (no supplier said)'),
    {
      kind: 'table',
      head: ['Board', 'Size', 'Needed', 'Spare', 'Order', 'Packs', 'Each', 'Money'],
      rows: orders.map((order) => orderRow(order, plan)),
      right: [2, 3, 4, 5, 6, 7],
      ticks: true,
    },
    words(`${when} Delivery costs ${deliveryCost === null ? '_______ (not said)' : deliveryCost.toFixed(2)}.`),
    { kind: 'list', items: orders.flatMap(({ goods }) => (goods ? notesOn(goods, plan) : [])) },
  ];
}

function orderRow({ stock, needed, spare, ordered, packs, each, money }: BoardOrder, { facts, unit }: Plan): string[] {
  const board = facts.stock.boards.find(({ name }) => name === stock);
  const size = board ? boardText(board.sizeMm, board.thicknessMm, unit) : '';
  return [stock, size, `${needed}`, `${spare}`, `${ordered}`, `${packs}`, moneyText(each), moneyText(money)];
}

/** What to know of a board before ordering it: kind, grade, certificate, faces, edges and how far its thickness may be off. */
function notesOn(goods: Goods, { facts, stack, unit }: Plan): string[] {
  const { stock, foam, grade, hasCertificate, face, edges, densityKgM3 } = goods;
  const board = facts.stock.boards.find(({ name }) => name === stock);
  const tolerance = board ? thicknessTolerance(foam.value, board.thicknessMm) : null;
  const notes = [
    foam.value === 'unknown'
      ? `${stock}: nobody said what foam it is. No wire may go through it until that is known.`
      : `${stock}: ${foam.value}${foam.isAssumed ? ' (by its name)' : ''}${isPolystyrene(foam.value) ? '' : ', never under a hot wire'}; ${densityText(densityKgM3.value, unit)}${densityKgM3.isAssumed ? ' (assumed: weigh one)' : ''}.`,
    grade
      ? `${gradeText(grade)}.`
      : 'Grade not said. "EPS 100" is a pressure in one country and "EPS 20" a density in another: ask.',
    `Fire certificate: ${certificateText(hasCertificate)}.`,
  ];
  if (face === 'film') notes.push('Film on its faces: peel it before anything is glued.');
  if (face === 'skin') notes.push('A skin on its faces: roughen it where glue or cover must hold.');
  if (edges !== null && edges !== 'square')
    notes.push(
      `Edges ${edges}: ${lengthText(10, unit)} to ${lengthText(15, unit)} of each is lost (common practice, no source); say it as trim.`,
    );
  if (tolerance) {
    const layers = stack.layers.length;
    const off = stackTolerance(tolerance, layers);
    notes.push(
      `May be ${thicknessText(tolerance.belowMm, unit)} thinner or ${thicknessText(tolerance.aboveMm, unit)} thicker (${tolerance.source}): over ${layers} layers ${thicknessText(off.lowestMm, unit)} to +${thicknessText(off.highestMm, unit)} if all are off one way, ±${thicknessText(off.randomMm, unit)} at random. Measure the pack, and say "measured" in the job.`,
    );
  }
  return notes;
}

function moneyBlocks({ known, unpriced }: Buying, { facts }: Plan): Block[] {
  const { budget } = facts.work;
  const rows = [
    { label: 'All whose price is known', value: known.toFixed(2) },
    { label: 'Budget', value: budget === null ? '_______ (not said)' : budget.toFixed(2) },
    ...(budget === null ? [] : [{ label: 'Left', value: (budget - known).toFixed(2) }]),
  ];
  const missing = unpriced.length === 0 ? [] : [words(`No price, and so not in the sum: ${unpriced.join(', ')}.`)];
  return [heading('Money'), { kind: 'values', rows }, ...missing];
}

function overBudget({ known }: Buying, { facts }: Plan): Finding[] {
  const { budget } = facts.work;
  if (budget === null || known <= budget) return [];
  const message = `What has a price comes to ${known.toFixed(2)}; the budget is ${budget.toFixed(2)}.`;
  const fix = 'Take cheaper or thicker boards, hollow it, use kept offcuts, or ask for more money.';
  return [{ level: 'watch', code: 'document/over-budget', message, fix, where: { path: 'budget' } }];
}

function shortOfBoards({ suppliers }: Buying, { facts }: Plan): Finding[] {
  return suppliers.flatMap(({ orders }) =>
    orders.flatMap(({ stock, ordered, needed }): Finding[] => {
      const i = facts.stock.boards.findIndex(({ name }) => name === stock);
      const count = facts.stock.boards[i]?.count ?? null;
      if (count === null || count >= ordered) return [];
      const message = `Of ${stock} ${ordered} should be ordered with spares (${needed} are needed); ${count} can be had.`;
      const fix = 'Find more, or cut with care: a spoilt board cannot be replaced.';
      return [{ level: 'watch', code: 'document/no-spares', message, fix, where: { path: `stock.boards.${i}.count` } }];
    }),
  );
}
