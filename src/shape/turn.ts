import { type Finding, refuse } from '../findings.ts';
import { type Landform, MOST_POSTS } from '../model/landform.ts';
import { turnedSolid, UPS } from '../model/turned-solid.ts';
import { definePlugin } from '../plugin.ts';
import { numberText } from '../units.ts';
import { quarterTurned } from './turn/quarter.ts';
import { postsNeeded, turnedAnyhow } from './turn/resampled.ts';

/**
 * Turn the ground, counter-clockwise as seen from above (from the end of the axis), and move its box back to (0, 0). Quarter
 * turns of a heightfield are exact. By any other angle its footprint is turned exactly, and new posts, as close as the closer of
 * the old steps, take their heights from its four triangles a cell; the largest difference at an old post is told. A solid turns
 * about x or y as well, at its height as it comes: what then lies below 0 stays there.
 */
export const turn = definePlugin({
  api: 1,
  stage: 'shape',
  name: 'turn',
  summary: 'turns the ground in plan; a solid also on its side',
  options: ({ z }) =>
    z
      .strictObject({
        by: z.number().min(-360).max(360).optional().describe('degrees, counter-clockwise'),
        about: z.enum(['z', 'x', 'y']).default('z').describe('the axis; x and y for solids only'),
        up: z.enum(UPS).optional().describe('of a solid: which of its own directions shall point up, before by'),
      })
      .refine(({ by, up }) => by !== undefined || up !== undefined, {
        message: 'Nothing is said of the turn.\nSay by, up or both.',
      }),
  *run(landform, { by = 0, about, up = 'z' }, { tell }) {
    if (landform.kind === 'solid') {
      if (landform.footprint && (about !== 'z' || up !== 'z')) cropped();
      return turnedSolid(landform, up, about, by);
    }
    if (about !== 'z') onPosts('about', about);
    if (up !== 'z') onPosts('up', up);
    if (by % 90 === 0) return quarterTurned(landform, by);
    const posts = postsNeeded(landform, by);
    if (posts > MOST_POSTS) tooMany(posts);
    const { turned, farthestMm } = yield* turnedAnyhow(landform, by);
    tell(resampled(turned.stepXMm, farthestMm));
    return turned;
  },
});

const resampled = (stepMm: number, farthestMm: number): Finding => ({
  level: 'note',
  code: 'shape/resampled',
  message: `Turned by no quarter turn: heights were taken anew at posts ${numberText(stepMm)} mm apart, and differ by up to ${numberText(farthestMm, 1)} mm at the old ones.`,
  fix: 'Turn by 90, 180 or 270 to keep every height, or give the source closer posts.',
  where: { path: 'shape.turn.by' },
});

const onPosts = (option: string, value: string): Landform =>
  refuse(
    'shape/heights',
    `Ground of heights turns about the upright axis only: ${option}: ${value} would leave it with overhangs.`,
    'Leave the option out, or bring the ground in as a solid.',
    { path: `shape.turn.${option}` },
  );

const cropped = (): Landform =>
  refuse(
    'shape/cropped',
    'A cropped solid is not turned on its side: its crop was made in plan.',
    'Put turn before crop.',
    { path: 'shape.turn' },
  );

const tooMany = (posts: number): never =>
  refuse(
    'shape/too-many-posts',
    `The turned ground would have ${posts} posts; at most ${MOST_POSTS} are taken.`,
    'Turn by a quarter turn, or give the source fewer posts.',
    { path: 'shape.turn.by' },
  );
