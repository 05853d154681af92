import { regionsWherePositive } from '../../geometry/clip.ts';
import { boxOf, type Region, ringsOf } from '../../geometry/ring.ts';
import { ringAt } from '../../geometry/ruled.ts';
import { extent } from '../../model/landform.ts';
import type { Slope } from '../../model/layer.ts';
import type { Plan } from '../../model/plan.ts';
import { rasterOf } from '../../model/raster.ts';
import { lengthText } from '../../units.ts';
import type { Shape, Words } from './figure.ts';
import { figureSvg, grown, stretchFor, stretchText } from './figure.ts';
import { type Captioned, RELIEF_CELLS } from './figures.ts';
import { groundIn, runsInside, type Section, sectionsThroughTop } from './section.ts';
import { decksIn, ZONE_WORDS } from './zone-shapes.ts';

/** Heights are stretched until they take this much of the longer section's length. */
const SHARE = 0.15;
/** A section lower than this, to its length, takes the whole width of the page. */
const LOW = 0.4;
const ENDS = { x: ['WEST', 'EAST'], y: ['SOUTH', 'NORTH'] } as const;

export interface SectionFigure extends Captioned {
  readonly isLow: boolean;
}

/** How a section stands on its picture: distance to the right, heights up from the foot of a picture `tall` high. */
interface Frame {
  readonly lengthMm: number;
  readonly stretch: number;
  readonly tall: number;
  /** Height of letters. */
  readonly size: number;
}

/** Two sections through the highest ground: the foam of each layer, its voids, the ground and what lies over it. */
export function sectionFigures(plan: Plan): SectionFigure[] {
  const { landform, stack } = plan;
  const raster = rasterOf(landform, RELIEF_CELLS);
  const { box, highMm } = extent(landform);
  const [, , maxX, maxY] = boxOf(ringsOf(stack.layers.flatMap(({ regions }) => [...regions])));
  const lengths = { x: Math.max(maxX, box[2]), y: Math.max(maxY, box[3]) };
  const last = stack.layers[stack.layers.length - 1];
  const topMm = Math.max(last.bottomMm + last.thicknessMm, highMm + (coverMm(plan) ?? 0));
  const stretch = stretchFor(topMm, Math.max(lengths.x, lengths.y), SHARE);
  return sectionsThroughTop(raster).map((section) => {
    const lengthMm = lengths[section.along];
    const tall = topMm * stretch;
    const isLow = tall < LOW * lengthMm;
    const frame = { lengthMm, stretch, tall, size: lengthMm / (isLow ? 75 : 40) };
    return drawn(plan, section, groundIn(section, landform, raster), frame, isLow);
  });
}

function drawn(plan: Plan, section: Section, ground: Float64Array[], frame: Frame, isLow: boolean): SectionFigure {
  const { lengthMm, stretch, tall, size } = frame;
  const cover = coverMm(plan);
  const covered = cover === null ? [] : ground.map((line) => line.map((value, i) => value + (i % 2) * cover));
  const up = (rings: readonly Float64Array[]) =>
    rings.map((ring) => ring.map((value, i) => (i % 2 === 0 ? value : tall - value * stretch)));
  const decks = decksIn(section, plan.facts.zones, lengthMm, tall / stretch);
  const deckWords = decks.middles.map(({ alongMm, upMm }) => ({
    x: alongMm,
    y: tall - upMm * stretch,
    text: ZONE_WORDS.people,
    size,
    look: 'number',
  }));
  const shapes: Shape[] = [
    ...bars(plan, section, lengthMm),
    { rings: ground, look: 'ground', isOpen: true },
    { rings: covered, look: 'cover', isOpen: true },
    { rings: decks.rings, look: 'deck' },
  ].map((shape) => ({ ...shape, rings: up(shape.rings) }));
  const [from, to] = ENDS[section.along].map((end) => end.toLowerCase());
  const edge = section.along === 'x' ? 'north of the south edge' : 'east of the west edge';
  const caption = [
    `Section ${from} to ${to} through the highest ground, ${lengthText(section.atMm, plan.unit)} ${edge}:`,
    `foam shaded, voids white, heavy line the ground${covered.length > 0 ? ', dashed line the top of the cover' : ''};`,
    `layers numbered; ${stretchText(stretch)}.`,
  ].join(' ');
  const box = grown([0, 0, lengthMm, tall], size * 2.4);
  const svg = figureSvg({ box, shapes, words: [...words(plan, section, frame), ...deckWords], title: caption });
  return { svg, caption, isLow };
}

/** How much higher than the landform the cover ends; null without one, or where the ground has undersides. */
const coverMm = ({ facts, landform }: Plan): number | null =>
  facts.cover && landform.kind === 'heightfield' ? facts.cover.depthMm : null;

/** Each layer as it is cut by the section: its whole outline, and the foam that is left of it. Edges lean where a wire leaned. Heights as they are. */
function bars({ stack, pieces }: Plan, section: Section, lengthMm: number): Shape[] {
  return stack.layers.flatMap((layer) => {
    const own = pieces.filter((piece) => piece.layer === layer.number).map(({ region }) => region);
    const [low, high] = [layer.bottomMm, layer.bottomMm + layer.thicknessMm];
    const tops = layer.slope ? runsInside(section, topOf(layer.slope), lengthMm) : null;
    const rects = (runs: readonly number[]) => {
      const result: Float64Array[] = [];
      for (let i = 0; i < runs.length; i += 2) {
        const [from, to] = [runs[i], runs[i + 1]];
        // What lies over this stretch, from its first to its last; a wire never leans out of it.
        const over = tops?.map((at) => Math.min(Math.max(at, from), to)).filter((_, k) => meets(tops, k, from, to));
        const [left, right] = over && over.length > 0 ? [over[0], over[over.length - 1]] : [from, to];
        result.push(Float64Array.of(from, low, to, low, right, high, left, high));
      }
      return result;
    };
    return [
      { rings: rects(runsInside(section, layer.regions, lengthMm)), look: 'layer' },
      // Piece by piece, so that a joint shows.
      { rings: own.flatMap((region) => rects(runsInside(section, [region], lengthMm))), look: 'foam' },
    ];
  });
}

/** What a leaning wire leaves of a layer's top face. */
const topOf = ({ stations }: Slope): Region[] => regionsWherePositive(stations.map((each) => ringAt(each, 1)));

/** Whether the run to which the k-th of some ends belongs meets a stretch. */
const meets = (runs: readonly number[], k: number, from: number, to: number): boolean =>
  runs[k & ~1] < to && runs[k | 1] > from;

/** Numbers of the layers on the left, as many as have room, and the names of the two ends. */
function words({ stack }: Plan, { along }: Section, { lengthMm, stretch, tall, size }: Frame): Words[] {
  const numbers: Words[] = [];
  let free = Infinity;
  for (const { number, bottomMm, thicknessMm } of stack.layers) {
    const y = tall - (bottomMm + thicknessMm / 2) * stretch;
    if (y > free) continue;
    free = y - size * 1.1;
    numbers.push({ x: -size * 1.2, y, text: `${number}`, size, look: 'number' });
  }
  const end = { y: tall + size * 1.4, size, look: 'number' };
  const [from, to] = ENDS[along];
  return [...numbers, { ...end, x: size * 2, text: from }, { ...end, x: lengthMm - size * 2, text: to }];
}
