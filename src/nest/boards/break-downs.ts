import { type Box, boxOf, distanceToRings, type Ring } from '../../geometry/ring.ts';
import { snapped } from '../../geometry/snap.ts';
import type { Lying } from './lying.ts';

/** A board is not cut into more parts than these before anything else: who needs more needs another tool. */
const MOST_CUTS = 12;

/** A part of a board: what straight cuts have left of it. */
interface Part {
  readonly box: Box;
  readonly blanks: readonly Rings[];
}

interface Rings {
  readonly rings: readonly Ring[];
  readonly box: Box;
}

/**
 * Straight cuts, square to the board, that no blank crosses, made so that every outline left lies within the bow's throat of an
 * edge; in the order in which they are made. Each time the part that reaches deepest is cut where that leaves the least depth.
 * Fewer or none where there is no such cut between the blanks.
 * @param edges of the whole board
 */
export function breakDowns(
  blanks: readonly Lying[],
  edges: readonly Ring[],
  throatMm: number,
  kerfMm: number,
): Float64Array[] {
  const rings = blanks.map(({ pieces }): Rings => {
    const all = pieces.flatMap(({ region }) => [...region]);
    return { rings: all, box: boxOf(all) };
  });
  const cuts: Float64Array[] = [];
  const parts: Part[] = [{ box: boxOf(edges), blanks: rings }];
  const depthOf = (part: Part, others: readonly Float64Array[] = []) => deepest(part, [...edges, ...cuts, ...others]);
  while (cuts.length < MOST_CUTS) {
    const depths = parts.map((part) => depthOf(part));
    const worst = depths.indexOf(Math.max(...depths));
    if (depths[worst] <= throatMm) break;
    let best:
      | { readonly cut: Float64Array; readonly halves: readonly [Part, Part]; readonly depth: number }
      | undefined;
    for (const { cut, halves } of cutsOf(parts[worst], kerfMm)) {
      const depth = Math.max(...halves.map((half) => depthOf(half, [cut])));
      if (depth < (best?.depth ?? depths[worst])) best = { cut, halves, depth };
    }
    if (!best) break;
    cuts.push(best.cut);
    parts.splice(worst, 1, ...best.halves);
  }
  return cuts;
}

/** How far a corner of some outline is from the nearest edge. */
function deepest({ blanks }: Part, edges: readonly Ring[]): number {
  let deep = 0;
  for (const { rings } of blanks) {
    for (const ring of rings) {
      for (let i = 0; i < ring.length; i += 2) deep = Math.max(deep, distanceToRings(ring[i], ring[i + 1], edges));
    }
  }
  return deep;
}

/** Every lane between the blanks of a part in which a straight cut fits, cut as near the part's middle as the lane allows. */
function* cutsOf({ box, blanks }: Part, kerfMm: number): Generator<{ cut: Float64Array; halves: [Part, Part] }> {
  for (const axis of [0, 1] as const) {
    const [from, to] = [box[axis], box[axis + 2]];
    const sorted = [...blanks].sort((a, b) => a.box[axis] - b.box[axis]);
    let free = from;
    for (const next of [...sorted.map((blank) => blank.box), null]) {
      const until = next ? next[axis] : to;
      if (until - free >= kerfMm) {
        const middle = Math.min(until - kerfMm / 2, Math.max(free + kerfMm / 2, (from + to) / 2));
        const at = snapped(middle);
        if (at > from && at < to) {
          const [low, high] = [
            blanks.filter((blank) => blank.box[axis + 2] <= at),
            blanks.filter((blank) => blank.box[axis] >= at),
          ];
          const cut = axis === 0 ? [at, box[1], at, box[3]] : [box[0], at, box[2], at];
          const [below, above]: Box[] =
            axis === 0
              ? [
                  [box[0], box[1], at, box[3]],
                  [at, box[1], box[2], box[3]],
                ]
              : [
                  [box[0], box[1], box[2], at],
                  [box[0], at, box[2], box[3]],
                ];
          yield {
            cut: Float64Array.from(cut),
            halves: [
              { box: below, blanks: low },
              { box: above, blanks: high },
            ],
          };
        }
      }
      if (next) free = Math.max(free, next[axis + 2]);
    }
  }
}
