import { CannotMake, type Fault, type Finding, refuse } from '../../findings.ts';
import { regionsFromRings } from '../../geometry/clip.ts';
import { areaOf, type Box, boxOf, placed, regionArea } from '../../geometry/ring.ts';
import { ended } from '../../geometry/share.ts';
import type { PieceRule } from '../../model/facts.ts';
import type { Blank } from '../../model/piece.ts';
import type { Stock } from '../../model/stock.ts';
import { numberText } from '../../units.ts';
import { type Packing, type Problem, preview } from '../engine/engine.ts';
import type { Group } from './group.ts';
import { fitsBox } from './places.ts';

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

/** Refuse pieces that enclose nothing: nobody can cut them. */
export function checkArea(blanks: readonly Blank[]): void {
  const faults = blanks.flatMap(({ pieces }) =>
    pieces
      // Clipping is asked only where the plain sum does not show it: a bow tie's halves cancel out.
      .filter(({ region }) => !(Math.abs(regionArea(region)) > 1) && !(areaOf(regionsFromRings(region)) > 0))
      .map(
        ({ name, layer }): Fault => ({
          code: 'nest/no-area',
          message: `Piece ${name} encloses no area.`,
          fix: 'Its outline lies all on a line, or runs back over itself: have the layer divided otherwise.',
          where: { layer, piece: name },
        }),
      ),
  );
  if (faults.length > 0) throw new CannotMake(faults);
}

/** Refuse pieces that fit no board and no offcut of their thickness, each with its size and the board that would do. */
export function checkFits({ items, kinds, owned, problem: { shapes }, thicknessMm }: Group): void {
  const boxes: Box[] = [...kinds, ...owned].map(({ container }) => container.box);
  const fits = shapes.map((shape) => boxes.some((box) => fitsBox(shape, box)));
  const trimMm = Math.max(0, ...kinds.map(({ board }) => board.trimMm));
  const faults = items
    .filter(({ shape, held }) => !fits[shape] && held === null)
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
export function refuseLeft(group: Group, { left }: Packing, seed: number): never {
  const { kinds, items, problem, thicknessMm } = group;
  const names = left.map((item) => namesOf(items[item].blank));
  const some = names.length > 5 ? `${names.slice(0, 5).join(', ')} and ${names.length - 5} more` : names.join(', ');
  const unlimited: Problem = {
    ...problem,
    items: left.map((item) => items[item].shape),
    kinds: problem.kinds.map((kind) => ({ ...kind, count: null })),
    owned: [],
    fixed: [],
  };
  const { boards, left: never } = ended(preview(unlimited, seed)).packing;
  if (never.length > 0) {
    const { blank, shape } = items[left[never[0]]];
    const { longMm, shortMm } = problem.shapes[shape];
    const isOffered = group.owned.length > 0;
    return refuse(
      isOffered ? 'nest/offcuts-taken' : 'nest/no-room',
      isOffered
        ? `Pieces ${some} fit only saved offcuts of ${mm(thicknessMm)}, and those are taken.`
        : `No room was found for ${some} on boards of ${mm(thicknessMm)}: patches that are kept out of leave too little.`,
      `Add a board of at least ${mm(Math.ceil(longMm) + 1)} × ${mm(Math.ceil(shortMm) + 1)} to the stock, or have the layers divided into smaller pieces.`,
      { piece: blank.pieces[0].name },
    );
  }
  const had = kinds.reduce((sum, { board }) => sum + (board.count ?? 0), 0);
  const more = boards.length;
  return refuse(
    'nest/too-few-boards',
    `${had === 0 ? 'No' : had} ${had === 1 ? 'board' : 'boards'} of ${mm(thicknessMm)} can be had; ${had === 0 ? more : `${more} more`} ${more === 1 ? 'is' : 'are'} needed, for ${some}.`,
    `Raise the count of a board by ${more}${had === 0 ? ', or offer another.' : ', offer another size, or look longer with a greater nest.boards.effort.'}`,
    { piece: items[left[0]].blank.pieces[0].name },
  );
}

/** Refuse a piece that is held where no board is: nobody can have cut it there. */
export function checkHeld({ items, owned, problem }: Group): void {
  const faults = problem.fixed.flatMap(({ item, owned: on }): Fault[] => {
    const { blank, held } = items[item];
    if (!held) return [];
    const [minX, minY, maxX, maxY] = boxOf(
      blank.pieces.flatMap(({ region }) => region.map((ring) => placed(ring, held))),
    );
    const { board, offcut } = { board: null, offcut: null, ...owned[on].of };
    const [width, height] = board ? board.sizeMm : boxOf(offcut?.rings ?? []).slice(2);
    if (minX >= -HELD_OFF_MM && minY >= -HELD_OFF_MM && maxX <= width + HELD_OFF_MM && maxY <= height + HELD_OFF_MM)
      return [];
    const { name } = blank.pieces[0];
    return [
      {
        code: 'nest/held-outside',
        message: `Piece ${name} is held at ${mm(held.xMm)}, ${mm(held.yMm)} on board ${held.board}, where it reaches beyond the board.`,
        fix: 'Copy xMm, yMm, turnDeg and mirrored from the plan.json by which it was cut.',
        where: { piece: name, path: `pieces.${name}.held` },
      },
    ];
  });
  if (faults.length > 0) throw new CannotMake(faults);
}

/** How far beyond the board a piece may lie that is cut already: less than anybody measures. */
const HELD_OFF_MM = 0.5;

/** Rules for pieces that there are none of. */
export function strangers(rules: readonly PieceRule[], blanks: readonly Blank[]): Finding[] {
  const names = new Set(blanks.flatMap(({ pieces }) => pieces.map(({ name }) => name)));
  return rules
    .filter(({ piece }) => !names.has(piece))
    .map(({ piece, held }) => ({
      level: held ? 'stop' : 'watch',
      code: 'nest/no-such-piece',
      message: `The job says ${held ? 'where piece' : 'how piece'} ${piece} ${held ? 'lies' : 'may be turned'}, and there is no such piece.`,
      fix: held
        ? 'What was cut is of another division: nest all pieces anew, or build as it was built then.'
        : 'Take it out of pieces, or write the name as the cut list has it.',
      where: { path: `pieces.${piece}` },
    }));
}

const namesOf = ({ pieces }: Blank): string => pieces.map(({ name }) => name).join(' with ');

const mm = (value: number): string => `${numberText(value, 1)} mm`;
