import { type Finding, refuse } from '../findings.ts';
import { groundRange, withHeights } from '../model/ground.ts';
import { definePlugin } from '../plugin.ts';
import { numberText } from '../units.ts';

/** A height this near to a level, in steps, is at it: 32-bit heights and reckoned ones miss it by as much. */
const AT_LEVEL = 1e-6;

/**
 * Cut the ground into level treads, `step` apart in height and exactly at their levels, counted from `from`. Treads take the
 * ground's place `middle` (half dug in, half built out, so that the volume about stays), `low` (only dug in) or `high` (only
 * built out). `ramp` is the share of each step's rise that stays a slope, as steep as makes up for it: 0 leaves risers as upright
 * as the posts let them be, a post's distance wide. Terracing terraced ground again changes nothing.
 */
export const terrace = definePlugin({
  api: 1,
  stage: 'shape',
  name: 'terrace',
  summary: 'cuts the ground into level treads, a stated height apart',
  options: ({ z, length }) =>
    z.strictObject({
      step: length({ above: 0 }).describe('height from one tread to the next'),
      from: length().prefault(0).describe('height of one of the treads'),
      treads: z
        .enum(['middle', 'low', 'high'])
        .default('middle')
        .describe('middle: half dug in, half built out; low: only dug in; high: only built out'),
      ramp: z.number().min(0).lt(1).default(0).describe('share of each rise that stays a slope, 0 to 1'),
    }),
  run(landform, { step, from, treads, ramp }, { tell }) {
    if (landform.kind === 'solid') return onSolid();
    const { lowMm, highMm } = groundRange(landform);
    if (highMm - lowMm < step) tell(oneStep(step, highMm - lowMm));
    const share = { low: 0, middle: 0.5, high: 1 }[treads];
    return withHeights(landform, (height) => from + step * treadOf((height - from) / step, share, ramp));
  },
});

/**
 * Which tread, or where on the ramp between two, for a height counted in steps. A ramp lies around the height at which the
 * ground passes from one tread to the next: above the lower one by 1 when treads lie low, by half a step in the middle, by 0 when high.
 */
function treadOf(steps: number, share: number, ramp: number): number {
  const nearest = Math.round(steps);
  if (Math.abs(steps - nearest) <= AT_LEVEL * Math.max(1, Math.abs(steps))) return nearest;
  const below = Math.floor(steps);
  // The ramp begins so that it ends, or is halved, or begins, at the passing.
  const start = (1 - share) * (1 - ramp);
  const up = steps - below - start;
  if (ramp === 0) return up > 0 || (up === 0 && share > 0) ? below + 1 : below;
  return below + Math.min(1, Math.max(0, up / ramp));
}

const oneStep = (stepMm: number, reliefMm: number): Finding => ({
  level: 'watch',
  code: 'shape/one-step',
  message: `A step of ${numberText(stepMm)} mm is more than all the relief there is, ${numberText(reliefMm, 1)} mm.`,
  fix: 'Give a lower step, or bring the ground to its size first.',
  where: { path: 'shape.terrace.step' },
});

const onSolid = (): never =>
  refuse(
    'shape/solid',
    'The shaper terrace works on heights, and this ground is a solid.',
    'Terrace it in the program it was modelled in, and leave the shaper out.',
    { path: 'shape.terrace' },
  );
