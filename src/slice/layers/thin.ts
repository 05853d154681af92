import { type Finding, refuse } from '../../findings.ts';
import { intersect, subtract } from '../../geometry/clip.ts';
import { thickened, withoutThin } from '../../geometry/mend-thin.ts';
import { areaOf, type Region } from '../../geometry/ring.ts';
import { type ThinPlace, thinPlaces } from '../../geometry/thin-places.ts';
import type { ThinMm } from '../../model/layer.ts';
import type { Walk } from '../../plugin.ts';
import { numberText } from '../../units.ts';
import type { Cut } from './levels.ts';

export const THIN = ['tell', 'thicken', 'drop'] as const;

export interface ThinRule {
  readonly leastMm: number;
  readonly thin: (typeof THIN)[number];
  readonly cut: Cut | 'sloped';
  /** What the lowest layer may not be thickened beyond; null when it may go anywhere. */
  readonly footprint: readonly Region[] | null;
}

export interface Mended {
  readonly outlines: readonly (readonly Region[])[];
  /** What is thin still, layer by layer, the thinnest first. */
  readonly places: readonly (readonly ThinPlace[])[];
  /** How many places were mended, layer by layer. */
  readonly mended: readonly number[];
  /** Numbers of the layers in which something stood on what was dropped, and went with it. */
  readonly fallen: readonly number[];
}

/** Mending one feature may leave another beside it; what is thin after so many rounds has no room, or is a throat. */
const MOST_ROUNDS = 3;
/** What rests on less than this rests on nothing. */
const SPECK_MM2 = 1;
/** Layers that are told of one by one, those with the thinnest places. */
const MOST_TOLD = 12;

/**
 * Find what of each layer is thinner than the least width and, as the rule says, thicken it or drop it. Thickened features
 * keep within the layer beneath, which is thickened first, and within the footprint: where those end they stay thin, so that
 * no layer sticks out further than the ground does. What stood on a dropped feature is dropped too, and what then floats.
 */
export function* mendThin(outlines: readonly (readonly Region[])[], rule: ThinRule): Walk<Mended> {
  const { leastMm, thin, footprint } = rule;
  if (rule.cut === 'sloped' && thin !== 'tell') notSloped(thin);
  const done: (readonly Region[])[] = [];
  const places: (readonly ThinPlace[])[] = [];
  const mended: number[] = [];
  const fallen: number[] = [];
  for (const [k, before] of outlines.entries()) {
    let regions = before;
    if (thin === 'drop' && k > 0) regions = standing(before, outlines[k - 1], done[k - 1]);
    if (regions !== before && areaOf(before) - areaOf(regions) > SPECK_MM2) fallen.push(k + 1);
    let found = thinPlaces(regions, leastMm);
    const first = found.length;
    for (let round = 0; thin !== 'tell' && found.length > 0 && round < MOST_ROUNDS; round++) {
      regions =
        thin === 'drop'
          ? withoutThin(regions, found, leastMm)
          : thickened(regions, found, leastMm, k > 0 ? done[k - 1] : footprint);
      found = thinPlaces(regions, leastMm);
    }
    done.push(regions);
    places.push(found);
    mended.push(Math.max(0, first - found.length));
    yield (k + 1) / outlines.length;
  }
  while (done.at(-1)?.length === 0) done.pop();
  if (done.length === 0 && outlines.length > 0) allThin(leastMm);
  return { outlines: done, places, mended, fallen };
}

/** Thin places as a layer holds them. */
export const thinMm = (places: readonly ThinPlace[]): readonly ThinMm[] =>
  places.map(({ at, width, length }) => ({ atMm: at, widthMm: width, lengthMm: length }));

/** What is left of a layer when some of the one beneath has gone: without what stood there alone, or hung on it. */
function standing(regions: readonly Region[], before: readonly Region[], below: readonly Region[]): readonly Region[] {
  if (before === below) return regions;
  const gone = subtract(before, below);
  if (gone.length === 0) return regions;
  return subtract(regions, gone).filter((region) => {
    const wasHeld = areaOf(intersect(regions, before)) > SPECK_MM2;
    return !wasHeld || areaOf(intersect([region], below)) > SPECK_MM2;
  });
}

