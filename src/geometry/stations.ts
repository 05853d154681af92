/**
 * Stations: where the two ends of a straight wire stand as it goes round an underside and a top outline at once.
 *
 * Contour stitching (Keppel 1975; Fuchs, Kedem and Uselton 1977) matches one ring with one ring and is free to let its
 * lines cross in plan; and real outlines split, merge and vanish. So what lies between the outlines is first cut into
 * triangles that keep all edges (Delaunay-based surfaces between sections: Boissonnat 1988): which foot point sees which
 * top point, and that nothing crosses, is then known whatever the outlines do. Stitching comes second and only evens the
 * pace, stretch by stretch (pacing.ts). The proof that no two lines cross needs no pair of them: every quadrilateral
 * between neighbours is convex and runs counter-clockwise, and once round they sweep from the underside to the top, so
 * they cover what lies between exactly once. All is checked in whole numbers at the end (`settled`).
 */
import type { Region } from './ring.ts';
import { type Band, bandOf, type Walls } from './stations/band.ts';
import { isConvex, paced } from './stations/pacing.ts';
import { type Bridge, NO_TOP, type Sight, sightsOf, type Upright } from './stations/sights.ts';

export type { Walls } from './stations/band.ts';

/** Why a wire stands upright at a station: not at all; the outlines coincide; no top is seen; the paces differ too much; to keep lines from crossing. */
export const WHY = { leans: 0, coincides: 1, noTop: 2, pace: 3, crossing: 4 } as const;

/** Once round a ring of the underside. */
export interface Round {
  /** Foot x, foot y, top x, top y of each station in turn; not closed. */
  readonly stations: Float64Array;
  /** One of WHY for each. */
  readonly why: Uint8Array;
}

export interface Match {
  /** One for each ring of the underside, in order. */
  readonly rounds: readonly Round[];
  /** Where a top end goes straight on while the top outline turns away. */
  readonly bridges: readonly Bridge[];
  /** Where the underside is a wall that the top outline does not follow. */
  readonly walls: Band['walls'];
  /** A point of each hole of the top that has no hole under it. */
  readonly pits: readonly (readonly [number, number])[];
}

/**
 * Match an underside with a top that lies in it, both simple, in whole units (whole.ts). Every corner of the underside is an
 * end of a station, and every corner of the top that the wire can follow. Stations are no further apart than about `spacing`.
 */
export function match(
  underside: readonly Region[],
  top: readonly Region[],
  spacing: number,
  walls: Walls = { rings: [], stands: () => true },
): Match {
  const band = bandOf(underside, top, spacing, walls);
  const bridges: Bridge[] = [];
  const rounds = band.feet.map((ring) => {
    const walk = sightsOf(band, ring, spacing);
    bridges.push(...walk.bridges);
    return roundOf(walk.stretches);
  });
  return { rounds, bridges, walls: band.walls, pits: band.pits };
}

function roundOf(stretches: readonly (Sight | Upright)[]): Round {
  const stations: number[] = [];
  const why: number[] = [];
  for (const stretch of stretches) {
    if ('why' in stretch) {
      stations.push(stretch.x, stretch.y, stretch.x, stretch.y);
      why.push(stretch.why === NO_TOP ? WHY.noTop : WHY.coincides);
      continue;
    }
    const passed = paced(stretch);
    for (let i = 0; i < passed.length; i += 4) {
      stations.push(passed[i], passed[i + 1], passed[i + 2], passed[i + 3]);
      why.push(WHY.leans);
    }
  }
  return { stations: Float64Array.from(stations), why: Uint8Array.from(why) };
}

/** How far the two ends of a station are apart in plan. */
export function leanAt({ stations }: Round, k: number): number {
  const dx = stations[4 * k + 2] - stations[4 * k];
  const dy = stations[4 * k + 3] - stations[4 * k + 1];
  return Math.sqrt(dx * dx + dy * dy);
}

/** The same round with no top end further than `most` from its foot: those that were stand on their line, at that distance. */
export function withinReach(round: Round, most: number): Round {
  const stations = round.stations.slice();
  for (let k = 0; k < round.why.length; k++) {
    const lean = leanAt(round, k);
    if (lean <= most) continue;
    for (const axis of [0, 1]) {
      const foot = stations[4 * k + axis];
      stations[4 * k + 2 + axis] = foot + ((stations[4 * k + 2 + axis] - foot) * most) / lean;
    }
  }
  return { stations, why: round.why };
}

/** The same round with the wire upright along some stretches, apart and in order: it swings up at the first station of each, down at the last. */
export function uprightAlong(round: Round, stretches: readonly (readonly [from: number, to: number])[]): Round {
  const stations: number[] = [];
  const why: number[] = [];
  const put = (k: number, reason: number) => {
    const at = 4 * k;
    const top = reason === WHY.leans || reason === round.why[k] ? at + 2 : at;
    stations.push(round.stations[at], round.stations[at + 1], round.stations[top], round.stations[top + 1]);
    why.push(reason);
  };
  let next = 0;
  for (const [from, to] of stretches) {
    for (; next <= from; next++) put(next, round.why[next]);
    for (let k = from; k <= to; k++) put(k, WHY.pace);
    put(to, round.why[to]);
    next = to + 1;
  }
  for (; next < round.why.length; next++) put(next, round.why[next]);
  return { stations: Float64Array.from(stations), why: Uint8Array.from(why) };
}

/**
 * The same round in whole units, stations that repeat the one before left out, and exactly without crossing: where rounding
 * has made two lines cross, both stand upright, which never makes another pair do so. Rounding puts an end that stands
 * on an edge beside it by at most 0.71 units.
 */
export function settled(round: Round): Round {
  const points: number[] = [];
  const why: number[] = [];
  const whole = round.stations.map((value) => Math.round(value) + 0);
  const count = round.why.length;
  for (let k = 0; k < count; k++) {
    const before = 4 * ((k + count - 1) % count);
    const isRepeat = [0, 1, 2, 3].every((i) => whole[4 * k + i] === whole[before + i]);
    if (isRepeat && count > 1 && (k > 0 || why.length > 0)) continue;
    points.push(whole[4 * k], whole[4 * k + 1], whole[4 * k + 2], whole[4 * k + 3]);
    why.push(round.why[k]);
  }
  const stations = Float64Array.from(points);
  for (let isSound = false; !isSound; ) {
    isSound = true;
    for (let k = 0; k < why.length; k++) {
      if (isClearAfter(stations, k)) continue;
      isSound = false;
      for (const each of [k, (k + 1) % why.length]) {
        stations[4 * each + 2] = stations[4 * each];
        stations[4 * each + 3] = stations[4 * each + 1];
        why[each] = WHY.crossing;
      }
    }
  }
  return { stations, why: Uint8Array.from(why) };
}

/** Whether the lines from station k to the next sweep without crossing: the next is the first after the last. */
function isClearAfter(stations: Float64Array, k: number): boolean {
  const a = 4 * k;
  const b = (a + 4) % stations.length;
  return isConvex(
    stations[a],
    stations[a + 1],
    stations[b],
    stations[b + 1],
    stations[b + 2],
    stations[b + 3],
    stations[a + 2],
    stations[a + 3],
  );
}
