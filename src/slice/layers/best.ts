import type { HeightTable } from '../../geometry/height-table.ts';
import { type Cut, wholeUm } from './levels.ts';

/** A kind of board as the choice sees it. */
export interface Kind {
  readonly thicknessMm: number;
  /** Money for a square metre of it. */
  readonly pricePerM2: number;
  /** Heights at which its layers may lie, when not at all: from, and below. */
  readonly onlyUm?: readonly [number, number];
}

/** What is to be chosen from, and what counts. */
export interface Question {
  readonly kinds: readonly Kind[];
  readonly highMm: number;
  readonly cut: Cut;
  /** Money for a cubic metre between foam and ground. */
  readonly carve: number;
  /** Money for a square metre of layer: cut out, glued and laid. */
  readonly lay: number;
  /** Sections may grow with height, so that a layer is to be looked at over its whole thickness. */
  readonly mayOverhang: boolean;
}

/** How a stack does. */
export interface Standing {
  readonly thicknessesMm: readonly number[];
  /** How far it ends over the highest ground; negative where it ends below. */
  readonly overMm: number;
  /** Between foam and ground, on either side. */
  readonly deviationMm3: number;
  /** Layers' areas, lowest first. */
  readonly areasMm2: readonly number[];
  readonly boards: number;
  /** Boards, deviation and laying together. */
  readonly money: number;
}

/** Area of a stack's layers of one kind of board. */
export function areaOfKind({ thicknessesMm, areasMm2 }: Standing, { thicknessMm }: Kind): number {
  let sum = 0;
  for (let i = 0; i < areasMm2.length; i++) if (thicknessesMm[i] === thicknessMm) sum += areasMm2[i];
  return sum;
}

/** Stacks that end this much further from the highest ground than the nearest one still meet it: no eye sees less. */
export const MET_UM = 1000;
/** Sums of money nearer than this share of one another are equal: then the fewer layers win. */
const EQUAL_SHARE = 1e-9;
/** Heights told apart, at most. */
const MOST_HEIGHTS = 20_000;

/** Boards worth trying: a thicker one ends further over the highest ground than a stack of the thinnest. */
export function worthTrying(kinds: readonly Kind[], highMm: number): Kind[] {
  const most = highMm + Math.min(...kinds.map(({ thicknessMm }) => thicknessMm));
  return kinds.filter(({ thicknessMm }) => thicknessMm <= most);
}

/**
 * The step between the heights that a choice tells apart, micrometres: what all thicknesses are multiples of; coarser where
 * the ground is more than 20,000 of those high.
 */
export function stepUm({ kinds, highMm, cut }: Pick<Question, 'kinds' | 'highMm' | 'cut'>): number {
  const thicknessesUm = kinds.map(({ thicknessMm }) => wholeUm(thicknessMm));
  const reachUm = wholeUm(highMm) + Math.max(...thicknessesUm);
  const step = Math.max(thicknessesUm.reduce(divisor), Math.ceil(reachUm / MOST_HEIGHTS));
  // A middle outline is taken half way between two heights.
  return cut === 'middle' ? step / 2 : step;
}

/** Evenly spaced levels from 0 to the highest ground or just above. */
export const tableLevelsMm = (step: number, highMm: number): Float64Array =>
  Float64Array.from({ length: Math.ceil((highMm * 1000) / step) + 2 }, (_, i) => (i * step) / 1000);

/**
 * Choose a thickness for each layer, from the ground up.
 *
 * First the top: of all stacks of these boards only those count that end as near to the highest ground as any can, to a
 * millimetre (proud at or over it, shy at or under it, middle either way). Of those the one that costs least:
 *
 *     Σ area × (price of its board by area + lay)  +  carve × volume between foam and ground
 *
 * over all layers before hollowing, waste on boards left out. So thick boards where the ground is steep, where thinner ones
 * would save little carving, and thin ones where wide treads show. Equal ones: the fewer layers.
 *
 * A layer's cost depends on its height and thickness alone, so the best stack up to a height is the best up to one board
 * less and one board more: dynamic programming over the heights that sums of thicknesses reach (Bellman 1957). Exact when
 * those are at most 20,000 steps of their common divisor; else of two stacks that end within a step of one another the
 * dearer is dropped. O(heights × kinds); under an overhang each times the steps in a layer.
 */
