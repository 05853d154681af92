import { type Finding, refuse } from '../findings.ts';
import { cellsUnder, cornersOf } from '../geometry/grid-cells.ts';
import { distancesFromLines, lineAround } from '../geometry/line-distance.ts';
import { reversed, ringArea } from '../geometry/ring.ts';
import { SNAP } from '../geometry/tolerance.ts';
import { groundPosts, withHeights } from '../model/ground.ts';
import { gridOf } from '../model/ground-cells.ts';
import { definePlugin } from '../plugin.ts';
import { numberText } from '../units.ts';
import { outlineRing } from './outline/ring.ts';

/**
 * Bring the ground inside an outline to a level, exactly level everywhere in it: so the posts of every cell that it touches are
 * set, and the flat reaches up to a post's distance beyond. Over `ramp` outside the outline the ground leads into the level
 * evenly, the nearer the more; without one the edge is as upright as the posts let it be.
 */
export const flatten = definePlugin({
  api: 1,
  stage: 'shape',
  name: 'flatten',
  summary: 'brings the ground inside an outline to a level, with a ramp around it',
  options: ({ z, point, length }) =>
    z.strictObject({
      outline: z.array(point()).min(3).max(10_000).describe('corners in turn, either way round'),
      level: length().describe('height it shall have'),
      ramp: length({ least: 0 })
        .prefault(0)
        .describe('width around the outline in which the ground leads into the level'),
    }),
  run(landform, { outline, level, ramp }, { tell }) {
    if (landform.kind === 'solid') return onSolid();
    const given = outlineRing(outline, 'flatten');
    const ring = ringArea(given) > 0 ? given : reversed(given);
    const grid = gridOf(landform);
    const flat = cornersOf(cellsUnder([[ring]], grid, SNAP), grid.across);
    const ground = groundPosts(landform);
    if (!flat.some((post, i) => post === 1 && ground?.[i] !== 0)) outside();
    const distances = ramp > 0 ? distancesFromLines([lineAround(ring)], grid, ramp) : null;
    let [dugMm, builtMm] = [0, 0];
    const made = withHeights(landform, (height, i) => {
      const share = flat[i] === 1 ? 1 : distances && distances[i] < ramp ? 1 - distances[i] / ramp : 0;
      if (share === 0) return height;
      const flattened = share === 1 ? level : height + (level - height) * share;
      if (ground?.[i] !== 0) {
        dugMm = Math.max(dugMm, height - flattened);
        builtMm = Math.max(builtMm, flattened - height);
      }
      return flattened;
    });
    tell(flattenedTo(level, dugMm, builtMm));
    return made;
  },
});

const flattenedTo = (levelMm: number, dugMm: number, builtMm: number): Finding => ({
  level: 'note',
  code: 'shape/flattened',
  message: `The ground is level at ${numberText(levelMm)} mm inside the outline: dug in by up to ${numberText(dugMm, 1)} mm, built up by up to ${numberText(builtMm, 1)} mm.`,
  fix: 'A wider ramp makes the way in gentler.',
  where: { path: 'shape.flatten' },
});

const outside = (): never =>
  refuse(
    'shape/outside',
    'Nothing of the ground lies inside the outline that is to be level.',
    'Give corners inside it, in the coordinates that the ground has after the shapers before.',
    { path: 'shape.flatten.outline' },
  );

const onSolid = (): never =>
  refuse(
    'shape/solid',
    'The shaper flatten works on heights, and this ground is a solid.',
    'Flatten it in the program it was modelled in, and leave the shaper out.',
    { path: 'shape.flatten' },
  );
