import { refuse } from '../findings.ts';
import { groundRange, withHeights } from '../model/ground.ts';
import type { Heightfield, Landform, Solid } from '../model/landform.ts';
import { definePlugin } from '../plugin.ts';
import { numberText } from '../units.ts';

/**
 * Set ground on a base. `cut` takes off what lies below a level: the level becomes 0, ground under it is flat at 0; `lowest`
 * is the level of the lowest ground, so that nothing is lost. `lift` then raises everything by so much foam.
 */
export const base = definePlugin({
  api: 1,
  stage: 'shape',
  name: 'base',
  summary: 'cuts the ground off at a level, or lifts it onto a plinth',
  options: ({ z, length }) =>
    z
      .strictObject({
        cut: z
          .union([z.literal('lowest'), length()])
          .optional()
          .describe('level that becomes 0, or lowest'),
        lift: length().optional().describe('how far everything is raised after that'),
      })
      .refine(({ cut, lift }) => cut !== undefined || lift !== undefined, {
        message: 'Nothing is said of the base.\nSay cut, lift or both.',
      }),
  run(landform, { cut, lift = 0 }, { tell }) {
    const { lowMm, highMm } = groundRange(landform);
    const levelMm = cut === 'lowest' ? lowMm : cut;
    if (levelMm !== undefined && levelMm > lowMm) {
      if (levelMm >= highMm) nothingLeft(levelMm, highMm);
      if (landform.kind === 'solid') cannotCut(levelMm, lowMm);
      tell(cutOff(levelMm, lowMm));
    }
    return landform.kind === 'solid' ? raised(landform, lift - (levelMm ?? 0)) : onBase(landform, levelMm, lift);
  },
});

const cutOff = (levelMm: number, lowMm: number) => ({
  level: 'note' as const,
  code: 'shape/cut-off',
  message: `Ground below ${numberText(levelMm)} mm is cut off flat; the lowest was at ${numberText(lowMm)} mm.`,
  fix: 'cut: lowest keeps all of it.',
  where: { path: 'shape.base.cut' },
});

const nothingLeft = (levelMm: number, highMm: number): never =>
  refuse(
    'shape/nothing-left',
    `No ground lies above the cut at ${numberText(levelMm)} mm; the highest is at ${numberText(highMm)} mm.`,
    'Give a lower level, or cut: lowest.',
    { path: 'shape.base.cut' },
  );

const cannotCut = (levelMm: number, lowMm: number): never =>
  refuse(
    'shape/solid',
    `A solid is not cut through: the level ${numberText(levelMm)} mm lies above its lowest point, ${numberText(lowMm)} mm.`,
    'Cut it in the program it was modelled in, or say cut: lowest.',
    { path: 'shape.base.cut' },
  );

function onBase(field: Heightfield, levelMm: number | undefined, liftMm: number): Landform {
  if (levelMm === undefined) return withHeights(field, (height) => height + liftMm);
  return withHeights(field, (height) => Math.max(height - levelMm, 0) + liftMm);
}

function raised(solid: Solid, byMm: number): Landform {
  return { ...solid, positionsMm: solid.positionsMm.map((value, i) => (i % 3 === 2 ? value + byMm : value)) };
}
