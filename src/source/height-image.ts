import { refuse } from '../findings.ts';
import { groundOfPosts, NO_DATA_WAYS } from '../model/cells-of-posts.ts';
import { tidyMm } from '../model/ground.ts';
import { definePlugin } from '../plugin.ts';
import { numberText } from '../units.ts';
import { greyLevels } from './height-image/grey.ts';
import { readHeader } from './height-image/header.ts';

/** More than this between two grey levels shows as terraces: hands cut to 1 to 3 mm (trade figure, from memory). */
const COARSE_MM = 1;
/** Posts whose spacings differ by more than this part stretch the ground. */
const STRETCHED = 0.01;

/**
 * Ground from a grey image, its upper edge north. A pixel is a post, so that `size` runs from the first pixel's middle to
 * the last one's. Pixel value 0 is `low`, the largest that the image's depth holds is `high`; low above high inverts.
 * PNG: grey of any depth, palette or colour only if every colour is a grey. Wholly clear pixels have no height: the cells that
 * they touch are no ground, or are filled; pixels that are seen through in part are refused.
 */
export const heightImage = definePlugin({
  api: 1,
  stage: 'source',
  name: 'height-image',
  summary: 'ground from a grey PNG image, 8 or 16 bit: the lighter the higher',
  options: ({ z, file, length, size }) =>
    z.strictObject({
      file: file().describe('the image, a PNG'),
      low: length().describe('height of pixel value 0'),
      high: length().describe('height of the largest pixel value; below low it turns the ground upside down'),
      size: size().describe('width and depth of the ground from the first post to the last'),
      noData: z
        .enum(NO_DATA_WAYS)
        .default('outside')
        .describe('a cell with a clear corner: outside the ground, or filled like a soap film from the rim'),
    }),
  *run(files, { file, low, high, size, noData }, { tell }) {
    if (low === high) flat(low);
    const header = readHeader(files.get(file), file);
    const { width, height } = header;
    yield 0.1;
    const { levels, highest, clear } = greyLevels(files.get(file) as Uint8Array, header, file);
    yield 0.6;
    const heightsMm = new Float64Array(width * height);
    const known = new Uint8Array(width * height).fill(1);
    let missing = 0;
    for (let row = 0; row < height; row++) {
      const from = (height - 1 - row) * width;
      for (let column = 0; column < width; column++) {
        heightsMm[row * width + column] = tidyMm(low + ((high - low) * levels[from + column]) / highest);
        if (clear?.[from + column] !== 1) continue;
        known[row * width + column] = 0;
        missing++;
      }
    }
    const stepXMm = size[0] / (width - 1);
    const stepYMm = size[1] / (height - 1);
    const levelMm = Math.abs(high - low) / highest;
    if (header.depth <= 8 && levelMm > COARSE_MM) tell(coarse(file, highest + 1, levelMm));
    if (Math.abs(stepXMm / stepYMm - 1) > STRETCHED) tell(stretched(file, stepXMm, stepYMm, size[0], header));
    return yield* groundOfPosts({ heightsMm, known, missing }, width, [stepXMm, stepYMm], noData, file, tell);
  },
});

const coarse = (file: string, levels: number, levelMm: number) => ({
  level: 'note' as const,
  code: 'source/coarse-levels',
  message: `The image has ${levels} grey levels, ${numberText(levelMm, 1)} mm of height each: gentle ground comes in terraces.`,
  fix: 'Save it with 16 bits a pixel if it was drawn so, or even it out with the shaper smooth.',
  where: { file },
});

const stretched = (
  file: string,
  stepXMm: number,
  stepYMm: number,
  widthMm: number,
  { width, height }: { width: number; height: number },
) => ({
  level: 'watch' as const,
  code: 'source/stretched',
  message: `The posts stand ${numberText(stepXMm, 2)} mm apart west to east but ${numberText(stepYMm, 2)} mm south to north: size stretches the image.`,
  fix: `A depth of ${numberText((widthMm * (height - 1)) / (width - 1), 1)} mm keeps its shape; leave it if the stretch is meant.`,
  where: { file },
});

const flat = (mm: number): never =>
  refuse(
    'source/flat',
    `low and high are both ${numberText(mm)} mm: the ground would be flat.`,
    'Give the heights of the darkest and the lightest grey there can be.',
    { path: 'source.height-image.high' },
  );
