import type { Block, Value } from '../../drawing/flow/block.ts';
import { isPolystyrene } from '../../model/foam.ts';
import { extent } from '../../model/landform.ts';
import type { Plan } from '../../model/plan.ts';
import { known } from '../../model/rules.ts';
import type { FoamBlock } from '../../model/work.ts';
import { fineText, lengthText, thicknessText } from '../../units.ts';
import { blockCuts, blockMassKg, thicknessesFor, USUAL_BLOCK } from '../../workshop/block.ts';
import { buyingOf, wholePacks } from '../../workshop/buying.ts';
import { densityText } from '../../workshop/density-text.ts';
import { boardText, massText } from '../report/amounts.ts';
import {
  caution,
  certificateText,
  given,
  heading,
  moneyText,
  plainValue,
  rulesUsed,
  type WorkSheet,
  words,
} from './sheet.ts';

/** A block into boards: thickness with the ground's height, the order of cuts, and against bought boards. */
export const BLOCK: WorkSheet = {
  name: 'block-sheet',
  title: 'Block into boards',
  summary: 'a block into boards: thickness, numbered cuts with rail heights, against bought boards',
  blocks: (plan) => {
    const { blocks, rules } = plan.facts.work;
    const block = blocks[0] ?? usualBlock(plan);
    const isAssumed = blocks.length === 0;
    const safe = isPolystyrene(block.foam.value);
    return [
      ...(isAssumed ? [words('The job names no block (stock.blocks): a common one is assumed.')] : []),
      { kind: 'values', rows: [...blockValues(block, isAssumed, plan), ...(isAssumed ? [] : saleValues(block))] },
      ...freshness(block, plan),
      ...(safe
        ? cutBlocks(block, plan)
        : [
            caution(
              `No cuts are given: ${block.foam.value === 'unknown' ? 'what foam it is, nobody said' : block.foam.value}. A hot wire meets EPS or XPS only.`,
            ),
          ]),
      ...against(block, plan),
      heading('Counted with'),
      rulesUsed(plan, ['crustMm', 'blockRestDays']),
      words(
        `Kerf ${fineText(plan.facts.tool.kerfMm, plan.unit)}, as the tool says; crust off each face ${fineText(rules.crustMm.value, plan.unit)}.`,
      ),
    ];
  },
};

const usualBlock = ({ facts }: Plan): FoamBlock => ({
  name: 'a block of EPS',
  sizeMm: USUAL_BLOCK.sizeMm,
  heightMm: USUAL_BLOCK.heightMm,
  foam: known(undefined, 'EPS'),
  densityKgM3: known(undefined, 15),
  price: null,
  ageDays: null,
  hasCertificate: null,
  terms: {
    supplier: null,
    pack: known(undefined, 1),
    least: known(undefined, 1),
    deliveryCost: null,
    deliveryDays: known(undefined, facts.work.rules.deliveryDays.value),
  },
});

function blockValues(
  { name, sizeMm, heightMm, foam, densityKgM3, ageDays }: FoamBlock,
  isAssumed: boolean,
  { unit }: Plan,
): Value[] {
  const size = boardText(sizeMm, heightMm, unit);
  const kg = blockMassKg(sizeMm, heightMm, densityKgM3.value);
  return [
    {
      label: name,
      value: size,
      assumed: isAssumed,
      ...(isAssumed ? { source: 'civil blocks of a maker, sundolitt.co.uk' } : {}),
    },
    given('Foam', foam),
    given('Density', densityKgM3, densityText(densityKgM3.value, unit)),
    plainValue('It weighs', `${massText(kg, unit)}: two people and a trolley; too large to see past`),
    plainValue('Age', ageDays === null ? '_______ days since it was moulded: ask' : `${ageDays} days`),
  ];
}

/** How it is sold, and whether its certificate is in hand. */
function saleValues({ hasCertificate, terms }: FoamBlock): Value[] {
  const { supplier, pack, least, deliveryCost, deliveryDays } = terms;
  return [
    plainValue('Fire certificate', certificateText(hasCertificate)),
    plainValue('Sold by', supplier ?? '_______ (not said)'),
    given('In packs of', pack),
    given('No fewer than', least),
    plainValue('Delivery costs', deliveryCost === null ? '_______ (not said)' : moneyText(deliveryCost)),
    given('Days to delivery', deliveryDays),
  ];
}

function freshness({ ageDays }: FoamBlock, { facts }: Plan): Block[] {
  const rest = facts.work.rules.blockRestDays.value;
  if (ageDays !== null && ageDays >= rest) return [];
  const more = ageDays === null ? `until it is ${rest} days old` : `for ${rest - ageDays} days more`;
  return [
    caution(
      `A fresh block gives off pentane, which burns: air it in a well-ventilated place ${more}. Until then no closed van, no wire, no flame, no smoking near it.`,
    ),
  ];
}

