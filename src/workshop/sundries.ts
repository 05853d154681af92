import { boxOf } from '../geometry/ring.ts';
import type { Plan } from '../model/plan.ts';
import { coverOf } from './materials.ts';
import { USUAL_WIRE_MM } from './wire/reckoning.ts';

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

/** Sums of money in hundredths: ten at 14.10 are 141. */
export const cents = (money: number): number => Math.round(money * 100) / 100;

const figure = (of: Figure['of'], value: number): Figure => ({ of, value });

/** What is bought besides foam, with its spares: pins, glue, cover, scrim, coats, paper, wire, safety kit. */
export function sundriesOf(plan: Plan): Sundry[] {
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
      const wet = figure('mass', kg * coverOf(facts.cover).wetTimes);
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
