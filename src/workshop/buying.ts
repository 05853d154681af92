import type { Plan } from '../model/plan.ts';
import type { Goods, Terms } from '../model/work.ts';
import { cents, type Sundry, sundriesOf } from './sundries.ts';

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

/** What is ordered of boards, from all suppliers. */
export const foamOrders = ({ suppliers }: Buying): BoardOrder[] => suppliers.flatMap(({ orders }) => [...orders]);

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
