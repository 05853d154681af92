import { expect, test } from 'vitest';
import { boxOf, placed, ringArea } from '../../../src/geometry/ring.ts';
import { addBoard, fieldOf, put } from '../../../src/nest/engine/field.ts';
import { holeBox } from '../../../src/nest/engine/place.ts';
import { isMirrored, turnDegOf } from '../../../src/nest/engine/problem.ts';
import { shapesOf } from './help.ts';

const container = { box: [0, 0, 2000, 2000] as const, outline: null, areaMm2: 4e6 };

test.each([0, 8])('gap %i: the box of a hole is that of its grown outline, turned as its shape is', (gapMm) => {
  const { shapes } = shapesOf(11, 24, gapMm, false, 60);
  let cut = 0;
  for (const [item, shape] of shapes.entries()) {
    const holes = shape.grown.filter((ring) => ringArea(ring) < 0);
    for (const pose of shape.poses) {
      const f = fieldOf(
        shapes,
        shapes.map((_, i) => i),
      );
      put(f, item, addBoard(f, 0, container), pose, 700, 900);
      const turn = { turnDeg: turnDegOf(pose), mirrored: isMirrored(pose), xMm: 700, yMm: 900 };
      if (holes.length > 0 && f.postures[item].ends[0] !== 2 * shape.grown[0].length) cut++;
      for (const [h, hole] of holes.entries()) {
        const expected = boxOf([placed(hole, turn)]);
        for (const [i, side] of holeBox(f, item, h).entries()) expect(side).toBeCloseTo(expected[i], 6);
      }
    }
  }
  // The outer ring is cut to its box, and has not the points it had.
  expect(cut).toBeGreaterThan(5);
});
