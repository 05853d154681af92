import type { Finding } from '../../findings.ts';
import type { HeightTable } from '../../geometry/height-table.ts';
import { boardThickness, oneThickness, whichBoard } from '../../model/board-thickness.ts';
import type { Landform } from '../../model/landform.ts';
import type { Context, Walk } from '../../plugin.ts';
import { numberText } from '../../units.ts';
import {
  alone,
  areaOfKind,
  bestStack,
  type Kind,
  type Question,
  type Standing,
  stepUm,
  tableLevelsMm,
  worthTrying,
} from './best.ts';
import { byHeight } from './by-height.ts';
import { bounded, type Cut, thicknessesUpTo } from './levels.ts';
import { bestWithin } from './scarce.ts';
import { heldBack, tooFewBoards } from './scarce-told.ts';
import { mm, runsText } from './stack-text.ts';

/** What a job says of the boards of its layers. */
export interface Said {
  readonly thickness?: number | readonly number[] | 'best';
  readonly carve?: number;
  readonly lay?: number;
}

type Told = Pick<Context<'slice'>, 'facts' | 'tell'>;

const BOARDS = {
  path: 'slice.layers.thickness',
  each: 'layer',
  fix: 'Say which the layers are cut from: slice: { layers: { thickness: … } }, one, a list from the ground up, or best.',
};
/** Shaving foam off takes about this many times what the foam costs, where the job does not say (common practice, no source). */
const CARVE_TIMES = 3;
/** Stacks of one kind are told of, for comparison, where there are at most so many kinds. */
const MOST_TOLD = 4;

/** The thickness of each layer from the ground up, as far as the ground reaches into them. */
export function* layerThicknesses(
  landform: Landform,
  highMm: number,
  cut: Cut,
  said: Said,
  { facts, tell }: Told,
): Walk<number[]> {
  const { thickness } = said;
  if (thickness === 'best') {
    if (facts.thicknessesMm.length === 0) return whichBoard([], BOARDS);
    bounded(highMm, facts.thicknessesMm[0], 'slice.layers');
    return yield* best(landform, highMm, cut, said, { facts, tell });
  }
  if (Array.isArray(thickness)) {
    const listMm = thickness.map((each, i) => boardThickness(each, facts, `slice.layers.thickness.${i}`));
    bounded(highMm, Math.min(...listMm), 'slice.layers');
    return thicknessesUpTo(highMm, listMm);
  }
  const oneMm = oneThickness(thickness as number | undefined, facts, BOARDS);
  bounded(highMm, oneMm, 'slice.layers');
  return thicknessesUpTo(highMm, [oneMm]);
}

/** Tell where a list of thicknesses is shorter than the stack, or longer. */
export function tellList({ thickness }: Said, layers: number, tell: Context['tell']): void {
  if (!Array.isArray(thickness)) return;
  if (thickness.length < layers) tell(repeated(thickness, layers));
  if (thickness.length > layers) tell(unused(thickness.slice(layers), layers));
}

function* best(
  landform: Landform,
  highMm: number,
  cut: Cut,
  { carve, lay }: Said,
  { facts, tell }: Told,
): Walk<number[]> {
  const isPriced = facts.boardPrices.every(({ pricePerM2 }) => pricePerM2 !== null);
  const all = facts.boardPrices.map(({ thicknessMm, pricePerM2 }) => ({
    thicknessMm,
    pricePerM2: isPriced ? (pricePerM2 ?? 0) : 0,
  }));
  const usual = usualMoney(all, isPriced);
  const question: Question = {
    kinds: worthTrying(all, highMm),
    highMm,
    cut,
    carve: carve ?? usual.carve,
    lay: lay ?? usual.lay,
    mayOverhang: landform.kind === 'solid',
  };
  const step = stepUm(question);
  const table = yield* byHeight(landform, tableLevelsMm(step, highMm));
  const free = bestStack(question, table, step);
  if (free.thicknessesMm.length === 0) return thicknessesUpTo(highMm, [question.kinds[0].thicknessMm]);
  const onHandMm2 = question.kinds.map(({ thicknessMm }) => {
    const onHandM2 = facts.boardPrices.find((each) => each.thicknessMm === thicknessMm)?.onHandM2 ?? null;
    return onHandM2 === null ? Infinity : onHandM2 * 1e6;
  });
  const within = bestWithin(question, table, step, onHandMm2, free);
  const chosen = within?.chosen ?? free;
  if (within === null) tell(tooFewBoards(free, question, onHandMm2));
  else if (within.heldBack.length > 0) tell(heldBack(within, free, question, onHandMm2));
  if (all.length > 1) tell(chosenStack(chosen, question, table, step, isPriced));
  return [...chosen.thicknessesMm];
}

