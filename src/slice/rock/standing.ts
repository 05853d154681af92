import { convexHull } from '../../geometry/hull.ts';
import { isInRing, type Ring, squaredDistanceToSegment } from '../../geometry/ring.ts';
import { sections } from '../../geometry/sections.ts';
import { extent, type Solid } from '../../model/landform.ts';
import type { Direction, RockRules, StandingRock } from '../../model/rock.ts';
import { turnedSolid, UPS, type Up } from '../../model/turned-solid.ts';

/** What is up when a direction of the lying rock is down. */
const UP_OVER: Readonly<Record<string, Up>> = {
  '0,0,-1': 'z',
  '0,0,1': '-z',
  '0,-1,0': 'y',
  '0,1,0': '-y',
  '-1,0,0': 'x',
  '1,0,0': '-x',
};

/** A rock as it will stand: its mass where foam alone counts, and the edge about which it would tip. */
export function standing(lying: Solid, rules: RockRules): StandingRock {
  const solid = turnedSolid(lying, UP_OVER[`${rules.seat}`] ?? UPS[0], 'z', 0);
  const { lowMm, highMm } = extent(solid);
  const heightMm = highMm - lowMm;
  const { volumeMm3, middle } = massOf(solid);
  // What stands in the ground is held by it half way down; a rock that is only set down stands on what touches the floor.
  const seatMm = lowMm + Math.max(SEAT_SHARE, rules.buried / 2) * heightMm;
  const work = sections({ positions: solid.positionsMm, triangles: solid.triangles }, [seatMm], 'above');
  let step = work.next();
  while (!step.done) step = work.next();
  const base = convexHull(step.value[0]);
  return {
    ...rules,
    volumeMm3,
    heightMm,
    massHeightMm: middle[2] - lowMm,
    edgeMm: toEdge(middle[0], middle[1], base),
    seatAtMm: seatAt(lying, rules.seat),
  };
}

/** A rock that is set down touches the floor with what lies in so much of its height. */
const SEAT_SHARE = 0.02;

function massOf({ positionsMm: p, triangles }: Solid): { volumeMm3: number; middle: Direction } {
  // Measured from a point of the rock: far from the origin the sums would lose their digits.
  const from = [p[0], p[1], p[2]];
  let volume = 0;
  const sum = [0, 0, 0];
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => [0, 1, 2].map((axis) => p[3 * triangles[t + k] + axis] - from[axis]));
    const six =
      a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) + a[2] * (b[0] * c[1] - b[1] * c[0]);
    volume += six / 6;
    for (let k = 0; k < 3; k++) sum[k] += (six / 24) * (a[k] + b[k] + c[k]);
  }
  const middle = sum.map((moment, k) => from[k] + (volume === 0 ? 0 : moment / volume));
  return { volumeMm3: volume, middle: [middle[0], middle[1], middle[2]] };
}

/** Distance to the nearest edge of a hull, negative outside it. */
function toEdge(x: number, y: number, hull: Ring): number {
  if (hull.length < 6) return 0;
  let least = Infinity;
  for (let i = 0; i < hull.length; i += 2) {
    const j = (i + 2) % hull.length;
    least = Math.min(least, squaredDistanceToSegment(x, y, hull[i], hull[i + 1], hull[j], hull[j + 1]));
  }
  return Math.sqrt(least) * (isInRing(x, y, hull) ? 1 : -1);
}

function seatAt({ positionsMm }: Solid, seat: Direction): number {
  let most = -Infinity;
  for (let i = 0; i < positionsMm.length; i += 3) {
    most = Math.max(most, seat[0] * positionsMm[i] + seat[1] * positionsMm[i + 1] + seat[2] * positionsMm[i + 2]);
  }
  return most;
}
