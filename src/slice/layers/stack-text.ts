import { numberText } from '../../units.ts';

export const mm = (value: number): string => `${numberText(value, 3)} mm`;

/** `3 × 75 mm, 50 mm`: from the ground up. */
export function runsText(thicknessesMm: readonly number[]): string {
  const runs: { mm: number; count: number }[] = [];
  for (const each of thicknessesMm) {
    const last = runs[runs.length - 1];
    if (last?.mm === each) last.count++;
    else runs.push({ mm: each, count: 1 });
  }
  return runs.map(({ mm: each, count }) => `${count > 1 ? `${count} × ` : ''}${mm(each)}`).join(', ');
}
