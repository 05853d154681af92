import type { Point } from '../../geometry/ring.ts';
import type { Kit } from '../../plugin.ts';
import { courseOf } from './course.ts';
import { type ProfileName, profileOf, profileOption, ratioBeyond } from './profiles.ts';
import type { Relief } from './relief.ts';

interface LineOptions {
  readonly along: readonly Point[];
  readonly width: number;
  readonly profile: ProfileName;
}

const lineOptions = (kit: Kit) => ({
  along: kit.z.array(kit.point()).min(2).describe('the points its middle runs through, in straight runs'),
  width: kit.length({ above: 0 }).describe('from foot to foot; the ends are half round'),
});

/** Options of a bank along a line. */
export const ridgeOptions = (kit: Kit) =>
  kit.z.strictObject({
    ...lineOptions(kit),
    height: kit.length({ above: 0 }).describe('added along the middle'),
    profile: profileOption(kit),
  });

/** Options of a cut along a line. */
export const gullyOptions = (kit: Kit) =>
  kit.z
    .strictObject({
      ...lineOptions(kit),
      depth: kit.length({ above: 0 }).describe('taken off along the middle'),
      floor: kit
        .length({ least: 0 })
        .prefault(0)
        .describe('width of the bottom, all of it at full depth: a sunken path'),
      profile: profileOption(kit),
    })
    .refine(({ floor, width }) => floor <= width, {
      error: 'The floor is wider than the gully.\nWrite a floor no wider than width.',
      path: ['floor'],
    });

/** Add height × profile(distance from the line / half the width). */
export const ridge = (options: LineOptions & { readonly height: number }): Relief => rise(options, 0, options.height);

/**
 * Take off depth × profile(distance from the floor / width of one bank). The depth is measured from the ground as it
 * stands, so that the bottom rises and falls with it.
 */
export const gully = (options: LineOptions & { readonly depth: number; readonly floor: number }): Relief =>
  rise(options, options.floor, -options.depth);

function rise({ along, width, profile: name }: LineOptions, floorMm: number, heightMm: number): Relief {
  const profile = profileOf(name);
  const course = courseOf(new Float64Array(along.flat()), false, width / 2);
  const bankMm = (width - floorMm) / 2;
  return {
    boxMm: course.boxMm,
    finestMm: width / 2,
    row(yMm) {
      const { minXMm, maxXMm, distance } = course.row(yMm);
      const ground = (xMm: number, beforeMm: number) =>
        beforeMm + heightMm * profile(ratioBeyond(distance(xMm) - floorMm / 2, bankMm));
      return { minXMm, maxXMm, ground };
    },
  };
}
