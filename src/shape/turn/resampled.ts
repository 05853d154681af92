import { turn } from '../../geometry/exact-math.ts';
import { fillNearest } from '../../geometry/grid-fill.ts';
import { boxOf, moved, placed, type Region, ringsOf } from '../../geometry/ring.ts';
import { groundPosts, tidyMm } from '../../model/ground.ts';
import { groundRunOn } from '../../model/ground-beyond.ts';
import { heightOf } from '../../model/ground-height.ts';
import type { Heightfield } from '../../model/landform.ts';

interface Frame {
  readonly footprint: readonly Region[];
  /** What was added after turning about the old (0, 0). */
  readonly shiftMm: readonly [number, number];
  readonly stepMm: number;
  readonly columns: number;
  readonly rows: number;
}

function frameOf(field: Heightfield, turnDeg: number): Frame {
  const standing = field.footprint.map((region) =>
    region.map((ring) => placed(ring, { turnDeg, mirrored: false, xMm: 0, yMm: 0 })),
  );
  const [minX, minY, maxX, maxY] = boxOf(ringsOf(standing));
  const stepMm = Math.min(field.stepXMm, field.stepYMm);
  return {
    footprint: standing.map((region) => region.map((ring) => moved(ring, -minX, -minY))),
    shiftMm: [-minX, -minY],
    stepMm,
    columns: Math.max(1, Math.ceil((maxX - minX) / stepMm)) + 1,
    rows: Math.max(1, Math.ceil((maxY - minY) / stepMm)) + 1,
  };
}

/** How many posts a field turned by no quarter turn has. */
export function postsNeeded(field: Heightfield, turnDeg: number): number {
  const { columns, rows } = frameOf(field, turnDeg);
  return columns * rows;
}

/**
 * A field turned by any angle, counter-clockwise: posts from (0, 0), as close both ways as the closer of its steps. And how far
 * the new ground is from the old at the old posts, at most.
 */
export function* turnedAnyhow(
  field: Heightfield,
  turnDeg: number,
): Generator<number, { turned: Heightfield; farthestMm: number }> {
  const { footprint, shiftMm, stepMm, columns, rows } = frameOf(field, turnDeg);
  const { cos, sin } = turn(turnDeg);
  const heightAt = groundRunOn(field);
  const heights = new Float64Array(columns * rows);
  for (let row = 0; row < rows; row++) {
    const y = row * stepMm - shiftMm[1];
    for (let column = 0; column < columns; column++) {
      const x = column * stepMm - shiftMm[0];
      heights[row * columns + column] = tidyMm(heightAt(x * cos + y * sin, y * cos - x * sin));
    }
    yield (row + 1) / rows;
  }
  const bare = { columns, rows, stepXMm: stepMm, stepYMm: stepMm, originMm: [0, 0], footprint } as const;
  const whole: Heightfield = { kind: 'heightfield', ...bare, heightsMm: heights };
  const posts = groundPosts(whole);
  const turned = posts ? { ...whole, heightsMm: fillNearest(heights, posts, columns) } : whole;
  let farthestMm = 0;
  const old = groundPosts(field);
  for (let i = 0; i < field.heightsMm.length; i++) {
    if (old?.[i] === 0) continue;
    const x = field.originMm[0] + (i % field.columns) * field.stepXMm;
    const y = field.originMm[1] + Math.floor(i / field.columns) * field.stepYMm;
    const now = heightOf(turned, x * cos - y * sin + shiftMm[0], x * sin + y * cos + shiftMm[1]);
    farthestMm = Math.max(farthestMm, Math.abs(now - field.heightsMm[i]));
  }
  return { turned, farthestMm };
}
