import { takenMm2 } from './area.ts';
import { Sharing } from './share.ts';
import { type BoundCase, type BoundItem, ceiling } from './terms.ts';

/** Items that may be in a clique: the largest ones. More of them never changed a bound on the sets at hand. */
const MOST_MEMBERS = 90;
/** Overlaps asked for one pair, and for all of them. */
const MOST_PER_PAIR = 6000;
/** Branches of the search for the largest clique before the best so far does. */
const MOST_BRANCHES = 50_000;

/** What conflicts come to: boards by the clique alone, and with the area of the rest. */
export interface CliqueBound {
  readonly pairs: number;
  readonly pairsAndArea: number;
}

/**
 * Bounds by items that cannot share: each of a set of mutually conflicting items has a board of its own; and with the area of
 * the rest, less what may lie beside each of them. At least by area and by the circles inside the items; the outlines
 * themselves are asked (share.ts) as long as `most` questions last. Owned foam takes one of them each.
 */
export function cliqueBound(given: BoundCase, most: number): CliqueBound {
  const { items, boards, owned } = given;
  if (items.length === 0 || boards.length === 0) return { pairs: 0, pairsAndArea: 0 };
  const places = roomiest([...boards, ...owned]);
  const taken = takenMm2(items);
  const largest = items.map((_, i) => i).sort((a, b) => taken[b] - taken[a] || a - b);
  const members = largest.slice(0, MOST_MEMBERS);
  const boardMm2 = Math.max(...places.map(({ areaMm2 }) => areaMm2));
  const sharing = new Sharing();
  const known = new Map<string, boolean>();
  const conflict = (a: number, b: number): boolean => {
    const [one, other] = [items[a], items[b]];
    if (taken[a] + taken[b] > boardMm2 * (1 + 1e-9) || circlesConflict(one, other, places)) return true;
    if (sharing.asked >= most) return false;
    const key = one.shape < other.shape ? `${one.shape}/${other.shape}` : `${other.shape}/${one.shape}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    const found = places.every(({ widthMm, heightMm }) =>
      sharing.conflict(one, other, widthMm, heightMm, Math.min(MOST_PER_PAIR, most - sharing.asked)),
    );
    known.set(key, found);
    return found;
  };
  const edges = members.map((a, i) => members.map((b, j) => (j < i ? conflict(a, b) : false)));
  const areTied = (i: number, j: number) => (i === j ? false : edges[Math.max(i, j)][Math.min(i, j)]);
  const clique = largestClique(members.length, areTied);
  const pairs = Math.max(0, clique.length - owned.length);
  let pairsAndArea = pairs;
  // A smaller clique may do more with the rest: each beginning of it, its largest members first.
  const chosen = new Set<number>();
  let room = 0;
  for (const at of [...clique].sort((i, j) => i - j)) {
    chosen.add(at);
    // The same for every beginning: the others of the clique never lie beside it.
    const beside = largest.reduce(
      (area, i, j) => (j === at || (j < members.length && areTied(at, j)) ? area : area + taken[i]),
      0,
    );
    room += Math.min(Math.max(0, boardMm2 - taken[members[at]]), beside);
    const rest = largest.reduce((sum, i, j) => (chosen.has(j) ? sum : sum + taken[i]), 0);
    const byArea = Math.max(0, ceiling((rest - room) / boardMm2));
    pairsAndArea = Math.max(pairsAndArea, chosen.size + byArea - owned.length);
  }
  return { pairs, pairsAndArea };
}

interface Place {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly areaMm2: number;
}

/** The places that lie in no other of them. */
const roomiest = (places: readonly Place[]): Place[] =>
  places.filter(
    (one, i) =>
      !places.some(
        (other, j) =>
          i !== j &&
          one.widthMm <= other.widthMm &&
          one.heightMm <= other.heightMm &&
          one.areaMm2 <= other.areaMm2 &&
          (j < i || one.widthMm < other.widthMm || one.heightMm < other.heightMm || one.areaMm2 < other.areaMm2),
      ),
  );

/** Whether a circle inside each is enough: side by side along the diagonal they are still too large for every place. */
const circlesConflict = (a: BoundItem, b: BoundItem, places: readonly Place[]): boolean =>
  places.every(({ widthMm, heightMm }) => {
    const radii = a.inradiusMm + b.inradiusMm;
    const [across, up] = [Math.max(0, widthMm - radii), Math.max(0, heightMm - radii)];
    return across * across + up * up < radii * radii * (1 - 1e-9);
  });

/** The largest set of which all are tied to each other: branch and bound with colours as the bound (Tomita, Seki 2003). */
function largestClique(count: number, areTied: (i: number, j: number) => boolean): number[] {
  const degree = Array.from({ length: count }, (_, i) =>
    Array.from({ length: count }, (_, j) => Number(areTied(i, j))).reduce((sum, tied) => sum + tied, 0),
  );
  let best: number[] = [];
  let branches = 0;
  const grow = (chosen: number[], open: readonly number[]): void => {
    if (chosen.length > best.length) best = [...chosen];
    if (branches++ > MOST_BRANCHES) return;
    const coloured = colours(open, areTied);
    for (let k = coloured.length - 1; k >= 0; k--) {
      const { vertex, colour } = coloured[k];
      if (chosen.length + colour <= best.length) return;
      const before = coloured.slice(0, k).map((each) => each.vertex);
      grow(
        [...chosen, vertex],
        before.filter((other) => areTied(vertex, other)),
      );
    }
  };
  grow(
    [],
    Array.from({ length: count }, (_, i) => i).sort((a, b) => degree[b] - degree[a] || a - b),
  );
  return best;
}

/** Greedy colours, from 1, in rising order: no clique within the first k colours has more than k members. */
function colours(open: readonly number[], areTied: (i: number, j: number) => boolean) {
  const classes: number[][] = [];
  for (const vertex of open) {
    const fitting = classes.find((members) => members.every((other) => !areTied(vertex, other)));
    if (fitting) fitting.push(vertex);
    else classes.push([vertex]);
  }
  return classes.flatMap((members, i) => members.map((vertex) => ({ vertex, colour: i + 1 })));
}
