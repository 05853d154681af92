import type { Found, Problem } from './problem.ts';

/**
 * A first packing at once: the largest first, each in a hole of what stands, else in the first container that takes it. Same
 * problem, same seed: same bytes. Yields its progress, 0…1, after each item.
 */
export declare function preview(problem: Problem, seed: number): Generator<number, Found>;
