import { regionsOfPosts } from '../../geometry/outline-regions.ts';
import type { Box, Region } from '../../geometry/ring.ts';
import type { Heightfield } from '../../model/landform.ts';
import { type Cut, halfwayMm } from './levels.ts';

/**
 * Make ready to outline a heightfield layer by layer. Layer k lies between levelsMm[k] and levelsMm[k + 1]. `proud`: the
 * closure of { ground > its underside }; `shy`: { ground ≥ its top }; `middle`: { ground ≥ half way }, so that flat
 * ground exactly half way up counts as foam. Regions over the whole grid of posts, in whole
 * micrometres: not clipped to the footprint.
 */
export function heightfieldOutlines(
  field: Heightfield,
  levelsMm: ArrayLike<number>,
  cut: Cut,
): (k: number) => Region[] {
  const outlineAt = regionsOfPosts({
    columns: field.columns,
    rows: field.rows,
    stepX: field.stepXMm,
    stepY: field.stepYMm,
    originX: field.originMm[0],
    originY: field.originMm[1],
    values: field.heightsMm,
  });
  // A 32-bit height that is meant to lie at a level lies at the level's own 32-bit value.
  const met = field.heightsMm instanceof Float32Array ? Math.fround : (level: number) => level;
  return (k) => {
    if (cut === 'proud') return outlineAt(met(levelsMm[k]), 'above');
    const level = cut === 'shy' ? levelsMm[k + 1] : halfwayMm(levelsMm[k], levelsMm[k + 1]);
    return outlineAt(met(level), 'at least');
  };
}

/** The rectangle that the posts cover. */
export function postsBox({ columns, rows, stepXMm, stepYMm, originMm }: Heightfield): Box {
  const [x, y] = originMm;
  return [x, y, x + (columns - 1) * stepXMm, y + (rows - 1) * stepYMm];
}

/**
 * Whether the outlines half way up layers k and k + 1 are further apart than a distance, wherever they run: no slope of the
 * ground climbs from one to the other in less. O(posts) when it is first asked.
 */
export function standsClear(
  field: Heightfield,
  levelsMm: ArrayLike<number>,
  distanceMm: number,
): (k: number) => boolean {
  let steepest = -1;
  return (k) => {
    if (steepest < 0) steepest = steepestSlope(field);
    const riseMm = halfwayMm(levelsMm[k + 1], levelsMm[k + 2]) - halfwayMm(levelsMm[k], levelsMm[k + 1]);
    return steepest * distanceMm < riseMm;
  };
}

/** A slope that none of the four triangles of any cell is steeper than: theirs are means of those between posts. */
function steepestSlope({ columns, rows, stepXMm, stepYMm, heightsMm }: Heightfield): number {
  let east = 0;
  let north = 0;
  for (let row = 0, at = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++, at++) {
      if (column + 1 < columns) east = Math.max(east, Math.abs(heightsMm[at + 1] - heightsMm[at]));
      if (row + 1 < rows) north = Math.max(north, Math.abs(heightsMm[at + columns] - heightsMm[at]));
    }
  }
  return Math.sqrt((east / stepXMm) * (east / stepXMm) + (north / stepYMm) * (north / stepYMm));
}
