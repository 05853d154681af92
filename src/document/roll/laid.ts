import { marksOf } from '../../drawing/page.ts';
import { convexHull, smallestRectangle } from '../../geometry/hull.ts';
import { boxOf } from '../../geometry/ring.ts';
import { type OnStrip, type Profile, packStrips, profileOf } from '../../geometry/strip-packing.ts';
import { type Pattern, strokesOf } from '../pages/pattern.ts';

/** A pattern as it lies on a page of the roll: its turn, and where its turned box starts. */
export interface OnRoll {
  readonly pattern: Pattern;
  readonly turnDeg: number;
  /** Page coordinates of the corner of its turned box, and the corner itself, in the turned drawing's. */
  readonly atMm: readonly [number, number];
  readonly fromMm: readonly [number, number];
  readonly sizeMm: readonly [number, number];
}

export interface Laid {
  /** What lies on each page. */
  readonly pages: readonly (readonly OnRoll[])[];
  /** Patterns wider than the roll whichever way they lie. */
  readonly tooWide: readonly TooWide[];
}

/** A pattern, and the way in which it takes the least width of the roll. */
export interface TooWide {
  readonly pattern: Pattern;
  readonly way: Way;
}

/** How fine outlines are read when they are laid, and half of what lies between them. */
const COLUMN_MM = 5;
const AIR_MM = 3;

/** One way for a pattern to lie. */
interface Way {
  readonly turnDeg: number;
  readonly fromMm: readonly [number, number];
  readonly sizeMm: readonly [number, number];
  readonly profile: Profile;
}

/** Lay patterns on pages of a roll so that little paper is used: each as it is, a quarter turned, or turned to lie narrowest. */
export function laidOnRoll(patterns: readonly Pattern[], wideMm: number, longMm: number): Laid {
  const all = patterns.map(waysOf);
  const ways = all.map((each) =>
    each.filter(({ sizeMm: [wide, long] }) => wide + 2 * AIR_MM <= wideMm && long + 2 * AIR_MM <= longMm),
  );
  const places = packStrips(
    ways.map((each) => each.map(({ profile }) => profile)),
    Math.floor(wideMm / COLUMN_MM),
    longMm,
  );
  const pages: OnRoll[][] = [];
  const tooWide: TooWide[] = [];
  for (const [i, pattern] of patterns.entries()) {
    const place = places[i];
    if (!place) {
      tooWide.push({ pattern, way: all[i].reduce((best, way) => (way.sizeMm[0] < best.sizeMm[0] ? way : best)) });
      continue;
    }
    while (pages.length <= place.strip) pages.push([]);
    pages[place.strip].push(onRoll(pattern, ways[i][place.way], place));
  }
  return { pages, tooWide };
}

const onRoll = (pattern: Pattern, { turnDeg, fromMm, sizeMm }: Way, { column, along }: OnStrip): OnRoll => ({
  pattern,
  turnDeg,
  fromMm,
  sizeMm,
  atMm: [column * COLUMN_MM + AIR_MM, along + AIR_MM],
});

/** As it is, a quarter turned, and either way along the smallest rectangle round it. */
function waysOf({ groups }: Pattern): Way[] {
  const marks = marksOf(groups);
  const asItIs = strokesOf(marks);
  const { directionDeg } = smallestRectangle(convexHull([asItIs]));
  // To the nearest tenth: a quarter turn stays one.
  const along = Math.round(directionDeg * 10) / 10;
  const turns = new Set([0, 90, along % 180, (along + 90) % 180]);
  return [...turns].map((turnDeg) => wayOf(turnDeg === 0 ? asItIs : strokesOf(marks, turnDeg), turnDeg));
}

function wayOf(strokes: Float64Array, turnDeg: number): Way {
  const [left, top, right, bottom] = boxOf([strokes]);
  const profile = profileOf(strokes, COLUMN_MM, AIR_MM);
  return { turnDeg, fromMm: [left, top], sizeMm: [right - left, bottom - top], profile };
}
