import { type Finding, refuse } from '../findings.ts';
import { extent, type Solid } from '../model/landform.ts';
import { turnedDirection, turnedSolid } from '../model/turned-solid.ts';
import { definePlugin } from '../plugin.ts';
import { numberText } from '../units.ts';
import { BEDS, type Bedding, beddings, UP_OF } from './rock/beds.ts';

/** What a carver takes off to find the form, and what the rock is sunk by (common practice, no source). */
const ALLOWANCE_MM = 20;
const USUAL_MM: readonly [number, number] = [15, 25];
const BURIED = 0.25;
const USUAL_BURIED: readonly [number, number] = [1 / 5, 1 / 3];

/**
 * A free-standing rock, made ready to be laminated and carved: laid on the side on which boards make the fewest thin lips and
 * the least waste, and raised so that the allowance beneath it has room. Comes last: what turns or scales the rock afterwards
 * does not know of its seat.
 */
export const rock = definePlugin({
  api: 1,
  stage: 'shape',
  name: 'rock',
  summary: 'lays a rock as its boards are best glued, with an allowance to carve and a coat to come',
  options: ({ z, length }) =>
    z.strictObject({
      coat: length({ least: 0 })
        .optional()
        .describe('what the coat takes off the design, square to it; not said, the depth of the cover'),
      allowance: length({ least: 0 })
        .prefault(`${ALLOWANCE_MM} mm`)
        .describe('foam that is left on everywhere for the carver, square to the surface'),
      bed: z
        .enum(['best', ...BEDS])
        .default('best')
        .describe('the side on which it lies while its layers are glued'),
      buried: z.number().min(0).max(0.6).default(BURIED).describe('share of its height that stands in the ground'),
    }),
  run(landform, { coat, allowance, bed, buried }, { facts, tell }): Solid {
    if (landform.kind !== 'solid') return noSolid();
    if (landform.footprint) return cropped();
    const coatMm = coat ?? facts.cover?.depthMm ?? 0;
    const all = beddings(landform);
    const chosen = bed === 'best' ? all[0] : (all.find(({ bed: each }) => each === bed) ?? all[0]);
    tell(bedTold(chosen, all));
    if (allowance < USUAL_MM[0] || allowance > USUAL_MM[1]) tell(unusual('allowance', allowanceText(allowance)));
    if (buried < USUAL_BURIED[0] || buried > USUAL_BURIED[1]) tell(unusual('buried', buriedText(buried)));
    const up = UP_OF[chosen.bed];
    const lying = turnedSolid(landform, up, 'z', 0);
    const growMm = Math.max(0, allowance - coatMm);
    const { lowMm } = extent(lying);
    return {
      ...lying,
      positionsMm: lying.positionsMm.map((value, i) => (i % 3 === 2 ? value - lowMm + growMm : value)),
      rock: { coatMm, allowanceMm: allowance, seat: turnedDirection([0, 0, -1], up), buried },
    };
  },
});

function bedTold(chosen: Bedding, all: readonly Bedding[]): Finding {
  const words = all
    .slice(0, 3)
    .map(
      ({ bed, stepsMm2, lipsMm2 }) =>
        `${bed} ${numberText(stepsMm2 / 1e6, 2)} m² of steps, ${numberText(lipsMm2 / 1e6, 2)} m² of them thin lips`,
    );
  return {
    level: 'note',
    code: 'shape/rock-bed',
    message: `The rock lies on its ${chosen.bed} while it is glued. Seen by the side it lies on: ${words.join('; ')}.`,
    fix: 'Another side is taken with shape: [ rock: { bed: … } ]. Whichever it is, it stands on its own bottom when it is done.',
    where: { path: 'shape.rock.bed' },
  };
}

const allowanceText = (mm: number): string => `An allowance of ${numberText(mm, 1)} mm is not the usual 15 to 25 mm`;
const buriedText = (share: number): string =>
  `${numberText(100 * share)} % of the rock in the ground is not the usual fifth to third`;

const unusual = (option: string, text: string): Finding => ({
  level: 'note',
  code: `shape/rock-${option}`,
  message: `${text} (common practice, no source).`,
  fix:
    option === 'allowance'
      ? 'Less leaves a carver no room to find the form; more is dust.'
      : 'Less looks set down on the ground and tips sooner; more is foam that nobody sees.',
  where: { path: `shape.rock.${option}` },
});

const noSolid = (): never =>
  refuse(
    'shape/rock-heights',
    'Ground of heights has one side only, and is no free-standing rock.',
    'Bring the rock in as a solid (source: mesh), or build the ground from layers without this shaper.',
    { path: 'shape.rock' },
  );

const cropped = (): never =>
  refuse(
    'shape/cropped',
    'A cropped solid is not laid on another side: its crop was made in plan.',
    'Put rock before crop, or crop the model itself.',
    { path: 'shape.rock' },
  );
