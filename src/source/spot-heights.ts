import { refuse } from '../findings.ts';
import { boxOf } from '../geometry/ring.ts';
import { definePlugin } from '../plugin.ts';
import { MM_IN, numberText, UNITS } from '../units.ts';
import { merged, type Spots } from './spot-heights/doubles.ts';
import { edgeOf, outlineOf } from './spot-heights/edge.ts';
import { groundThrough, postsIn } from './spot-heights/ground.ts';
import { outliers } from './spot-heights/outliers.ts';
import { readPoints } from './spot-heights/points.ts';
import { columnsTaken, differingSpots, least, MOST_TOLD, mergedSpots, missed, outlier } from './spot-heights/told.ts';

/** A ground wider than this (a hundred kilometres) is a fault of the file or its unit. */
const WIDEST_MM = 1e8;
/** Left out, so many posts stand along the longer side. */
const USUAL_POSTS = 200;
/** About 200 bytes each while the surface is solved. */
const MOST_SURFACE_POSTS = 3_000_000;
/** A miss up to this is none: no tape tells it. */
const MET_MM = 0.1;

/**
 * Ground from a survey of scattered spots: a text with x, y and height on each line, apart by commas, semicolons, tabs or
 * blanks, with a header or without. The smooth surface through all of them (geometry/surface.ts says which) stands on their hull, their
 * rectangle, or an outline in the file's own coordinates. The south-west corner of that comes to (0, 0), differences taken
 * before anything is rounded, so that survey coordinates of millions keep their digits. Heights are never moved.
 */
export const spotHeights = definePlugin({
  api: 1,
  stage: 'source',
  name: 'spot-heights',
  summary: 'ground from a list of surveyed spots: x, y and height on each line',
  options: ({ z, file, length, unit }) => {
    const column = z.union([z.int().min(1), z.string().min(1).max(100)]).optional();
    return z.strictObject({
      file: file().describe('the spots, CSV or plain text'),
      unit: z.enum(UNITS).default(unit).describe("what the file's numbers count in, plan and heights alike"),
      spacing: length({ above: 0 })
        .optional()
        .describe('distance between posts, at most; left out, a two-hundredth of the longer side'),
      edge: z
        .enum(['hull', 'rectangle'])
        .default('hull')
        .describe('where the ground ends: a string drawn round the spots, or the rectangle round them'),
      outline: z
        .array(z.tuple([z.number(), z.number()]))
        .min(3)
        .max(10_000)
        .optional()
        .describe("instead of edge: the ground's corners in turn, numbers as the file has them"),
      columns: z
        .strictObject({ x: column, y: column, z: column })
        .default({})
        .describe('columns by name or by number from 1, where they cannot be told'),
    });
  },
  *run(files, { file, unit, spacing, edge, outline, columns }, { tell }) {
    const points = readPoints(files.get(file) ?? new Uint8Array(0), columns, file);
    if (points.isGuess) tell(columnsTaken(points, file));
    const mm = MM_IN[unit];
    const [west, south] = [least(points.x), least(points.y)];
    const read: Spots = {
      xMm: points.x.map((x) => (x - west) * mm),
      yMm: points.y.map((y) => (y - south) * mm),
      zMm: points.z.map((z) => z * mm),
      line: points.line,
    };
    const { spots, doubles } = merged(read);
    if (doubles.same.length > 0) tell(mergedSpots(doubles.same, read, file));
    for (const group of doubles.differing.slice(0, MOST_TOLD)) {
      tell(differingSpots(group, read, doubles.differing.length, file));
    }
    const ring = outline
      ? outlineOf(outline.map(([x, y]) => [(x - west) * mm, (y - south) * mm] as const))
      : edgeOf(spots, edge, file);
    const [minX, minY, maxX, maxY] = boxOf([ring]);
    const side = Math.max(maxX - minX, maxY - minY);
    if (!(Math.max(side, ...extremes(spots)) <= WIDEST_MM)) tooWide(unit, file);
    const found = outliers(spots);
    for (const each of found.slice(0, MOST_TOLD)) tell(outlier(each, spots, [minX, minY], found.length, file));
    const spacingMm = spacing ?? side / USUAL_POSTS;
    const posts = postsIn(maxX - minX, spacingMm) * postsIn(maxY - minY, spacingMm);
    // Spots beyond an outline may ask for four times the posts.
    if (posts * (outline ? 4 : 1) > MOST_SURFACE_POSTS) tooManyPosts(posts, spacingMm);
    const { ground, worst } = yield* groundThrough(spots, ring, spacingMm);
    if (worst.off > MET_MM) tell(missed(worst, spots, [minX, minY], file));
    return ground;
  },
});

const tooWide = (unit: string, file: string): never =>
  refuse(
    'source/too-wide',
    `The spots, or the outline, reach more than 100 km, read in ${unit}.`,
    'Give the unit that the file counts in; look for a slip in its largest numbers.',
    { file },
  );

const tooManyPosts = (posts: number, spacingMm: number): never =>
  refuse(
    'source/too-many-posts',
    `${posts} posts ${numberText(spacingMm, 3)} mm apart are more than a surface can be laid through.`,
    `Say spacing: ${numberText(spacingMm * Math.ceil(Math.sqrt((4 * posts) / MOST_SURFACE_POSTS)), 3)} mm or more.`,
    { path: 'source.spot-heights.spacing' },
  );

const extremes = ({ xMm, yMm, zMm }: Spots): number[] =>
  [xMm, yMm, zMm].flatMap((values) => [-least(values), -least(values.map((value) => -value))]).map(Math.abs);
