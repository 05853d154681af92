import { CannotMake, type Fault, refuse } from '../../findings.ts';
import type { Blank } from '../../model/piece.ts';
import type { Stock } from '../../model/stock.ts';
import { numberText } from '../../units.ts';
import type { Group } from './group.ts';
import { pack } from './pack.ts';
import type { Packing } from './packing.ts';
import { posture } from './posture.ts';
import { reach } from './room.ts';

/** Refuse when a piece is of a thickness that no stock has: one fault a thickness. */
export function checkThickness(blanks: readonly Blank[], { boards, offcuts }: Stock): void {
  const offered = [...new Set([...boards, ...offcuts].map(({ thicknessMm }) => thicknessMm))].sort((a, b) => a - b);
  const first = new Map<number, string>();
  for (const { name, thicknessMm } of blanks.flatMap(({ pieces }) => pieces)) {
    if (!offered.includes(thicknessMm) && !first.has(thicknessMm)) first.set(thicknessMm, name);
  }
  const faults = [...first].map(([thicknessMm, name]): Fault => {
    const others = offered.length > 0 ? `, or slice into layers of ${offered.map(mm).join(' or ')}` : '';
    return {
      code: 'nest/no-board-of-thickness',
      message: `Piece ${name} is ${mm(thicknessMm)} thick; there is no board of that thickness.`,
      fix: `Add a board of ${mm(thicknessMm)} to the stock${others}.`,
      where: { piece: name },
    };
  });
  if (faults.length > 0) throw new CannotMake(faults);
}

/** Refuse pieces that fit no board and no offcut of their thickness, each with its size and the board that would do. */
export function checkFits(group: Group, gapMm: number): void {
  const { shapes, items, kinds, offcuts, thicknessMm } = group;
  const places = [...kinds, ...offcuts].map(({ container }) => container);
  const fits = shapes.map((shape) =>
    shape.turnsDeg.some((turnDeg) => places.some((place) => reach(place, posture(shape, turnDeg, gapMm)) !== null)),
  );
  const trimMm = Math.max(0, ...kinds.map(({ stock }) => stock.trimMm));
  const faults = items
    .filter(({ shape }) => !fits[shape])
    .map(({ shape, blank }): Fault => {
      // Whole millimetres, and one in hand: at an odd turn a fit is never exact.
      const [long, short] = [shapes[shape].longMm, shapes[shape].shortMm].map(
        (side) => Math.ceil(side) + 2 * trimMm + 1,
      );
      return {
        code: 'nest/too-large',
        message: `Piece ${namesOf(blank)} measures ${mm(shapes[shape].longMm)} × ${mm(shapes[shape].shortMm)}; no board of ${mm(thicknessMm)} takes it${kinds.length > 0 ? ' once it is trimmed' : ''}.`,
        fix: `Use a board of at least ${mm(long)} × ${mm(short)}, or have the layer divided into smaller pieces.`,
        where: { layer: blank.pieces[0].layer, piece: blank.pieces[0].name },
      };
    });
  if (faults.length > 0) throw new CannotMake(faults);
}

/** Refuse a packing that had to leave pieces out: says how many boards more would do. */
export function refuseLeft(group: Group, { left }: Packing, gapMm: number, seed: number): never {
  const { kinds, items, shapes, thicknessMm, turnsFreely } = group;
  const names = left.map((item) => namesOf(items[item].blank));
  const some = names.length > 5 ? `${names.slice(0, 5).join(', ')} and ${names.length - 5} more` : names.join(', ');
  const unlimited = kinds.map((kind) => ({ ...kind, stock: { ...kind.stock, count: null } }));
  const rest = left.map((item) => items[item].shape);
  const fresh = { round: 0, lane: 0, from: null };
  const walk = pack({ shapes, items: rest, kinds: unlimited, offcuts: [], gapMm, turnsFreely, seed, ...fresh });
  let step = walk.next({ say: 'go', results: [] });
  while (!step.done) step = walk.next({ say: 'go', results: [] });
  const { boards, left: never } = step.value.packing;
  if (never.length > 0) {
    return refuse(
      'nest/offcuts-taken',
      `Pieces ${some} fit only saved offcuts of ${mm(thicknessMm)}, and those are taken.`,
      'Add a larger board to the stock, or have the layers divided into smaller pieces.',
      { piece: items[left[never[0]]].blank.pieces[0].name },
    );
  }
  const had = kinds.reduce((sum, { stock }) => sum + (stock.count ?? 0), 0);
  const more = boards.length;
  return refuse(
    'nest/too-few-boards',
    `${had === 0 ? 'No' : had} ${had === 1 ? 'board' : 'boards'} of ${mm(thicknessMm)} can be had; ${had === 0 ? more : `${more} more`} ${more === 1 ? 'is' : 'are'} needed, for ${some}.`,
    `Raise the count of a board by ${more}${had === 0 ? ', or offer another.' : ', offer another size, or look longer with a greater nest.boards.effort.'}`,
    { piece: items[left[0]].blank.pieces[0].name },
  );
}

const namesOf = ({ pieces }: Blank): string => pieces.map(({ name }) => name).join(' with ');

const mm = (value: number): string => `${numberText(value, 1)} mm`;
