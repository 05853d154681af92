import { insideHull } from '../../geometry/enclosing.ts';
import { convexHull } from '../../geometry/hull.ts';
import { massOf } from '../../geometry/mass-of.ts';
import type { Ring } from '../../geometry/ring.ts';
import { crossed, sectionAt } from '../../geometry/sections.ts';
import { extent, type Solid } from '../../model/landform.ts';
import type { Direction, RockRules, StandingRock } from '../../model/rock.ts';
import { turnedDirection, turnedSolid, UPS, type Up } from '../../model/turned-solid.ts';

/** A rock that is set down touches the floor with what lies in so much of its height. */
const SEAT_SHARE = 0.02;

/** A rock as it will stand: its mass where foam alone counts, and the edge about which it would tip. */
export function standing(lying: Solid, rules: RockRules): StandingRock {
  const solid = turnedSolid(lying, upOver(rules.seat), 'z', 0);
  const { lowMm, highMm } = extent(solid);
  const heightMm = highMm - lowMm;
  const surface = { positions: solid.positionsMm, triangles: solid.triangles };
  const { volume, middle } = massOf(surface);
  // What stands in the ground is held by it half way down; a rock that is only set down stands on what touches the floor.
  const seatMm = lowMm + Math.max(SEAT_SHARE, rules.buried / 2) * heightMm;
  const base = convexHull(sectionAt(surface, crossed(surface, [seatMm], 'above'), 0, seatMm));
  return {
    ...rules,
    volumeMm3: volume,
    heightMm,
    massHeightMm: middle[2] - lowMm,
    edgeMm: toEdge(base, middle[0], middle[1]),
    seatAtMm: seatAt(lying, rules.seat),
  };
}

/** What is up when a direction of the lying rock is down. */
function upOver(seat: Direction): Up {
  const up = UPS.find((each) => turnedDirection(seat, each)[2] === -1);
  if (!up) throw new Error(`a rock's seat must be along an axis: ${seat}`);
  return up;
}

/** How far a point of a plan lies inside what a rock stands on; 0 where it stands on no area. */
const toEdge = (hull: Ring, x: number, y: number): number => (hull.length < 6 ? 0 : insideHull(hull, x, y));

function seatAt({ positionsMm }: Solid, seat: Direction): number {
  let most = -Infinity;
  for (let i = 0; i < positionsMm.length; i += 3) {
    most = Math.max(most, seat[0] * positionsMm[i] + seat[1] * positionsMm[i + 1] + seat[2] * positionsMm[i + 2]);
  }
  return most;
}
