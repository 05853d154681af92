import type { Box, Region } from '../geometry/ring.ts';
import type { Line } from './page.ts';

/** Finds room for upright boxes between what is drawn already: a raster, so that any box costs the same to try. */
export interface FreeRoom {
  /** Take the inside of regions (page space, even-odd). */
  takeRegion(region: Region): void;
  takeLines(lines: readonly Line[]): void;
  takeBox(box: Box): void;
  /** The top left corner of a free box of this size, the lowest on the page and then the rightmost; or null. */
  find(width: number, height: number): readonly [x: number, y: number] | null;
  /** Top left corners of free boxes of this size, the nearest to a point first: at most `most`, spread over the page. */
  near(width: number, height: number, x: number, y: number, most: number): readonly (readonly [x: number, y: number])[];
}

/** Start with a free page. `cell`: how fine the raster is; a cell that is touched is taken whole. */
export function freeRoom(width: number, height: number, cell: number): FreeRoom {
  const columns = Math.ceil(width / cell);
  const rows = Math.ceil(height / cell);
  const taken = new Uint8Array(columns * rows);
  const columnAt = (x: number) => Math.max(0, Math.min(columns - 1, Math.floor(x / cell)));
  const rowAt = (y: number) => Math.max(0, Math.min(rows - 1, Math.floor(y / cell)));

  function takeBox([minX, minY, maxX, maxY]: Box) {
    for (let row = rowAt(minY); row <= rowAt(maxY); row++) {
      taken.fill(1, row * columns + columnAt(minX), row * columns + columnAt(maxX) + 1);
    }
  }

  function takeSegment(ax: number, ay: number, bx: number, by: number) {
    // In steps of half a cell; the boxes of the steps overlap, so no touched cell is missed by more than a corner.
    const steps = Math.max(1, Math.ceil((2 * Math.max(Math.abs(bx - ax), Math.abs(by - ay))) / cell));
    for (let i = 0; i < steps; i++) {
      const x0 = ax + ((bx - ax) * i) / steps;
      const y0 = ay + ((by - ay) * i) / steps;
      const x1 = ax + ((bx - ax) * (i + 1)) / steps;
      const y1 = ay + ((by - ay) * (i + 1)) / steps;
      takeBox([Math.min(x0, x1), Math.min(y0, y1), Math.max(x0, x1), Math.max(y0, y1)]);
    }
  }

  function takeLines(lines: readonly Line[]) {
    for (const { points, closed } of lines) {
      for (let i = 2; i < points.length; i += 2) {
        takeSegment(points[i - 2], points[i - 1], points[i], points[i + 1]);
      }
      const last = points.length - 2;
      if (closed && last > 0) takeSegment(points[last], points[last + 1], points[0], points[1]);
    }
  }

  function takeRegion(region: Region) {
    takeLines(region.map((points) => ({ points, closed: true })));
    const crossings: number[] = [];
    for (let row = 0; row < rows; row++) {
      const y = (row + 0.5) * cell;
      crossings.length = 0;
      for (const ring of region) {
        for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
          if (ring[i + 1] > y === ring[j + 1] > y) continue;
          crossings.push(ring[j] + ((ring[i] - ring[j]) * (y - ring[j + 1])) / (ring[i + 1] - ring[j + 1]));
        }
      }
      crossings.sort((a, b) => a - b);
      for (let i = 0; i + 1 < crossings.length; i += 2) {
        taken.fill(1, row * columns + columnAt(crossings[i]), row * columns + columnAt(crossings[i + 1]) + 1);
      }
    }
  }

  /** Corners where a box fits, the lowest first and then the rightmost, until `take` says that it is enough. */
  function scan(boxWidth: number, boxHeight: number, take: (x: number, y: number) => boolean) {
    // A box starts at a corner of a cell.
    const wide = Math.ceil(boxWidth / cell);
    const high = Math.ceil(boxHeight / cell);
    // Free cells downwards from each cell, row by row from the bottom: a box fits where `wide` neighbours have `high`.
    const below = new Uint32Array(columns);
    const fullRows = Math.floor(height / cell);
    const fullColumns = Math.floor(width / cell);
    for (let row = fullRows - 1; row >= 0; row--) {
      let run = 0;
      for (let column = fullColumns - 1; column >= 0; column--) {
        below[column] = taken[row * columns + column] === 1 ? 0 : below[column] + 1;
        run = below[column] >= high ? run + 1 : 0;
        if (run >= wide && take(column * cell, row * cell)) return;
      }
    }
  }

  function find(boxWidth: number, boxHeight: number) {
    let best: readonly [number, number] | null = null;
    scan(boxWidth, boxHeight, (x, y) => {
      best = [x, y];
      return true;
    });
    return best;
  }

  function near(boxWidth: number, boxHeight: number, x: number, y: number, most: number) {
    const places: { readonly at: readonly [number, number]; readonly squared: number }[] = [];
    scan(boxWidth, boxHeight, (left, top) => {
      const [dx, dy] = [left + boxWidth / 2 - x, top + boxHeight / 2 - y];
      places.push({ at: [left, top], squared: dx * dx + dy * dy });
      return false;
    });
    places.sort((a, b) => a.squared - b.squared || a.at[1] - b.at[1] || a.at[0] - b.at[0]);
    const kept: (readonly [number, number])[] = [];
    for (const { at } of places) {
      if (kept.length === most) break;
      const isNew = kept.every(([u, v]) => Math.abs(u - at[0]) >= boxHeight || Math.abs(v - at[1]) >= boxHeight);
      if (isNew) kept.push(at);
    }
    return kept;
  }

  return { takeRegion, takeLines, takeBox, find, near };
}
