import { type Finding, refuse } from '../findings.ts';
import { groundOfPosts, NO_DATA_WAYS } from '../model/cells-of-posts.ts';
import type { Heightfield } from '../model/landform.ts';
import { heightsFromNorth } from '../model/north-rows.ts';
import { definePlugin } from '../plugin.ts';
import { MM_IN, numberText, UNITS } from '../units.ts';
import { heightUnitMm, isGeographic, type Placing, placingOf, planUnitMm, refuseDegrees } from './geotiff/placing.ts';
import { readTiff } from './geotiff/read.ts';
import { includes, turnedOver, withoutBlocks } from './geotiff/rows.ts';

/** A ground wider than this (a thousand kilometres) is a fault of the file or its unit. */
const WIDEST_MM = 1e9;
/** Numbers that stand for no data in many files, and are not always named. */
const USUAL_NO_DATA = [-9999, -32_768, -32_767, 65_535];
const METRE_MM = 1000;

/**
 * Ground from a GeoTIFF of heights (OGC 19-008r4): each height is a post in the middle of its pixel, the south-west one at
 * (0, 0). Steps may differ west to east and south to north. Units are the file's, metres where it names none. Degrees are
 * refused unless `spacing` says what they come to. Where there is no data (the file's number for it, NaN, blocks left out)
 * cells are no ground, or filled from the rim; never height 0.
 */
export const geotiff = definePlugin({
  api: 1,
  stage: 'source',
  name: 'geotiff',
  summary: 'ground from elevation data in a GeoTIFF file',
  options: ({ z, file, length, point }) =>
    z.strictObject({
      file: file().describe('the grid, GeoTIFF'),
      band: z.int().min(1).default(1).describe('which of its bands holds the heights'),
      unit: z.enum(UNITS).optional().describe('what its heights count in; else what the file says, else metres'),
      spacing: z
        .union([length({ above: 0 }), point()])
        .optional()
        .describe('distance between posts, or [west to east, south to north]; wins over what the file says'),
      missing: z.number().optional().describe('number that stands for no data, where the file names none'),
      noData: z
        .enum(NO_DATA_WAYS)
        .default('outside')
        .describe('a cell with a corner without data: outside the ground, or filled like a soap film from the rim'),
    }),
  async run(files, { file, band, unit, spacing, missing, noData }, { tell }): Promise<Heightfield> {
    const tiff = await readTiff(files.get(file), band, file);
    const placing = spacing === undefined ? placingOf(tiff, file) : null;
    if (placing && isGeographic(tiff)) refuseDegrees(placing, tiff.rows, file);
    const planMm = placing ? (knownUnit(planUnitMm(tiff), file) ?? METRE_MM) : METRE_MM;
    const steps = placing ? ([placing.stepX * planMm, placing.stepY * planMm] as const) : said(spacing, file);
    const widestMm = Math.max(steps[0] * (tiff.columns - 1), steps[1] * (tiff.rows - 1));
    if (!(widestMm <= WIDEST_MM)) tooWide(file, widestMm);
    if (placing) tell(placed(placing, file));

    const saysMm = unit ? MM_IN[unit] : knownUnit(heightUnitMm(tiff), file);
    if (saysMm === null) tell(assumedUnit(file, planMm));
    const mm = saysMm ?? planMm;
    const none = tiff.noData ?? missing ?? null;
    const rows = placing?.isFromSouth ? turnedOver(tiff) : tiff.values;
    const posts = withoutBlocks(
      heightsFromNorth(rows, tiff.columns, mm, none, file),
      tiff,
      placing?.isFromSouth === true,
    );
    const unnamed = none === null ? USUAL_NO_DATA.filter((value) => includes(tiff.values, value)) : [];
    if (unnamed.length > 0) tell(perhapsMissing(file, unnamed[0]));
    const work = groundOfPosts(posts, tiff.columns, steps, noData, file, tell);
    for (let step = work.next(); ; step = work.next()) if (step.done) return step.value;
  },
});

const placed = ({ southWest, stepX, stepY }: Placing, file: string): Finding => ({
  level: 'note',
  code: 'source/placed',
  message: southWest
    ? `Posts stand ${numberText(stepX, 6)} by ${numberText(stepY, 6)} apart; the south-west one, at ${numberText(southWest[0], 3)}, ${numberText(southWest[1], 3)} in the file, is now 0, 0.`
    : `Posts stand ${numberText(stepX, 6)} by ${numberText(stepY, 6)} apart, in the file's unit.`,
  fix: 'Nothing to do; spacing would say another distance.',
  where: { file },
});

const assumedUnit = (file: string, mm: number): Finding => ({
  level: 'note',
  code: 'source/assumed-unit',
  message: `The file does not say what its heights count in: they are taken for ${mm === METRE_MM ? 'metres' : 'feet, as in plan'}.`,
  fix: 'Say unit if they are not.',
  where: { file },
});

const perhapsMissing = (file: string, value: number): Finding => ({
  level: 'watch',
  code: 'source/perhaps-no-data',
  message: `Some heights are ${value}, which often stands for no data; the file does not say so, and they are taken for ground.`,
  fix: `If it does, say missing: ${value}.`,
  where: { file },
});

const tooWide = (file: string, widthMm: number): never =>
  refuse(
    'source/too-wide',
    `The ground would be ${numberText(widthMm / 1e6, 0)} km wide.`,
    'Say how far apart its posts are: spacing: 30 m.',
    { file },
  );

function knownUnit(mm: number | null, file: string): number | null {
  if (mm === null || !Number.isNaN(mm)) return mm;
  return refuse(
    'source/other-unit',
    'The file counts in a unit that is not known here.',
    'Say the distance between posts with its unit, and what the heights count in: spacing: 30 m, unit: m.',
    { file },
  );
}

function said(spacing: number | readonly [number, number] | undefined, file: string): readonly [number, number] {
  const [x, y] = typeof spacing === 'number' ? [spacing, spacing] : (spacing ?? [0, 0]);
  if (x > 0 && y > 0) return [x, y];
  if (spacing === undefined) {
    const fix = 'Say it: spacing: 30 m, or [20 m, 25 m] when the rows stand wider.';
    return refuse('source/no-spacing', 'The TIFF does not say how far apart its posts are.', fix, { file });
  }
  return refuse('source/spacing', 'The spacing of posts must be above 0.', 'Give the distance from post to post.', {
    path: 'source.geotiff.spacing',
  });
}
