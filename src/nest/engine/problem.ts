/**
 * The nouns of the packing engine: what it is given and what it gives. The engine knows outlines, containers and costs, and
 * nothing of foam. Lengths are millimetres, in whose thousandths positions are given; all of it is plain data that
 * structuredClone carries to a worker.
 *
 * How it is used, in this order:
 *   prepareShape (shape.ts)   an outline, prepared once for all copies of it
 *   preview      (preview.ts) a first packing at once: largest first, holes first, then the boards in their order
 *   searchBoards (search.ts)  a walk of rounds whose lanes ask for task `improve`: the best packing under an effort
 *   improve      (improve.ts) that task: one lane of one round; list it in a plugin's `tasks` under this name
 *   stripOf      (strip.ts)   the shortest strip of a fixed width, in rounds of its own with task `shorten`
 */
import type { Box, Ring } from '../../geometry/ring.ts';

/** How a shape stands: hundredths of a degree counter-clockwise, 0 ≤ pose < 36000; 36000 more when mirrored in x before that. */
export type Pose = number;
export const WHOLE_TURN = 36000;

/** A place in a shape's hole where another shape may lie. */
export interface Hole {
  /** What is left of the hole after the gap. */
  readonly areaMm2: number;
  /** Of the largest circle found in it. */
  readonly radius: number;
}

/** An outline to be placed, prepared once (shape.ts). Coordinates are the caller's; its origin is what a placement turns about. */
export interface Shape {
  /** The finished edges, read by even-odd rule. */
  readonly outline: readonly Ring[];
  readonly hull: Ring;
  /** Of the finished outline, holes taken off; of its hull. */
  readonly areaMm2: number;
  readonly hullAreaMm2: number;
  readonly diameterMm: number;
  /** Sides of the smallest rectangle round it. */
  readonly longMm: number;
  readonly shortMm: number;
  /** Radius of the largest circle found inside the finished outline, and not more than that. */
  readonly inradiusMm: number;
  /** The outline that is packed, outer rings counter-clockwise: grown by half the gap and simplified, which only lets it grow. Where two of these do not meet, the gap is kept, in holes too. */
  readonly grown: readonly Ring[];
  readonly halfGapMm: number;
  /** How far beyond half the gap it may reach. 0 where nothing was simplified or rounded. */
  readonly slackMm: number;
  /** Finished edges simplified outward: what must lie inside an odd container. Empty where there is none. */
  readonly bare: readonly Ring[];
  /** Circles inside the grown outline, largest first: x, y, radius. */
  readonly poles: Float64Array;
  readonly holes: readonly Hole[];
  /** Poses to try, promising ones first; of equal ones (a square turned by 90°) only the first. Never empty. */
  readonly poses: readonly Pose[];
  /** Whether turns between those may be taken too. */
  readonly turnsFreely: boolean;
}

/**
 * Where shapes may lie: the inside of a box; or of an outline in it, read by even-odd rule, so that defects and keep-outs are
 * further rings within. Finished edges may touch its edge: a margin is taken off by the caller, and defects grown by him.
 */
export interface Container {
  readonly box: Box;
  /** null when the box is all there is. */
  readonly outline: readonly Ring[] | null;
  readonly areaMm2: number;
}

/** A kind of board that can be bought. */
export interface BoardKind {
  readonly container: Container;
  /** What one costs, at least 0. Where prices are not known: 1, so that only the number counts. */
  readonly cost: number;
  /** What is bought when one is bought: breaks ties of cost and number. */
  readonly grossMm2: number;
  /** How many can be had; null when as many as are needed. */
  readonly count: number | null;
}

/**
 * What to pack. The packing follows from this, in this order, and the seed: a caller that wants the same packing for
 * shuffled input sorts it first.
 */
export interface Problem {
  readonly shapes: readonly Shape[];
  /** The shape of each item. */
  readonly items: readonly number[];
  readonly kinds: readonly BoardKind[];
  /** Containers that are had already, each once and free of cost, in the order in which they are to be used up: saved offcuts, boards already begun. */
  readonly owned: readonly Container[];
  /** Items that lie where they lie (already cut) on owned containers. They are never moved, nor judged against each other. */
  readonly fixed: readonly Fixed[];
  readonly gapMm: number;
}

/** Where an item stands: its own origin, mirrored and turned as its pose says, comes to (x, y). */
export interface Stood {
  readonly item: number;
  readonly pose: Pose;
  /** Whole thousandths of a millimetre, as doubles of that value. */
  readonly x: number;
  readonly y: number;
}

export interface Fixed extends Stood {
  /** The number of the owned container. */
  readonly owned: number;
}

/** A container in use. `stock` is the number of its kind, or −1 − the number of the owned container. */
export interface Packed {
  readonly stock: number;
  readonly stood: readonly Stood[];
}

/** Containers with what stands in them (fixed items too), and the items that found no place. */
export interface Packing {
  readonly boards: readonly Packed[];
  readonly left: readonly number[];
  /** What it costs, the weightiest first; less is better (rank.ts). */
  readonly rank: readonly number[];
}

/** What a piece of work came to. */
export interface Found {
  readonly packing: Packing;
  readonly evaluations: number;
}

/** The area of all that stands on a board. */
export const usedMm2 = ({ shapes, items }: Pick<Problem, 'shapes' | 'items'>, stood: readonly Stood[]): number =>
  stood.reduce((sum, { item }) => sum + shapes[items[item]].areaMm2, 0);

/** The turn of a pose in degrees, and whether it is mirrored. */
export const turnDegOf = (pose: Pose): number => (pose % WHOLE_TURN) / 100;
export const isMirrored = (pose: Pose): boolean => pose >= WHOLE_TURN;

/** The pose of a turn in degrees, to the nearest hundredth. */
export function poseOf(turnDeg: number, mirrored = false): Pose {
  const hundredths = Math.round(turnDeg * 100) % WHOLE_TURN;
  return (hundredths < 0 ? hundredths + WHOLE_TURN : hundredths) + (mirrored ? WHOLE_TURN : 0);
}
