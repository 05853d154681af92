import type { Finding } from '../findings.ts';
import { directionDeg } from '../geometry/exact-math.ts';
import { slopesOf } from '../model/ground-slope.ts';
import type { Plan } from '../model/plan.ts';
import { lengthText, numberText, thicknessText } from '../units.ts';

/**
 * Width of a step in plan: thickness ÷ tangent of the slope (plain trigonometry). One layer's outline lies this far from the
 * next one's. Infinity on level ground.
 */
export const treadMm = (thicknessMm: number, rise: number): number => thicknessMm / rise;

/** What the boards' thickness means on this ground: the steps that are carved or filled, and what other boards would make of them. */
export function treads({ landform, stack, facts, job, unit }: Plan): Finding[] {
  const thicknessMm = Math.max(...stack.layers.map((layer) => layer.thicknessMm));
  const { steepest, usual } = slopesOf(landform);
  if (usual === 0) return [];
  const wide = (rise: number) => lengthText(treadMm(thicknessMm, rise), unit);
  const lean = (rise: number) => `${numberText(directionDeg(1, rise), 0)}°`;
  const scale = verticalScale(job);
  const real = `a layer is ${numberText((thicknessMm * scale) / 1000, 1)} m of the real ground (1 : ${numberText(scale, 0)}), and `;
  const what = stack.layers.some(({ slope }) => slope) ? 'leaning edges' : 'steps';
  return [
    {
      level: 'note',
      code: 'checks/treads',
      message: `With boards of ${thicknessText(thicknessMm, unit)} ${scale > 1 ? real : ''}the ${what} are ${wide(usual)} wide on the usual slope of ${lean(usual)}, ${wide(steepest)} on the steepest of ${lean(steepest)}.`,
      fix: thinner(thicknessMm, facts.thicknessesMm, stack, what, unit),
      where: { path: 'slice.layers.thickness' },
    },
  ];
}

/** The next thinner boards on sale, or half as thick ones. */
function thinner(
  thicknessMm: number,
  onSaleMm: readonly number[],
  { layers }: Plan['stack'],
  what: string,
  unit: Plan['unit'],
): string {
  const top = layers[layers.length - 1];
  const next = onSaleMm.filter((each) => each < thicknessMm).at(-1);
  const otherMm = next ?? thicknessMm / 2;
  const share = numberText((100 * otherMm) / thicknessMm, 0);
  const count = numberText(Math.ceil((top.bottomMm + top.thicknessMm) / otherMm), 0);
  return `${next === undefined ? 'Boards' : 'The boards on sale'} of ${thicknessText(otherMm, unit)} would make the ${what} ${share} % as high and wide, in about ${count} layers instead of ${layers.length}.`;
}

/** How much of the real ground's height is 1 of the model's, as far as the job says it: 1 when it does not. */
function verticalScale(job: Plan['job']): number {
  const shapers = Array.isArray(job.shape) ? (job.shape as readonly { readonly fit?: Record<string, unknown> }[]) : [];
  let scale = 1;
  for (const { fit } of shapers) {
    if (fit === undefined) continue;
    const said = fit.vertical ?? (fit.height === undefined ? fit.scale : undefined);
    if (typeof said !== 'number') return 1;
    scale *= said;
  }
  return scale;
}
