import { type Finding, refuse } from '../findings.ts';
import { relaxed, STEEPEST_WAYS, type SteepestWay, steepestOf } from '../geometry/steepest.ts';
import { tidyMm } from '../model/ground.ts';
import { groundCells } from '../model/ground-cells.ts';
import type { Heightfield } from '../model/landform.ts';
import { riseOf, slopeOption, slopeText } from '../model/slope.ts';
import { definePlugin } from '../plugin.ts';
import { numberText } from '../units.ts';

/**
 * Make ground nowhere steeper than a slope: `settle` lets what is too steep slide down and keeps the volume, as loose sand
 * does; `cut` only takes off, `fill` only heaps up. The slope is that of the ground's flat triangles, met to a thousandth.
 * Ground that is gentle already stays as it is. A cell that the footprint cuts counts whole.
 */
export const steepest = definePlugin({
  api: 1,
  stage: 'shape',
  name: 'steepest',
  summary: 'makes the ground nowhere steeper than a slope: by sliding, cutting or filling',
  options: ({ z }) =>
    z.strictObject({
      slope: slopeOption().describe('degrees from level (dry sand stays at some 30), or 1 in 3'),
      by: z
        .enum(STEEPEST_WAYS)
        .default('settle')
        .describe('settle: slides down, volume is kept; cut: only takes off; fill: only heaps up'),
    }),
  *run(landform, { slope, by }, { tell }) {
    if (landform.kind === 'solid') return onSolid();
    const { columns, rows, stepXMm, stepYMm, heightsMm: before } = landform;
    const grid = { columns, rows, stepX: stepXMm, stepY: stepYMm };
    const cells = groundCells(landform);
    const limit = riseOf(slope);
    const was = steepestOf(before, grid, cells).rise;
    const heightsMm = yield* relaxed(before, grid, limit, by, cells);
    const moved = moves(landform, heightsMm);
    if (moved.most === 0) {
      tell(gentle(was, limit));
      return landform;
    }
    for (let i = 0; i < heightsMm.length; i++) heightsMm[i] = tidyMm(heightsMm[i]);
    tell(relaxedBy(by, was, limit, moved));
    return { ...landform, heightsMm };
  },
});

interface Moves {
  readonly downM3: number;
  readonly upM3: number;
  /** The largest change, signed, and where. */
  readonly most: number;
  readonly atMm: readonly [number, number];
}

/** What falls and what rises, each post standing for one cell, or for less at the rim of the posts. */
function moves(
  { columns, rows, stepXMm, stepYMm, originMm, heightsMm: before }: Heightfield,
  now: Float64Array,
): Moves {
  let down = 0;
  let up = 0;
  let at = 0;
  for (let i = 0; i < now.length; i++) {
    const column = i % columns;
    const row = (i - column) / columns;
    const by = now[i] - before[i];
    const share = (column % (columns - 1) === 0 ? 0.5 : 1) * (row % (rows - 1) === 0 ? 0.5 : 1);
    if (by > 0) up += by * share;
    else down -= by * share;
    if (Math.abs(by) > Math.abs(now[at] - before[at])) at = i;
  }
  const cubicMetres = (stepXMm * stepYMm) / 1e9;
  return {
    downM3: down * cubicMetres,
    upM3: up * cubicMetres,
    most: now[at] - before[at],
    atMm: [originMm[0] + (at % columns) * stepXMm, originMm[1] + Math.floor(at / columns) * stepYMm],
  };
}

const gentle = (was: number, limit: number): Finding => ({
  level: 'note',
  code: 'shape/gentle-already',
  message: `The steepest ground leans ${slopeText(was)}, no more than the ${slopeText(limit)} asked for: nothing is moved.`,
  fix: 'Leave the shaper steepest out, or ask for a gentler slope.',
  where: { path: 'shape.steepest.slope' },
});

function relaxedBy(by: SteepestWay, was: number, limit: number, { downM3, upM3, most, atMm }: Moves): Finding {
  const litres = (cubicMetres: number) => `${numberText(cubicMetres * 1000, 1)} litres`;
  const what = {
    settle: `${litres(downM3)} slid down`,
    cut: `${litres(downM3)} were cut off`,
    fill: `${litres(upM3)} were filled up`,
  }[by];
  const change = `${most < 0 ? 'falls' : 'rises'} by up to ${numberText(Math.abs(most), 1)} mm`;
  return {
    level: 'note',
    code: 'shape/relaxed',
    message: `The steepest ground leant ${slopeText(was)}; to lean ${slopeText(limit)} at most, ${what} and the ground ${change}.`,
    fix: 'Look there; if a cliff or a step was meant, limit the slope before it is made, or allow a steeper one.',
    where: { path: 'shape.steepest', atMm },
  };
}

const onSolid = (): never =>
  refuse(
    'shape/solid',
    'The shaper steepest works on heights, and this ground is a solid.',
    'Ease its slopes in the program it was modelled in, and leave the shaper out.',
    { path: 'shape.steepest' },
  );
