import { intersect, offset, subtract, unite } from '../../geometry/clip.ts';
import { edgeRuns } from '../../geometry/edge-runs.ts';
import { leastBetween } from '../../geometry/least-between.ts';
import { poles } from '../../geometry/poles.ts';
import { areaOf, isInRegion, type Point, type Region, regionArea, ringsOf } from '../../geometry/ring.ts';
import { simplified } from '../../geometry/simplify.ts';
import { SIMPLIFY_MM } from '../../geometry/tolerance.ts';
import { partedAtTouches } from '../../geometry/touching.ts';
import type { Layer } from '../../model/layer.ts';
import type { Walk } from '../../plugin.ts';

/** How rings are to be cut. */
export interface Wanted {
  /** From how many blanks in turn: a ring is as many layers' steps wide. */
  readonly blanks: number;
  /** By how much a layer laps the ring beneath it at least. */
  readonly lapMm: (above: Layer) => number;
  /** What a shared cut takes from the outer of its two rings; the inner one's edge is seen, and stays true. */
  readonly kerfMm: number;
  /** Foam that reaches wider over a void wants something under it. */
  readonly spanMm: (above: Layer) => number;
  /** Under these nothing is left out. */
  readonly solid: readonly Region[];
}

/** An area of a layer that hangs together, and what is cut out of its middle. */
export interface Disc {
  /** Place of its layer in the stack, from 0. */
  readonly place: number;
  readonly region: Region;
  /** Discs of a higher layer that come out of it. */
  readonly inner: readonly Disc[];
  /** What stays of it: a ring, or all. */
  readonly foam: readonly Region[];
}

/** How far a layer laps the ring beneath it, where that is least. */
export interface Lap {
  /** Place of the ring's layer in the stack. */
  readonly place: number;
  readonly lapMm: number;
  readonly wantedMm: number;
  readonly atMm: Point;
}

/** A layer that lies whole over a void wider than foam spans. */
export interface Lid {
  readonly place: number;
  /** The void. */
  readonly over: Region;
  readonly widthMm: number;
  readonly atMm: Point;
}

/** Which disc comes out of which. */
export interface Nested {
  /** Of each layer. */
  readonly discs: readonly (readonly Disc[])[];
  /** Where laps are too short for a ring, so that none was made. */
  readonly steep: readonly Lap[];
  /** The shortest lap of those that were made, by what it has to spare. */
  readonly least: Lap | null;
  readonly lids: readonly Lid[];
  /** How many hearts stay in since foam would hang too wide over the void. */
  readonly shelves: number;
}

/** Less foam than this is none: a ring of it is a wall that stands upright. */
const SPECK_MM2 = 100;

/**
 * Find out, from the top down, which disc of a layer comes out of the one so many layers beneath. It stays in as a heart
 * where a keep-solid zone lies on it, where the ring would be a bare wall, where the layer between would hang too wide over
 * the void (a shelf: what is over the next void is then a lid), and where that layer would lap the ring too little.
 */
export function* nested(layers: readonly Layer[], wanted: Wanted): Walk<Nested> {
  const discs: Disc[][] = layers.map(() => []);
  const steep: Lap[] = [];
  const lids: Lid[] = [];
  let least: Lap | null = null;
  let shelves = 0;
  for (let place = layers.length - 1; place >= 0; place--) {
    const above = layers[place + 1];
    const higher = layers[place + wanted.blanks];
    const fits = higher !== undefined && higher.thicknessMm === layers[place].thicknessMm;
    for (const region of layers[place].regions.flatMap(partedAtTouches)) {
      const inner: Disc[] = [];
      for (const disc of fits ? discs[place + wanted.blanks] : []) {
        const [[x, y]] = disc.region;
        if (!isInRegion(x, y, region)) continue;
        if (regionArea(region) - regionArea(disc.region) < SPECK_MM2) continue;
        if (areaOf(intersect([disc.region], wanted.solid)) > SPECK_MM2) continue;
        const over = widest(disc.region, discs[place + 1], wanted.spanMm(above));
        if (over && !over.isLid) {
          shelves++;
          continue;
        }
        const lap = lapOn(region, disc.region, place, above, wanted);
        if (lap.lapMm < lap.wantedMm) {
          steep.push(lap);
          continue;
        }
        if (over) lids.push({ place: place + 1, over: disc.region, widthMm: over.widthMm, atMm: over.atMm });
        if (!least || spare(lap) < spare(least)) least = lap;
        inner.push(disc);
      }
      const foam =
        inner.length === 0
          ? [region]
          : subtract(
              [region],
              inner.map((disc) => disc.region),
            );
      discs[place].push({ place, region, inner, foam: foam.flatMap(partedAtTouches) });
    }
    yield (0.4 * (layers.length - place)) / layers.length;
  }
  return { discs, steep, least, lids, shelves };
}

/** By how much a lap is longer than wanted. */
export const spare = ({ lapMm, wantedMm }: Lap): number => lapMm - wantedMm;

/** How far the layer between laps what stays of a region when a disc of the layer over it is cut out. */
function lapOn(region: Region, disc: Region, place: number, above: Layer, { lapMm, kerfMm }: Wanted): Lap {
  const { distance, at } = leastBetween(disc, ringsOf(above.regions));
  const wantedMm = lapMm(above);
  const beyond = subtract([disc], intersect([region], above.regions));
  const isOver = areaOf(beyond) > SPECK_MM2;
  const atMm: Point = isOver ? [beyond[0][0][0], beyond[0][0][1]] : at;
  return { place, lapMm: isOver ? 0 : Math.max(0, distance - kerfMm), wantedMm, atMm };
}

/** Where foam of the layer between is widest over a void, if wider than it spans, and whether it covers the void whole. */
function widest(hole: Region, between: readonly Disc[], spanMm: number) {
  const circleMm2 = (spanMm * spanMm * 3) / 4;
  if (regionArea(hole) < circleMm2) return null;
  const over = intersect([hole], unite(between.flatMap(({ foam }) => [...foam])));
  if (areaOf(over) < circleMm2) return null;
  const fewer = over.map((one) => one.map((ring) => simplified(ring, SIMPLIFY_MM)));
  const cores = offset(fewer, -spanMm / 2, { sag: SIMPLIFY_MM });
  if (cores.length === 0) return null;
  const core = cores.reduce((most, one) => (regionArea(one) > regionArea(most) ? one : most));
  const [x, y, radius] = poles(edgeRuns(core), 1);
  const isLid = areaOf(over) > regionArea(hole) - SPECK_MM2;
  return { isLid, widthMm: spanMm + 2 * (radius ?? 0), atMm: [x ?? core[0][0], y ?? core[0][1]] as Point };
}
