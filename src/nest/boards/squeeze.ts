import { turn } from '../../geometry/exact-math.ts';
import { extents } from '../../geometry/hull.ts';
import type { Box } from '../../geometry/ring.ts';
import { ended } from '../../geometry/share.ts';
import {
  type Container,
  isMirrored,
  type Packed,
  type Packing,
  type Problem,
  preview,
  type Stood,
  turnDegOf,
  usedMm2,
} from '../engine/engine.ts';

/** How often the length that is tried is halved in on, and in how many orders each is packed. */
const HALVINGS = 6;
const ORDERS = 3;

/**
 * The packing with its emptiest bought board packed anew along its longer side, as short as is found, so that what is left of
 * that board is one rectangle as large as can be. As it was where it stands as short already. Nothing changes boards.
 */
export function squeezed(problem: Problem, packing: Packing, seed: number): Packing {
  const at = emptiest(problem, packing);
  if (at < 0) return packing;
  const { stock, stood } = packing.boards[at];
  const { box, areaMm2 } = problem.kinds[stock].container;
  const axis = box[2] - box[0] >= box[3] - box[1] ? 0 : 1;
  const items = stood.map(({ item }) => item);
  let best: readonly Stood[] | null = null;
  let low = usedMm2(problem, stood) / (box[3 - axis] - box[1 - axis]);
  let high = reachOf(problem, stood, axis) - box[axis];
  for (let i = 0; i < HALVINGS; i++) {
    const length = (low + high) / 2;
    const shorter: Box =
      axis === 0 ? [box[0], box[1], box[0] + length, box[3]] : [box[0], box[1], box[2], box[1] + length];
    const share = length / (box[axis + 2] - box[axis]);
    const found = packedIn(problem, items, { box: shorter, outline: null, areaMm2: share * areaMm2 }, seed);
    if (found) [best, high] = [found, length];
    else low = length;
  }
  if (best === null) return packing;
  const short: Packed = { stock, stood: best };
  return { ...packing, boards: packing.boards.map((board, i) => (i === at ? short : board)) };
}

/** The number of the emptiest board that is bought and a plain rectangle; −1 for none. */
function emptiest(problem: Problem, { boards }: Packing): number {
  const fills = boards.map(({ stock, stood }) =>
    stock >= 0 && problem.kinds[stock].container.outline === null
      ? usedMm2(problem, stood) / problem.kinds[stock].container.areaMm2
      : Infinity,
  );
  const least = Math.min(...fills);
  return least < Infinity ? fills.indexOf(least) : -1;
}

/** How far things reach along an axis. */
function reachOf({ shapes, items }: Problem, stood: readonly Stood[], axis: 0 | 1): number {
  return stood.reduce((most, { item, pose, x, y }) => {
    // Mirrored in x first: along x that is as far as the hull reaches the other way.
    const { cos, sin } = turn(turnDegOf(pose));
    const flip = isMirrored(pose) ? -1 : 1;
    const [ux, uy] = axis === 0 ? [flip * cos, -sin] : [flip * sin, cos];
    return Math.max(most, extents(shapes[items[item]].hull, ux, uy)[1] + (axis === 0 ? x : y));
  }, -Infinity);
}

/** Some items in one container, in the first order that places them all; null when none does. */
function packedIn(problem: Problem, items: readonly number[], container: Container, seed: number): Stood[] | null {
  const alone: Problem = {
    ...problem,
    items: items.map((item) => problem.items[item]),
    kinds: [],
    owned: [container],
    fixed: [],
  };
  for (let order = 0; order < ORDERS; order++) {
    const { boards, left } = ended(preview(alone, seed, order)).packing;
    if (left.length > 0) continue;
    return boards.flatMap(({ stood }) => stood.map((one) => ({ ...one, item: items[one.item] })));
  }
  return null;
}
