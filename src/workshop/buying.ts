import { boxOf } from '../geometry/ring.ts';
import type { Plan } from '../model/plan.ts';
import type { Goods, Terms } from '../model/work.ts';
import { wetTimes } from './materials.ts';
import { USUAL_WIRE_MM } from './wire/reckoning.ts';

/** Boards of one kind to order. */
export interface BoardOrder {
  readonly stock: string;
  readonly goods: Goods | undefined;
  readonly needed: number;
  readonly spare: number;
  /** Whole packs, and no fewer than are sold. */
  readonly ordered: number;
  readonly packs: number;
  readonly each: number | null;
  readonly money: number | null;
}

export interface Supplier {
  /** Null when the job names none. */
  readonly name: string | null;
  readonly orders: readonly BoardOrder[];
  readonly deliveryCost: number | null;
  readonly deliveryDays: number;
}

/** A figure that is printed in the units of the job. */
export interface Figure {
  readonly of: 'length' | 'area' | 'volume' | 'mass' | 'litres';
  /** Millimetres, square metres, cubic metres, kilograms, litres. */
  readonly value: number;
}

/** Words with figures between them. */
export type Wording = readonly (string | Figure)[];

/** Something bought besides foam. */
export interface Sundry {
  readonly what: string;
  readonly how: Wording;
  readonly amount: Wording;
  readonly money: number | null;
}

export interface Buying {
  readonly suppliers: readonly Supplier[];
  readonly sundries: readonly Sundry[];
  /** Of all whose price is known. */
  readonly known: number;
  /** What has no price. */
  readonly unpriced: readonly string[];
}

/** So many more that a pack holds, and no fewer than the supplier sells. */
export function wholePacks(needed: number, { pack, least }: Pick<Terms, 'pack' | 'least'>): number {
  if (needed === 0) return 0;
  return Math.ceil(Math.max(needed, least.value) / pack.value) * pack.value;
}

/** Sums of money in hundredths: ten at 14.10 are 141. */
const cents = (money: number): number => Math.round(money * 100) / 100;

const USUAL_TERMS = { pack: { value: 1, isAssumed: true }, least: { value: 1, isAssumed: true } };

export function buyingOf(plan: Plan): Buying {
  const orders = boardOrders(plan);
  const suppliers = bySupplier(orders, plan);
  const sundries = sundriesOf(plan);
  const money = [
    ...orders.map((order) => order.money),
    ...suppliers.map(({ deliveryCost }) => deliveryCost),
    ...sundries.map((sundry) => sundry.money),
  ];
  const unpriced = [
    ...orders.filter((order) => order.money === null).map(({ stock }) => stock),
    ...suppliers
      .filter((each) => each.deliveryCost === null)
      .map(({ name }) => `delivery by ${name ?? 'the supplier'}`),
    ...sundries.filter((sundry) => sundry.money === null).map(({ what }) => what),
  ];
  return { suppliers, sundries, known: cents(money.reduce<number>((sum, each) => sum + (each ?? 0), 0)), unpriced };
}

function boardOrders({ boards, facts }: Plan): BoardOrder[] {
  const { rules, goods } = facts.work;
  const counts = new Map<string, number>();
  for (const { stock, rings } of boards) if (!rings) counts.set(stock, (counts.get(stock) ?? 0) + 1);
  return [...counts].map(([stock, needed]): BoardOrder => {
    const own = goods.find((each) => each.stock === stock);
    const spare = Math.max(1, Math.ceil(needed * rules.spareShare.value - 1e-9));
    const terms = own?.terms ?? USUAL_TERMS;
    const ordered = wholePacks(needed + spare, terms);
    const each = facts.stock.boards.find(({ name }) => name === stock)?.price ?? null;
    const packs = ordered / terms.pack.value;
    return {
      stock,
      goods: own,
      needed,
      spare,
      ordered,
      packs,
      each,
      money: each === null ? null : cents(each * ordered),
    };
  });
}

/** Orders by who sells them; each supplier comes once, with the dearest and slowest of its deliveries. */
function bySupplier(orders: readonly BoardOrder[], { facts }: Plan): Supplier[] {
  const names = [...new Set(orders.map(({ goods }) => goods?.terms.supplier ?? null))];
  return names.map((name) => {
    const own = orders.filter(({ goods }) => (goods?.terms.supplier ?? null) === name);
    const costs = own.map(({ goods }) => goods?.terms.deliveryCost ?? null);
    const days = own.map(({ goods }) => goods?.terms.deliveryDays.value ?? facts.work.rules.deliveryDays.value);
    return {
      name,
      orders: own,
      deliveryCost: costs.includes(null) ? null : Math.max(...(costs as number[])),
      deliveryDays: Math.max(...days),
    };
  });
}

const figure = (of: Figure['of'], value: number): Figure => ({ of, value });

