import { directionDeg } from '../../geometry/exact-math.ts';
import { roomAt, roomiestTurn } from '../../geometry/hull.ts';
import type { Ring } from '../../geometry/ring.ts';
import type { Turns } from '../../model/facts.ts';

/** How many long sides of a hull are laid along the board besides the smallest rectangle's. */
const SIDES = 2;
/** Sides nearer in direction than this count as one. */
const SAME_DEG = 2;
/** Turns that follow from nothing, for shapes that fit each other at odd angles. */
const ODD_TURNS = 4;
/** Degrees between one odd turn and the next: the golden angle spreads any number of them evenly. */
const GOLDEN_DEG = 137.51;

/**
 * The turns to try for a hull, promising ones first, in hundredths of a degree, 0 ≤ turn < 360.
 * @param directionDeg of the long side of its smallest rectangle
 * @param usableMm usable sizes of the boards: where none of the turns fits one, the roomiest is added if that does.
 */
export function turnsToTry(
  turns: Turns,
  hull: Ring,
  directionDeg: number,
  usableMm: readonly (readonly [number, number])[],
): number[] {
  if (turns === 'fixed') return [0];
  if (turns === 'half') return [0, 180];
  if (turns === 'quarter') return [0, 90, 180, 270];
  const found: number[] = [];
  const add = (turnDeg: number, quarters: readonly number[]) => {
    for (const quarter of quarters) {
      const whole = wholeTurn(turnDeg + quarter);
      if (!found.includes(whole)) found.push(whole);
    }
  };
  add(-directionDeg, [0, 90, 180, 270]);
  add(0, [0, 90, 180, 270]);
  for (const side of longSides(hull, [directionDeg, 0])) add(-side, [0, 180]);
  for (let i = 1; i <= ODD_TURNS; i++) add(i * GOLDEN_DEG, [0]);
  for (const [width, height] of usableMm) {
    if (found.some((turnDeg) => roomAt(hull, turnDeg, width, height) >= 0)) continue;
    const { turnDeg, room } = roomiestTurn(hull, width, height);
    if (room >= 0) add(turnDeg, [0, 180]);
  }
  return found;
}

/** Directions of the longest sides of a hull that lie along none of the given ones. */
function longSides(hull: Ring, known: readonly number[]): number[] {
  const sides: { squared: number; direction: number }[] = [];
  for (let i = 0, j = hull.length - 2; i < hull.length; j = i, i += 2) {
    const dx = hull[i] - hull[j];
    const dy = hull[i + 1] - hull[j + 1];
    sides.push({ squared: dx * dx + dy * dy, direction: directionDeg(dx, dy) });
  }
  sides.sort((a, b) => b.squared - a.squared || a.direction - b.direction);
  const found: number[] = [];
  for (const { direction } of sides) {
    if (found.length === SIDES) break;
    if ([...known, ...found].every((other) => apart(direction, other) >= SAME_DEG)) found.push(direction);
  }
  return found;
}

/** Degrees between two directions, quarter turns counting as none: 0…45. */
function apart(a: number, b: number): number {
  const within = Math.abs(a - b) % 90;
  return Math.min(within, 90 - within);
}

/** A turn in hundredths of a degree, 0 ≤ turn < 360. */
function wholeTurn(turnDeg: number): number {
  const hundredths = Math.round(turnDeg * 100) % 36000;
  return (hundredths < 0 ? hundredths + 36000 : hundredths) / 100;
}
