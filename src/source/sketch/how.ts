import type { Box } from '../../geometry/ring.ts';
import type { Kit } from '../../plugin.ts';
import type { Relief } from './relief.ts';

/**
 * How a feature meets the ground that stands before it. z is that ground, p ≥ 0 the feature's own height or depth there (of
 * patterns like roughness it may be below 0), and F its own surface: foot + p, or foot − p for a hollow.
 *
 * - `add`: z + p. Laid on, it follows the ground.
 * - `carve`: z − p. Taken off, it follows the ground.
 * - `blend`: the higher of z and F (of a hollow the lower), their meeting line rounded: where they are d < k apart,
 *   (k − d)² / 4k more (or less), which is level with neither and kinks nowhere. k is the fillet, less towards the outline
 *   in the measure of p, so that nothing happens there. With foot and fillet 0 and nothing before it, the same as add.
 * - `cap`: the lower of z and F. The ground is nowhere above F.
 *
 * Outside the feature's outline nothing changes. Where z stands below the foot of what is blended, or above that of what caps,
 * the outline is an upright edge: say another foot.
 */
export const HOWS = ['add', 'carve', 'blend', 'cap'] as const;
export type How = (typeof HOWS)[number];

export interface HowOptions {
  readonly how: How;
  readonly foot?: number | undefined;
  readonly fillet?: number | undefined;
}

/** What every feature with a height or depth of its own says of how it meets the ground. */
export const howOptions = (kit: Kit, otherwise: How) => ({
  how: kit.z
    .enum(HOWS)
    .default(otherwise)
    .describe(
      'add: laid on; carve: taken off; blend: the higher of it and the ground, rounded into one another; cap: the ground is nowhere above it',
    ),
  foot: kit.length().optional().describe("for blend and cap: height above 0 that it stands on; left out, the sketch's"),
  fillet: kit
    .length({ least: 0 })
    .optional()
    .describe('for blend: height over which the two are rounded into one another; left out, half its own'),
});

/** A foot without blend or cap, or a fillet without blend, would do nothing. */
export const saysHowOnce = ({ how, foot, fillet }: HowOptions): boolean =>
  (foot === undefined || how === 'blend' || how === 'cap') && (fillet === undefined || how === 'blend');
export const HOW_FAULT = {
  error: 'Only blend and cap have a foot, and only blend a fillet.\nSay how: blend, or take them out.',
  path: ['how'],
};

/** A feature by its own height or depth, wherever it is laid. */
export interface Form {
  readonly boxMm: Box;
  readonly finestMm: number;
  /** The most it has. */
  readonly heightMm: number;
  row(yMm: number): {
    readonly minXMm: number;
    readonly maxXMm: number;
    /** 0 outside its outline. */
    height(xMm: number): number;
    /** Whether the outline holds the point. */
    holds(xMm: number): boolean;
  };
}

/** Lay a form on, by its options; `hollow` forms reach down from their foot. */
export function laid({ how, foot, fillet }: HowOptions, form: Form, levelMm: number, hollow: boolean): Relief {
  const footMm = foot ?? levelMm;
  const filletMm = fillet ?? form.heightMm / 2;
  const down = hollow ? -1 : 1;
  return {
    boxMm: form.boxMm,
    finestMm: form.finestMm,
    row(yMm) {
      const { minXMm, maxXMm, height, holds } = form.row(yMm);
      const grounds: Readonly<Record<How, (xMm: number, beforeMm: number) => number>> = {
        add: (xMm, beforeMm) => beforeMm + height(xMm),
        carve: (xMm, beforeMm) => beforeMm - height(xMm),
        cap: (xMm, beforeMm) => (holds(xMm) ? Math.min(beforeMm, footMm + down * height(xMm)) : beforeMm),
        blend(xMm, beforeMm) {
          if (!holds(xMm)) return beforeMm;
          const own = height(xMm);
          return down * smoothHighest(down * beforeMm, down * footMm + own, (filletMm * Math.abs(own)) / form.heightMm);
        },
      };
      return { minXMm, maxXMm, ground: grounds[how] };
    },
  };
}

/** The higher of two, and between those less than k apart up to k / 4 more: level and slope run on without a jump. */
function smoothHighest(a: number, b: number, k: number): number {
  const rest = k - Math.abs(a - b);
  return Math.max(a, b) + (rest > 0 ? (rest * rest) / (4 * k) : 0);
}
