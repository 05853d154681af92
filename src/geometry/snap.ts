import { CLIP_UNITS } from './tolerance.ts';

/** How far along an edge a new point may move to find a place on the grid that lies on the edge. */
const SLIDE = 1;
/** Of doubles, in units of the grid. */
const NOISE = 1e-6;

/** A coordinate on the grid of SNAP: the double nearest to a whole number of thousandths. */
export const snapped = (value: number): number => Math.round(value * CLIP_UNITS) / CLIP_UNITS;

/** The next one up and down; a coordinate that is on the grid to the rounding of doubles is its own. */
export const snappedUp = (value: number): number => Math.ceil(value * CLIP_UNITS - NOISE) / CLIP_UNITS;
export const snappedDown = (value: number): number => Math.floor(value * CLIP_UNITS + NOISE) / CLIP_UNITS;

/** The point of the clipping grid near (x, y), within SLIDE along the edge, that lies nearest to the edge a–b. */
export function gridPointOnEdge(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  x: number,
  y: number,
): [x: number, y: number] {
  const steep = Math.abs(by - ay) > Math.abs(bx - ax);
  // u runs along the edge's longer side, v across; all in whole units of the grid.
  const u0 = Math.round((steep ? ay : ax) * CLIP_UNITS);
  const v0 = Math.round((steep ? ax : ay) * CLIP_UNITS);
  const du = Math.round((steep ? by : bx) * CLIP_UNITS) - u0;
  const dv = Math.round((steep ? bx : by) * CLIP_UNITS) - v0;
  const low = Math.min(u0, u0 + du);
  const high = Math.max(u0, u0 + du);
  const middle = Math.min(high, Math.max(low, Math.round((steep ? y : x) * CLIP_UNITS)));
  let best = middle;
  let least = Infinity;
  for (let step = 0; step <= SLIDE * CLIP_UNITS && least > 0; step++) {
    for (const u of step === 0 ? [middle] : [middle + step, middle - step]) {
      if (u < low || u > high) continue;
      const v = v0 + ((u - u0) * dv) / du;
      const off = Math.abs(v - Math.round(v));
      if (off >= least) continue;
      least = off;
      best = u;
    }
  }
  const u = best / CLIP_UNITS;
  const v = Math.round(v0 + ((best - u0) * dv) / du) / CLIP_UNITS;
  return steep ? [v, u] : [u, v];
}
