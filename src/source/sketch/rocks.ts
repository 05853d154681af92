import { turn } from '../../geometry/exact-math.ts';
import { type Random, stream } from '../../geometry/random.ts';
import { boxOf, type Point } from '../../geometry/ring.ts';
import type { Kit } from '../../plugin.ts';
import { type Form, HOW_FAULT, type HowOptions, howOptions, laid, saysHowOnce } from './how.ts';
import { hasOneRadius, ONE_RADIUS, type OvalOptions, ovalOf, ovalOptions } from './oval.ts';
import type { Relief } from './relief.ts';
import { seedOption } from './seeds.ts';

const MOST_ROCKS = 2000;
/** Faces round a faceted rock, beside its top. */
const FACES = 7;

/** Options of one rock, or of many strewn in an oval. */
export const rockOptions = (kit: Kit) =>
  kit.z
    .strictObject({
      at: kit.point().optional().describe('the middle of one rock'),
      within: kit.z
        .strictObject(ovalOptions(kit))
        .refine(hasOneRadius, ONE_RADIUS)
        .optional()
        .describe('an oval in which many have their middles'),
      count: kit.z.int().min(1).max(MOST_ROCKS).default(1).describe('how many, within the oval'),
      size: kit.size().describe('how far across the smallest and the largest are'),
      tall: kit.z.number().min(0.05).max(3).default(0.5).describe('height as a share of how far across'),
      shape: kit.z.enum(['rounded', 'faceted']).default('rounded').describe('rounded: boulders; faceted: broken stone'),
      seed: seedOption(kit),
      ...howOptions(kit, 'add'),
    })
    .refine(
      ({ at, within }) => (at === undefined) !== (within === undefined),
      'Rocks have at or within.\nWrite at for one rock, within for many.',
    )
    .refine(({ at, count }) => at === undefined || count === 1, {
      error: 'Several rocks in one place are one.\nStrew them with within.',
      path: ['count'],
    })
    .refine(({ size: [least, most] }) => least <= most, {
      error: 'The smallest rock is larger than the largest.\nWrite [smallest, largest].',
      path: ['size'],
    })
    .refine(saysHowOnce, HOW_FAULT);

interface RockOptions extends HowOptions {
  readonly at?: Point | undefined;
  readonly within?: OvalOptions | undefined;
  readonly count: number;
  readonly size: readonly [number, number];
  readonly tall: number;
  readonly shape: 'rounded' | 'faceted';
}

/**
 * Lay on lumps: half ellipsoids a little longer than wide, or stones with seven sides that lean at odd angles and a slanting
 * top. Where they overlap, the highest counts. A rock is no further across than its size and no higher than tall says.
 */
export function rocks(options: RockOptions, seed: number, levelMm: number): Relief {
  const random = stream(seed, 'rocks');
  const stones = Array.from({ length: options.count }, () => stoneOf(options, random));
  return laid(options, together(stones), levelMm, false);
}

function stoneOf({ at, within, size: [least, most], tall, shape }: RockOptions, random: Random): Form {
  const place = at ?? placeIn(within as OvalOptions, random);
  // More small ones than large ones: even in the logarithm would be more still, and leave hardly a large one.
  const share = random();
  const across = least + (most - least) * share * share;
  const turnDeg = 360 * random();
  if (shape === 'faceted') return faceted(place, across / 2, tall * across, random);
  const radii = [across / 2, (across / 2) * (0.7 + 0.3 * random())] as const;
  return rounded({ at: place, radii, turn: turnDeg }, tall * across * (0.8 + 0.2 * random()));
}

/** Even over the oval's area. */
function placeIn(
  { at: [x, y], radius = 0, radii: [a, b] = [radius, radius], turn: turnDeg }: OvalOptions,
  random: Random,
) {
  const out = Math.sqrt(random());
  const round = turn(360 * random());
  const { cos, sin } = turn(turnDeg);
  const [u, v] = [a * out * round.cos, b * out * round.sin];
  return [x + u * cos - v * sin, y + u * sin + v * cos] as const;
}

function rounded(options: OvalOptions, heightMm: number): Form {
  const oval = ovalOf(options);
  return {
    boxMm: oval.boxMm,
    finestMm: oval.leastRadiusMm,
    heightMm,
    row(yMm) {
      const { minXMm, maxXMm, ratio } = oval.row(yMm);
      const height = (xMm: number) => heightMm * Math.sqrt(Math.max(0, 1 - ratio(xMm) * ratio(xMm)));
      return { minXMm, maxXMm, height, holds: (xMm) => ratio(xMm) <= 1 };
    },
  };
}

/** The ground under planes: each side stands on the plan at most a radius out, and leans in over its own share of that. */
function faceted([atX, atY]: Point, radiusMm: number, heightMm: number, random: Random): Form {
  const planes = new Float64Array(3 * (FACES + 1));
  for (let i = 0; i < FACES; i++) {
    const { cos, sin } = turn((360 * (i + 0.8 * random())) / FACES);
    const outMm = radiusMm * (0.6 + 0.15 * random());
    const rise = heightMm / (outMm * (0.35 + 0.5 * random()));
    planes.set([-cos * rise, -sin * rise, outMm * rise], 3 * i);
  }
  const lean = turn(360 * random());
  const slope = (0.3 * heightMm) / radiusMm;
  planes.set([lean.cos * slope, lean.sin * slope, 0.75 * heightMm], 3 * FACES);
  const heightAt = (dx: number, dy: number) => {
    let least = heightMm;
    for (let i = 0; i < planes.length; i += 3)
      least = Math.min(least, planes[i] * dx + planes[i + 1] * dy + planes[i + 2]);
    return dx * dx + dy * dy > radiusMm * radiusMm ? 0 : Math.max(0, least);
  };
  return {
    boxMm: [atX - radiusMm, atY - radiusMm, atX + radiusMm, atY + radiusMm],
    finestMm: radiusMm / 2,
    heightMm,
    row(yMm) {
      const height = (xMm: number) => heightAt(xMm - atX, yMm - atY);
      return { minXMm: atX - radiusMm, maxXMm: atX + radiusMm, height, holds: (xMm) => height(xMm) > 0 };
    },
  };
}

function together(stones: readonly Form[]): Form {
  const corners = boxOf([Float64Array.from(stones.flatMap(({ boxMm }) => [...boxMm]))]);
  return {
    boxMm: corners,
    finestMm: Math.min(...stones.map(({ finestMm }) => finestMm)),
    heightMm: Math.max(...stones.map(({ heightMm }) => heightMm)),
    row(yMm) {
      const near = stones.filter(({ boxMm }) => boxMm[1] <= yMm && boxMm[3] >= yMm).map((stone) => stone.row(yMm));
      const over = (xMm: number) => near.filter(({ minXMm, maxXMm }) => minXMm <= xMm && maxXMm >= xMm);
      return {
        minXMm: Math.min(...near.map(({ minXMm }) => minXMm)),
        maxXMm: Math.max(...near.map(({ maxXMm }) => maxXMm)),
        height: (xMm) => over(xMm).reduce((most, stone) => Math.max(most, stone.height(xMm)), 0),
        holds: (xMm) => over(xMm).some((stone) => stone.holds(xMm)),
      };
    },
  };
}
