import { type Finding, refuse } from '../../findings.ts';
import { intersect, subtract } from '../../geometry/clip.ts';
import { areaOf, type Region } from '../../geometry/ring.ts';
import type { Zone } from '../../model/facts.ts';
import type { Layer } from '../../model/layer.ts';
import { zoneRegion, zoneRegions } from '../../model/zone.ts';
import type { Context } from '../../plugin.ts';
import { numberText } from '../../units.ts';
import type { Course } from './pieces.ts';

type Told = Pick<Context<'split'>, 'facts' | 'tell'>;

/** Less than this of a piece in a zone is where outlines graze each other. */
const GRAZE_MM2 = 100;

/**
 * The layers cut round every deck by others, from the floor up: what stands under one is the deck's own. Tells of each deck,
 * and of zones that no layer reaches. The same layers where no deck is asked for.
 */
export function withoutDecks(layers: readonly Layer[], { facts, tell }: Told): readonly Layer[] {
  for (const [i, zone] of facts.zones.entries()) {
    const region = zoneRegion(zone);
    const met = layers.map(({ regions }) => areaOf(intersect(regions, region)));
    if (!met.some((area) => area > 0)) tell(zoneOutside(zone, i));
    else if (zone.kind === 'people') tell(deckTold(zone, i, Math.max(...met)));
  }
  const decks = zoneRegions(facts.zones, 'people');
  if (decks.length === 0) return layers;
  const cut = layers.map((layer) => ({ ...layer, regions: subtract(layer.regions, decks) }));
  return cut.some(({ regions }) => regions.length > 0) ? cut : allDeck();
}

/** Tells which pieces are seen in zones that dressing may load. */
export function tellOfLeaning(courses: readonly Course[], { facts, tell }: Told): void {
  for (const [i, zone] of facts.zones.entries()) {
    if (zone.kind !== 'lean') continue;
    const region = zoneRegion(zone);
    const names = courses.flatMap((course, k) => {
      const seen = seenIn(region, course, courses[k + 1]);
      return course.names.filter((_, n) => areaOf(intersect([course.pieces[n]], seen)) > GRAZE_MM2);
    });
    if (names.length > 0) tell(leanTold(zone, i, names));
  }
}

const seenIn = (region: readonly Region[], { foam }: Course, above: Course | undefined): Region[] => {
  const here = intersect(foam, region);
  return above ? subtract(here, above.layer.regions) : here;
};

const called = ({ name }: Zone, i: number): string => (name === null ? `Zone ${i + 1}` : `Zone ${name}`);

const zoneOutside = (zone: Zone, i: number): Finding => ({
  level: 'watch',
  code: 'split/zone-outside',
  message: `${called(zone, i)} (${zone.kind}) lies outside of every layer: it changes nothing.`,
  fix: "Count its corners from the ground's south-west corner, in the job's unit.",
  where: { path: `zones.${i}.outline`, atMm: zone.outline[0] },
});

const deckTold = (zone: Zone, i: number, areaMm2: number): Finding => ({
  level: 'note',
  code: 'split/deck',
  message: `${called(zone, i)}: a deck by others stands here${zone.levelMm === null ? '' : `, its top at ${numberText(zone.levelMm)} mm`}. ${numberText(areaMm2 / 1e6, 2)} m² of every layer are left clear for it and ${numberText(zone.clearanceMm)} mm round it, down to the floor.`,
  fix: 'Foam carries nobody: have the deck, its legs and its guards built by others and approved by who may.',
  where: { path: `zones.${i}`, atMm: zone.outline[0] },
});

const leanTold = (zone: Zone, i: number, names: readonly string[]): Finding => ({
  level: 'note',
  code: 'split/lean',
  message: `${called(zone, i)}: dressing may load ${names.slice(0, 12).join(', ')}${names.length > 12 ? ` and ${names.length - 12} more` : ''}.`,
  fix: "Cut these, and what stands under them, from a denser grade; the maker's sheet says what it bears for long.",
  where: { path: `zones.${i}`, piece: names[0] },
});

const allDeck = (): never =>
  refuse(
    'split/all-deck',
    'Decks by others take up the whole ground: no foam is left.',
    'Draw the zones of kind people smaller.',
    { path: 'zones' },
  );
