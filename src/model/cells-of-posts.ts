import { type Finding, refuse } from '../findings.ts';
import { cornersOf } from '../geometry/grid-cells.ts';
import { fillMembrane, fillNearest } from '../geometry/grid-fill.ts';
import { outlineOfCells } from '../geometry/grid-outline.ts';
import { type Heightfield, heightfield } from './landform.ts';

/** What is done where a grid has no data: the cell is no ground, or is filled like a soap film from the rim of the hole. */
export const NO_DATA_WAYS = ['outside', 'fill'] as const;

/** Heights at posts, the southern row first, and which of them are known: 1 each. */
export interface PostsRead {
  readonly heightsMm: Float64Array;
  readonly known: Uint8Array;
  readonly missing: number;
}

/** Ground from posts of which some may have no height: never taken for height 0. Tells what became of them; refuses none at all. */
export function* groundOfPosts(
  { heightsMm, known, missing }: PostsRead,
  columns: number,
  [stepXMm, stepYMm]: readonly [number, number],
  way: (typeof NO_DATA_WAYS)[number],
  file: string,
  tell: (finding: Finding) => void,
): Generator<number, Heightfield, unknown> {
  const rows = known.length / columns;
  if (missing === 0) return heightfield(columns, rows, stepXMm, stepYMm, heightsMm);
  if (missing === known.length) noHeights(file);
  tell(holes(file, missing, known.length, way));
  if (way === 'outside') return groundOfCells(heightsMm, known, columns, stepXMm, stepYMm, file);
  return heightfield(columns, rows, stepXMm, stepYMm, yield* fillMembrane(heightsMm, known, columns));
}

/**
 * The ground of the cells that have a height at all four corners, cut to their box so that it starts at (0, 0). Posts that
 * belong to no such cell take a nearest height: they are not ground, and must not raise or lower its extent.
 */
function groundOfCells(
  heightsMm: Float64Array,
  known: Uint8Array,
  columns: number,
  stepXMm: number,
  stepYMm: number,
  file: string,
): Heightfield {
  const rows = heightsMm.length / columns;
  let west = columns;
  let east = -1;
  let south = rows;
  let north = -1;
  for (let row = 0; row + 1 < rows; row++) {
    for (let column = 0; column + 1 < columns; column++) {
      if (!isCell(row * columns + column)) continue;
      west = Math.min(west, column);
      east = Math.max(east, column);
      south = Math.min(south, row);
      north = Math.max(north, row);
    }
  }
  if (east < 0) noCell(file);
  const across = east - west + 1;
  const up = north - south + 1;
  const cells = new Uint8Array(across * up);
  const heights = new Float64Array((across + 1) * (up + 1));
  for (let row = 0; row <= up; row++) {
    for (let column = 0; column <= across; column++) {
      const post = (south + row) * columns + west + column;
      heights[row * (across + 1) + column] = heightsMm[post];
      if (row < up && column < across && isCell(post)) cells[row * across + column] = 1;
    }
  }
  return {
    kind: 'heightfield',
    columns: across + 1,
    rows: up + 1,
    stepXMm,
    stepYMm,
    originMm: [0, 0],
    heightsMm: fillNearest(heights, cornersOf(cells, across), across + 1),
    footprint: outlineOfCells(cells, across, stepXMm, stepYMm),
  };

  function isCell(post: number): boolean {
    return (known[post] & known[post + 1] & known[post + columns] & known[post + columns + 1]) === 1;
  }
}

const holes = (file: string, missing: number, posts: number, way: (typeof NO_DATA_WAYS)[number]) => ({
  level: 'note' as const,
  code: 'source/no-data',
  message: `${missing} of ${posts} posts have no height: ${way === 'fill' ? 'they are stretched like a soap film from the rim of the hole' : 'the cells that they touch are no ground'}.`,
  fix: way === 'fill' ? 'Look at them before you cut.' : 'noData: fill fills them from the rim of the hole.',
  where: { file },
});

const noHeights = (file: string): never =>
  refuse(
    'source/no-heights',
    'The grid has no height at any post: every number is the one that stands for no data.',
    'Fetch the data again, for a place that it covers.',
    { file },
  );

const noCell = (file: string): never =>
  refuse(
    'source/no-ground',
    `The grid has no four neighbouring posts that all have a height: there is no ground between them.`,
    'Fill the gaps with noData: fill, or fetch denser data.',
    { file },
  );