function cutBlocks(block: FoamBlock, plan: Plan): Block[] {
  const { facts, unit, stack } = plan;
  const { kerfMm } = facts.tool;
  const crustMm = facts.work.rules.crustMm.value;
  const wantedMm = thicknessOf(plan);
  const highMm = stack.kind === 'flat' ? extent(plan.landform).highMm : wantedMm;
  const ways = thicknessesFor(highMm, wantedMm, { heightMm: block.heightMm, kerfMm, crustMm });
  const areaMm2 = plan.boards.reduce((sum, { sizeMm: [a, b] }) => sum + a * b, 0);
  const faces = areaMm2 / (block.sizeMm[0] * block.sizeMm[1]);
  const rows = ways.map(({ layers, thicknessMm, boards, restMm }) => {
    const needed = Math.ceil((faces * layers) / Math.max(1, stack.layers.length) - 1e-9);
    return [
      `${layers}`,
      thicknessText(thicknessMm, unit),
      `${boards}`,
      thicknessText(restMm, unit),
      `${needed}`,
      `${Math.ceil(needed / boards)}`,
    ];
  });
  const cuts = blockCuts(block.heightMm, wantedMm, kerfMm, crustMm);
  return [
    heading(`Thickness and height together: the ground under its cover is ${lengthText(highMm, unit)} high`),
    {
      kind: 'table',
      head: ['Layers', 'Thickness', 'Boards a block', 'Left of it', 'Boards needed', 'Blocks'],
      rows,
      right: [0, 1, 2, 3, 4, 5],
      note: 'A free thickness divides the height without a rest. Boards needed are about: as much foam a layer as now. Packing decides.',
    },
    heading(`Cuts for boards of ${thicknessText(wantedMm, unit)}, from the top down`),
    {
      kind: 'table',
      head: ['Cut', 'Gives', 'Wire over the bed', 'Done', 'Cut', 'Gives', 'Wire over the bed', 'Done'],
      rows: inTwo(cuts.map(({ number, gives, railMm }) => [`${number}`, gives, thicknessText(railMm, unit), '____'])),
      right: [0, 2, 4, 6],
      note: 'Rails at both ends at this height; the wire runs in the middle of its kerf. Number each board before the next cut. What stays on the bed is the lower crust and the rest.',
    },
    words(
      'Lay the block on its largest face, weigh it down, do not move it. A cut as long as this is for two, one at each end, and the wire cools in it more than in a test strip: set it on a cut of full width.',
    ),
  ];
}

/** That of the layers as planned, else of the boards on sale. */
const thicknessOf = ({ stack, facts }: Plan): number => stack.layers[0]?.thicknessMm ?? facts.thicknessesMm[0] ?? 50;

/** A long table of few columns as two side by side. */
function inTwo(rows: readonly (readonly string[])[]): string[][] {
  const half = Math.ceil(rows.length / 2);
  return rows.slice(0, half).map((row, i) => [...row, ...(rows[half + i] ?? row.map(() => ''))]);
}

function against(block: FoamBlock, plan: Plan): Block[] {
  const { facts, boards } = plan;
  const thick = thicknessOf(plan);
  const [own] = thicknessesFor(thick, thick, {
    heightMm: block.heightMm,
    kerfMm: facts.tool.kerfMm,
    crustMm: facts.work.rules.crustMm.value,
  }).filter(({ layers }) => layers === 1);
  const areaMm2 = boards.reduce((sum, { sizeMm: [a, b] }) => sum + a * b, 0);
  const faces = Math.ceil(areaMm2 / (block.sizeMm[0] * block.sizeMm[1]));
  const blocks = own ? wholePacks(Math.ceil(faces / own.boards), block.terms) : null;
  const orders = buyingOf(plan).suppliers.flatMap((supplier) => supplier.orders);
  const bought = orders.some(({ money }) => money === null)
    ? null
    : orders.reduce((sum, { money }) => sum + (money ?? 0), 0);
  const money = blocks === null || block.price === null ? null : blocks * block.price;
  return [
    heading('Against bought boards'),
    {
      kind: 'table',
      head: ['Way', 'How many', 'Money', 'Besides'],
      rows: [
        [
          'boards as ordered',
          `${orders.reduce((sum, { ordered }) => sum + ordered, 0)}`,
          moneyText(bought),
          'ready to cut',
        ],
        [
          'blocks wired here',
          blocks === null ? 'not worked out' : `${blocks}`,
          moneyText(money),
          'a long bow, rails, airing, a day or more',
        ],
        ['cut by the supplier', '_______', '_______', 'ask for a price by the piece'],
      ],
      right: [1, 2],
    },
  ];
}