export function bestStack(question: Question, table: HeightTable, step: number): Standing {
  const { kinds, highMm, cut } = question;
  const highUm = highMm * 1000;
  const cell = cut === 'middle' ? 2 * step : step;
  const thickestUm = Math.max(...kinds.map(({ thicknessMm }) => wholeUm(thicknessMm)));
  const size = Math.floor((highUm + thickestUm) / cell) + 2;
  const money = new Float64Array(size).fill(Infinity);
  const layers = new Int32Array(size);
  const heightUm = new Float64Array(size);
  const from = new Int32Array(size).fill(-1);
  const kindOf = new Int32Array(size).fill(-1);
  const costs = kinds.map((kind) => new Cost(question, table, step, kind));
  money[0] = 0;
  for (let i = 0; i < size; i++) {
    if (money[i] === Infinity || heightUm[i] >= highUm) continue;
    for (let k = 0; k < costs.length; k++) {
      const top = heightUm[i] + costs[k].thicknessUm;
      if (!reaches(cut, heightUm[i], top, highUm) || !mayLie(kinds[k], heightUm[i])) continue;
      const sum = money[i] + costs[k].at(heightUm[i]).money;
      const at = Math.floor(top / cell);
      if (!isLess(sum, layers[i] + 1, money[at], layers[at])) continue;
      money[at] = sum;
      layers[at] = layers[i] + 1;
      heightUm[at] = top;
      from[at] = i;
      kindOf[at] = k;
    }
  }

  const isEnd = (i: number) => i > 0 && money[i] < Infinity && (cut !== 'proud' || heightUm[i] >= highUm);
  let nearest = Infinity;
  for (let i = 1; i < size; i++) if (isEnd(i)) nearest = Math.min(nearest, Math.abs(heightUm[i] - highUm));
  let end = -1;
  let least = Infinity;
  for (let i = 1; i < size; i++) {
    if (!isEnd(i) || Math.abs(heightUm[i] - highUm) > nearest + MET_UM) continue;
    const sum = money[i] + question.carve * (costs[0].over(heightUm[i]) / 1e9);
    if (end >= 0 && !isLess(sum, layers[i], least, layers[end])) continue;
    end = i;
    least = sum;
  }
  const chosen: number[] = [];
  for (let i = end; i > 0; i = from[i]) chosen.unshift(kindOf[i]);
  return standing(question, table, step, chosen);
}

/** How a stack of these kinds, from the ground up, does. */
export function standing(question: Question, table: HeightTable, step: number, chosen: readonly number[]): Standing {
  const costs = question.kinds.map((kind) => new Cost(question, table, step, kind));
  const areasMm2: number[] = [];
  let um = 0;
  let deviationMm3 = 0;
  let money = 0;
  let boards = 0;
  for (const k of chosen) {
    const layer = costs[k].at(um);
    areasMm2.push(layer.areaMm2);
    deviationMm3 += layer.deviationMm3;
    money += layer.money;
    boards += (layer.areaMm2 / 1e6) * question.kinds[k].pricePerM2;
    um += costs[k].thicknessUm;
  }
  const overMm3 = costs[0].over(um);
  return {
    thicknessesMm: chosen.map((k) => question.kinds[k].thicknessMm),
    overMm: um / 1000 - question.highMm,
    deviationMm3: deviationMm3 + overMm3,
    areasMm2,
    boards,
    money: money + question.carve * (overMm3 / 1e9),
  };
}

/** A stack of one kind alone, as far as the ground reaches into it; none where its first layer would be empty. */
export function alone(question: Question, table: HeightTable, step: number, kind: number): Standing {
  const { kinds, highMm, cut } = question;
  const thicknessUm = wholeUm(kinds[kind].thicknessMm);
  const chosen: number[] = [];
  const highUm = highMm * 1000;
  for (let um = 0; um < highUm && reaches(cut, um, um + thicknessUm, highUm); um += thicknessUm) chosen.push(kind);
  return standing(question, table, step, chosen);
}

const mayLie = ({ onlyUm }: Kind, um: number): boolean => !onlyUm || (um >= onlyUm[0] && um < onlyUm[1]);

