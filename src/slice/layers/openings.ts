import { CannotMake, type Fault, type Finding } from '../../findings.ts';
import type { Landform } from '../../model/landform.ts';
import { type Gap, gapBetween } from '../../model/openings.ts';
import { numberText } from '../../units.ts';

/** Layers of which each is told on its own; of more, those with the widest gaps. */
const MOST_TOLD = 6;
/** A gap that is narrower than this leaves no mark in foam. */
const HAIRLINE_MM = 0.1;

interface LayerGap {
  readonly layer: number;
  readonly gap: Gap;
}

/**
 * Tell in which layers the outline of an open solid was closed, and over what gap. Refuses gaps wider than what was said
 * to be closed, layer by layer. Layer k lies between levelsMm[k] and levelsMm[k + 1].
 */
export function judgeOpenings(landform: Landform, levelsMm: ArrayLike<number>, tell: (finding: Finding) => void): void {
  if (landform.kind !== 'solid' || !landform.open) return;
  const { rims, closeMm } = landform.open;
  const found: LayerGap[] = [];
  for (let k = 0; k + 1 < levelsMm.length; k++) {
    let widest: Gap | null = null;
    for (const rim of rims) {
      const gap = gapBetween(landform.positionsMm, rim, levelsMm[k], levelsMm[k + 1]);
      if (gap && gap.gapMm > (widest?.gapMm ?? HAIRLINE_MM)) widest = gap;
    }
    if (widest) found.push({ layer: k + 1, gap: widest });
  }
  found.sort((a, b) => b.gap.gapMm - a.gap.gapMm || a.layer - b.layer);
  const wide = found.filter(({ gap }) => gap.gapMm > closeMm);
  if (wide.length > 0)
    throw new CannotMake(wide.slice(0, MOST_TOLD).map((each) => tooWide(each, closeMm, wide[0].gap.gapMm)));
  for (const each of found.slice(0, MOST_TOLD)) tell(closed(each, found.length));
}

const mm = (value: number): string => `${numberText(value, 1)} mm`;

const placeOf = ({ layer, gap: { atMm } }: LayerGap) => ({ layer, atMm: [atMm[0], atMm[1]] as const });

const tooWide = (at: LayerGap, closeMm: number, widestMm: number): Fault => ({
  code: 'slice/open',
  message: `The solid is open there: the outline has a gap of ${mm(at.gap.gapMm)} at a height of ${mm(at.gap.atMm[2])}, and gaps to ${mm(closeMm)} are closed.`,
  fix: `Close the hole in the program it was drawn with, and give the ground a base and walls; or say close: ${Math.ceil(widestMm)} mm in the source, to have it closed straight across.`,
  where: placeOf(at),
});

function closed(at: LayerGap, layers: number): Finding {
  const others = layers > MOST_TOLD ? ` Of ${layers} layers these are the widest.` : '';
  return {
    level: 'watch',
    code: 'slice/closed',
    message: `The outline was closed straight across a gap of ${mm(at.gap.gapMm)}, at a height of ${mm(at.gap.atMm[2])}.${others}`,
    fix: 'Look at the outline there before it is cut, or close the hole in the program the solid was drawn with.',
    where: placeOf(at),
  };
}
