import { intersect, offset, regionsFromRings, subtract, unite } from '../../geometry/clip.ts';
import { areaOf, type Box, boxOf, type Region, type Ring, rectangle, ringsOf } from '../../geometry/ring.ts';
import type { Offcut, StockBoard } from '../../model/stock.ts';
import type { Container } from '../engine/problem.ts';

/** In hand at the edges of odd outlines, for the rounding of what is printed. */
const OFF_GRID_MM = 0.001;

/** What of a board or an offcut pieces may be cut from, free of overlaps, in its own coordinates. */
export interface Usable {
  readonly regions: readonly Region[];
  readonly container: Container;
}

/** A board less its trim and what is kept out of. */
export function usableOfBoard({ sizeMm: [width, height], trimMm, keepOuts = [] }: StockBoard): Usable {
  const whole: Region[] = [[rectangle(trimMm, trimMm, width - trimMm, height - trimMm)]];
  return usable(keepOuts.length > 0 ? subtract(whole, patches(keepOuts)) : whole);
}

/** A saved offcut less its holes and defects. */
export function usableOfOffcut({ rings, defects = [] }: Offcut): Usable {
  const whole = regionsFromRings(rings);
  return usable(defects.length > 0 ? subtract(whole, patches(defects)) : whole);
}

/** Only what lies in one of the strips into which straight cuts break it down, so that a bow of this throat reaches all of each. */
export function inStrips({ regions, container }: Usable, throatMm: number, kerfMm: number): Usable {
  const [minX, minY, maxX, maxY] = container.box;
  const isWide = maxX - minX >= maxY - minY;
  const short = isWide ? maxY - minY : maxX - minX;
  const count = Math.ceil((short + kerfMm) / (2 * throatMm + kerfMm) - 1e-9);
  if (count <= 1) return { regions, container };
  const pitch = (short + kerfMm) / count;
  const strips = Array.from({ length: count }, (_, i): Region => {
    const [from, to] = [i * pitch, (i + 1) * pitch - kerfMm];
    return [isWide ? rectangle(minX, minY + from, maxX, minY + to) : rectangle(minX + from, minY, minX + to, maxY)];
  });
  return usable(intersect(regions, strips));
}

function usable(regions: readonly Region[]): Usable {
  const rings = ringsOf(regions);
  const areaMm2 = areaOf(regions);
  if (rings.length === 0) return { regions, container: { box: [0, 0, 0, 0], outline: null, areaMm2: 0 } };
  const box: Box = boxOf(rings);
  const isBox = rings.length === 1 && areaMm2 === (box[2] - box[0]) * (box[3] - box[1]);
  const outline = isBox ? null : ringsOf(offset(regions, -OFF_GRID_MM, { joins: 'miter' }));
  return { regions, container: { box, outline, areaMm2 } };
}

/** Patches run either way and may overlap. */
const patches = (rings: readonly Ring[]): Region[] => unite(rings.flatMap((ring) => regionsFromRings([ring])));
