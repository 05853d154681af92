import { type Finding, refuse } from '../findings.ts';
import { directionDeg } from '../geometry/exact-math.ts';
import type { Region } from '../geometry/ring.ts';
import { groundRange, withHeights } from '../model/ground.ts';
import { slopesOf } from '../model/ground-slope.ts';
import { extent, heightfield, isWhole, type Landform } from '../model/landform.ts';
import { definePlugin } from '../plugin.ts';
import { numberText } from '../units.ts';

/** Plan factors that differ by more than this part stretch the ground. */
const STRETCHED = 0.01;
/** From a thousand times as large to the whole earth on a table: what lies beyond is a slip. */
const [LEAST_SCALE, MOST_SCALE] = [0.001, 1e8];
const LARGEST_MM = 1e9;

/**
 * Bring ground to a size or to a scale. Everything is multiplied about the south-west corner at z = 0: low ground rises with
 * the high, nothing is shifted. In plan: `scale` (500 is 1 : 500), `size`, or `width` or `depth` alone, which keep its shape.
 * In height: `vertical` (a scale of its own) or `height`, which the highest ground then has above z = 0; without either, as
 * in plan (the mean of both ways, √(x · y), where size stretches it).
 */
export const fit = definePlugin({
  api: 1,
  stage: 'shape',
  name: 'fit',
  summary: 'brings the ground to a size or a scale, in plan and in height',
  options: ({ z, length, size }) =>
    z
      .strictObject({
        scale: z.number().min(LEAST_SCALE).max(MOST_SCALE).optional().describe('500 makes 1 mm of 500 mm'),
        size: size().optional().describe('width and depth it shall have'),
        width: length({ above: 0 }).optional().describe('width it shall have, west to east; the depth follows'),
        depth: length({ above: 0 }).optional().describe('depth it shall have, south to north; the width follows'),
        vertical: z
          .number()
          .min(LEAST_SCALE)
          .max(MOST_SCALE)
          .optional()
          .describe('scale of the heights: 400 makes 1 mm of 400 mm'),
        height: length({ above: 0 }).optional().describe('height of the highest ground above z = 0'),
      })
      .refine(({ scale, size, width, depth }) => count(scale, size, width, depth) <= 1, {
        message: 'The plan is said in more than one way.\nSay one of scale, size, width and depth.',
      })
      .refine(({ vertical, height }) => count(vertical, height) <= 1, {
        message: 'The height is said in two ways.\nSay vertical or height.',
      })
      .refine((wanted) => count(...Object.values(wanted)) > 0, {
        message: 'Nothing is said of the size.\nSay scale, size, width, depth, vertical or height.',
      }),
  run(landform, wanted, { tell }) {
    const { box } = extent(landform);
    const { highMm } = groundRange(landform);
    const x = planFactor(wanted, 0, box[2] - box[0], box[3] - box[1]);
    const y = planFactor(wanted, 1, box[2] - box[0], box[3] - box[1]);
    if (wanted.height !== undefined && !(highMm > 0)) notAbove(highMm);
    const plan = x === y ? x : Math.sqrt(x * y);
    const z = wanted.vertical ? 1 / wanted.vertical : wanted.height ? wanted.height / highMm : plan;
    const fitted = scaled(landform, x, y, z);
    if (!(Math.max((box[2] - box[0]) * x, (box[3] - box[1]) * y, highMm * z) <= LARGEST_MM)) tooLarge();
    if (Math.abs(x / y - 1) > STRETCHED) tell(stretched(x / y, wanted.size?.[0] ?? 0, box));
    tell(fittedTo(fitted, z / plan));
    return fitted;
  },
});

type Wanted = { scale?: number; size?: readonly [number, number]; width?: number; depth?: number };

function planFactor({ scale, size, width, depth }: Wanted, way: 0 | 1, hasWidth: number, hasDepth: number): number {
  if (scale !== undefined) return 1 / scale;
  if (size !== undefined) return size[way] / (way === 0 ? hasWidth : hasDepth);
  if (width !== undefined) return width / hasWidth;
  return depth === undefined ? 1 : depth / hasDepth;
}

function fittedTo(landform: Landform, exaggeration: number): Finding {
  const { box, highMm } = { ...extent(landform), ...groundRange(landform) };
  const rise = slopesOf(landform).steepest;
  const aside = landform.kind === 'solid' ? ', walls and overhangs aside' : '';
  const steep = `; the steepest ground leans ${numberText(directionDeg(1, rise), 0)}°, ${numberText(rise, 2)} up to 1 along${aside}`;
  const more =
    Math.abs(exaggeration - 1) < 0.005 ? '' : `, its heights ${numberText(exaggeration, 2)} times as large as in plan`;
  return {
    level: 'note',
    code: 'shape/fitted',
    message: `The ground is now ${numberText(box[2], 1)} × ${numberText(box[3], 1)} mm and ${numberText(highMm, 1)} mm high${more}${steep}.`,
    fix: more ? 'Take vertical or height out to keep its true slopes.' : 'Nothing to do if that is the size you want.',
    where: {},
  };
}

const stretched = (ratio: number, widthMm: number, box: readonly number[]): Finding => ({
  level: 'watch',
  code: 'shape/stretched',
  message: `The ground is stretched ${numberText(ratio, 3)} times as much west to east as south to north.`,
  fix: `A depth of ${numberText((widthMm * (box[3] - box[1])) / (box[2] - box[0]), 1)} mm keeps its shape: say width alone, or leave it if the stretch is meant.`,
  where: { path: 'shape.fit.size' },
});

const tooLarge = (): never =>
  refuse('shape/too-large', 'The ground would be more than 1000 km long or high.', 'Check the scale and the unit.', {
    path: 'shape.fit',
  });

const notAbove = (highMm: number): never =>
  refuse(
    'shape/no-height',
    `The highest ground is at ${numberText(highMm)} mm: no factor brings it to a height above 0.`,
    'Lift it with the shaper base first, or give vertical.',
    { path: 'shape.fit.height' },
  );

function scaled(landform: Landform, x: number, y: number, z: number): Landform {
  const footprint = landform.footprint?.map((region) => stretchedRegion(region, x, y));
  if (landform.kind === 'solid') {
    const positionsMm = landform.positionsMm.map((value, i) => value * [x, y, z][i % 3]);
    return { ...landform, positionsMm, footprint: footprint ?? null };
  }
  const { columns, rows, stepXMm, stepYMm, originMm } = landform;
  const { heightsMm } = withHeights(landform, (height) => height * z);
  if (isWhole(landform)) return heightfield(columns, rows, stepXMm * x, stepYMm * y, heightsMm);
  return {
    ...landform,
    stepXMm: stepXMm * x,
    stepYMm: stepYMm * y,
    originMm: [originMm[0] * x, originMm[1] * y],
    heightsMm,
    footprint: footprint ?? [],
  };
}

const stretchedRegion = (region: Region, x: number, y: number): Region =>
  region.map((ring) => ring.map((value, i) => value * (i % 2 === 0 ? x : y)));

const count = (...values: readonly unknown[]): number => values.filter((value) => value !== undefined).length;
