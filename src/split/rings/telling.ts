import { type Finding, refuse } from '../../findings.ts';
import { directionDeg } from '../../geometry/exact-math.ts';
import { areaOf, lineLength, type Region, regionArea } from '../../geometry/ring.ts';
import type { Layer } from '../../model/layer.ts';
import type { Blank } from '../../model/piece.ts';
import { numberText } from '../../units.ts';
import { type Lap, type Lid, spare } from './discs.ts';

/** How steep the ground is where a lap is so long: it covers the steps of so many layers. */
export const slopeDeg = (lapMm: number, riseMm: number): number => directionDeg(lapMm, riseMm);

/** The rise over which a lap runs: a layer's height for two blanks, two for three. */
const riseOf = ({ place }: Lap, layers: readonly Layer[], blanks: number): number =>
  layers.slice(place + 1, place + blanks).reduce((sum, { thicknessMm }) => sum + thicknessMm, 0);

const worstOf = (laps: readonly Lap[]): Lap => laps.reduce((worst, lap) => (spare(lap) < spare(worst) ? lap : worst));

/** What is wrong where the slope is too steep for the lap, in words: worst place, lap found and wanted, slope. */
function tooSteepText(steep: readonly Lap[], layers: readonly Layer[], blanks: number): string {
  const worst = worstOf(steep);
  const rise = riseOf(worst, layers, blanks);
  const places = steep.length === 1 ? '' : ` It is the worst of ${steep.length} places.`;
  return `Layer ${layers[worst.place + 1].number} would lap the ring under it by ${mm(worst.lapMm)} only, ${mm(worst.wantedMm)} are wanted: the ground is ${deg(slopeDeg(worst.lapMm, rise))} steep here, and rings take ${deg(slopeDeg(worst.wantedMm, rise))}.${places}`;
}

export const refuseSteep = (steep: readonly Lap[], layers: readonly Layer[], blanks: number): never =>
  refuse(
    'split/rings-too-steep',
    tooSteepText(steep, layers, blanks),
    // Thinner boards would not do: the lap shrinks with them.
    `${blanks === 2 ? 'Let three blanks take turns (blanks: 3), be' : 'Be'} content with a smaller lap, keep the hearts of steep layers (steep: keep), or split hollow.`,
    placeOf(worstOf(steep), layers),
  );

export const keptSteep = (steep: readonly Lap[], layers: readonly Layer[], blanks: number): Finding => ({
  level: 'note',
  code: 'split/rings-kept-steep',
  message: `${steep.length === 1 ? 'A heart stays' : `${steep.length} hearts stay`} in: too steep for rings. ${tooSteepText(steep, layers, blanks)}`,
  fix: `${blanks === 2 ? 'Three blanks or a' : 'A'} smaller lap would make rings here too.`,
  where: placeOf(worstOf(steep), layers),
});

/** The blanks, what they save in foam before packing, the shortest lap, and what the shared cuts cost. */
export function saved(blanks: readonly Blank[], layers: readonly Layer[], least: Lap, kerfMm: number): Finding {
  const whole = layers.reduce((sum, { regions, thicknessMm }) => sum + areaOf(regions) * thicknessMm, 0);
  const net = blanks.reduce(
    (sum, { pieces }) =>
      sum + pieces.reduce((area, { region, thicknessMm }) => area + regionArea(region) * thicknessMm, 0),
    0,
  );
  const shared = blanks.reduce(
    (sum, { sharedCuts }) => sum + sharedCuts.reduce((mm, line) => mm + lineLength(line), 0),
    0,
  );
  const nested = blanks.filter(({ pieces }) => pieces.length > 1).length;
  const kerf =
    kerfMm > 0
      ? ` Cut with the wire outside these lines: the ${mm(kerfMm)} of the kerf come off the outer ring, where nobody sees it, and are taken off the lap here.`
      : '';
  return {
    level: 'note',
    code: 'split/rings',
    message: `${nested === 1 ? 'One blank gives' : `${nested} blanks give`} rings of several layers: ${percent(1 - net / whole)} less foam than whole pieces, before either is laid on boards. Every layer laps the ring under it by ${mm(least.lapMm)} or more. Rings share ${numberText(shared / 1000, 1)} m of cuts.${kerf}`,
    fix: 'Let the first ring of each blank come off whole before the next is cut, and name each as it comes.',
    where: placeOf(least, layers),
  };
}

export const blockedLids = (
  lids: readonly Lid[],
  blocks: readonly (readonly Region[])[],
  layers: readonly Layer[],
): Finding => {
  const widest = lids.reduce((most, lid) => (lid.widthMm > most.widthMm ? lid : most));
  const count = blocks.flat().length;
  return {
    level: 'note',
    code: 'split/rings-lid',
    message: `${lids.length === 1 ? 'A layer lies' : `${lids.length} layers lie`} over a void like a lid, here ${numberText(widest.widthMm, 0)} mm wide, more than foam spans: ${count === 1 ? 'a block stands' : `${count} blocks stand`} under it, layer on layer from the floor.`,
    fix: 'They are named as pieces; set and glue those of a layer before the next layer goes on.',
    where: { layer: layers[widest.place].number, atMm: widest.atMm },
  };
};

export const noRings = (): Finding => ({
  level: 'watch',
  code: 'split/no-rings',
  message: 'No layer gives a ring: each is cut whole, as with solid.',
  fix: 'Rings want a hill of more than two layers with slopes neither steep nor flat. Split hollow, or let span be wider.',
  where: {},
});

export const heartsOnShelves = (count: number): Finding => ({
  level: 'note',
  code: 'split/rings-shelf',
  message: `${count === 1 ? 'A heart stays' : `${count} hearts stay`} in under flats, where foam would hang over the void too far.`,
  fix: 'A wider span would take them out; foam sags sooner than it breaks.',
  where: {},
});

const placeOf = ({ place, atMm }: Lap, layers: readonly Layer[]) => ({ layer: layers[place].number, atMm });

const mm = (value: number): string => `${numberText(value, 1)} mm`;
const deg = (value: number): string => `${numberText(value, 0)}°`;
const percent = (share: number): string => `${numberText(100 * share, 0)} %`;
