import { isInRing, type Point, type Ring, ringArea } from '../../geometry/ring.ts';
import { snapped } from '../../geometry/snap.ts';
import { WaysBetween } from '../../geometry/ways-between.ts';
import type { RunIn } from '../../model/layout.ts';
import type { Lying } from './lying.ts';

/**
 * The way of the cutter to each blank of a board: from an edge through the gaps, the shortest there is between them; to a blank
 * in a void, from the slit that leads into the void. Blanks that no way leads to are left out.
 * @param edges of the board, and the straight cuts that break it down
 */
export function runIns(blanks: readonly Lying[], edges: readonly Ring[], gapMm: number, kerfMm: number): RunIn[] {
  if (blanks.length === 0) return [];
  const shapes = blanks.map(({ pieces }) => pieces.flatMap(({ region }) => [...region]));
  const hosts = blanks.map((blank) => hostOf(blank, blanks));
  const ways = new WaysBetween(shapes, edges, { room: gapMm, width: kerfMm });
  const fromEdge = ways.fromEdge();
  return blanks.flatMap(({ blank }, shape): RunIn[] => {
    const host = hosts[shape];
    const way = host ? ways.from(host.starts, shape) : fromEdge.find((each) => each.shape === shape);
    if (!way) return [];
    const line = way.line.map(snapped);
    return [host ? { blank, line, within: host.name } : { blank, line }];
  });
}

interface Host {
  readonly name: string;
  readonly starts: readonly Point[];
}

/**
 * The piece in whose void a blank lies (of voids within voids the innermost), and where its slits come out there; without
 * slits, some point of the void's edge.
 */
function hostOf(blank: Lying, blanks: readonly Lying[]): Host | undefined {
  const [[outer]] = blank.pieces.map(({ region }) => region);
  let [innermost, leastMm2]: [Host | undefined, number] = [undefined, Infinity];
  for (const other of blanks) {
    if (other === blank) continue;
    for (const { name, region, slits } of other.pieces) {
      const hole = region.slice(1).find((ring) => isInRing(outer[0], outer[1], ring));
      if (!hole || -ringArea(hole) >= leastMm2) continue;
      // A void that another piece of the same blank fills is none.
      if (
        other.pieces.some(
          ({ region: [filling] }) =>
            filling && isInRing(outer[0], outer[1], filling) && isInRing(filling[0], filling[1], hole),
        )
      )
        continue;
      const ends = slits.flatMap((slit): Point[] => [
        [slit[0], slit[1]],
        [slit[slit.length - 2], slit[slit.length - 1]],
      ]);
      const onHole = ends.filter((end) => isOn(hole, end));
      const points = onHole.length > 0 ? onHole : [[hole[0], hole[1]] as const];
      [innermost, leastMm2] = [{ name, starts: points }, -ringArea(hole)];
    }
  }
  return innermost;
}

/** Slits end on outlines, to the rounding of their placing. */
const ON_MM = 0.01;

function isOn(ring: Ring, [x, y]: Point): boolean {
  for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
    const [dx, dy] = [ring[i] - ring[j], ring[i + 1] - ring[j + 1]];
    const squared = dx * dx + dy * dy;
    const t = squared > 0 ? Math.min(1, Math.max(0, ((x - ring[j]) * dx + (y - ring[j + 1]) * dy) / squared)) : 0;
    const [ex, ey] = [ring[j] + t * dx - x, ring[j + 1] + t * dy - y];
    if (ex * ex + ey * ey <= ON_MM * ON_MM) return true;
  }
  return false;
}
