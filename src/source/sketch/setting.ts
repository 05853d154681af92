import { riseOf, slopeOption } from '../../model/slope.ts';
import type { Kit } from '../../plugin.ts';
import { type ProfileName, profileOf, profileOption, ratioBeyond } from './profiles.ts';

/** What shelves and steps say of their edge, and of the ground that they meet. */
export interface SettingOptions {
  readonly ramp: number;
  readonly slope?: number | undefined;
  readonly profile: ProfileName;
  readonly how: 'set' | 'add' | 'carve';
}

export const settingOptions = (kit: Kit) => ({
  ramp: kit
    .length({ least: 0 })
    .prefault(0)
    .describe('width outside the outline over which it runs into the ground, by its profile'),
  slope: slopeOption()
    .optional()
    .describe('instead of ramp: it runs into the ground at this slope, in degrees or as 1 in 3, as far as that takes'),
  profile: profileOption(kit),
  how: kit.z
    .enum(['set', 'add', 'carve'])
    .default('set')
    .describe('set: the ground is brought to it, up or down; add: only up; carve: only down'),
});

/** An edge is a ramp so wide, or one so steep. */
export const saysRampOnce = ({ ramp, slope }: Pick<SettingOptions, 'ramp' | 'slope'>): boolean =>
  ramp === 0 || slope === undefined;
export const RAMP_FAULT = { error: 'The ramp is said in two ways.\nSay ramp, its width, or slope.', path: ['slope'] };

/** How far outside the outline the ground can change, when ground before it differs from its levels by so much at most. */
export const reachOf = ({ ramp: rampMm, slope }: SettingOptions, differenceMm: number): number =>
  slope === undefined ? rampMm : differenceMm / riseOf(slope);

/**
 * The ground after a level is set, from the ground before it and the distance beyond the outline (0 inside). Across a ramp it
 * moves towards the level by profile(distance / ramp); with a slope it is kept between level − distance × slope and level +
 * distance × slope, so that it runs out at the slope where it meets the ground, and not before. `add` takes the higher of
 * that and the ground, `carve` the lower.
 */
export function setterOf({ ramp: rampMm, slope, profile: name, how }: SettingOptions) {
  const profile = profileOf(name);
  const rise = slope === undefined ? 0 : riseOf(slope);
  const set = (levelMm: number, beyondMm: number, beforeMm: number): number => {
    if (slope !== undefined) {
      const awayMm = beyondMm * rise;
      return Math.max(Math.min(beforeMm, levelMm + awayMm), levelMm - awayMm);
    }
    const share = profile(ratioBeyond(beyondMm, rampMm));
    return share === 1 ? levelMm : beforeMm + (levelMm - beforeMm) * share;
  };
  return (levelMm: number, beyondMm: number, beforeMm: number): number => {
    const afterMm = set(levelMm, beyondMm, beforeMm);
    if (how === 'set') return afterMm;
    return how === 'add' ? Math.max(beforeMm, afterMm) : Math.min(beforeMm, afterMm);
  };
}
