import { boxOf, moved, type Ring } from '../../geometry/ring.ts';
import { type PostGrid, surfaceThrough } from '../../geometry/surface.ts';
import { tidyMm } from '../../model/ground.ts';
import { type Heightfield, heightfield } from '../../model/landform.ts';
import type { Spots } from './doubles.ts';

/** Spots as far beyond the edge as this part of the ground's longer side still bear on it. */
const BEYOND = 0.5;

export interface Laid {
  readonly ground: Heightfield;
  readonly posts: number;
  /** Largest miss, at a place in the coordinates of the ground. */
  readonly worst: { readonly off: number; readonly x: number; readonly y: number };
}

/** Posts at most so far apart that fill a length exactly. */
export const postsIn = (lengthMm: number, spacingMm: number): number =>
  Math.max(2, Math.ceil(lengthMm / spacingMm - 1e-9) + 1);

/**
 * The smooth ground through spots inside an edge, its box moved to (0, 0). Posts stand at most `spacingMm` apart and fill the box
 * exactly. Spots beyond the edge bear on it too, up to half its longer side away. Yields progress.
 */
export function* groundThrough(spots: Spots, edge: Ring, spacingMm: number): Generator<number, Laid> {
  const [minX, minY, maxX, maxY] = boxOf([edge]);
  const columns = postsIn(maxX - minX, spacingMm);
  const rows = postsIn(maxY - minY, spacingMm);
  const stepX = (maxX - minX) / (columns - 1);
  const stepY = (maxY - minY) / (rows - 1);
  const beyondMm = BEYOND * Math.max(maxX - minX, maxY - minY);
  const count = spots.xMm.length;
  const given = new Float64Array(3 * count);
  let [west, east, south, north] = [0, columns - 1, 0, rows - 1];
  for (let i = 0; i < count; i++) {
    const x = spots.xMm[i] - minX;
    const y = spots.yMm[i] - minY;
    given.set([x, y, spots.zMm[i]], 3 * i);
    const isNear = x >= -beyondMm && x <= maxX - minX + beyondMm && y >= -beyondMm && y <= maxY - minY + beyondMm;
    if (!isNear) continue;
    west = Math.min(west, Math.floor(x / stepX));
    // The last post of the ground stands at its edge to the last bit or not: a spot there needs no post more.
    east = Math.max(east, Math.ceil(x / stepX - 1e-9));
    south = Math.min(south, Math.floor(y / stepY));
    north = Math.max(north, Math.ceil(y / stepY - 1e-9));
  }
  // What rounding puts past the outermost post belongs on it.
  for (let i = 0; i < count; i++) {
    given[3 * i] = within(given[3 * i], west * stepX, east * stepX);
    given[3 * i + 1] = within(given[3 * i + 1], south * stepY, north * stepY);
  }
  const across = east - west + 1;
  const grid: PostGrid = {
    ...{ columns: across, rows: north - south + 1, stepX, stepY },
    ...{ originX: west * stepX, originY: south * stepY },
  };
  const { values, worst } = yield* surfaceThrough({ spots: given, lines: [], creases: [], tears: [] }, grid);
  const heightsMm = new Float64Array(columns * rows);
  for (let i = 0; i < heightsMm.length; i++) {
    const at = (Math.floor(i / columns) - south) * across + (i % columns) - west;
    heightsMm[i] = tidyMm(values[at]);
  }
  const whole = heightfield(columns, rows, stepX, stepY, heightsMm);
  const [, , right, top] = boxOf(whole.footprint[0]);
  const ring = moved(edge, -minX, -minY);
  for (let i = 0; i < ring.length; i += 2) {
    ring[i] = within(ring[i], 0, right);
    ring[i + 1] = within(ring[i + 1], 0, top);
  }
  return { ground: { ...whole, footprint: [[ring]] }, posts: across * grid.rows, worst };
}

/** Rounding only: what lies farther out stays there. */
function within(value: number, low: number, high: number): number {
  const slack = 1e-6 * (high - low);
  if (value < low && value > low - slack) return low;
  return value > high && value < high + slack ? high : value;
}
