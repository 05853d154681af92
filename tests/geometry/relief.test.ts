/** Relief: the mapmaker's formula on planes, the rim no flatter than the rest, north up, nothing where there is no ground. */
import { expect, test } from 'vitest';
import { reliefOf } from '../../src/geometry/relief.ts';

const STEP = 7;
const [COLUMNS, ROWS] = [7, 5];

/** A plane that rises so much to the east and to the north. */
const plane = (east: number, north: number): Float32Array =>
  Float32Array.from(
    { length: COLUMNS * ROWS },
    (_, i) => STEP * (east * (i % COLUMNS) + north * Math.floor(i / COLUMNS)),
  );

/**
 * Cosine of the angle between the light and the normal, by slope and aspect, light 45° up in azimuth 315°: cos z cos s +
 * sin z sin s cos(azimuth − aspect) (B. K. P. Horn, Hill shading and the reflectance map, Proc. IEEE 69, 1981).
 */
function shade(east: number, north: number): number {
  const slope = Math.atan(Math.sqrt(east * east + north * north));
  const aspect = Math.atan2(-east, -north);
  const light =
    Math.cos(slope) * Math.SQRT1_2 + Math.sin(slope) * Math.SQRT1_2 * Math.cos((315 * Math.PI) / 180 - aspect);
  return 70 + 185 * Math.max(0, light);
}

test.each([
  [0, 0],
  [0.3, -0.1],
  [-0.2, 0.9],
  [1.7, 0.4],
  [-0.6, -2.1],
])('a plane rising %d east and %d north has one shade, the rim as well', (east, north) => {
  const picture = reliefOf(plane(east, north), COLUMNS, ROWS, STEP);
  for (let i = 0; i < picture.length; i += 2) {
    expect(Math.abs(picture[i] - shade(east, north))).toBeLessThanOrEqual(0.6);
    expect(picture[i + 1]).toBe(255);
  }
});

test('ground that faces the light is white, ground that faces away from it is darkest', () => {
  // The normal of a slope rising 1/√2 east and falling 1/√2 north points at the light itself.
  expect(reliefOf(plane(Math.SQRT1_2, -Math.SQRT1_2), COLUMNS, ROWS, STEP)[0]).toBe(255);
  expect(reliefOf(plane(-2, 2), COLUMNS, ROWS, STEP)[0]).toBe(70);
});

test('north is up, and what is no ground stays transparent without darkening what is', () => {
  const heights = plane(0.3, -0.1);
  heights[2] = Number.NaN;
  heights[2 * COLUMNS + 6] = Number.NaN;
  const picture = reliefOf(heights, COLUMNS, ROWS, STEP);
  const clear = Array.from({ length: COLUMNS * ROWS }, (_, i) => i).filter((i) => picture[2 * i + 1] === 0);
  expect(clear).toEqual([2 * COLUMNS + 6, 4 * COLUMNS + 2]);
  for (let i = 0; i < COLUMNS * ROWS; i++) {
    if (!clear.includes(i)) expect(Math.abs(picture[2 * i] - shade(0.3, -0.1))).toBeLessThanOrEqual(0.6);
  }
});

test('a lone cell is shaded as flat ground', () => {
  expect([...reliefOf(Float32Array.of(31), 1, 1, STEP)]).toEqual([Math.round(shade(0, 0)), 255]);
});
