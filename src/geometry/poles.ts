import { type EdgeRuns, isWithin, RUN } from './edge-runs.ts';
import { squaredDistanceToSegment } from './ring.ts';

/** Points looked at, about, and how often the step is halved from there: circles need not be the largest there are. */
const POINTS = 400;
const HALVINGS = 4;

/**
 * Circles inside an outline, largest first, each centre outside the circles before it: x, y, radius of each. Two outlines
 * surely overlap where two of their circles do, which is far cheaper to ask than where their edges meet (Gardeyn,
 * Vanden Berghe, Wauters 2025 call them poles). Every circle is truly inside; that it is the largest there is is not promised.
 * @param most how many at most; it stops sooner when the next would be under an eighth of the first.
 */
export function poles(outline: EdgeRuns, most: number): Float64Array {
  const [minX, minY, maxX, maxY] = outline.box;
  const step = Math.sqrt(((maxX - minX) * (maxY - minY)) / POINTS);
  if (!(step > 0)) return new Float64Array(0);
  const columns = Math.ceil((maxX - minX) / step);
  const rows = Math.ceil((maxY - minY) / step);
  const rooms = new Float64Array(columns * rows);
  for (let i = 0; i < rooms.length; i++) {
    rooms[i] = depth(outline, minX + ((i % columns) + 0.5) * step, minY + (Math.floor(i / columns) + 0.5) * step);
  }
  const found: number[] = [];
  while (found.length < 3 * most) {
    let start = 0;
    for (let i = 1; i < rooms.length; i++) if (rooms[i] > rooms[start]) start = i;
    const x = minX + ((start % columns) + 0.5) * step;
    const y = minY + (Math.floor(start / columns) + 0.5) * step;
    const pole = climb(outline, found, x, y, step / 2);
    if (!(pole[2] > 0) || (found.length > 0 && pole[2] < found[2] / 8)) break;
    found.push(...pole);
    for (let i = 0; i < rooms.length; i++) {
      const px = minX + ((i % columns) + 0.5) * step;
      const py = minY + (Math.floor(i / columns) + 0.5) * step;
      rooms[i] = Math.min(rooms[i], beyond(px, py, pole, 0));
    }
  }
  return Float64Array.from(found);
}

/** How deep a point lies inside: distance to the nearest edge, negative outside. */
export function depth(outline: EdgeRuns, x: number, y: number): number {
  const { edges, runs } = outline;
  let least = Infinity;
  for (let r = 0; r < runs.length; r += 4) {
    const across = Math.max(runs[r] - x, 0, x - runs[r + 2]);
    const up = Math.max(runs[r + 1] - y, 0, y - runs[r + 3]);
    if (across * across + up * up >= least) continue;
    const to = Math.min(edges.length, (r + 4) * RUN);
    for (let i = r * RUN; i < to; i += 4) {
      const squared = squaredDistanceToSegment(x, y, edges[i], edges[i + 1], edges[i + 2], edges[i + 3]);
      if (squared < least) least = squared;
    }
  }
  return isWithin(outline, x, y) ? Math.sqrt(least) : -Math.sqrt(least);
}

/** Walk uphill from a point in halving steps to where the largest new circle is. */
function climb(outline: EdgeRuns, found: readonly number[], x: number, y: number, step: number): number[] {
  let best = -Infinity;
  const room = (px: number, py: number) => {
    let least = Infinity;
    for (let i = 0; i < found.length; i += 3) least = Math.min(least, beyond(px, py, found, i));
    // Where it is not better than the best there is no need to know how deep it is.
    return least <= best ? least : Math.min(least, depth(outline, px, py));
  };
  best = room(x, y);
  for (let reach = step, halvings = 0; halvings < HALVINGS; ) {
    let moved = false;
    for (const [ux, uy] of [
      [1, 0],
      [-1, 0],
      [0, 1],
      [0, -1],
    ]) {
      const here = room(x + ux * reach, y + uy * reach);
      if (here <= best) continue;
      best = here;
      x += ux * reach;
      y += uy * reach;
      moved = true;
      break;
    }
    if (moved) continue;
    reach /= 2;
    halvings++;
  }
  // The circle itself may run over the others: only its centre must not lie in one.
  return [x, y, best > 0 ? depth(outline, x, y) : best];
}

/** How far a point lies beyond the circle at a place of a list: negative inside it. */
function beyond(x: number, y: number, circles: readonly number[], at: number): number {
  const dx = x - circles[at];
  const dy = y - circles[at + 1];
  return Math.sqrt(dx * dx + dy * dy) - circles[at + 2];
}
