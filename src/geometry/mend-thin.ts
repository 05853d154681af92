import { intersect, offset, regionsFromRings, subtract, unite } from './clip.ts';
import { turn } from './exact-math.ts';
import { ringInBox } from './integral.ts';
import { isInRegion, isInside, type Region, type Ring, ringsOf } from './ring.ts';
import type { ThinPlace } from './thin-places.ts';

/** Offsets fall short by up to 2.25 × sag: what was shrunk and grown again is grown by so much more, or walls would keep a skin. */
const SAG = 0.02;
const SKIN = 0.06;
/** Features are thickened in so many classes of width, so that none grows by more than a quarter of the least over it. */
const CLASSES = 4;
/** Corners of a disc laid into a throat. */
const CORNERS = 24;

/** Take out what is thin at some places: what is left is as it was. A throat without length stays. */
export const withoutThin = (regions: readonly Region[], places: readonly ThinPlace[], least: number): Region[] =>
  subtract(regions, unite(places.flatMap((place) => featureAt(regions, place, least))));

/**
 * Make what is thin at some places about `least` wide, up to a quarter more; nothing is taken away. What is added keeps
 * within `room`, unless that is null.
 */
export function thickened(
  regions: readonly Region[],
  places: readonly ThinPlace[],
  least: number,
  room: readonly Region[] | null,
): Region[] {
  const added: Region[] = [];
  for (const place of places) {
    let feature: Region[] = [];
    for (let k = 1; k <= CLASSES; k++) {
      feature = featureAt(regions, place, (least * k) / CLASSES);
      added.push(...offset(feature, (least - (least * (k - 1)) / CLASSES) / 2, { sag: SAG }));
    }
    // In throats nothing vanishes.
    for (let i = 0; i < place.widths.length; i += 3) {
      const [x, y] = [place.widths[i], place.widths[i + 1]];
      if (!isInside(x, y, feature)) added.push([disc(x, y, least / 2)]);
    }
  }
  const all = unite(added);
  return unite([...regions, ...(room ? intersect(all, room) : all)]);
}

/** What about a place vanishes when it is shrunk by half a width and grown again. */
function featureAt(regions: readonly Region[], { widths }: ThinPlace, width: number): Region[] {
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  let isMet = false;
  for (let i = 0; i < widths.length; i += 3) {
    isMet ||= widths[i + 2] < width;
    minX = Math.min(minX, widths[i]);
    minY = Math.min(minY, widths[i + 1]);
    maxX = Math.max(maxX, widths[i]);
    maxY = Math.max(maxY, widths[i + 1]);
  }
  if (!isMet) return [];
  // Far enough about it that the window's own corners are no part of it.
  const far = 2 * width;
  const near = ringsOf(regions)
    .map((ring) => ringInBox(ring, minX - far, minY - far, maxX + far, maxY + far))
    .filter((ring) => ring.length >= 6);
  const local = regionsFromRings(near);
  const open = offset(offset(local, -width / 2, { sag: SAG }), width / 2 + SKIN, { sag: SAG });
  return subtract(local, open).filter((region) => {
    for (let i = 0; i < widths.length; i += 3) {
      if (widths[i + 2] < width && isInRegion(widths[i], widths[i + 1], region)) return true;
    }
    return false;
  });
}

/** A disc that holds the whole circle. */
function disc(x: number, y: number, radius: number): Ring {
  const outer = radius / turn(180 / CORNERS).cos;
  const ring = new Float64Array(2 * CORNERS);
  for (let i = 0; i < CORNERS; i++) {
    const { cos, sin } = turn((360 * i) / CORNERS);
    ring[2 * i] = x + outer * cos;
    ring[2 * i + 1] = y + outer * sin;
  }
  return ring;
}
