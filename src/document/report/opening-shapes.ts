import { turn } from '../../geometry/exact-math.ts';
import { type Box, boxOf, type Ring, rectangle } from '../../geometry/ring.ts';
import type { Landform } from '../../model/landform.ts';
import { openingsInPlan } from '../../model/openings.ts';
import { numberText } from '../../units.ts';
import { flipped, grown, type Shape, type Words } from './figure.ts';

/** Holes that are lettered: the widest. */
const MOST_LETTERED = 12;
/** Letter height, the margin and the least ring are this share of the ground's longer side. */
const UNIT_SHARE = 1 / 36;
/** A ring is no wider than so many units: round a wide hole it marks the place, and the rim shows the width. */
const MOST_UNITS = 3;
/** Width of a letter, by its height; bold digits are about so wide. */
const LETTER_WIDTH = 0.6;

interface Marked {
  readonly shapes: readonly Shape[];
  readonly words: readonly Words[];
  /** In the figure's coordinates: the ground, and round it what rings and words need and a margin. */
  readonly box: Box;
}

/** Where a solid was open, seen from above: the rims of its holes, and a ring with the gap over where each is widest. */
export function openingShapes(landform: Landform, width: number, height: number): Marked {
  const ground: Box = [0, 0, width, height];
  if (landform.kind !== 'solid' || !landform.open) return { shapes: [], words: [], box: ground };
  const openings = openingsInPlan(landform).sort((a, b) => b.gap.gapMm - a.gap.gapMm);
  const unit = Math.max(width, height) * UNIT_SHARE;
  const marks = openings.slice(0, MOST_LETTERED).map(({ gap }) => {
    const radius = Math.min(Math.max(unit, 0.6 * gap.gapMm), MOST_UNITS * unit);
    const [x, y] = [gap.atMm[0], height - gap.atMm[1]];
    const text = `gap ${numberText(gap.gapMm, 1)} mm`;
    return { ring: roundRing(x, y, radius), words: { x, y: y - radius - unit, text, size: unit, look: 'rim-words' } };
  });
  const rims = flipped(
    openings.map(({ rim }) => rim),
    height,
  );
  const rings = marks.map(({ ring }) => ring);
  const words = marks.map((mark) => mark.words);
  const room = boxOf([rectangle(...ground), ...rings, ...words.map(roomOf)]);
  return {
    shapes: [
      { rings: [...rims, ...rings], look: 'rim-halo' },
      { rings: rims, look: 'rim' },
      { rings, look: 'rim' },
    ],
    words,
    box: grown(room, unit),
  };
}

function roomOf({ x, y, text, size }: Words): Ring {
  const half = (text.length * size * LETTER_WIDTH) / 2;
  return rectangle(x - half, y - size / 2, x + half, y + size / 2);
}

const MARK_SIDES = 48;

function roundRing(x: number, y: number, radius: number): Ring {
  const ring = new Float64Array(2 * MARK_SIDES);
  for (let i = 0; i < MARK_SIDES; i++) {
    const { cos, sin } = turn((360 / MARK_SIDES) * i);
    ring[2 * i] = x + radius * cos;
    ring[2 * i + 1] = y + radius * sin;
  }
  return ring;
}
