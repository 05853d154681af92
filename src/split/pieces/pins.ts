import { intersect, offset, subtract } from '../../geometry/clip.ts';
import {
  boxesMeet,
  boxOf,
  distanceToRings,
  isInRegion,
  type Point,
  type Region,
  type Ring,
  ringLength,
  ringsOf,
  squaredDistanceToSegment,
} from '../../geometry/ring.ts';
import { snapped } from '../../geometry/snap.ts';
import { MOST_PIN_MM } from '../../model/pin.ts';
import { shortBy, simple } from './offsets.ts';

/** Furthest from pin to pin round an outline (common practice, no source: 300 to 450 mm). */
const APART_MM = 450;
/** Pins nearer than this to one of the same piece are left out. */
const NEAR_MM = 200;
/** A pin keeps this far from one that comes down to the same face from above and ends there. */
const BESIDE_MM = 30;
/** A pin from above goes on through a layer in which it is clear by so much. */
const ON_CLEAR_MM = 12;
/** What stands on a piece is kept off by this where a pin is to be pulled. */
const OFF_PLACING_MM = 8;
const FEWEST = 2;
/** Sag of rounded offsets: pins are set by eye. */
export const PIN_SAG_MM = 0.2;
/** By how much a simplified outline, offset, may fall short of the true one. */
const SHORT_MM = shortBy(PIN_SAG_MM);

/**
 * Where pins are looked for in turn, clear by so much of edges, seams, voids and slits. Skewers stand 50 to 75 mm in where
 * there is room, but a lap seldom has it (common practice, no source). `deep`: where the foam above lets a pin stay; `open`:
 * on a tread, where it can be pulled again. `isForAll`: for every piece, else for those that have too few.
 */
const PASSES = [
  { clearMm: 25, where: 'deep', isForAll: true },
  { clearMm: 12, where: 'deep', isForAll: false },
  { clearMm: 25, where: 'open', isForAll: true },
  { clearMm: 12, where: 'open', isForAll: false },
  { clearMm: 6, where: 'deep', isForAll: false },
  { clearMm: 6, where: 'open', isForAll: false },
] as const;

/** A pin on its way down. */
export interface Going {
  readonly at: Point;
  /** Top of the highest layer that it enters. */
  readonly topMm: number;
  /** Whether so much foam covers it that it may stay when the ground is carved. */
  readonly isDeep: boolean;
}

/** Two layers that pins hold together. */
export interface Courses {
  readonly upper: readonly Region[];
  readonly lower: readonly Region[];
  readonly upperTopMm: number;
  readonly lowerBottomMm: number;
  /** Pins that enter each upper piece from above. */
  readonly taken: readonly (readonly Going[])[];
  /** Every place where there is a pin anywhere above, as `x,y`: a second pin there would be taken for the same. */
  readonly used: ReadonlySet<string>;
  /** Slits of the pieces of both. */
  readonly slits: readonly Float64Array[];
  /** Under this a pin into the upper layer is deep enough. */
  readonly deep: readonly Region[];
  /** What stands on the upper layer. */
  readonly covered: readonly Region[];
  /** Whether the lower pieces have nothing beneath that they are pinned to. */
  readonly isLowest: boolean;
}

/** A pin through a piece of the upper layer into one of the lower. */
export interface Pin extends Going {
  readonly upper: number;
  readonly lower: number;
}

/**
 * Pins straight down through two layers: at least two for each upper piece where there is room. Those that come from above go
 * on where they can, so that pins through three layers or more are in line; others stand evenly round the area in which a pin
 * keeps clear inside both pieces. Lowest pieces without two get them from above.
 */
export function pinsBetween(courses: Courses): Pin[] {
  const { upper, lower, isLowest } = courses;
  const pins = goingOn(courses);
  const areasIn = areaFinder(courses);
  const countOf = (layer: 'upper' | 'lower', piece: number) => pins.filter((pin) => pin[layer] === piece).length;
  for (const { clearMm, where, isForAll } of PASSES) {
    const isShort = (layer: 'upper' | 'lower') => (i: number) => countOf(layer, i) < FEWEST;
    const uppers = upper.map((_, i) => i).filter((i) => isForAll || isShort('upper')(i));
    const lowers = isLowest ? lower.map((_, i) => i).filter(isShort('lower')) : [];
    if (uppers.length + lowers.length === 0) continue;
    // A lowest piece may get its pins from any that lies on it.
    const areas = areasIn(lowers.length > 0 ? upper.map((_, i) => i) : uppers, clearMm, where);
    for (const [layer, some] of [
      ['upper', uppers],
      ['lower', lowers],
    ] as const) {
      for (const i of some) {
        const own = areas.filter((area) => area[layer] === i);
        const before = pins.filter((pin) => pin[layer] === i);
        pins.push(...pinsIn(own, pins, before, courses, clearMm, where === 'deep'));
      }
    }
  }
  return pins;
}

