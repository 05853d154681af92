import { boxOf, type Ring, ringsOf } from '../../geometry/ring.ts';
import type { Zone } from '../../model/facts.ts';
import { zoneRegion } from '../../model/zone.ts';
import { flipped, type Shape, type Words } from './figure.ts';
import { runsInside, type Section } from './section.ts';

/** What a drawing says in a zone. */
export const ZONE_WORDS: Readonly<Record<Zone['kind'], string>> = {
  people: 'DECK BY OTHERS',
  solid: 'KEEP SOLID',
  seen: 'SEEN',
  lean: 'MAY BE LOADED',
};

/** The outlines of zones on a plan of some depth, with their words along the top of each one's box: names of pieces stand in the middle. */
export function zonesInPlan(zones: readonly Zone[], depth: number, size: number): { shapes: Shape[]; words: Words[] } {
  const drawn = zones.map((zone) => ({ kind: zone.kind, rings: flipped(ringsOf(zoneRegion(zone)), depth) }));
  return {
    shapes: drawn.map(({ kind, rings }) => ({ rings, look: kind === 'people' ? 'deck' : 'zone' })),
    words: drawn.map(({ kind, rings }) => {
      const [left, top, right] = boxOf(rings);
      return { x: (left + right) / 2, y: top + 1.1 * size, text: ZONE_WORDS[kind], size, look: 'joint' };
    }),
  };
}

/** Decks by others where a section meets them, from the floor to their top, or as far up as there is ground. */
export function decksIn(section: Section, zones: readonly Zone[], lengthMm: number, topMm: number) {
  const rings: Ring[] = [];
  const middles: { readonly alongMm: number; readonly upMm: number }[] = [];
  for (const zone of zones) {
    if (zone.kind !== 'people') continue;
    const runs = runsInside(section, zoneRegion(zone), lengthMm);
    const upMm = zone.levelMm ?? topMm;
    for (let i = 0; i < runs.length; i += 2) {
      const [from, to] = [Math.max(runs[i], 0), Math.min(runs[i + 1], lengthMm)];
      if (to <= from) continue;
      rings.push(Float64Array.of(from, 0, to, 0, to, upMm, from, upMm));
      middles.push({ alongMm: (from + to) / 2, upMm: upMm / 2 });
    }
  }
  return { rings, middles };
}
