import { type Finding, refuse } from '../findings.ts';
import { type Heightfield, type Landform, MOST_POSTS } from '../model/landform.ts';
import { definePlugin } from '../plugin.ts';
import { numberText } from '../units.ts';
import { joinedField, type Lattice, latticeOf, TAKES } from './join/field.ts';

/**
 * Join a second ground, which a source of its own makes, to this one: it stands with its south-west corner `at` a point.
 * Where both are, the higher or the lower counts, or the second is laid over the first: `blend` leads from one into the other
 * within `width` of the second's edge. Where only one is, it stays as it is, so the ground becomes what either covers. Posts
 * are those of this ground, so many times closer as the second's need; both are read on their four triangles a cell.
 */
export const join = definePlugin({
  api: 1,
  stage: 'shape',
  name: 'join',
  summary: 'joins a second ground to this one: the higher, the lower, or laid over it',
  options: ({ z, source, point, length }) =>
    z
      .strictObject({
        with: source().describe('the second ground, as a source: { sketch: { its options } }'),
        at: point().prefault([0, 0]).describe('where its south-west corner stands'),
        lift: length().prefault(0).describe('how far it is raised'),
        take: z
          .enum(TAKES)
          .default('highest')
          .describe('what counts where both are; blend lays the second over the first'),
        width: length({ above: 0 }).optional().describe('of the blend, from the edge of the second inward'),
      })
      .refine(({ take, width }) => (take === 'blend') === (width !== undefined), {
        message: 'A width and a blend go together.\nSay take: blend and its width, or leave both out.',
      }),
  *run(landform, { at, lift, take, width = 0 }, { others, tell }) {
    const other = others.with;
    if (landform.kind === 'solid' || other.kind === 'solid') return onSolid(landform.kind === 'solid');
    const lattice = latticeOf(landform, other, at);
    if (lattice.columns * lattice.rows > MOST_POSTS) tooMany(lattice);
    const joined = yield* joinedField(landform, other, lattice, { at, lift, take, width });
    if (lattice.finer > 1) tell(closerPosts(joined));
    const [west, south] = lattice.cornerMm;
    if (west !== 0 || south !== 0) tell(newCorner(west, south));
    return joined;
  },
});

const closerPosts = ({ stepXMm, stepYMm }: Heightfield): Finding => ({
  level: 'note',
  code: 'shape/closer-posts',
  message: `Posts now stand ${numberText(stepXMm)} × ${numberText(stepYMm)} mm apart, for the second ground's sake.`,
  fix: 'Nothing to do; a coarser second ground makes the work shorter.',
  where: { path: 'shape.join.with' },
});

const newCorner = (west: number, south: number): Finding => ({
  level: 'watch',
  code: 'shape/new-corner',
  message: `The second ground reaches beyond the first: the south-west corner is now what was ${numberText(west, 1)}, ${numberText(south, 1)} mm.`,
  fix: 'Count zones and the shapers after this one from there, or crop.',
  where: { path: 'shape.join.at' },
});

const tooMany = ({ columns, rows }: Lattice): never =>
  refuse(
    'shape/too-many-posts',
    `The joined ground would have ${columns} × ${rows} posts; at most ${MOST_POSTS} are taken.`,
    'Give the second ground fewer posts, or a place nearer by.',
    { path: 'shape.join' },
  );

const onSolid = (isFirst: boolean): Landform =>
  refuse(
    'shape/solid',
    `The shaper join works on heights, and the ${isFirst ? 'first' : 'second'} ground is a solid.`,
    'Join solids in the program they were modelled in, and bring them in as one.',
    { path: isFirst ? 'shape.join' : 'shape.join.with' },
  );
