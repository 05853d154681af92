import { type Plumb, plumbs } from '../geometry/plumb.ts';
import { isInside, type Point } from '../geometry/ring.ts';
import { heightOf } from '../model/ground-height.ts';
import type { Landform } from '../model/landform.ts';
import type { Layer, LayerStack } from '../model/layer.ts';
import type { Piece } from '../model/piece.ts';
import { BITE_MM, MOST_PIN_MM, type PinThrough, UNDER_SURFACE_MM } from '../model/pin.ts';
import type { PinCount, PinStock } from '../model/plan.ts';
import { ABOVE_UNDERSIDE_MM, stepFor } from './pins/ends.ts';
import { lapPins } from './pins/laps.ts';

/** What stands out of a pin that is pulled again, to hold it by. */
const HANDLE_MM = 20;

/**
 * Every pin of the pieces with its layers, ends and length. A pin stays where its upper end has its bite in the highest
 * layer and yet lies UNDER_SURFACE_MM below what is carved, as its lower end does above what is carved under an overhang; the
 * others are pulled when the glue has set.
 */
export function pinsThrough(pieces: readonly Piece[], { kind, layers }: LayerStack, landform: Landform): PinThrough[] {
  if (kind !== 'flat') return lapPins(pieces, layers);
  const runs = new Map<string, { at: Point; from: number; to: number }>();
  for (const { layer, pins } of pieces) {
    for (const at of pins) {
      const run = runs.get(`${at[0]},${at[1]}`);
      const [from, to] = [Math.min(layer, run?.from ?? layer), Math.max(layer, run?.to ?? layer)];
      runs.set(`${at[0]},${at[1]}`, { at, from, to });
    }
  }
  const byNumber = new Map(layers.map((layer) => [layer.number, layer]));
  const all = [...runs.values()];
  const { positionsMm: positions, triangles } = landform.kind === 'solid' ? landform : NO_SURFACE;
  const lines = plumbs(
    { positions, triangles },
    all.map(({ at }) => at),
  );
  return all.flatMap(({ at, from, to }, i) => {
    const [lowest, highest] = [byNumber.get(from), byNumber.get(to)];
    if (!lowest || !highest) return [];
    const foamMm = foamTopMm(at, from, layers);
    const ground: Ground =
      landform.kind === 'solid'
        ? groundRound(highest.bottomMm, lines[i])
        : { lowMm: -Infinity, highMm: heightOf(landform, at[0], at[1]) };
    return [pinIn(at, lowest, highest, { ...ground, highMm: Math.min(ground.highMm, foamMm) })];
  });
}

const NO_SURFACE = { positionsMm: new Float64Array(0), triangles: new Uint32Array(0) };

/** The ground over and under a place in the foam: what is carved. */
interface Ground {
  readonly lowMm: number;
  readonly highMm: number;
}

/** The ground of a solid round a height; none, so that a pin is pulled, where the foam there is carved off whole. */
function groundRound(zMm: number, inside: Plumb): Ground {
  for (let i = 0; i < inside.length; i += 2) {
    if (inside[i] <= zMm && inside[i + 1] >= zMm) return { lowMm: inside[i], highMm: inside[i + 1] };
  }
  return { lowMm: zMm, highMm: zMm };
}

function pinIn(at: Point, lowest: Layer, highest: Layer, { lowMm: carvedLowMm, highMm }: Ground): PinThrough {
  const isPair = highest.number - lowest.number <= 1;
  const inMm = highest.bottomMm;
  const floorMm = lowest.bottomMm + Math.min(ABOVE_UNDERSIDE_MM, lowest.thicknessMm / 4);
  // Ground that begins under the lowest layer is not carved at this end.
  const lowMm = carvedLowMm > lowest.bottomMm ? Math.max(floorMm, carvedLowMm + UNDER_SURFACE_MM) : floorMm;
  const bottomMm = isPair ? Math.max(lowMm, inMm - MOST_PIN_MM / 2) : lowMm;
  const flushMm = highest.bottomMm + highest.thicknessMm;
  const topMm = Math.min(flushMm, highMm - UNDER_SURFACE_MM, isPair ? inMm + MOST_PIN_MM / 2 : Infinity);
  const biteMm = Math.min(BITE_MM, highest.thicknessMm);
  // It holds nothing in a layer of which no more than that is left when the ground is carved.
  const leastMm = Math.min(BITE_MM, lowest.thicknessMm) / 2;
  const isPulled = topMm < inMm + biteMm - ROUNDING_MM || bottomMm > lowest.bottomMm + lowest.thicknessMm - leastMm;
  const stepMm = stepFor(lowest);
  const pin = { at, fromLayer: lowest.number, toLayer: highest.number, isPulled };
  if (isPulled) {
    const fromMm = Math.min(bottomMm, floorMm);
    return { ...pin, bottomMm: fromMm, lengthMm: stepMm * Math.ceil((flushMm + HANDLE_MM - fromMm) / stepMm) };
  }
  const lengthMm = stepMm * Math.floor((topMm - bottomMm + ROUNDING_MM) / stepMm);
  return { ...pin, bottomMm: topMm - lengthMm, lengthMm };
}

/** What sums of thicknesses may be off by. */
const ROUNDING_MM = 1e-6;

/** The top of the foam that goes up from a layer over a place without a gap. */
function foamTopMm([x, y]: Point, from: number, layers: readonly Layer[]): number {
  let highest = layers.findIndex(({ number }) => number === from);
  while (highest + 1 < layers.length && isInside(x, y, layers[highest + 1].regions)) highest++;
  return layers[highest].bottomMm + layers[highest].thicknessMm;
}

/**
 * What pins are cut from, the shortest first: each from the shortest length sold that holds it, as many from one as go in.
 * Longer ones than are sold stand at their own length.
 */
export function pinStock(counts: readonly PinCount[], soldMm: readonly number[]): PinStock[] {
  const sold = [...soldMm].sort((a, b) => a - b);
  const found = new Map<number, PinStock>();
  for (const { lengthMm, isPulled, count } of counts) {
    const fromMm = sold.find((each) => each >= lengthMm) ?? lengthMm;
    const before = found.get(fromMm) ?? { soldMm: fromMm, sticks: 0, pins: 0, pulled: 0, leastMm: Infinity, mostMm: 0 };
    found.set(fromMm, {
      soldMm: fromMm,
      sticks: before.sticks + Math.ceil(count / Math.floor(fromMm / lengthMm)),
      pins: before.pins + count,
      pulled: before.pulled + (isPulled ? count : 0),
      leastMm: Math.min(before.leastMm, lengthMm),
      mostMm: Math.max(before.mostMm, lengthMm),
    });
  }
  return [...found.values()].sort((a, b) => a.soldMm - b.soldMm);
}

/** How many there are of each length, those that stay first, the shortest first. */
export function pinCounts(pins: readonly PinThrough[]): PinCount[] {
  const counts = new Map<string, PinCount>();
  for (const { lengthMm, isPulled } of pins) {
    const key = `${lengthMm} ${isPulled}`;
    counts.set(key, { lengthMm, isPulled, count: (counts.get(key)?.count ?? 0) + 1 });
  }
  return [...counts.values()].sort((a, b) => Number(a.isPulled) - Number(b.isPulled) || a.lengthMm - b.lengthMm);
}
