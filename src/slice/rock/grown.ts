import { bands } from '../../geometry/bands.ts';
import { intersect, offset, unite } from '../../geometry/clip.ts';
import type { Region } from '../../geometry/ring.ts';
import { type Surface, sections } from '../../geometry/sections.ts';
import { share } from '../../geometry/share.ts';
import { simplified } from '../../geometry/simplify.ts';
import { SIMPLIFY_MM } from '../../geometry/tolerance.ts';
import type { Finish } from '../../model/rock.ts';

/**
 * Heights at which a ball is taken as a stack of discs, as shares of its radius. With these no slope's parallel surface is missed by more than
 * 3 % of the radius: 0.6 mm of 20 (the envelope of the discs against the ball, worked out for slopes from 0 to 90°).
 */
const AT = [0, 0.25, 0.5, 0.71, 0.87, 0.97];
/** Sag of rounded offsets: a wire is held no truer. */
const SAG_MM = 0.1;

const disc = (radius: number, share: number): number => radius * Math.sqrt(1 - share * share);

/**
 * What is cut of each layer before it is glued: all that the form covers anywhere in the layer's thickness when it is grown by `growMm` on
 * all sides (a Minkowski sum with a ball, level by level: Serra 1982, Image Analysis and Mathematical Morphology).
 */
export function* grown(surface: Surface, levels: Float64Array, growMm: number): Generator<number, Region[][]> {
  const layers = levels.length - 1;
  const covered = yield* share(bands(surface, levels, 'covered'), 0, 0.3);
  const apart = growMm > 0 ? AT.slice(1) : [];
  const wanted = apart.flatMap((part) =>
    Array.from({ length: layers }, (_, k) => [levels[k] - part * growMm, levels[k + 1] + part * growMm]).flat(),
  );
  const cut = yield* share(cutAt(surface, wanted), 0.3, 0.6);
  const outlines: Region[][] = [];
  for (let k = 0; k < layers; k++) {
    const parts = [offset(unite([covered[k]]), growMm, { sag: SAG_MM })];
    for (const part of apart) {
      for (const at of [levels[k] - part * growMm, levels[k + 1] + part * growMm]) {
        parts.push(offset(cut.get(at) ?? [], disc(growMm, part), { sag: SAG_MM }));
      }
    }
    outlines.push(fewer(unite(parts.flat())));
    yield 0.6 + (0.4 * (k + 1)) / layers;
  }
  return outlines;
}

/** The carved surface at each level: the form less what the coat takes, square to it (an erosion with a ball). */
export function* carvedAt(surface: Surface, levels: Float64Array, coatMm: number): Generator<number, Region[][]> {
  const steps = coatMm > 0 ? [...AT.slice(1).map((part) => -part), ...AT] : [0];
  const wanted = Array.from(levels, (level) => steps.map((part) => level + part * coatMm));
  const cut = yield* share(cutAt(surface, wanted.flat()), 0, 0.6);
  const lines: Region[][] = [];
  for (const [k, heights] of wanted.entries()) {
    let within: Region[] | null = null;
    for (const [i, at] of heights.entries()) {
      const inside = offset(cut.get(at) ?? [], -disc(coatMm, Math.abs(steps[i])), { sag: SAG_MM });
      within = within === null ? inside : intersect(within, inside);
      if (within.length === 0) break;
    }
    lines.push(within ?? []);
    yield 0.6 + (0.4 * (k + 1)) / levels.length;
  }
  return lines;
}

/** The carved surface at the two faces of each layer. */
export const finishes = (lines: readonly Region[][]): Finish[] =>
  lines.slice(1).map((top, k) => ({ top, underside: lines[k] }));

function* cutAt(surface: Surface, heights: readonly number[]): Generator<number, Map<number, Region[]>> {
  const rising = Float64Array.from(new Set(heights)).sort();
  const rings = yield* sections(surface, rising, 'above');
  return new Map(Array.from(rising, (at, k) => [at, unite([rings[k]])]));
}

/** Outlines with fewer points, nowhere inside what they were. */
function fewer(regions: readonly Region[]): Region[] {
  const out = offset(regions, SIMPLIFY_MM / 2, { sag: SAG_MM });
  return unite(out.map((region) => region.map((ring) => simplified(ring, SIMPLIFY_MM / 2))));
}