/** Whether a layer between two heights has foam. */
const reaches = (cut: Cut, lowUm: number, topUm: number, highUm: number): boolean =>
  cut === 'proud' ? lowUm < highUm : cut === 'shy' ? topUm <= highUm : (lowUm + topUm) / 2 <= highUm;

const isLess = (sum: number, layers: number, than: number, thanLayers: number): boolean =>
  than === Infinity ||
  sum < than - EQUAL_SHARE * Math.abs(than) ||
  (sum <= than + EQUAL_SHARE * Math.abs(than) && layers < thanLayers);

const divisor = (a: number, b: number): number => (b === 0 ? a : divisor(b, a % b));

/** What a layer of one kind of board costs, by the height that it lies at. */
class Cost {
  readonly thicknessUm: number;
  readonly #question: Question;
  readonly #table: HeightTable;
  readonly #step: number;
  readonly #perM2: number;

  constructor(question: Question, table: HeightTable, step: number, { thicknessMm, pricePerM2 }: Kind) {
    this.#question = question;
    this.#table = table;
    this.#step = step;
    this.#perM2 = pricePerM2 + question.lay;
    this.thicknessUm = wholeUm(thicknessMm);
  }

  at(lowUm: number) {
    const { carve } = this.#question;
    const topUm = lowUm + this.thicknessUm;
    const ground = this.#under(topUm) - this.#under(lowUm);
    const { areaMm2, deviationMm3 } = this.#layer(lowUm, topUm, ground);
    return { areaMm2, deviationMm3, money: (areaMm2 / 1e6) * this.#perM2 + carve * (deviationMm3 / 1e9) };
  }

  /** The ground's volume over a height. */
  over(um: number): number {
    const { under } = this.#table;
    return under[under.length - 1] - this.#under(um);
  }

  #layer(lowUm: number, topUm: number, ground: number) {
    const thicknessMm = this.thicknessUm / 1000;
    const { cut } = this.#question;
    if (cut === 'middle') {
      const half = (lowUm + topUm) / 2;
      const areaMm2 = this.#area(this.#table.atLeast, half);
      const lower = this.#under(half) - this.#under(lowUm);
      const deviationMm3 =
        Math.abs(lower - (areaMm2 * thicknessMm) / 2) + Math.abs((areaMm2 * thicknessMm) / 2 - (ground - lower));
      return { areaMm2, deviationMm3 };
    }
    const areaMm2 = cut === 'proud' ? this.#widest(lowUm, topUm) : this.#narrowest(lowUm, topUm);
    return { areaMm2, deviationMm3: Math.abs(areaMm2 * thicknessMm - ground) };
  }

  /** Under an overhang at least what a proud layer covers, whose outline is all that any height of it holds. */
  #widest(lowUm: number, topUm: number): number {
    const { above } = this.#table;
    let area = this.#area(above, lowUm);
    if (!this.#question.mayOverhang) return area;
    for (let i = Math.ceil(lowUm / this.#step); i * this.#step < topUm && i < above.length; i++)
      area = Math.max(area, above[i]);
    return area;
  }

  /** Under an overhang at most what a shy layer fills. */
  #narrowest(lowUm: number, topUm: number): number {
    const { atLeast } = this.#table;
    let area = this.#area(atLeast, topUm);
    if (!this.#question.mayOverhang) return area;
    for (let i = Math.floor(lowUm / this.#step) + 1; i * this.#step <= topUm && i < atLeast.length; i++)
      area = Math.min(area, atLeast[i]);
    return area;
  }

  /** Between two levels of the table areas go evenly. */
  #area(areas: Float64Array, um: number): number {
    const at = um / this.#step;
    const i = Math.floor(at);
    if (i >= areas.length - 1) return i === at && i === areas.length - 1 ? areas[i] : 0;
    return areas[i] + (areas[i + 1] - areas[i]) * (at - i);
  }

  #under(um: number): number {
    const { under, above } = this.#table;
    const at = um / this.#step;
    const i = Math.floor(at);
    if (i >= under.length - 1) return under[under.length - 1];
    const t = at - i;
    return (
      under[i] + (under[i + 1] - under[i]) * t + ((above[i] - above[i + 1]) * (this.#step / 1000) * t * (1 - t)) / 2
    );
  }
}
