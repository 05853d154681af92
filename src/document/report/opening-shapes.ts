import { turn } from '../../geometry/exact-math.ts';
import type { Ring } from '../../geometry/ring.ts';
import type { Landform } from '../../model/landform.ts';
import { openingsInPlan } from '../../model/openings.ts';
import { numberText } from '../../units.ts';
import { flipped, type Shape, type Words } from './figure.ts';

/** Holes that are lettered: the widest. */
const MOST_LETTERED = 12;

/** Where a solid was open, seen from above: the rims of its holes, and a ring with the gap round where each is widest. */
export function openingShapes(
  landform: Landform,
  width: number,
  height: number,
): { shapes: readonly Shape[]; words: readonly Words[] } {
  if (landform.kind !== 'solid' || !landform.open) return { shapes: [], words: [] };
  const openings = openingsInPlan(landform).sort((a, b) => b.gap.gapMm - a.gap.gapMm);
  const unit = Math.max(width, height) / 50;
  const lettered = openings.slice(0, MOST_LETTERED);
  const radius = (gapMm: number) => Math.max(unit, 0.6 * gapMm);
  const marks = lettered.map(({ gap }) => roundRing(gap.atMm[0], gap.atMm[1], radius(gap.gapMm)));
  return {
    shapes: [
      {
        rings: flipped(
          openings.map(({ rim }) => rim),
          height,
        ),
        look: 'rim',
      },
      { rings: flipped(marks, height), look: 'rim' },
    ],
    words: lettered.map(({ gap }) => {
      const off = radius(gap.gapMm) + unit;
      const isHigh = gap.atMm[1] + off > height - unit;
      const y = Math.max(unit, gap.atMm[1] + (isHigh ? -off : off));
      const x = Math.min(Math.max(gap.atMm[0], 4 * unit), width - 4 * unit);
      return { x, y: height - y, text: `gap ${numberText(gap.gapMm, 1)} mm`, size: unit, look: 'rim-words' };
    }),
  };
}

const MARK_SIDES = 24;

function roundRing(x: number, y: number, radius: number): Ring {
  const ring = new Float64Array(2 * MARK_SIDES);
  for (let i = 0; i < MARK_SIDES; i++) {
    const { cos, sin } = turn((360 / MARK_SIDES) * i);
    ring[2 * i] = x + radius * cos;
    ring[2 * i + 1] = y + radius * sin;
  }
  return ring;
}
