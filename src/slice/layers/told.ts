import { type Finding, refuse } from '../../findings.ts';
import { extent, type Landform } from '../../model/landform.ts';
import { numberText } from '../../units.ts';
import type { Cut } from './levels.ts';

/** Ground narrower than this in plan is a slip of a unit or a spacing. */
const LEAST_PLAN_MM = 1;

const mm = (value: number): string => `${numberText(value, 3)} mm`;

export const endsAbove = (overMm: number, cut: Cut): Finding => ({
  level: 'note',
  code: 'slice/stack-height',
  message: `The stack ends ${numberText(overMm, 1)} mm above the highest ground.`,
  fix: cut === 'proud' ? 'Carve the top layer down by that much.' : 'Carve the top layer down, or cut shy and fill.',
  where: { path: 'slice.layers' },
});

export const endsBelow = (underMm: number): Finding => ({
  level: 'watch',
  code: 'slice/stack-height',
  message: `The stack ends ${numberText(underMm, 1)} mm below the highest ground.`,
  fix: 'Build the top up with the cover, use thinner boards, or cut proud.',
  where: { path: 'slice.layers' },
});

export const belowZero = (lowMm: number): never =>
  refuse(
    'slice/below-zero',
    `The ground goes down to ${mm(lowMm)}: there is no foam below 0.`,
    'Set it on a base first: add base to shape.',
    { path: 'shape' },
  );

export function nothing(cut: Cut, landform: Landform, highMm: number, thicknessMm: number | undefined): never {
  const [minX, minY, maxX, maxY] = extent(landform).box;
  if (Math.min(maxX - minX, maxY - minY) < LEAST_PLAN_MM) {
    const message = `The ground is ${mm(maxX - minX)} × ${mm(maxY - minY)} in plan: no layer of it can be cut.`;
    refuse('slice/nothing', message, 'Check the unit, and the size or the spacing of posts.', { path: 'source' });
  }
  return refuse(
    'slice/nothing',
    `The highest ground is ${mm(highMm)}: ${thicknessMm === undefined ? '' : `cut ${cut} from boards of ${mm(thicknessMm)} `}that gives no layer.`,
    cut === 'proud'
      ? 'Make the ground taller, or take less off it.'
      : 'Use thinner boards, make the ground taller, or cut proud.',
    { path: 'slice.layers' },
  );
}

export const floating = (layer: number): never =>
  refuse(
    'slice/floating',
    `Layer ${layer} is empty and there is foam above it, which would float.`,
    'Lower the ground onto z = 0 (shape: [ base: { cut: lowest } ]), or join what floats to the rest.',
    { layer },
  );
