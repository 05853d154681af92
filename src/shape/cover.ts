import { type Finding, refuse } from '../findings.ts';
import { groundPosts, withHeights } from '../model/ground.ts';
import type { Heightfield } from '../model/landform.ts';
import { definePlugin } from '../plugin.ts';
import { numberText } from '../units.ts';

/**
 * Take the cover's depth off the ground, straight down, so that the design is the finished surface and foam lies under it.
 * Never below 0. On a slope the cover so measured is thinner square to the ground: depth × cosine of the slope.
 */
export const cover = definePlugin({
  api: 1,
  stage: 'shape',
  name: 'cover',
  summary: "takes the cover's depth off the ground, which is then the foam's",
  options: ({ z }) => z.strictObject({}),
  run(landform, _options, { facts, tell }) {
    const depthMm = facts.cover?.depthMm ?? noCover();
    if (landform.kind === 'solid') return onSolid();
    const thin = thinPosts(landform, depthMm);
    if (thin > 0) tell(thinner((thin * landform.stepXMm * landform.stepYMm) / 1e6, depthMm));
    // Ground that is below 0 already stays: raising it here would hide it from the check that refuses it.
    return withHeights(landform, (height) => (height <= 0 ? height : Math.max(height - depthMm, 0)));
  },
});

const thinner = (areaM2: number, depthMm: number): Finding => ({
  level: 'watch',
  code: 'shape/thinner-than-cover',
  message: `About ${numberText(areaM2, 2)} m² of the ground is lower than the cover's ${numberText(depthMm, 1)} mm: no foam goes there, and the cover ends up too high.`,
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
function thinPosts(field: Heightfield, depthMm: number): number {
  const posts = groundPosts(field);
  let thin = 0;
  for (let i = 0; i < field.heightsMm.length; i++) {
    const height = field.heightsMm[i];
    if (height > 0 && height < depthMm && (posts === null || posts[i] === 1)) thin++;
  }
  return thin;
}
