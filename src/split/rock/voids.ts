import { intersect, offset, subtract } from '../../geometry/clip.ts';
import { areaOf, boxOf, type Region, rectangle, ringsOf } from '../../geometry/ring.ts';
import type { Layer } from '../../model/layer.ts';
import { overSeat, type StandingRock } from '../../model/rock.ts';
import { SAG_MM } from '../pieces/offsets.ts';

/** Foam round a pocket for ballast, and beneath it: bags are heavy and the rock is dropped once (common practice, no source). */
const POCKET_WALL_MM = 60;
const FLOOR_MM = 40;
/** A pocket narrower than this takes no bag. */
const LEAST_POCKET_MM2 = 100 * 100;
/** Halvings of the height of a pocket: to a thousandth of the rock's. */
const HALVINGS = 10;
/** Nobody cuts a void smaller than this out of a rock. */
const LEAST_VOID_MM2 = 200 * 200;

/** Foam of each layer that lies so deep in the carved rock on all sides, up and down too; none in the lowest and the highest layer. */
export function deepIn(layers: readonly Layer[], wallMm: number, leastMm2: number): Region[][] {
  return layers.map((layer, k) => {
    if (k === 0 || k === layers.length - 1) return [];
    const [low, high] = [layer.bottomMm - wallMm, layer.bottomMm + layer.thicknessMm + wallMm];
    const near = layers.filter(({ bottomMm, thicknessMm }) => bottomMm < high && bottomMm + thicknessMm > low);
    const last = near[near.length - 1];
    if (near[0].bottomMm > low || last.bottomMm + last.thicknessMm < high) return [];
    let within: readonly Region[] = layer.regions;
    for (const { finish } of near) {
      for (const face of finish ? [finish.underside, finish.top] : []) within = intersect(within, face);
    }
    return offset(within, -wallMm, { sag: SAG_MM }).filter((region) => areaOf([region]) >= leastMm2);
  });
}

/** Voids of a rock that is to be hollow. */
export const hollows = (layers: readonly Layer[], wallMm: number): Region[][] => deepIn(layers, wallMm, LEAST_VOID_MM2);

/**
 * A pocket low in the standing rock, as low as it can be to hold so much. What comes back may hold less: there is no more room.
 * Its ends are upright to the layers, whichever way these run.
 */
export function pocket(
  layers: readonly Layer[],
  rock: StandingRock,
  wantedMm3: number,
): { voids: Region[][]; volumeMm3: number } {
  const deep = deepIn(layers, POCKET_WALL_MM, LEAST_POCKET_MM2);
  const upTo = (topMm: number) => {
    const voids = layers.map((layer, k) => lowPart(deep[k], layer, rock, topMm));
    const volumeMm3 = voids.reduce((sum, regions, k) => sum + areaOf(regions) * layers[k].thicknessMm, 0);
    return { voids, volumeMm3 };
  };
  let [low, high] = [0, rock.heightMm];
  let best = upTo(high);
  if (best.volumeMm3 < wantedMm3) return best;
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    const tried = upTo(middle);
    if (tried.volumeMm3 >= wantedMm3) [best, high] = [tried, middle];
    else low = middle;
  }
  return best;
}

/** What of a layer's regions lies between the pocket's floor and a height over the seat, through the whole thickness. */
function lowPart(regions: readonly Region[], { bottomMm, thicknessMm }: Layer, rock: StandingRock, topMm: number) {
  if (regions.length === 0) return [];
  const [minX, minY, maxX, maxY] = boxOf(ringsOf(regions));
  const [east, north] = rock.seat;
  if (east === 0 && north === 0) {
    const heights = [bottomMm, bottomMm + thicknessMm].map((z) => overSeat(rock, 0, 0, z));
    return Math.min(...heights) >= FLOOR_MM && Math.max(...heights) <= topMm ? [...regions] : [];
  }
  // The band between two heights, seen in the layer: heights fall along the seat's direction.
  const at = (height: number) => (rock.seatAtMm - height) * (east + north);
  const [from, to] = [at(FLOOR_MM), at(topMm)].sort((a, b) => a - b);
  if (from >= to) return [];
  const band = east !== 0 ? rectangle(from, minY - 1, to, maxY + 1) : rectangle(minX - 1, from, maxX + 1, to);
  return intersect(regions, [[band]]).filter((region) => areaOf([region]) >= LEAST_POCKET_MM2);
}

/** One set of voids with another taken in. */
export const both = (a: readonly Region[][], b: readonly Region[][]): Region[][] =>
  a.map((regions, k) => (b[k].length === 0 ? regions : [...subtract(regions, b[k]), ...b[k]]));