/** What carving and laying count for where the job does not say: by the foam's own price; without prices, deviation alone. */
function usualMoney(kinds: readonly Kind[], isPriced: boolean) {
  if (!isPriced) return { carve: 1, lay: 0 };
  const perM3 = kinds.map(({ thicknessMm, pricePerM2 }) => (1000 * pricePerM2) / thicknessMm);
  return { carve: CARVE_TIMES * Math.min(...perM3), lay: Math.min(...kinds.map(({ pricePerM2 }) => pricePerM2)) };
}

const m3Text = (mm3: number): string => `${numberText(mm3 / 1e9, 4)} m³`;

const endsText = (overMm: number): string =>
  Math.abs(overMm) < 0.05
    ? 'ends at the highest ground'
    : `ends ${numberText(Math.abs(overMm), 1)} mm ${overMm > 0 ? 'over' : 'below'} it`;

function chosenStack(
  chosen: Standing,
  question: Question,
  table: HeightTable,
  step: number,
  isPriced: boolean,
): Finding {
  const { kinds } = question;
  const areas = kinds
    .filter(({ thicknessMm }) => chosen.thicknessesMm.includes(thicknessMm))
    .map((kind) => `${numberText(areaOfKind(chosen, kind) / 1e6, 2)} m² of ${mm(kind.thicknessMm)}`);
  const others = kinds
    .map((_, kind) => alone(question, table, step, kind))
    .filter(({ boards: _, ...each }) => each.thicknessesMm.length > 0);
  const told = others.length <= MOST_TOLD ? others : [...others].sort((a, b) => a.money - b.money).slice(0, 1);
  const money = (each: Standing) => (isPriced ? `, ${numberText(each.boards, 2)} in foam` : '');
  const compared = told.map(
    (each) =>
      `${mm(each.thicknessesMm[0])} alone: ${m3Text(each.deviationMm3)}${money(each)}, ${endsText(each.overMm)}`,
  );
  return {
    level: 'note',
    code: 'slice/chosen-stack',
    message: `Chosen from the ground up: ${runsText(chosen.thicknessesMm)} (${areas.join(', ')}). Between foam and ground ${m3Text(chosen.deviationMm3)}${money(chosen)}, ${endsText(chosen.overMm)}. ${compared.join('; ')}.${isPriced ? '' : ' A price is missing, so deviation alone counted.'}`,
    fix: `To keep this stack when prices change, say thickness: [${chosen.thicknessesMm.map((each) => numberText(each)).join(', ')}]; carve and lay say what the work counts for.`,
    where: { path: 'slice.layers.thickness' },
  };
}

const repeated = (listMm: readonly number[], layers: number): Finding => ({
  level: 'note',
  code: 'slice/repeated-thickness',
  message: `The ground is higher than the ${listMm.length} thicknesses said reach: ${mm(listMm[listMm.length - 1])} is used again, for ${layers === listMm.length + 1 ? `layer ${layers}` : `layers ${listMm.length + 1} to ${layers}`}.`,
  fix: 'Say more thicknesses, or leave it so.',
  where: { path: 'slice.layers.thickness' },
});

const unused = (leftMm: readonly number[], layers: number): Finding => ({
  level: 'note',
  code: 'slice/unused-thickness',
  message: `The stack ends with layer ${layers}: ${leftMm.map(mm).join(', ')} of the thicknesses said ${leftMm.length === 1 ? 'is' : 'are'} not used.`,
  fix: 'Take them off the end of the list, or make the ground taller.',
  where: { path: 'slice.layers.thickness' },
});
