import { subtract } from '../../geometry/clip.ts';
import { lineAround } from '../../geometry/line-distance.ts';
import {
  type Box,
  boxesMeet,
  boxOf,
  type Point,
  type Region,
  type Ring,
  regionArea,
  ringsOf,
} from '../../geometry/ring.ts';
import { SegmentIndex } from '../../geometry/segment-index.ts';
import { supportOf } from '../../geometry/support.ts';
import { lapMm as lapFor } from '../../model/layer.ts';
import type { PieceRest, Plan } from '../../model/plan.ts';
import { zoneRegions } from '../../model/zone.ts';
import type { Course } from '../courses.ts';

/** Laps wider than so many times what is wanted are not looked for. */
const WIDE = 4;
/** Less than this beside a deck is the grid's. */
const SPECK_MM2 = 1;
/** How near to the layer's outline an edge of a piece is a part of it: what clipping may move. */
const ON_MM = 0.01;

/**
 * How each piece of every layer but the lowest rests on the foam beneath it, laid loose: how much of it, where its middle of mass
 * is, and its least lap: from its edge on the outline of its layer to the nearest void beneath. The middle of mass is that of
 * upright edges: leaning ones move it inward. O(pieces × edges beneath).
 */
export function restsOf({ facts, job }: Pick<Plan, 'facts' | 'job'>, courses: readonly Course[]): PieceRest[] {
  const decks = zoneRegions(facts.zones, 'people');
  // Round a deck by others foam is left out, whatever laps there.
  const clear = (regions: readonly Region[]) => (decks.length > 0 ? subtract(regions, decks) : regions);
  const said = lapOf(job);
  return courses.flatMap((course, i) => {
    const below = courses[i - 1];
    if (!below) return [];
    const foam = below.pieces.map(({ region }) => ({ region, box: boxOf(region) }));
    // Cut round a deck, edges on the grid differ from the deck's own by specks that are no voids.
    const voids = ringsOf(clear(below.missing).filter((region) => regionArea(region) > SPECK_MM2)).map(lineAround);
    const wantedMm = lapFor(said, course.layer.thicknessMm);
    const outline = new SegmentIndex(voids.length > 0 ? ringsOf(clear(course.layer.regions)).map(lineAround) : []);
    const edges = new SegmentIndex(voids);
    return course.pieces.map(({ name, region, areaMm2 }): PieceRest => {
      const box = boxOf(region);
      const under = foam.filter((each) => boxesMeet(each.box, box)).map((each) => each.region);
      const { share, inside: insideMm } = supportOf(region, under);
      const lap = voids.length > 0 ? leastLap(region, box, voids, edges, outline, WIDE * wantedMm) : null;
      return { piece: name, areaMm2: share * areaMm2, share, insideMm, leastLap: lap && { ...lap, wantedMm } };
    });
  });
}

/** Where the outer edge of a piece comes nearest to a void; null when nowhere within reach. */
function leastLap(
  region: Region,
  [minX, minY, maxX, maxY]: Box,
  voids: readonly Ring[],
  edges: SegmentIndex,
  outline: SegmentIndex,
  reachMm: number,
): { mm: number; atMm: Point } | null {
  const outer = outerEdges(region, outline);
  if (outer.length === 0) return null;
  let least: { mm: number; atMm: Point } | null = null;
  // Between straight edges the least distance is at a corner of the one or the other.
  const look = (x: number, y: number, index: SegmentIndex) => {
    const reach = least?.mm ?? reachMm;
    const mm = index.distance(x, y, reach);
    if (mm < reach) least = { mm, atMm: [x, y] };
  };
  for (const edge of outer) {
    look(edge[0], edge[1], edges);
    look(edge[2], edge[3], edges);
  }
  const own = new SegmentIndex(outer);
  for (const ring of voids) {
    for (let k = 0; k < ring.length; k += 2) {
      const [x, y] = [ring[k], ring[k + 1]];
      const isNear = x >= minX - reachMm && x <= maxX + reachMm && y >= minY - reachMm && y <= maxY + reachMm;
      if (isNear) look(x, y, own);
    }
  }
  return least;
}

/** The edges of a piece on the outline of its layer: neither seams nor edges of voids. */
function outerEdges(region: Region, outline: SegmentIndex): Float64Array[] {
  const edges: Float64Array[] = [];
  for (const ring of region) {
    for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
      const [x, y] = [(ring[i] + ring[j]) / 2, (ring[i + 1] + ring[j + 1]) / 2];
      if (outline.distance(x, y, ON_MM) <= ON_MM)
        edges.push(Float64Array.of(ring[j], ring[j + 1], ring[i], ring[i + 1]));
    }
  }
  return edges;
}

/** The lap that the job says, as it says it; undefined when it says none. */
function lapOf({ split }: Plan['job']): number | string | undefined {
  type Lap = { readonly lap?: number | string };
  type Ways = { readonly hollow?: Lap; readonly rings?: Lap };
  const said = split as Ways | undefined;
  return (said?.hollow ?? said?.rings)?.lap;
}
