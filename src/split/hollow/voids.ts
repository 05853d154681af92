import { intersect, offset, subtract, unite } from '../../geometry/clip.ts';
import type { Region } from '../../geometry/ring.ts';
import { supportOf } from '../../geometry/support.ts';
import { SIMPLIFY_MM } from '../../geometry/tolerance.ts';
import type { Layer } from '../../model/layer.ts';
import type { Hollow, Laid } from '../pieces/courses.ts';
import { opened, SAG_MM, SHORT_MM, simple } from '../pieces/offsets.ts';
import { Patches } from '../pieces/patches.ts';
import { type Props, propsFor } from '../pieces/props.ts';

/** A piece rests on at least this share of its area (our choice: a lap of 50 mm round a board of 2.4 × 1.2 m is an eighth). */
const LEAST_SHARE = 0.1;
/** A piece's middle of mass lies over what it rests on by at least this. */
const STEADY_MM = 5;
/** What is left out of a layer is laid under its pieces in patches of this size: under a piece lie few. */
const PATCH_MM = 500;

/** What may be left out of a layer, millimetres, by the layer that lies on it. */
export interface Sizes {
  lapMm(above: Layer): number;
  propsFor(above: Layer): Props;
  /** A void is nowhere narrower. */
  readonly leastVoidMm: number;
  /** No void lies beneath what is seen of a layer where that is so wide; Infinity lets voids lie anywhere. */
  readonly flatMm: number;
  /** No void lies in here. */
  readonly solid: readonly Region[];
}

/**
 * Voids from the top down. What a layer above asked for is asked of all beneath it: foam under a flat that somebody may step
 * on, and under a prop, goes down to the floor.
 */
export const hollowing = (sizes: Sizes): Hollow => {
  // However the layers are divided.
  const flatsOn = new Map<Layer, Region[]>();
  return (above, below) => {
    const lapMm = sizes.lapMm(above.layer);
    const flats =
      flatsOn.get(above.layer) ?? offset(flatsOf(above.layer, above.over?.layer, sizes.flatMm), lapMm, { sag: SAG_MM });
    flatsOn.set(above.layer, flats);
    const kept = unite([...(above.kept ?? sizes.solid), ...flats]);
    const first = unpropped(above, below, lapMm, sizes.leastVoidMm, kept);
    if (first.length === 0) return { voids: [], kept };
    const contact = intersect(subtract(below.regions, first), above.foam);
    const props = propsFor(first, above.foam, contact, sizes.propsFor(above.layer));
    const propped = props.length > 0 ? opened(subtract(first, unite(props)), sizes.leastVoidMm) : first;
    return { voids: steady(propped, above, below, sizes.leastVoidMm), kept: unite([...kept, ...props]) };
  };
};

/** Where what is seen of a layer is so wide that somebody may step on it. */
function flatsOf({ regions }: Layer, next: Layer | undefined, flatMm: number): Region[] {
  if (flatMm === Infinity) return [];
  return opened(next ? subtract(regions, next.regions) : regions, flatMm);
}

/**
 * What is left out of a layer under one that has been divided, before it is propped.
 *
 * Foam stays where it is seen, for a lap inside the next layer's outline, and for a lap along the next layer's seams, so that
 * each of its pieces rests on its outer edge and on a strip under its joints; next to the next layer's own voids that strip
 * ends, or voids could only shrink on the way down. Webs narrower than the lap are left out too.
 */
function unpropped(above: Laid, below: Layer, lapMm: number, leastVoidMm: number, kept: readonly Region[]): Region[] {
  const keptMm = lapMm + SHORT_MM + SIMPLIFY_MM;
  const inside = offset(simple(intersect(above.layer.regions, below.regions)), -keptMm, { sag: SAG_MM });
  const unseamed = offset(simple(above.pieces), -keptMm, { sag: SAG_MM });
  const widened = offset(above.voids, keptMm + SHORT_MM + SIMPLIFY_MM, { sag: SAG_MM });
  const free = withoutWebs(intersect(inside, unite([...unseamed, ...widened])), lapMm);
  return opened(subtract(intersect(inside, free), kept), leastVoidMm);
}

/** Voids, less what lies under a piece that would tip off what is left, or rest on too little of it. */
function steady(voids: readonly Region[], above: Laid, below: Layer, leastVoidMm: number): readonly Region[] {
  const without = new Patches([...voids, ...subtract(above.foam, below.regions)], PATCH_MM);
  const falling = above.pieces.filter((piece) => {
    const here = without.within(piece);
    if (here.length === 0) return false;
    const { share, inside } = supportOf(piece, subtract([piece], unite(here)));
    return inside < STEADY_MM || share < LEAST_SHARE;
  });
  return falling.length === 0 ? voids : opened(subtract(voids, unite(falling)), leastVoidMm);
}

/** Regions that may be left out, with the foam between them where it would be narrower than so much. */
function withoutWebs(regions: readonly Region[], widthMm: number): Region[] {
  const grown = offset(simple(regions), widthMm / 2, { sag: SAG_MM });
  return unite([...regions, ...offset(grown, -widthMm / 2 - SHORT_MM, { sag: SAG_MM })]);
}
