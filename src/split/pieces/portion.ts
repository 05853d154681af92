import { flushRectangles } from '../../geometry/enclosing.ts';
import { directionDeg } from '../../geometry/exact-math.ts';
import { extents } from '../../geometry/hull.ts';
import { type Region, type Ring, regionArea, ringLength } from '../../geometry/ring.ts';
import { ringHull } from '../../geometry/ring-hull.ts';
import { hasRoom, type Room, targetsMm } from './room.ts';

/** What takes no more pieces than this, about, is divided by a closer search. */
export const FEW = 2.5;

/** Foam of a layer on its way to being a piece: a region with what the search for seams asks of it. */
export interface Portion {
  readonly region: Region;
  readonly hull: Ring;
  readonly areaMm2: number;
  readonly fits: boolean;
  /** How many pieces it will take, about; 1 when it fits. */
  readonly needs: number;
  /**
   * How wide it is: the narrowest strip that holds it, or its mean width along the long side of its smallest rectangle where
   * that is less, as in what runs out to a tip. Of a band that winds it is little more than the band's own.
   */
  readonly widthMm: number;
  /** Direction of a side of its smallest rectangle. */
  readonly directionDeg: number;
}

/** Measure a region. O(n log n). */
export function portionOf(region: Region, room: Room): Portion {
  const hull = ringHull(region[0]);
  const flush = flushRectangles(hull);
  const areaMm2 = regionArea(region);
  const fits = hasRoom(hull, areaMm2, room, flush);
  let smallest = 0;
  let widthMm = Infinity;
  for (let i = 0; i < flush.length; i += 2) {
    if (flush[i] * flush[i + 1] < flush[smallest] * flush[smallest + 1]) smallest = i;
    widthMm = Math.min(widthMm, flush[i + 1]);
  }
  widthMm = Math.min(widthMm, areaMm2 / Math.max(flush[smallest], flush[smallest + 1]));
  const next = (smallest + 2) % hull.length;
  const direction = directionDeg(hull[next] - hull[smallest], hull[next + 1] - hull[smallest + 1]);
  const needs = fits ? 1 : piecesNeeded(region, areaMm2, hull, flush[smallest], flush[smallest + 1], room);
  return { region, hull, areaMm2, fits, needs, widthMm, directionDeg: direction };
}

/**
 * About how many pieces it takes: by the boards that cover its rectangle, or, for a band that winds, by the boards that its
 * length takes end to end; by area where that is more. Not a bound: it only has to rank cuts, and to fall as they near the end.
 */
function piecesNeeded(region: Region, area: number, hull: Ring, along: number, across: number, room: Room): number {
  const [least, most, low, high] = extents(hull, 1, 0);
  let windingMm = 0;
  for (const ring of region) windingMm += ringLength(ring) / 2;
  let needs = Infinity;
  for (const [long, short] of targetsMm(room)) {
    const cover = (a: number, b: number) => Math.ceil(a / long) * Math.ceil(b / short);
    const [width, height] = [most - least, high - low];
    let lengths = Math.min(cover(along, across), cover(across, along), cover(width, height), cover(height, width));
    if (area < windingMm * short * BAND) lengths = Math.min(lengths, windingMm / long);
    needs = Math.min(needs, Math.max(2, area / Math.min(long * short, room.mostMm2), lengths));
  }
  return needs;
}

/** A band is narrower, on the whole, than this share of a board's width. */
const BAND = 0.5;
