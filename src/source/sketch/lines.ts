import type { Kit } from '../../plugin.ts';
import { courseOf } from './course.ts';
import { type Form, HOW_FAULT, type HowOptions, howOptions, laid, saysHowOnce } from './how.ts';
import { alongOption, between, isBare, type PathPoint, placeOf, runsOf, valuesOf } from './path.ts';
import { type Profile, type ProfileName, profileOf, profileOption, ratioBeyond } from './profiles.ts';
import type { Relief } from './relief.ts';

type Own = 'width' | 'height' | 'depth' | 'floor';

interface LineOptions extends HowOptions {
  readonly along: readonly PathPoint<Own>[];
  readonly width: number;
  readonly profile: ProfileName;
}
type RidgeOptions = LineOptions & { readonly height: number };
type GullyOptions = LineOptions & { readonly depth: number; readonly floor: number };

const width = (kit: Kit) => kit.length({ above: 0 });

/** Options of a bank along a line. */
export const ridgeOptions = (kit: Kit) =>
  kit.z
    .strictObject({
      along: alongOption(kit, { width: width(kit), height: kit.length({ least: 0 }) }),
      width: width(kit).describe('from foot to foot; the ends are half round'),
      height: kit.length({ above: 0 }).describe('along the middle'),
      profile: profileOption(kit),
      ...howOptions(kit, 'add'),
    })
    .refine(saysHowOnce, HOW_FAULT);

/** Options of a cut along a line. */
export const gullyOptions = (kit: Kit) =>
  kit.z
    .strictObject({
      along: alongOption(kit, {
        width: width(kit),
        depth: kit.length({ least: 0 }),
        floor: kit.length({ least: 0 }),
      }),
      width: width(kit).describe('from foot to foot; the ends are half round'),
      depth: kit.length({ above: 0 }).describe('along the middle'),
      floor: kit
        .length({ least: 0 })
        .prefault(0)
        .describe('width of the bottom, all of it at full depth: a sunken path'),
      profile: profileOption(kit),
      ...howOptions(kit, 'carve'),
    })
    .refine(floorsFit, {
      error: 'The floor is wider than the gully.\nWrite a floor no wider than width.',
      path: ['floor'],
    })
    .refine(saysHowOnce, HOW_FAULT);

function floorsFit(options: Pick<GullyOptions, 'along' | 'width' | 'floor'>): boolean {
  const widths = valuesOf(options.along, 'width', options.width);
  return valuesOf(options.along, 'floor', options.floor).every((floor, i) => floor <= widths[i]);
}

/** Lay on height × profile(distance from the line / half the width). */
export const ridge = (options: RidgeOptions, levelMm: number): Relief =>
  laid(options, formOf(options, 0, options.height, valuesOf(options.along, 'height', options.height)), levelMm, false);

/**
 * Take off depth × profile(distance from the floor / width of one bank). The depth is measured from the ground as it
 * stands, so that the bottom rises and falls with it.
 */
export const gully = (options: GullyOptions, levelMm: number): Relief =>
  laid(
    options,
    formOf(options, options.floor, options.depth, valuesOf(options.along, 'depth', options.depth)),
    levelMm,
    true,
  );

function formOf(
  { along, width: widthMm, profile: name }: LineOptions,
  floorMm: number,
  heightMm: number,
  heights: Float64Array,
): Form {
  const profile = profileOf(name);
  if (!along.every(isBare)) return variedForm(along, widthMm, floorMm, heights, profile);
  const course = courseOf(Float64Array.from(along.flatMap(placeOf)), false, widthMm / 2);
  const bankMm = (widthMm - floorMm) / 2;
  return {
    boxMm: course.boxMm,
    finestMm: widthMm / 2,
    heightMm,
    row(yMm) {
      const { minXMm, maxXMm, distance } = course.row(yMm);
      const height = (xMm: number) => heightMm * profile(ratioBeyond(distance(xMm) - floorMm / 2, bankMm));
      return { minXMm, maxXMm, height, holds: (xMm) => distance(xMm) <= widthMm / 2 };
    },
  };
}

/** Width, floor and height run evenly along each run; where runs overlap, the highest counts. */
function variedForm(
  along: readonly PathPoint<Own>[],
  widthMm: number,
  floorMm: number,
  heights: Float64Array,
  profile: Profile,
): Form {
  const widths = valuesOf(along, 'width', widthMm);
  const floors = valuesOf(along, 'floor', floorMm);
  const course = runsOf(along.map(placeOf), Math.max(...widths) / 2);
  return {
    boxMm: course.boxMm,
    finestMm: Math.min(...widths) / 2,
    heightMm: Math.max(...heights),
    row(yMm) {
      const { runs, minXMm, maxXMm } = course.near(yMm);
      /** How far beyond the line, as a share of half the width there: the least of all runs. */
      const reach = (xMm: number) => {
        let least = Infinity;
        for (const run of runs) {
          const share = course.share(run, xMm, yMm);
          least = Math.min(least, (2 * course.distance(run, share, xMm, yMm)) / between(widths, run, share));
        }
        return least;
      };
      const height = (xMm: number) => {
        let most = 0;
        for (const run of runs) {
          const share = course.share(run, xMm, yMm);
          const floor = between(floors, run, share);
          const bank = (between(widths, run, share) - floor) / 2;
          const ratio = ratioBeyond(course.distance(run, share, xMm, yMm) - floor / 2, bank);
          most = Math.max(most, between(heights, run, share) * profile(ratio));
        }
        return most;
      };
      return { minXMm, maxXMm, height, holds: (xMm) => reach(xMm) <= 1 };
    },
  };
}