/** The pins from above that go on into the lower layer. */
function goingOn({ upper, lower, taken, slits, lowerBottomMm }: Courses): Pin[] {
  return upper.flatMap((_, i) =>
    taken[i].flatMap((going): Pin[] => {
      const [x, y] = going.at;
      if (!going.isDeep || going.topMm - lowerBottomMm > MOST_PIN_MM) return [];
      const k = lower.findIndex((piece) => isInRegion(x, y, piece));
      if (k < 0 || distanceToRings(x, y, lower[k]) < ON_CLEAR_MM || !isClearOf(slits, going.at, ON_CLEAR_MM)) return [];
      return [{ ...going, upper: i, lower: k }];
    }),
  );
}

interface Area {
  readonly upper: number;
  readonly lower: number;
  readonly ring: Ring;
}

/**
 * Finds where a pin keeps clear of the edges of some upper pieces and of what is below them: the outlines of each such area.
 * Pieces are shrunk once for each distance, when they are first asked for.
 */
function areaFinder({ upper, lower, deep, covered }: Courses) {
  const shrunk = { upper: new Map<string, Region[]>(), lower: new Map<string, Region[]>() };
  const boxes = lower.map((piece) => boxOf(piece));
  const standing = offset(simple(covered), OFF_PLACING_MM + SHORT_MM, { sag: PIN_SAG_MM });
  const clearOf = (layer: 'upper' | 'lower', i: number, clearMm: number): Region[] => {
    const key = `${i} ${clearMm}`;
    const piece = (layer === 'upper' ? upper : lower)[i];
    const found = shrunk[layer].get(key) ?? offset(simple([piece]), -(clearMm + SHORT_MM), { sag: PIN_SAG_MM });
    shrunk[layer].set(key, found);
    return found;
  };
  return (some: readonly number[], clearMm: number, where: 'deep' | 'open'): Area[] => {
    if (some.length === 0 || (where === 'deep' && deep.length === 0)) return [];
    const high = some.flatMap((i) => clearOf('upper', i, clearMm));
    const box = boxOf(ringsOf(high));
    const below = lower.map((_, k) => k).filter((k) => boxesMeet(boxes[k], box));
    const clear = intersect(
      high,
      below.flatMap((k) => clearOf('lower', k, clearMm)),
    );
    const areas: Area[] = [];
    for (const region of where === 'deep' ? intersect(clear, deep) : subtract(clear, standing)) {
      const [x, y] = region[0];
      const i = some.find((each) => isInRegion(x, y, upper[each]));
      const k = below.find((each) => isInRegion(x, y, lower[each]));
      if (i === undefined || k === undefined) continue;
      areas.push(...region.map((ring) => ({ upper: i, lower: k, ring })));
    }
    return areas;
  };
}

function pinsIn(
  areas: readonly Area[],
  all: readonly Pin[],
  before: readonly Pin[],
  { taken, used, slits, upperTopMm: topMm }: Courses,
  clearMm: number,
  isDeep: boolean,
): Pin[] {
  const found: Pin[] = [];
  const others: Pin[] = [];
  const nearest = (at: Point, pins: readonly Pin[]) =>
    pins.reduce((least, pin) => Math.min(least, distance(at, pin.at)), Infinity);
  // A pin that is pulled again only stands where no other does.
  const nearMm = isDeep ? NEAR_MM : APART_MM;
  for (const { upper, lower, ring } of areas) {
    const beside = [...taken[upper], ...all.filter((pin) => pin.upper === upper || pin.lower === lower)];
    const isFree = (at: Point) =>
      beside.every((other) => distance(at, other.at) >= BESIDE_MM) && isClearOf(slits, at, clearMm);
    for (const [at, isWanted] of pointsRound(ring)) {
      if (!isFree(at)) continue;
      const pin = { upper, lower, at, topMm, isDeep };
      const isApart = isWanted && nearest(at, before) >= nearMm && nearest(at, found) >= NEAR_MM;
      if (isApart && !used.has(`${at}`)) found.push(pin);
      else others.push(pin);
    }
  }
  // A short lap has room for few: take what is furthest from those there are.
  while (before.length + found.length < FEWEST && others.length > 0) {
    const near = [...before, ...found];
    let best = 0;
    for (let i = 1; i < others.length; i++) {
      if (nearest(others[i].at, near) > nearest(others[best].at, near)) best = i;
    }
    const [pin] = others.splice(best, 1);
    if (used.has(`${pin.at}`)) continue;
    if (nearest(pin.at, near) < Math.max(BESIDE_MM, 2 * clearMm)) break;
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
