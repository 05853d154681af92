import { linesInside, offset, subtract, unite } from '../../geometry/clip.ts';
import type { Cells } from '../../geometry/grid-cells.ts';
import { fillNearest } from '../../geometry/grid-fill.ts';
import { distancesFromLines, lineAround } from '../../geometry/line-distance.ts';
import { postsInside } from '../../geometry/posts-inside.ts';
import { boxOf, moved, type Point, type Region, ringsOf } from '../../geometry/ring.ts';
import { SNAP } from '../../geometry/tolerance.ts';
import { groundPosts, tidyMm } from '../../model/ground.ts';
import { groundRunOn } from '../../model/ground-beyond.ts';
import { type Heightfield, heightfield } from '../../model/landform.ts';

export const TAKES = ['highest', 'lowest', 'blend'] as const;

export interface Joining {
  readonly at: Point;
  readonly lift: number;
  readonly take: (typeof TAKES)[number];
  readonly width: number;
}

/** The posts of the joined ground, still in the first's coordinates. */
export interface Lattice {
  readonly columns: number;
  readonly rows: number;
  readonly stepXMm: number;
  readonly stepYMm: number;
  /** Of the first post. */
  readonly firstMm: Point;
  /** Of the joined ground's box. */
  readonly cornerMm: Point;
  /** How many times closer than the first's. */
  readonly finer: number;
}

/** Steps are those of the first ground divided by the least whole number that makes them no wider than the second's. */
export function latticeOf(first: Heightfield, second: Heightfield, at: Point): Lattice {
  const a = boxOf(ringsOf(first.footprint));
  const b = boxOf(ringsOf(second.footprint));
  const x = span(first.originMm[0], first.stepXMm, second.stepXMm, Math.min(0, at[0]), Math.max(a[2], at[0] + b[2]));
  const y = span(first.originMm[1], first.stepYMm, second.stepYMm, Math.min(0, at[1]), Math.max(a[3], at[1] + b[3]));
  return {
    columns: x.count,
    rows: y.count,
    stepXMm: x.step,
    stepYMm: y.step,
    firstMm: [x.from, y.from],
    cornerMm: [Math.min(0, at[0]), Math.min(0, at[1])],
    finer: Math.max(x.finer, y.finer),
  };
}

function span(originMm: number, wideMm: number, closeMm: number, lowMm: number, highMm: number) {
  const finer = Math.max(1, Math.ceil(wideMm / closeMm - 1e-9));
  const step = wideMm / finer;
  const slack = SNAP / step;
  const first = Math.floor((lowMm - originMm) / step + slack);
  const last = Math.max(first + 1, Math.ceil((highMm - originMm) / step - slack));
  return { finer, step, count: last - first + 1, from: tidyMm(originMm + first * step) };
}

/** The ground that either covers, its box moved to (0, 0). Yields its progress. */
export function* joinedField(
  first: Heightfield,
  second: Heightfield,
  lattice: Lattice,
  { at, lift, take, width }: Joining,
): Generator<number, Heightfield> {
  const { columns, rows, stepXMm, stepYMm, firstMm, cornerMm } = lattice;
  const grid = {
    across: columns - 1,
    up: rows - 1,
    stepX: stepXMm,
    stepY: stepYMm,
    originX: firstMm[0],
    originY: firstMm[1],
  };
  const footprintA = first.footprint;
  const footprintB = second.footprint.map((region) => region.map((ring) => moved(ring, at[0], at[1])));
  const heightA = groundRunOn(first);
  const heightB = groundRunOn(second);
  const inA = postsInside(footprintA, grid, SNAP);
  const inB = postsInside(footprintB, grid, SNAP);
  // A post beside both still shapes the cells that an edge cuts: there a ground counts as far as it runs on.
  const reach = Math.max(stepXMm, stepYMm);
  const nearA = postsInside(footprintA, grid, reach);
  const nearB = postsInside(footprintB, grid, reach);
  const share = take === 'blend' ? shareOfSecond(footprintA, footprintB, grid, width) : null;
  const known = new Uint8Array(columns * rows);
  const heightsMm = new Float64Array(columns * rows);
  for (let row = 0; row < rows; row++) {
    const y = firstMm[1] + row * stepYMm;
    for (let column = 0; column < columns; column++) {
      const x = firstMm[0] + column * stepXMm;
      const i = row * columns + column;
      const isBeside = inA[i] === 0 && inB[i] === 0;
      const isA = (isBeside ? nearA : inA)[i] === 1;
      const isB = (isBeside ? nearB : inB)[i] === 1;
      if (!isA && !isB) continue;
      known[i] = 1;
      const a = isA ? heightA(x, y) : 0;
      const b = isB ? heightB(x - at[0], y - at[1]) + lift : 0;
      let height = isA ? a : b;
      if (isA && isB) {
        if (share) height = a + (b - a) * share[i];
        else height = take === 'highest' ? Math.max(a, b) : Math.min(a, b);
      }
      heightsMm[i] = tidyMm(height);
    }
    yield (row + 1) / rows;
  }
  const originMm = [tidyMm(firstMm[0] - cornerMm[0]), tidyMm(firstMm[1] - cornerMm[1])] as const;
  const footprint = either(footprintA, footprintB).map((region) =>
    region.map((ring) => moved(ring, -cornerMm[0], -cornerMm[1])),
  );
  const joined: Heightfield = { kind: 'heightfield', columns, rows, stepXMm, stepYMm, originMm, heightsMm, footprint };
  if (isBox(joined)) return heightfield(columns, rows, stepXMm, stepYMm, heightsMm);
  const posts = groundPosts(joined);
  for (let i = 0; posts && i < known.length; i++) known[i] &= posts[i];
  return { ...joined, heightsMm: fillNearest(heightsMm, known, columns) };
}

/** Whether a ground covers its posts' whole rectangle, but for what clipping rounds. */
function isBox({ columns, rows, stepXMm, stepYMm, originMm, footprint }: Heightfield): boolean {
  const rings = ringsOf(footprint);
  const [width, depth] = [(columns - 1) * stepXMm, (rows - 1) * stepYMm];
  const near = (value: number, wanted: number) => Math.abs(value - wanted) <= SNAP;
  return (
    rings.length === 1 &&
    originMm.every((value) => near(value, 0)) &&
    rings[0].length === 8 &&
    rings[0].every((value, i) => near(value, 0) || near(value, i % 2 === 0 ? width : depth))
  );
}

/** What either covers. The larger stays as it is, every digit of it, when it covers the other. */
function either(a: readonly Region[], b: readonly Region[]): readonly Region[] {
  if (subtract(b, a).length === 0) return a;
  return subtract(a, b).length === 0 ? b : unite([...a, ...b]);
}

/**
 * How much of the second ground counts at each post that both cover: 1 where it is alone or far from its edge, falling to 0
 * at its edge within the first; and 1 again at the first's edge within the second, so that no step is left there either.
 */
function shareOfSecond(a: readonly Region[], b: readonly Region[], grid: Cells, width: number) {
  const rimOf = (of: readonly Region[], within: readonly Region[]) =>
    distancesFromLines(
      linesInside(ringsOf(of).map(lineAround), offset(within, -RIM_MM, { joins: 'miter' })),
      grid,
      width,
    );
  const fromB = rimOf(b, a);
  const fromA = rimOf(a, b);
  return fromB.map((distance, i) => {
    const share = Math.max(Math.min(1, distance / width), 1 - Math.min(1, fromA[i] / width));
    return share * share * (3 - 2 * share);
  });
}

/** Edges nearer to the other's than this run along it: nothing is blended there. */
const RIM_MM = 0.01;
