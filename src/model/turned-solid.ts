import { turn } from '../geometry/exact-math.ts';
import { boxOf, moved, placed, ringsOf } from '../geometry/ring.ts';
import { extent, type Solid } from './landform.ts';
import type { Direction } from './rock.ts';

/** Directions of a model that may point up. */
export const UPS = ['z', '-z', 'y', '-y', 'x', '-x'] as const;

/** Where x, y and z come from when a direction is turned up: places in (x, y, z), and signs. Each is a turn, none a mirror. */
const UPWARD: Readonly<Record<Up, readonly [from: readonly number[], sign: readonly number[]]>> = {
  z: [
    [0, 1, 2],
    [1, 1, 1],
  ],
  '-z': [
    [0, 1, 2],
    [1, -1, -1],
  ],
  y: [
    [0, 2, 1],
    [1, -1, 1],
  ],
  '-y': [
    [0, 2, 1],
    [1, 1, -1],
  ],
  x: [
    [1, 2, 0],
    [1, 1, 1],
  ],
  '-x': [
    [1, 2, 0],
    [1, -1, -1],
  ],
};

export type Up = (typeof UPS)[number];

/** Where a direction of the model points when another of its directions is turned up. */
export function turnedDirection([x, y, z]: Direction, up: Up): Direction {
  const [from, sign] = UPWARD[up];
  const old = [x, y, z];
  // + 0: turning makes −0.
  const [first, second, third] = from.map((at, k) => sign[k] * old[at] + 0);
  return [first, second, third];
}

/**
 * A solid with one of its directions turned up, then turned about an axis; its box in plan moved back to (0, 0). What was said of it
 * as a rock is left out: its seat has turned.
 */
export function turnedSolid(solid: Solid, up: Up, about: 'x' | 'y' | 'z', turnDeg: number): Solid {
  const [from, sign] = UPWARD[up];
  const { cos, sin } = turn(turnDeg);
  // Counter-clockwise about x turns y to z, about y z to x, about z x to y.
  const first = about === 'x' ? 1 : about === 'y' ? 2 : 0;
  const second = (first + 1) % 3;
  const old = solid.positionsMm;
  const positionsMm = new Float64Array(old.length);
  for (let i = 0; i < old.length; i += 3) {
    for (let k = 0; k < 3; k++) positionsMm[i + k] = sign[k] * old[i + from[k]];
    const [a, b] = [positionsMm[i + first], positionsMm[i + second]];
    positionsMm[i + first] = a * cos - b * sin;
    positionsMm[i + second] = a * sin + b * cos;
  }
  const footprint = solid.footprint?.map((region) =>
    region.map((ring) => placed(ring, { turnDeg, mirrored: false, xMm: 0, yMm: 0 })),
  );
  const { rock: _, ...plain } = solid;
  const turned: Solid = { ...plain, positionsMm, footprint: footprint ?? null };
  const [minX, minY] = footprint ? boxOf(ringsOf(footprint)) : extent(turned).box;
  const least = [minX, minY, 0];
  return {
    ...turned,
    // + 0: turning makes −0, which is no other place.
    positionsMm: positionsMm.map((value, i) => value - least[i % 3] + 0),
    footprint: footprint?.map((region) => region.map((ring) => moved(ring, -minX, -minY))) ?? null,
  };
}
