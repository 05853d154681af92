import { takenMm2 } from './area.ts';
import { type BoundCase, ceiling } from './terms.ts';

/** Denominators of the rounding functions: beyond some ten they no longer differ from plain area. */
const MOST_DENOMINATOR = 10;

/**
 * A bound by dual-feasible functions of area: any function u of 0…1 for which shares that add up to no more than 1 come to no
 * more than 1 after it, too. First the thresholds of Martello and Toth's L2 (1990): what is over 1 − ε counts as a board, what
 * is under ε as nothing; then the rounding of Fekete and Schepers (2001, arXiv cs/0402044, u^(k)). Both are monotone, so areas
 * that are not more than the truth give no more than the truth. Owned foam no larger than a board is worth one at most.
 * O(n² × denominators). Where it is better than area, one hole or half a board decides; on strip pieces it never was.
 */
export function dualFeasibleBound({ items, boards, owned }: BoundCase): number {
  const boardMm2 = Math.max(0, ...boards.map(({ areaMm2 }) => areaMm2));
  if (boardMm2 === 0 || owned.some(({ areaMm2 }) => areaMm2 > boardMm2)) return 0;
  const shares = takenMm2(items).map((area) => Math.min(1, area / boardMm2));
  let most = 0;
  for (const least of new Set([0, ...shares.filter((share) => share <= 0.5)])) {
    const kept = shares.map((share) => (share > 1 - least + 1e-9 ? 1 : share < least ? 0 : share));
    most = Math.max(most, sum(kept));
    for (let k = 1; k <= MOST_DENOMINATOR; k++) most = Math.max(most, sum(kept.map((share) => rounded(share, k))));
  }
  return Math.max(0, ceiling(most) - owned.length);
}

/** u^(k): a share that is a whole number of (k + 1)ths stays, any other falls to the kths below it. */
function rounded(share: number, k: number): number {
  const parts = share * (k + 1);
  return Math.abs(parts - Math.round(parts)) < 1e-9
    ? Math.min(share, Math.round(parts) / (k + 1))
    : Math.floor(parts) / k;
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