function sundriesOf(plan: Plan): Sundry[] {
  const { quantities: q, facts, stack } = plan;
  const { rules, prices } = facts.work;
  const list: Sundry[] = [];
  const add = (what: string, how: Wording, amount: Wording, count: number, price: number | null) =>
    void list.push({ what, how, amount, money: price === null ? null : cents(count * price) });
  const slope = figure('area', q.surfaceAreaM2);

  for (const { soldMm, sticks, pins, pulled, leastMm, mostMm } of q.pinStock) {
    const all = Math.ceil(sticks * (1 + rules.pinSpareShare.value) - 1e-9);
    const [sold, least, most] = [soldMm, leastMm, mostMm].map((mm) => figure('length', mm));
    const cut = leastMm === mostMm ? [least] : [least, ' to ', most];
    const use = pulled > 0 ? `, ${pulled} of them pulled before carving` : '';
    const how = ['skewers of ', sold, ` for ${pins} pins of `, ...cut, `${use}; ${sticks} and spares`];
    add('pins', how, [`${all}`], all, prices.pin);
  }
  const litres = q.glueM2 * rules.glueLitresAM2.value;
  if (litres > 0) {
    const tubes = Math.ceil(litres / rules.glueLitresATube.value);
    const how = [figure('area', q.glueM2), ` of bonded faces; foam-safe, holds after ${rules.cureHours.value} h`];
    const amount = [figure('litres', litres), ` or ${tubes} ${tubes === 1 ? 'cartridge' : 'cartridges'}`];
    add('glue', how, amount, litres, prices.glue);
  }
  if (facts.cover) {
    const more = 1 + rules.coverSpareShare.value;
    const volume = figure('volume', ((q.coverVolumeM3 ?? 0) + q.stepFillM3) * more);
    const how = [figure('length', facts.cover.depthMm), ' over ', slope, ' of slope, and the steps'];
    if (q.coverMassKg === null) add(facts.cover.material, [...how, '; weight not worked out'], [volume], 0, null);
    else {
      const kg = q.coverMassKg * more;
      const bags = Math.ceil(kg / rules.bagKg.value);
      const wet = figure('mass', kg * wetTimes(facts.cover.material));
      const amount = [volume, ', ', figure('mass', kg), ' (wet ', wet, `), ${bags} bags`];
      add(facts.cover.material, how, amount, bags, prices.cover);
    }
  }
  const scrimM2 = q.surfaceAreaM2 * rules.scrimLayers.value * (1 + rules.scrimLapShare.value);
  if (scrimM2 > 0) {
    const layers = rules.scrimLayers.value === 1 ? '1 layer' : `${rules.scrimLayers.value} layers`;
    add('scrim', [`${layers}, laps counted`], [figure('area', scrimM2)], scrimM2, prices.scrim);
  }
  const coatL = q.surfaceAreaM2 * rules.coats.value * rules.coatLitresAM2.value;
  if (coatL > 0) {
    const coats = rules.coats.value === 1 ? '1 coat' : `${rules.coats.value} coats`;
    add('coating', [`${coats} over `, slope, '; foam-safe'], [figure('litres', coatL)], coatL, prices.coat);
  }
  if (stack.covering && q.coveringM2 !== null) {
    const m2 = q.coveringM2 * COVERING_WASTE;
    add(stack.covering.material, ['over the ribs, with 10 % for laps and waste'], [figure('area', m2)], m2, null);
  }
  const paperM2 = plan.pieces.reduce((sum, { region }) => {
    const [minX, minY, maxX, maxY] = boxOf(region);
    return sum + ((maxX - minX) * (maxY - minY)) / 1e6;
  }, 0);
  const paper = 'as much as the boxes round the pieces; none where pieces are measured off';
  add('paper for templates', [paper], [figure('area', paperM2)], paperM2, prices.paper);
  if (facts.tool.kind === 'hot wire') {
    const mm = (facts.tool.wireMm ?? USUAL_WIRE_MM) * (1 + rules.wireSpares.value);
    const { alloy, diameterMm } = facts.work.wire;
    const how = [
      `${alloy.value}, `,
      figure('length', diameterMm.value),
      ` thick; one length and ${rules.wireSpares.value} spare`,
    ];
    add('wire', how, [figure('length', mm)], mm / 1000, prices.wire);
  }
  add('safety kit', ['see the list below'], ['1'], 1, prices.safety);
  return list;
}

/** Laps at joins and what is cut off (common practice, no source). */
const COVERING_WASTE = 1.1;

/** What has to be there before the first cut (common practice, no source; local rules go first). */
export const SAFETY_KIT: readonly string[] = [
  'extinguisher and fire blanket as the venue asks',
  'extraction to outside at the wire',
  'eye protection for everyone near',
  'breathing protection chosen by a competent person',
  'heat-proof gloves for changing wire, cut-proof ones for knives',
  'first-aid kit with something for burns; cold running water near',
  'a switch within reach of whoever holds the bow',
  'vacuum cleaner for beads and dust; bags',
];
