import type { Plan } from '../../model/plan.ts';
import { type BoardDrawing, drawBoard, sharedOf } from './draw-board.ts';
import { scaledPlan } from './scaled.ts';

interface Drawn {
  readonly from: Plan;
  readonly byScale: Map<number, readonly BoardDrawing[]>;
}

/**
 * Drawings of plans that documents asked for, by their boards: a plan is copied when something is told of it, its boards are
 * not. What is kept depends on nothing but the plan, and goes when the plan goes.
 */
const DRAWN = new WeakMap<Plan['boards'], Drawn>();

/**
 * All boards of a plan, drawn once, whatever number of documents shows them. Yields progress up to `upTo`.
 * @param scale 10 for 1:10
 */
export function* drawnBoards(plan: Plan, scale = 1, upTo = 1): Generator<number, readonly BoardDrawing[]> {
  let drawn = DRAWN.get(plan.boards);
  if (!drawn || !isSame(drawn.from, plan)) DRAWN.set(plan.boards, (drawn = { from: plan, byScale: new Map() }));
  const made = drawn.byScale.get(scale);
  if (made) return made;
  const scaled = scaledPlan(plan, scale);
  const shared = sharedOf(scaled);
  const drawings: BoardDrawing[] = [];
  for (const board of scaled.boards) {
    drawings.push(drawBoard(shared, board));
    yield (upTo * drawings.length) / scaled.boards.length;
  }
  drawn.byScale.set(scale, drawings);
  return drawings;
}

/** Whether two plans with the same boards are drawn the same. */
const isSame = (a: Plan, b: Plan): boolean =>
  a.pieces === b.pieces && a.pins === b.pins && a.facts === b.facts && a.stack === b.stack && a.unit === b.unit;

/** The same at once, for documents whose writer is a promise: those yield no progress. */
export function drawnNow(plan: Plan, scale: number): readonly BoardDrawing[] {
  const walk = drawnBoards(plan, scale);
  for (let step = walk.next(); ; step = walk.next()) if (step.done) return step.value;
}
