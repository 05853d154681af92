import { type Random, stream } from '../../geometry/random.ts';
import { addBoard, type Board, type Field } from './field.ts';
import { emptyField, packingOf } from './packing.ts';
import { placeInHole, placeOn, type Rule } from './place.ts';
import type { BoardKind, Found, Problem, Shape } from './problem.ts';

/** What is placed first, and where things go. No order and no rule is best everywhere. */
interface Start {
  readonly weight: (shape: Shape) => number;
  readonly rule: Rule;
  /** Whether a new board is the best buy by area; else the cheapest. */
  readonly byArea: boolean;
}

export const STARTS: readonly Start[] = [
  { weight: (s) => s.hullAreaMm2 * s.diameterMm, rule: { across: 1, up: 0.15 }, byArea: true },
  { weight: (s) => s.longMm, rule: { across: 1, up: 0.9 }, byArea: true },
  { weight: (s) => s.areaMm2, rule: { across: 1, up: 0.4 }, byArea: false },
  { weight: (s) => s.shortMm * s.shortMm * s.longMm, rule: { across: 0.15, up: 1 }, byArea: false },
];

/**
 * A first packing at once: the largest first, each in a hole of what stands, else in the first container that takes it. Same
 * problem, same seed: same bytes. Yields its progress, 0…1, after each item.
 * @param start which of STARTS; the first is the best more often than any other
 */
export function* preview(problem: Problem, seed: number, start = 0): Generator<number, Found> {
  const f = emptyField(problem);
  const random = stream(seed, 'preview', start);
  const waiting = inOrder(f, start).filter((item) => f.on[item] < 0);
  for (let done = 0; done < waiting.length; ) {
    place(problem, f, waiting[done], start, random);
    yield ++done / waiting.length;
  }
  cheapen(problem, f);
  return { packing: packingOf(problem, f), evaluations: f.evaluations };
}

/** All items, heaviest first; a tie goes to the one that comes first. */
export function inOrder(f: Field, start = 0): number[] {
  const weights = f.shapes.map(STARTS[start].weight);
  return f.items.map((_, item) => item).sort((a, b) => weights[f.items[b]] - weights[f.items[a]] || a - b);
}

/** Find a free place for an item: in a hole, on the boards in their order, on a new board. False when there is none. */
export function place(problem: Problem, f: Field, item: number, start: number, random: Random): boolean {
  const { rule, byArea } = STARTS[start];
  // A share less than all, so that what fits exactly is not lost to rounding.
  const needed = f.shapes[f.items[item]].areaMm2 * (1 - 1e-9);
  const { boards } = f;
  for (let b = 0; b < boards.length; b++) if (placeInHole(f, item, b, random)) return true;
  for (let b = 0; b < boards.length; b++) {
    if (boards[b].areaMm2 - boards[b].usedMm2 >= needed && placeOn(f, item, b, rule, random)) return true;
  }
  const worth = (kind: number) => problem.kinds[kind].cost / (byArea ? problem.kinds[kind].container.areaMm2 : 1);
  for (const kind of kindsToHave(problem, boards).sort((a, b) => worth(a) - worth(b) || a - b)) {
    const board = addBoard(f, kind, problem.kinds[kind].container);
    if (placeOn(f, item, board, rule, random)) return true;
    f.boards.pop();
  }
  return false;
}

/** Kinds of which another board can be had. */
export const kindsToHave = ({ kinds }: Problem, boards: readonly Pick<Board, 'stock' | 'count'>[]): number[] =>
  kinds.flatMap(({ count }, kind) =>
    count === null || boards.filter(({ stock, count: on }) => stock === kind && on > 0).length < count ? [kind] : [],
  );

/** Whether one kind of board is cheaper than another, or smaller at the same cost. */
export const isCheaper = (one: BoardKind, other: BoardKind): boolean =>
  one.cost < other.cost || (one.cost === other.cost && one.grossMm2 < other.grossMm2);

/** Change boards for cheaper ones, or smaller ones of the same cost, on which all stands as it stands. */
export function cheapen(problem: Problem, f: Field): void {
  const { kinds } = problem;
  for (let b = 0; b < f.boards.length; b++) {
    const { stock, count, items, odd } = f.boards[b];
    if (stock < 0 || count === 0 || odd !== null) continue;
    const better = kindsToHave(problem, f.boards)
      .filter((k) => kinds[k].container.outline === null)
      .filter((k) => isCheaper(kinds[k], kinds[stock]))
      .sort((i, k) => kinds[i].cost - kinds[k].cost || kinds[i].grossMm2 - kinds[k].grossMm2 || i - k)
      .find((k) => {
        const [minX, minY, maxX, maxY] = kinds[k].container.box;
        for (let i = 0; i < count; i++) {
          const item = items[i];
          const p = f.postures[item];
          if (f.x[item] + p.left < minX || f.x[item] + p.right > maxX) return false;
          if (f.y[item] + p.low < minY || f.y[item] + p.high > maxY) return false;
        }
        return true;
      });
    if (better === undefined) continue;
    const [minX, minY, maxX, maxY] = kinds[better].container.box;
    const { areaMm2 } = kinds[better].container;
    f.boards[b] = { ...f.boards[b], stock: better, minX, minY, maxX, maxY, areaMm2 };
  }
}
