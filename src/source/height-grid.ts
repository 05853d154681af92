import { refuse } from '../findings.ts';
import { share } from '../geometry/share.ts';
import { groundOfPosts, NO_DATA_WAYS } from '../model/cells-of-posts.ts';
import { heightsFromNorth } from '../model/north-rows.ts';
import { definePlugin } from '../plugin.ts';
import { MM_IN, UNITS } from '../units.ts';
import { type GridHeader, NO_DATA, readGridHeader } from './height-grid/header.ts';
import { readNumbers } from './height-grid/numbers.ts';

/** A ground wider than this (a thousand kilometres) is a fault of the file or its unit. */
const WIDEST_MM = 1e9;
/** Degrees of arc are this small from post to post (a tenth is 11 km), metres or feet hardly ever. */
const MOST_DEGREES = 0.1;

/**
 * Ground from a grid of heights in plain text, the first row the northernmost. With the header of an Esri ASCII raster
 * (ncols, nrows, xll…, yll…, cellsize or dx and dy, NODATA_value; any case, any order) or bare rows of numbers, which need
 * `spacing`. The south-west post comes to (0, 0), whether the header counts corners or centres. Missing heights (−9999
 * unless the header names another number) leave every cell that they touch outside the footprint, or are filled from the rim.
 */
export const heightGrid = definePlugin({
  api: 1,
  stage: 'source',
  name: 'height-grid',
  summary: 'ground from a plain-text grid of heights, such as elevation data comes in',
  options: ({ z, file, length, point, unit }) =>
    z.strictObject({
      file: file().describe('the grid, plain text'),
      unit: z.enum(UNITS).default(unit).describe("what the file's numbers count in, heights and spacing alike"),
      spacing: z
        .union([length({ above: 0 }), point()])
        .optional()
        .describe('distance between posts, or [west to east, south to north]; wins over what the file says'),
      noData: z
        .enum(NO_DATA_WAYS)
        .default('outside')
        .describe('a cell with a corner without data: outside the ground, or filled like a soap film from the rim'),
    }),
  *run(files, { file, unit, spacing, noData }, { tell }) {
    const bytes = files.get(file) ?? new Uint8Array(0);
    const header = readGridHeader(bytes, file);
    if (header && spacing === undefined && seemsDegrees(header)) tell(degrees(file, header.stepX));
    const [stepX, stepY] = stepsMm(header, spacing, MM_IN[unit], file);
    const { values, columns, rows } = yield* share(readNumbers(bytes, header, file), 0, 0.6);
    if ((columns - 1) * stepX > WIDEST_MM || (rows - 1) * stepY > WIDEST_MM) tooWide(file, (columns - 1) * stepX, unit);
    const posts = heightsFromNorth(values, columns, MM_IN[unit], header?.noData ?? NO_DATA, file);
    return yield* share(groundOfPosts(posts, columns, [stepX, stepY], noData, file, tell), 0.6, 1);
  },
});

const degrees = (file: string, step: number) => ({
  level: 'watch' as const,
  code: 'source/degrees',
  message: `The posts are ${step} apart and the corner lies within ±180, ±90: the grid seems to count in degrees of arc, and its heights do not.`,
  fix: 'Give the distance between posts as spacing: [west to east, south to north], or project the data to metres first.',
  where: { file },
});

const tooWide = (file: string, widthMm: number, unit: string): never =>
  refuse(
    'source/too-wide',
    `The ground would be ${Math.round(widthMm / 1e6)} km wide, its numbers read in ${unit}.`,
    'Give the unit that the file counts in.',
    { file },
  );

function seemsDegrees({ stepX, stepY, west, south }: GridHeader): boolean {
  if (west === null || south === null || west === 0 || south === 0) return false;
  return Math.max(stepX, stepY) < MOST_DEGREES && Math.abs(west) <= 180 && Math.abs(south) <= 90;
}

function stepsMm(
  header: GridHeader | null,
  spacing: number | readonly [number, number] | undefined,
  mm: number,
  file: string,
): readonly [number, number] {
  const [x, y] = typeof spacing === 'number' ? [spacing, spacing] : (spacing ?? [0, 0]);
  if (spacing !== undefined) {
    if (x > 0 && y > 0) return [x, y];
    refuse('source/spacing', 'The spacing of posts must be above 0.', 'Give the distance from post to post.', {
      path: 'source.height-grid.spacing',
    });
  }
  if (header) return [header.stepX * mm, header.stepY * mm];
  return refuse(
    'source/no-spacing',
    `The grid has no header that says how far apart its posts are.`,
    'Say it: spacing: 20, or [20, 25] when the rows stand wider.',
    { file },
  );
}
