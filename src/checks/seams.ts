import type { Finding, Where } from '../findings.ts';
import { alongside } from '../geometry/alongside.ts';
import type { Piece } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { STAGGER, seamSegments } from '../model/seam.ts';
import { numberText } from '../units.ts';

/** Seams that run over one another for less than this many thicknesses are let pass: about where they cross askew. */
const LET_PASS = 1;

/** Seam over seam: where a joint lies over a joint the two layers do not tie each other. Tells the worst place. */
export function seams({ pieces, stack }: Plan): Finding[] {
  const byLayer = new Map<number, Piece[]>();
  for (const piece of pieces) byLayer.set(piece.layer, [...(byLayer.get(piece.layer) ?? []), piece]);
  let worst: { lengthMm: number; where: Where } | undefined;
  let count = 0;
  for (const { number, thicknessMm } of stack.layers) {
    const below = seamSegments(byLayer.get(number - 1) ?? []);
    const here = seamSegments(byLayer.get(number) ?? []);
    for (let i = 0; i < here.length; i += 4) {
      const { length, x, y } = alongside(here[i], here[i + 1], here[i + 2], here[i + 3], below, STAGGER * thicknessMm);
      if (length <= LET_PASS * thicknessMm) continue;
      count++;
      if (!worst || length > worst.lengthMm) worst = { lengthMm: length, where: { layer: number, atMm: [x, y] } };
    }
  }
  return worst ? [seamOverSeam(count, worst.lengthMm, worst.where)] : [];
}

const seamOverSeam = (count: number, lengthMm: number, where: Where): Finding => ({
  level: 'watch',
  code: 'checks/seam-over-seam',
  message: `${count === 1 ? 'A joint runs' : `${count} joints run`} along a joint of the layer below, at worst for ${numberText(lengthMm, 0)} mm.`,
  fix: 'Set pins on both sides of the joint and glue it well, or offer boards of another size.',
  where,
});
