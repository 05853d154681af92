import { isInside, type Point } from '../geometry/ring.ts';
import { heightOf } from '../model/ground-height.ts';
import type { Landform } from '../model/landform.ts';
import type { Layer, LayerStack } from '../model/layer.ts';
import type { Piece } from '../model/piece.ts';
import { BITE_MM, MOST_PIN_MM, type PinThrough, UNDER_SURFACE_MM } from '../model/pin.ts';
import type { PinCount } from '../model/plan.ts';

/** The lower end stays this far above the underside of the lowest layer, or a quarter of a thin one. */
const ABOVE_UNDERSIDE_MM = 10;
/** Pins are cut to whole fives of a millimetre in layers from here up, to whole ones in thinner ones. */
const LEAST_FOR_FIVES_MM = 20;
/** What stands out of a pin that is pulled again, to hold it by. */
const HANDLE_MM = 20;

/**
 * Every pin of the pieces with its layers, ends and length. A pin stays where its upper end has its bite in the highest
 * layer and yet lies UNDER_SURFACE_MM below what is carved; the others are pulled when the glue has set.
 */
export function pinsThrough(pieces: readonly Piece[], { kind, layers }: LayerStack, landform: Landform): PinThrough[] {
  if (kind !== 'flat') return [];
  const runs = new Map<string, { at: Point; from: number; to: number }>();
  for (const { layer, pins } of pieces) {
    for (const at of pins) {
      const run = runs.get(`${at[0]},${at[1]}`);
      const [from, to] = [Math.min(layer, run?.from ?? layer), Math.max(layer, run?.to ?? layer)];
      runs.set(`${at[0]},${at[1]}`, { at, from, to });
    }
  }
  const byNumber = new Map(layers.map((layer) => [layer.number, layer]));
  return [...runs.values()].flatMap(({ at, from, to }) => {
    const [lowest, highest] = [byNumber.get(from), byNumber.get(to)];
    return lowest && highest ? [pinIn(at, lowest, highest, carvedMm(at, to, layers, landform))] : [];
  });
}

function pinIn(at: Point, lowest: Layer, highest: Layer, surfaceMm: number): PinThrough {
  const isPair = highest.number - lowest.number <= 1;
  const inMm = highest.bottomMm;
  const lowMm = lowest.bottomMm + Math.min(ABOVE_UNDERSIDE_MM, lowest.thicknessMm / 4);
  const bottomMm = isPair ? Math.max(lowMm, inMm - MOST_PIN_MM / 2) : lowMm;
  const flushMm = highest.bottomMm + highest.thicknessMm;
  const topMm = Math.min(flushMm, surfaceMm - UNDER_SURFACE_MM, isPair ? inMm + MOST_PIN_MM / 2 : Infinity);
  const isPulled = topMm < inMm + Math.min(BITE_MM, highest.thicknessMm) - ROUNDING_MM;
  const stepMm = lowest.thicknessMm >= LEAST_FOR_FIVES_MM ? 5 : 1;
  const pin = { at, fromLayer: lowest.number, toLayer: highest.number, isPulled };
  if (isPulled) return { ...pin, bottomMm, lengthMm: stepMm * Math.ceil((flushMm + HANDLE_MM - bottomMm) / stepMm) };
  const lengthMm = stepMm * Math.floor((topMm - bottomMm + ROUNDING_MM) / stepMm);
  return { ...pin, bottomMm: topMm - lengthMm, lengthMm };
}

/** What sums of thicknesses may be off by. */
const ROUNDING_MM = 1e-6;

/**
 * The height of the carved surface over a place, in the foam that goes up from a layer without a gap: the ground, or the foam's
 * top where that is lower. Of a solid's ground no more is known here than that it lies over the underside of the highest layer.
 */
function carvedMm([x, y]: Point, from: number, layers: readonly Layer[], landform: Landform): number {
  let highest = layers.findIndex(({ number }) => number === from);
  while (highest + 1 < layers.length && isInside(x, y, layers[highest + 1].regions)) highest++;
  const { bottomMm, thicknessMm } = layers[highest];
  if (landform.kind === 'solid') return bottomMm;
  return Math.min(heightOf(landform, x, y), bottomMm + thicknessMm);
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
