import type { Field } from './field.ts';

/**
 * What it weighs that a pair meets (guided local search: Voudouris, Tsang, Alsheddy 2010; for packing Umetani et al. 2009):
 * after every sweep heavier for those that meet, the worst most, lighter for all others, never under 1. It is what moves a
 * pair that is stuck. Factors as published by Gardeyn, Vanden Berghe, Wauters 2025.
 */
const GROW_LEAST = 1.2;
const GROW_MOST = 2;
const EASE = 0.95;
/** Weights stay numbers that can be told apart. */
const MOST = 1e6;

/** Adapt all weights to how badly pairs meet now. O(items²), a small part of a sweep. */
export function adaptWeights(f: Field): void {
  const n = f.items.length;
  const { severities, weights, outside, outsideWeights } = f;
  let worst = 0;
  for (let i = 0; i < severities.length; i++) if (severities[i] > worst) worst = severities[i];
  for (let i = 0; i < n; i++) if (outside[i] > worst) worst = outside[i];
  const slope = worst > 0 ? (GROW_MOST - GROW_LEAST) / worst : 0;
  for (let i = 0; i < n; i++) {
    for (let j = 0, at = i * n; j < i; j++, at++) {
      const was = weights[at];
      if (severities[at] === 0 && was === 1) continue;
      const now = adapted(was, severities[at], slope);
      weights[at] = now;
      weights[j * n + i] = now;
    }
    outsideWeights[i] = adapted(outsideWeights[i], outside[i], slope);
  }
}

function adapted(weight: number, severity: number, slope: number): number {
  const now = weight * (severity > 0 ? GROW_LEAST + slope * severity : EASE);
  return now < 1 ? 1 : now > MOST ? MOST : now;
}

export function resetWeights(f: Field): void {
  f.weights.fill(1);
  f.outsideWeights.fill(1);
}
