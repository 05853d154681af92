import { type Finding, refuse } from '../findings.ts';
import { underBall } from '../geometry/under-ball.ts';
import { groundPosts, withHeights } from '../model/ground.ts';
import { gridOf, groundCells } from '../model/ground-cells.ts';
import type { Heightfield } from '../model/landform.ts';
import { definePlugin, type Walk } from '../plugin.ts';
import { numberText } from '../units.ts';

/**
 * Take the cover's depth off the ground, so that the design is the finished surface and foam lies under it. `vertical` measures
 * it straight down: square to a slope it is then thinner, depth × cosine of the slope. `square` measures it square to the surface:
 * the foam is the parallel surface, nowhere nearer to the design than the depth (exact at the posts; between them it is as flat
 * as the posts are close). No cover is reckoned on the upright outer edge of the ground. Never below 0.
 */
export const cover = definePlugin({
  api: 1,
  stage: 'shape',
  name: 'cover',
  summary: "takes the cover's depth off the ground, which is then the foam's",
  options: ({ z }) =>
    z.strictObject({
      measured: z
        .enum(['vertical', 'square'])
        .default('vertical')
        .describe('straight down, or square to the surface, so that a steep bank keeps its cover'),
    }),
  *run(landform, { measured }, { facts, tell }): Walk<Heightfield> {
    const depthMm = facts.cover?.depthMm ?? noCover();
    if (landform.kind === 'solid') return onSolid();
    const { heightsMm } = landform;
    const foamMm =
      measured === 'square'
        ? yield* underBall(heightsMm, gridOf(landform), groundCells(landform), depthMm)
        : Float64Array.from(heightsMm, (height) => height - depthMm);
    const thin = thinPosts(landform, foamMm);
    if (thin > 0) tell(thinner((thin * landform.stepXMm * landform.stepYMm) / 1e6, depthMm));
    // Ground that is below 0 already stays: raising it here would hide it from the check that refuses it.
    return withHeights(landform, (height, i) => (height <= 0 ? height : Math.max(foamMm[i], 0)));
  },
});

const thinner = (areaM2: number, depthMm: number): Finding => ({
  level: 'watch',
  code: 'shape/thinner-than-cover',
  message: `About ${numberText(areaM2, 2)} m² of the ground leaves no room for the cover's ${numberText(depthMm, 1)} mm: no foam goes there, and the cover ends up too high.`,
  fix: 'Lift the ground with the shaper base before cover, or lay the cover thinner there.',
  where: { path: 'cover.depth' },
});

const noCover = (): never =>
  refuse(
    'shape/no-cover',
    'The job has no cover to take off.',
    'Say cover: { material: dry sand, depth: 20 }, or leave the shaper cover out.',
    {
      path: 'cover',
    },
  );

const onSolid = (): never =>
  refuse(
    'shape/solid',
    'The shaper cover works on heights, and this ground is a solid.',
    'Model the foam without its cover, and leave the shaper out.',
    { path: 'shape.cover' },
  );

/** Posts of the ground, above 0, that the cover would take below it. Each stands for the area of a cell. */
function thinPosts(field: Heightfield, foamMm: Float64Array): number {
  const posts = groundPosts(field);
  let thin = 0;
  for (let i = 0; i < foamMm.length; i++) {
    if (field.heightsMm[i] > 0 && foamMm[i] < 0 && posts?.[i] !== 0) thin++;
  }
  return thin;
}
