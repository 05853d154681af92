import { addBoard, type Field, fieldOf, put } from './field.ts';
import type { Packed, Packing, Problem, Stood } from './problem.ts';
import { rankOf } from './rank.ts';

/** A field with every owned container, in order, and on them the items that lie where they lie. */
export function emptyField(problem: Problem): Field {
  const f = fieldOf(problem.shapes, problem.items);
  for (let k = 0; k < problem.owned.length; k++) addBoard(f, -1 - k, problem.owned[k]);
  for (const { item, owned, pose, x, y } of problem.fixed) {
    put(f, item, owned, pose, x, y);
    f.isFixed[item] = 1;
  }
  return f;
}

/** A field as a packing left it, with the owned containers that it does not use; nothing is noted yet. */
export function fieldFrom(problem: Problem, { boards }: Pick<Packing, 'boards'>): Field {
  const f = emptyField(problem);
  for (const { stock, stood } of boards) {
    const board = stock < 0 ? -1 - stock : addBoard(f, stock, problem.kinds[stock].container);
    for (const { item, pose, x, y } of stood) if (f.isFixed[item] === 0) put(f, item, board, pose, x, y);
  }
  return f;
}

/** What stands on the boards that hold something, as plain data. */
export function boardsOf(f: Field): Packed[] {
  return f.boards.flatMap(({ stock }, board) => {
    const stood: Stood[] = [];
    for (let item = 0; item < f.items.length; item++) {
      if (f.on[item] === board) stood.push({ item, pose: f.postures[item].pose, x: f.x[item], y: f.y[item] });
    }
    return stood.length > 0 ? [{ stock, stood }] : [];
  });
}

/** A field in which all is free, as plain data. */
export function packingOf(problem: Problem, f: Field): Packing {
  const boards = boardsOf(f);
  const left = problem.items.flatMap((_, item) => (f.on[item] < 0 ? [item] : []));
  return { boards, left, rank: rankOf(problem, boards, left.length) };
}
