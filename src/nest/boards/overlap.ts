import type { Posture } from './posture.ts';
import { clash, type Room, type Standing, type Tally } from './room.ts';

/** Values published with the method. Depths under this share of the larger diameter fade out smoothly with distance in place of ending at nought. */
const FADE = 0.01;

/**
 * How badly two postures overlap, the second moved by (dx, dy): from the circles inside each, weighed by their sizes
 * (Gardeyn, Vanden Berghe, Wauters 2025, arXiv 2509.13329). Always above 0, and it falls as they part; to be asked only
 * where they do overlap, so that it ends at nought where they are free.
 */
export function severity(a: Posture, b: Posture, dx: number, dy: number): number {
  const fade = FADE * Math.max(a.shape.diameterMm, b.shape.diameterMm);
  const some = a.poles();
  const others = b.poles();
  let sum = fade * fade;
  for (let i = 0; i < some.length; i += 3) {
    const radius = some[i + 2];
    for (let j = 0; j < others.length; j += 3) {
      const ux = others[j] + dx - some[i];
      const uy = others[j + 1] + dy - some[i + 1];
      const depth = radius + others[j + 2] - Math.sqrt(ux * ux + uy * uy);
      const faded = depth >= fade ? depth : (fade * fade) / (2 * fade - depth);
      sum += faded * Math.min(radius, others[j + 2]);
    }
  }
  return Math.sqrt(sum * Math.sqrt(a.shape.hullAreaMm2 * b.shape.hullAreaMm2));
}

/** Two items that overlap, and how badly. */
export interface Pair {
  readonly a: number;
  readonly b: number;
  readonly severity: number;
}

/** How much heavier an overlap weighs after a sweep, at least and at most, and how much lighter a pair that is free. */
const GROW_LEAST = 1.2;
const GROW_MOST = 2;
const EASE = 0.95;

/** A weight for every pair of items, at least 1: what keeps overlapping weighs more and more. */
export class PairWeights {
  readonly #items: number;
  readonly #weights: Float64Array;
  #raised: readonly number[] = [];

  constructor(items: number) {
    this.#items = items;
    this.#weights = new Float64Array(items * items).fill(1);
  }

  of(a: number, b: number): number {
    return this.#weights[a * this.#items + b];
  }

  /** After a sweep: heavier for the pairs that overlap, the worst most; lighter for all others. */
  adapt(pairs: readonly Pair[]): void {
    const worst = pairs.reduce((most, pair) => Math.max(most, pair.severity), 0);
    const factor = (severity: number) => GROW_LEAST + ((GROW_MOST - GROW_LEAST) * severity) / worst;
    const grown = new Map<number, number>();
    for (const { a, b, severity } of pairs) {
      const weight = this.of(a, b) * factor(severity);
      grown.set(a * this.#items + b, weight).set(b * this.#items + a, weight);
    }
    for (const at of this.#raised) this.#weights[at] = Math.max(1, this.#weights[at] * EASE);
    for (const [at, weight] of grown) this.#weights[at] = weight;
    this.#raised = [...new Set([...this.#raised.filter((at) => this.#weights[at] > 1), ...grown.keys()])];
  }
}

/** The weighted overlap of an item that would stand so, with all else in a room; Infinity as soon as it reaches `limit`. */
export function loadAt(room: Room, one: Standing, weights: PairWeights, limit: number, tally: Tally): number {
  tally.evaluations++;
  const { item, posture, x, y } = one;
  let sum = 0;
  for (const other of room.standing) {
    if (other.item === item || !clash(other, posture, x, y)) continue;
    sum += weights.of(item, other.item) * severity(other.posture, posture, x - other.x, y - other.y);
    if (sum >= limit) return Infinity;
  }
  return sum;
}

/** All that overlap in some rooms. */
export function overlapsIn(rooms: readonly Room[]): Pair[] {
  const found: Pair[] = [];
  for (const { standing } of rooms) {
    for (let i = 1; i < standing.length; i++) {
      const { posture, x, y, item } = standing[i];
      for (let j = 0; j < i; j++) {
        const other = standing[j];
        if (!clash(other, posture, x, y)) continue;
        const bad = severity(other.posture, posture, x - other.x, y - other.y);
        found.push({ a: other.item, b: item, severity: bad });
      }
    }
  }
  return found;
}
