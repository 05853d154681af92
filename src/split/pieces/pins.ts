import { intersect, offset } from '../../geometry/clip.ts';
import {
  isInRegion,
  type Point,
  type Region,
  type Ring,
  ringLength,
  squaredDistanceToSegment,
} from '../../geometry/ring.ts';
import { snapped } from '../../geometry/snap.ts';

/**
 * Clear of edges, seams, voids and slits, millimetres: the first that leaves room for two pins. Skewers stand 50 to 75 mm
 * in where there is room, but a lap seldom has it (common practice, no source).
 */
const CLEAR_MM = [25, 12, 6, 3];
/** Furthest from pin to pin round an outline (common practice, no source: 300 to 450 mm). */
const APART_MM = 450;
/** Pins nearer than this to one of the same piece are left out. */
const NEAR_MM = 200;
/** A pin keeps this far from one that comes down to the same face from above. */
const BESIDE_MM = 30;
const FEWEST = 2;

/** Two layers that pins hold together. */
export interface Courses {
  readonly upper: readonly Region[];
  readonly lower: readonly Region[];
  /** Pins that already enter each upper piece. */
  readonly taken: readonly (readonly Point[])[];
  /** Slits of the pieces of both. */
  readonly slits: readonly Float64Array[];
  /** Whether the lower pieces have nothing beneath that they are pinned to. */
  readonly isLowest: boolean;
}

/** A pin through a piece of the upper layer into one of the lower. */
export interface Pin {
  readonly upper: number;
  readonly lower: number;
  readonly at: Point;
}

/**
 * Pins straight down through two layers: at least two for each upper piece where there is room, evenly round the area in which
 * a pin keeps clear inside both pieces. Lowest pieces without two get them from above.
 */
export function pinsBetween(courses: Courses): Pin[] {
  const { upper, lower, isLowest } = courses;
  const pins: Pin[] = [];
  const countOf = (layer: 'upper' | 'lower', piece: number) => pins.filter((pin) => pin[layer] === piece).length;
  for (const clearMm of CLEAR_MM) {
    const short = upper.some((_, i) => countOf('upper', i) < FEWEST);
    const shortBelow = isLowest && lower.some((_, i) => countOf('lower', i) < FEWEST);
    if (!short && !shortBelow) break;
    const areas = areasFor(courses, clearMm);
    for (let i = 0; i < upper.length; i++) {
      if (countOf('upper', i) >= FEWEST) continue;
      const own = areas.filter((area) => area.upper === i);
      pins.push(
        ...pinsIn(
          own,
          pins.filter((pin) => pin.upper === i),
          courses,
          clearMm,
        ),
      );
    }
    if (!isLowest) continue;
    for (let i = 0; i < lower.length; i++) {
      if (countOf('lower', i) >= FEWEST) continue;
      const own = areas.filter((area) => area.lower === i);
      pins.push(
        ...pinsIn(
          own,
          pins.filter((pin) => pin.lower === i),
          courses,
          clearMm,
        ),
      );
    }
  }
  return pins;
}

interface Area {
  readonly upper: number;
  readonly lower: number;
  readonly ring: Ring;
}

/** Where a pin keeps clear of the edges of an upper and a lower piece: the outlines of each such area. */
function areasFor({ upper, lower }: Courses, clearMm: number): Area[] {
  const areas: Area[] = [];
  for (const region of intersect(offset(upper, -clearMm), offset(lower, -clearMm))) {
    const [x, y] = region[0];
    const i = upper.findIndex((piece) => isInRegion(x, y, piece));
    const k = lower.findIndex((piece) => isInRegion(x, y, piece));
    if (i >= 0 && k >= 0) areas.push(...region.map((ring) => ({ upper: i, lower: k, ring })));
  }
  return areas;
}

function pinsIn(areas: readonly Area[], before: readonly Pin[], { taken, slits }: Courses, clearMm: number): Pin[] {
  const found: Pin[] = [];
  const others: Pin[] = [];
  const nearest = (at: Point, pins: readonly Pin[]) =>
    pins.reduce((least, pin) => Math.min(least, distance(at, pin.at)), Infinity);
  for (const { upper, lower, ring } of areas) {
    const isFree = (at: Point) =>
      taken[upper].every((other) => distance(at, other) >= BESIDE_MM) && isClearOf(slits, at, clearMm);
    const free = pointsRound(ring)
      .map(([at, isWanted]) => ({ pin: { upper, lower, at }, isWanted }))
      .filter(({ pin }) => isFree(pin.at));
    for (const { pin, isWanted } of free) {
      if (isWanted && nearest(pin.at, before) >= NEAR_MM && nearest(pin.at, found) >= NEAR_MM) found.push(pin);
      else others.push(pin);
    }
  }
  // A short lap has room for few: take what is furthest from those there are.
  while (before.length + found.length < FEWEST && others.length > 0) {
    const all = [...before, ...found];
    let best = 0;
    for (let i = 1; i < others.length; i++) {
      if (nearest(others[i].at, all) > nearest(others[best].at, all)) best = i;
    }
    const [pin] = others.splice(best, 1);
    if (nearest(pin.at, all) < 2 * clearMm) break;
    found.push(pin);
  }
  return found;
}

/** Points round a ring: evenly spaced, every fourth of them wanted, so that no two wanted ones are further than APART_MM. */
function pointsRound(ring: Ring): [at: Point, isWanted: boolean][] {
  const whole = ringLength(ring);
  const count = 4 * Math.max(FEWEST, Math.ceil(whole / APART_MM));
  const points: [Point, boolean][] = [];
  let walked = 0;
  for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
    const dx = ring[i] - ring[j];
    const dy = ring[i + 1] - ring[j + 1];
    const side = Math.sqrt(dx * dx + dy * dy);
    while (points.length < count && (points.length * whole) / count <= walked + side) {
      const t = side > 0 ? ((points.length * whole) / count - walked) / side : 0;
      points.push([[snapped(ring[j] + t * dx), snapped(ring[j + 1] + t * dy)], points.length % 4 === 0]);
    }
    walked += side;
  }
  return points;
}

function isClearOf(lines: readonly Float64Array[], [x, y]: Point, clearMm: number): boolean {
  for (const line of lines) {
    for (let i = 2; i < line.length; i += 2) {
      const squared = squaredDistanceToSegment(x, y, line[i - 2], line[i - 1], line[i], line[i + 1]);
      if (squared < clearMm * clearMm) return false;
    }
  }
  return true;
}

const distance = ([ax, ay]: Point, [bx, by]: Point): number => Math.sqrt((ax - bx) * (ax - bx) + (ay - by) * (ay - by));
