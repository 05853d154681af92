import { type Random, stream } from '../../../src/geometry/random.ts';
import type { Region } from '../../../src/geometry/ring.ts';
import { type Pose, type Problem, poseOf, prepareShape, type Shape } from '../../../src/nest/engine/engine.ts';
import { lopsided } from '../../help/nesting.ts';

export const LISTED: readonly Pose[] = [0, 90, 180, 270].map((turnDeg) => poseOf(turnDeg));

/** Shapes of lopsided outlines by a seed, a third of them rings. */
export function shapesOf(seed: number, count: number, gapMm: number, turnsFreely = false, points?: number) {
  const random: Random = stream(seed, 'engine');
  const regions: Region[] = Array.from({ length: count }, () => lopsided(random, 600, points));
  const shapes: Shape[] = regions.map((region) =>
    prepareShape([region], { gapMm, poses: LISTED, turnsFreely, hasOddContainers: false }),
  );
  return { random, regions, shapes };
}

/** Each shape once, on boards of one size. */
export function problemOf(shapes: readonly Shape[], width: number, height: number, gapMm: number): Problem {
  const container = { box: [0, 0, width, height] as const, outline: null, areaMm2: width * height };
  return {
    shapes,
    items: shapes.map((_, shape) => shape),
    kinds: [{ container, cost: 1, grossMm2: width * height, count: null }],
    owned: [],
    fixed: [],
    gapMm,
  };
}
