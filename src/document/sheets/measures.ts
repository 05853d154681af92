import type { Kit } from '../../plugin.ts';
import { isInFeet, MM_IN, numberText, type Unit } from '../../units.ts';

/** How measures are written on sheets that are read beside a rule: whole millimetres, or inches and sixteenths. */
export interface Measures {
  /** What is rounded to, millimetres. */
  readonly stepMm: number;
  readonly unit: 'mm' | 'in';
  text(mm: number): string;
}

const SIXTEENTHS = 16;

export const measuresOption = (z: Kit['z']) =>
  z
    .enum(['auto', 'mm', 'inches'])
    .default('auto')
    .describe('whole millimetres, or inches and sixteenths; auto goes by the unit of the job');

export function measuresOf(choice: 'auto' | 'mm' | 'inches', unit: Unit): Measures {
  const isInches = choice === 'inches' || (choice === 'auto' && isInFeet(unit));
  if (isInches) return { stepMm: MM_IN.in / SIXTEENTHS, unit: 'in', text: inchText };
  return { stepMm: 1, unit: 'mm', text: (mm) => numberText(mm, 0) };
}

/** `14 3/16`, `0`, `5/8`, `-2 1/2`: inches to the sixteenth, the fraction in its lowest terms. */
export function inchText(mm: number): string {
  const all = Math.round((Math.abs(mm) * SIXTEENTHS) / MM_IN.in);
  const whole = Math.floor(all / SIXTEENTHS);
  let [over, under] = [all % SIXTEENTHS, SIXTEENTHS];
  while (over > 0 && over % 2 === 0) [over, under] = [over / 2, under / 2];
  const sign = mm < 0 && all > 0 ? '-' : '';
  if (over === 0) return `${sign}${whole}`;
  return `${sign}${whole === 0 ? '' : `${whole} `}${over}/${under}`;
}
