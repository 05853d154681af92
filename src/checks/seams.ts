import type { Finding, Where } from '../findings.ts';
import { alongside } from '../geometry/alongside.ts';
import type { Piece } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { LET_PASS, saidStaggerMm, seamSegments, staggerMm } from '../model/seam.ts';
import { numberText } from '../units.ts';

/**
 * Seam over seam: where a joint runs along a joint of the layer below, nearer than the stagger that the job says, the two
 * layers do not tie each other. Tells the worst place.
 */
export function seams({ pieces, stack, job, facts }: Plan): Finding[] {
  const said = saidStaggerMm(job);
  const byLayer = new Map<number, Piece[]>();
  for (const piece of pieces) byLayer.set(piece.layer, [...(byLayer.get(piece.layer) ?? []), piece]);
  let worst: { lengthMm: number; wantedMm: number; where: Where } | undefined;
  let count = 0;
  for (const { number, thicknessMm } of stack.layers) {
    const below = seamSegments(byLayer.get(number - 1) ?? []);
    const here = seamSegments(byLayer.get(number) ?? []);
    const wantedMm = staggerMm(said, thicknessMm, facts.boardSizes);
    for (let i = 0; i < here.length; i += 4) {
      const { length, x, y } = alongside(here[i], here[i + 1], here[i + 2], here[i + 3], below, wantedMm);
      if (length <= LET_PASS * wantedMm) continue;
      count++;
      if (!worst || length > worst.lengthMm) {
        worst = { lengthMm: length, wantedMm, where: { layer: number, atMm: [x, y] } };
      }
    }
  }
  return worst ? [seamOverSeam(count, worst.lengthMm, worst.wantedMm, worst.where)] : [];
}

const seamOverSeam = (count: number, lengthMm: number, wantedMm: number, where: Where): Finding => ({
  level: 'watch',
  code: 'checks/seam-over-seam',
  message: `${count === 1 ? 'A joint runs' : `${count} joints run`} along a joint of the layer below, nearer than the stagger of ${numberText(wantedMm, 0)} mm, at worst for ${numberText(lengthMm, 0)} mm.`,
  fix: 'Set pins on both sides of the joint and glue it well, or offer boards of another size.',
  where,
});