/** Tell what was mended and what is thin. */
export function tellThin({ places, mended, fallen }: Mended, rule: ThinRule, tell: (finding: Finding) => void): void {
  const count = mended.reduce((sum, each) => sum + each, 0);
  if (count > 0) tell(wasMended(count, mended, fallen, rule));
  const layers = places
    .map((found, k) => ({ found, layer: k + 1 }))
    .filter(({ found }) => found.length > 0)
    .sort((a, b) => a.found[0].width - b.found[0].width || a.layer - b.layer);
  const told = layers.slice(0, MOST_TOLD).sort((a, b) => a.layer - b.layer);
  for (const { found, layer } of told) tell(isThin(found, layer, rule));
  const rest = layers.slice(MOST_TOLD);
  if (rest.length > 0)
    tell(
      moreThin(
        rest.length,
        rest.reduce((sum, { found }) => sum + found.length, 0),
        rule,
      ),
    );
}

const mm = (value: number, decimals = 1): string => `${numberText(value, decimals)} mm`;
const counted = (count: number): string => `${count} ${count === 1 ? 'place' : 'places'}`;

const WAYS: Readonly<Record<ThinRule['thin'], string>> = {
  tell: 'Say thin: thicken or thin: drop under slice.layers, shape the ground broader there, or say a smaller least.',
  thicken:
    'The layer beneath or the footprint ends there, so it cannot be thickened: shape the ground broader, or cut it with care.',
  drop: 'What is wide on both sides of it is not dropped: shape the ground broader there, or cut it with care.',
};

function isThin([worst, ...more]: readonly ThinPlace[], layer: number, { leastMm, thin }: ThinRule): Finding {
  const [x, y] = worst.at;
  const how =
    worst.width < 0.5
      ? `The layer runs out to a point here, narrower than ${mm(leastMm)}`
      : `The layer is ${mm(worst.width)} wide here, less than ${mm(leastMm)}`;
  const along = worst.length >= leastMm ? ` over ${mm(worst.length, 0)}` : '';
  const others = more.length > 0 ? `; so are ${counted(more.length)} more of it` : '';
  return {
    level: 'watch',
    code: 'slice/thin',
    message: `${how}${along}${more.length === 1 ? others.replace('so are', 'so is') : others}.`,
    fix: WAYS[thin],
    where: { layer, atMm: [x, y] },
  };
}

const moreThin = (layers: number, count: number, { leastMm, thin }: ThinRule): Finding => ({
  level: 'watch',
  code: 'slice/thin',
  message: `In ${layers} more ${layers === 1 ? 'layer' : 'layers'} ${counted(count)} ${count === 1 ? 'is' : 'are'} narrower than ${mm(leastMm)}.`,
  fix: WAYS[thin],
  where: { path: 'slice.layers.least' },
});

const inLayers = (layers: readonly number[]): string =>
  `in ${layers.length === 1 ? 'layer' : 'layers'} ${layers.slice(0, MOST_TOLD).join(', ')}${layers.length > MOST_TOLD ? ' …' : ''}`;

function wasMended(
  count: number,
  mended: readonly number[],
  fallen: readonly number[],
  { leastMm, thin, cut }: ThinRule,
): Finding {
  const layers = mended.flatMap((each, k) => (each > 0 ? [k + 1] : []));
  const above = fallen.length > 0 ? `; what stood on that went with it, ${inLayers(fallen)}` : '';
  const isThickened = thin === 'thicken';
  const keepsSide = isThickened ? cut === 'proud' : cut === 'shy';
  const wayOut = isThickened
    ? 'There foam stands over the ground: carve it back.'
    : 'There foam is missing: build it up with the cover.';
  return {
    level: 'note',
    code: isThickened ? 'slice/thickened' : 'slice/dropped',
    message: `${counted(count)} narrower than ${mm(leastMm)} ${count === 1 ? 'was' : 'were'} ${isThickened ? 'thickened' : 'dropped'}, ${inLayers(layers)}${above}.`,
    fix: keepsSide ? `The layers keep to the side of the ground that ${cut} says. Nothing need be done.` : wayOut,
    where: { path: 'slice.layers.thin' },
  };
}

const notSloped = (thin: string): never =>
  refuse(
    'slice/thin-sloped',
    `Sloping edges are not ${thin === 'thicken' ? 'thickened: what is added has no slope' : 'dropped: the wire leans through both faces'}.`,
    'Say thin: tell, or another cut.',
    { path: 'slice.layers.thin' },
  );

const allThin = (leastMm: number): never =>
  refuse(
    'slice/all-thin',
    `Every layer is narrower than ${mm(leastMm)}, so all of it is dropped.`,
    'Say a smaller least, or thin: tell.',
    { path: 'slice.layers.least' },
  );
