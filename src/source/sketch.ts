/**
 * Ground from features written in the job. They are laid on in the order in which they are listed, each on the ground that
 * those before it have left: unless `how` says otherwise mounds, ridges, rocks and patterns add, gullies, basins and streams
 * carve, shelves, steps and spots set. So a shelf flattens what is listed before it and nothing that comes after, and
 * `steepest` eases what is listed before it: steps that come after keep their risers.
 *
 * Posts stand as near to `spacing` as whole steps allow, in x and y each for itself, so that the last post stands exactly
 * at the size (to the last bit of a double). Only posts in a feature's reach are computed.
 */
import { type Finding, refuse, type Where } from '../findings.ts';
import { relaxed } from '../geometry/steepest.ts';
import { tidyMm } from '../model/ground.ts';
import { type Heightfield, heightfield, MOST_POSTS } from '../model/landform.ts';
import { gridOf, type PostLayout, usualSpacingMm } from '../model/post-layout.ts';
import { riseOf } from '../model/slope.ts';
import { definePlugin, type Walk } from '../plugin.ts';
import { numberText } from '../units.ts';
import { easedBy, featureOptions, kindOf, reliefOf, seedOf } from './sketch/features.ts';
import { groundBefore, postGrid, rowsOf, shapeRow } from './sketch/grid.ts';
import type { Relief } from './sketch/relief.ts';
import { seedsOf } from './sketch/seeds.ts';

export const sketch = definePlugin({
  api: 1,
  stage: 'source',
  name: 'sketch',
  summary: 'ground from features written in the job: mounds, ridges, streams, steps, dunes, rocks …',
  options: (kit) =>
    kit.z.strictObject({
      size: kit.size().describe('of the ground in plan: width (x), depth (y)'),
      spacing: kit
        .length({ above: 0 })
        .optional()
        .describe('between posts, about; left out, the longest side has 300 steps'),
      level: kit.length().prefault(0).describe('of the ground before the first feature'),
      features: kit.z.array(featureOptions(kit)).default([]).describe('laid on in this order'),
    }),
  *run(_files, { size, spacing, level, features }, { tell, random }): Walk<Heightfield> {
    const spacingMm = spacing ?? usualSpacingMm(size);
    const grid = gridOf(size, spacingMm) ?? tooManyPosts(spacingMm);
    const heightsMm = new Float64Array(grid.columns * grid.rows).fill(level);
    const ground = groundBefore(grid, heightsMm, size, level);
    const seeds = seedsOf(
      features.map((feature) => ({ kind: kindOf(feature), seed: seedOf(feature) })),
      random,
    );
    for (const [i, feature] of features.entries()) {
      const name = `Feature ${i + 1} (${kindOf(feature)})`;
      const path = `source.sketch.features.${i}.${kindOf(feature)}`;
      const eased = easedBy(feature);
      if (eased) {
        const progress = (share: number) => (i + share) / features.length;
        const before = Float64Array.from(heightsMm);
        heightsMm.set(yield* spread(relaxed(before, postGrid(grid), riseOf(eased.slope), eased.by, null), progress));
        if (heightsMm.every((height, post) => height === before[post])) tell(gentleAlready(name, { path }));
        continue;
      }
      const relief = reliefOf(feature, ground, seeds[i], path);
      for (const finding of relief.told ?? []) tell(finding);
      const { first, last } = rowsOf(grid, relief);
      let changed = 0;
      for (let row = first; row <= last; row++) {
        changed += shapeRow(grid, heightsMm, relief, row);
        yield (i + (row - first) / (last - first + 1)) / features.length;
      }
      if (isOutside(relief, size)) tell(outside(name, { path }));
      else if (changed === 0) tell(withoutEffect(name, { path }));
      else if (relief.finestMm < 2 * coarser(grid)) tell(tooFine(name, relief.finestMm, coarser(grid), { path }));
    }
    finish(grid, heightsMm, tell);
    return heightfield(grid.columns, grid.rows, grid.stepXMm, grid.stepYMm, heightsMm);
  },
});

/** A part of a walk, its progress as a part of the whole's. */
function* spread<T>(part: Generator<number, T, unknown>, progress: (share: number) => number): Walk<T> {
  let step = part.next();
  for (; !step.done; step = part.next()) yield progress(step.value);
  return step.value;
}

const tooManyPosts = (spacingMm: number): never =>
  refuse(
    'source/too-many-posts',
    `Posts ${numberText(spacingMm, 6)} mm apart would be more than ${MOST_POSTS / 1e6} million.`,
    'Set them wider apart: a five-hundredth of the longest side shows all that hands can cut.',
    { path: 'source.sketch.spacing' },
  );

const notFinite = (where: Where): never =>
  refuse(
    'source/not-finite',
    'The heights of the features add up beyond all numbers.',
    'Give heights that can be built.',
    where,
  );

const outside = (name: string, where: Where): Finding => ({
  level: 'watch',
  code: 'source/feature-outside',
  message: `${name} lies wholly outside the sketch.`,
  fix: 'Move it: x and y count from the south-west corner.',
  where,
});

const withoutEffect = (name: string, where: Where): Finding => ({
  level: 'watch',
  code: 'source/feature-without-effect',
  message: `${name} changes no post: it falls between them or beside the sketch, or the ground stood so before.`,
  fix: 'Make it larger, set the posts closer, or leave it out.',
  where,
});

const gentleAlready = (name: string, where: Where): Finding => ({
  level: 'note',
  code: 'source/gentle-already',
  message: `${name} moves nothing: what is listed before it is nowhere steeper.`,
  fix: 'Leave it out, list it after what it should ease, or ask for a gentler slope.',
  where,
});

const tooFine = (name: string, finestMm: number, stepMm: number, where: Where): Finding => ({
  level: 'watch',
  code: 'source/feature-too-fine',
  message: `${name} goes from high to low within ${mm(finestMm)}; posts ${mm(stepMm)} apart show it ragged.`,
  fix: `Set spacing to ${mm(finestMm / 3)} or less, or make it larger.`,
  where,
});

const belowZero = (lowMm: number, where: Where): Finding => ({
  level: 'note',
  code: 'source/below-zero',
  message: `The ground falls to ${mm(lowMm)}: layers stand on 0 and reach no lower.`,
  fix: 'Raise level, or take the base shaper.',
  where,
});

const mm = (value: number): string => `${numberText(value, 1)} mm`;

const coarser = ({ stepXMm, stepYMm }: PostLayout): number => Math.max(stepXMm, stepYMm);

const isOutside = ({ boxMm: [minX, minY, maxX, maxY] }: Relief, [width, depth]: readonly [number, number]): boolean =>
  maxX < 0 || maxY < 0 || minX > width || minY > depth;

/** Tidy the sums; refuse heights that are no numbers; tell of ground below 0, once, where it is lowest. */
function finish({ columns, stepXMm, stepYMm }: PostLayout, heightsMm: Float64Array, tell: (told: Finding) => void) {
  let lowest = 0;
  for (let i = 0; i < heightsMm.length; i++) {
    heightsMm[i] = tidyMm(heightsMm[i]);
    if (!Number.isFinite(heightsMm[i])) notFinite({ path: 'source.sketch.features' });
    if (heightsMm[i] < heightsMm[lowest]) lowest = i;
  }
  if (heightsMm[lowest] >= 0) return;
  const atMm = [(lowest % columns) * stepXMm, Math.floor(lowest / columns) * stepYMm] as const;
  tell(belowZero(heightsMm[lowest], { path: 'source.sketch', atMm }));
}
