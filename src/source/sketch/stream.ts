import type { Finding } from '../../findings.ts';
import { length } from '../../geometry/exact-math.ts';
import { riseOf, slopeOption } from '../../model/slope.ts';
import type { Kit } from '../../plugin.ts';
import { numberText } from '../../units.ts';
import { alongOption, between, type PathPoint, placeOf, runsOf, valuesOf } from './path.ts';
import type { GroundBefore, Relief } from './relief.ts';

/** Options of a watercourse. */
export const streamOptions = (kit: Kit) =>
  kit.z.strictObject({
    along: alongOption(kit, { width: kit.length({ above: 0 }), depth: kit.length({ least: 0 }) }),
    width: kit.length({ above: 0 }).describe('of the bed'),
    depth: kit.length({ least: 0 }).describe('of the bed below the ground along its middle, at least'),
    banks: slopeOption()
      .prefault('1 in 2')
      .describe('slope of both banks, in degrees or as 1 in 2; they end where they meet the ground'),
  });

interface StreamOptions {
  readonly along: readonly PathPoint<'width' | 'depth'>[];
  readonly width: number;
  readonly depth: number;
  readonly banks: number;
}

/** Ground that rises along the stream by more than this makes a cutting that is worth a word. */
const CUTTING = 2;

/**
 * Cut a bed that never rises from the first point to the last. At each place it lies the depth below the ground before it, or
 * as low as it already was upstream if that is lower: bed(s) = min over s' ≤ s of (ground(s') − depth(s')), read off every half
 * post and straight between. So it is level through a rise in the ground, as water is behind a sill, and tells of the cutting
 * that takes. The bed is level across, by the nearest point of its middle; outside it the ground is nowhere above
 * bed + distance from the bed × slope of the banks. Nothing is filled: where the ground lies lower, it stays.
 */
export function stream({ along, width, depth, banks }: StreamOptions, ground: GroundBefore, path: string): Relief {
  const places = along.map(placeOf);
  const widths = valuesOf(along, 'width', width);
  const beds = bedsOf(along, valuesOf(along, 'depth', depth), ground);
  const rise = riseOf(banks);
  const lastMm = beds.levels[beds.levels.length - 1];
  const course = runsOf(places, Math.max(...widths) / 2 + Math.max(0, ground.rangeMm().highMm - lastMm) / rise);
  return {
    boxMm: course.boxMm,
    finestMm: Math.min(...widths),
    told: beds.deepest > CUTTING * Math.max(depth, 1) ? [cutting(beds.deepest, { path, atMm: beds.deepestAt })] : [],
    row(yMm) {
      const { runs, minXMm, maxXMm } = course.near(yMm);
      const groundAt = (xMm: number, beforeMm: number) => {
        let lowest = Infinity;
        let nearest = Infinity;
        let bed = Infinity;
        for (const run of runs) {
          const share = course.share(run, xMm, yMm);
          const distance = course.distance(run, share, xMm, yMm);
          const beyond = distance - between(widths, run, share) / 2;
          const level = beds.at(run, share);
          lowest = Math.min(lowest, level + rise * Math.max(0, beyond));
          if (beyond > 0 || distance >= nearest) continue;
          nearest = distance;
          bed = level;
        }
        return Math.min(beforeMm, bed === Infinity ? lowest : bed);
      };
      return { minXMm, maxXMm, ground: groundAt };
    },
  };
}

/** The bed's levels along the middle, every half post, and where it lies deepest below the ground. */
function bedsOf(along: StreamOptions['along'], depths: Float64Array, ground: GroundBefore) {
  const places = along.map(placeOf);
  const starts: number[] = [];
  const levels: number[] = [];
  let bed = Infinity;
  let deepest = 0;
  let deepestAt = places[0];
  for (let run = 0; run + 1 < places.length; run++) {
    const [[ax, ay], [bx, by]] = [places[run], places[run + 1]];
    const parts = Math.max(1, Math.ceil((2 * length(bx - ax, by - ay)) / ground.stepMm));
    starts.push(levels.length);
    for (let i = 0; i <= parts; i++) {
      const share = i / parts;
      const at = [ax + share * (bx - ax), ay + share * (by - ay)] as const;
      const groundMm = ground.heightAt(at[0], at[1]);
      bed = Math.min(bed, groundMm - between(depths, run, share));
      levels.push(bed);
      if (groundMm - bed <= deepest) continue;
      deepest = groundMm - bed;
      deepestAt = at;
    }
  }
  starts.push(levels.length);
  const at = (run: number, share: number): number => {
    const parts = starts[run + 1] - starts[run] - 1;
    const part = Math.min(parts - 1, Math.floor(share * parts));
    const from = starts[run] + part;
    return levels[from] + (share * parts - part) * (levels[from + 1] - levels[from]);
  };
  return { levels, at, deepest, deepestAt };
}

const cutting = (deepMm: number, where: Finding['where']): Finding => ({
  level: 'watch',
  code: 'source/stream-cutting',
  message: `The ground rises along the stream: so as not to run uphill its bed is cut ${numberText(deepMm, 1)} mm deep here.`,
  fix: 'Lead it round the rise, list its points from the spring to the mouth, or leave it if a cutting is meant.',
  where,
});
