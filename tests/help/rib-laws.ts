import { expect } from 'vitest';
import { intersect, unite } from '../../src/geometry/clip.ts';
import { areaOf, boxOf, type Region, ringArea, ringLength, ringsOf } from '../../src/geometry/ring.ts';
import { heightOf } from '../../src/model/ground-height.ts';
import type { Heightfield } from '../../src/model/landform.ts';
import type { Layer } from '../../src/model/layer.ts';
import { LETTERS, type Piece } from '../../src/model/piece.ts';
import type { Rib } from '../../src/model/rib.ts';

/** What the laws are asked of. */
export interface RibPlan {
  readonly layers: readonly Layer[];
  readonly pieces: readonly Pick<Piece, 'name' | 'layer' | 'region' | 'joints' | 'areaMm2' | 'thicknessMm'>[];
  /** The ground, and how far below it upper edges lie. */
  readonly ground: Heightfield;
  readonly depthMm: number;
}

/** What is promised: heights to a tenth of a millimetre. */
const HEIGHT_MM = 0.1;
/** Area that snapping to a thousandth may move, per millimetre of outline. */
const SNAP_AREA = 0.001;
const EVERY_MM = 7.3;
/** Without clearance the faces of a board lie in those of its slot: it is asked so far inside them. */
const INSIDE_MM = 0.01;

type Standing = Layer & { readonly rib: Rib; readonly own: readonly Region[] };

/** Heights at which foam begins and ends over a place along a rib, rising: worked out here, by no code of the project. */
export function foamOver(regions: readonly Region[], u: number): number[] {
  const heights: number[] = [];
  for (const ring of ringsOf(regions)) {
    for (let i = 0; i < ring.length; i += 2) {
      const k = (i + 2) % ring.length;
      const [a, b] = [ring[i], ring[k]];
      if (a < u !== b < u) heights.push(ring[i + 1] + ((u - a) / (b - a)) * (ring[k + 1] - ring[i + 1]));
    }
  }
  return heights.sort((a, b) => a - b);
}

/** The laws of ribs on the pieces as they are cut, each put in its place by its frame. */
export function holdRibs({ layers, pieces, ground, depthMm }: RibPlan): { checked: number; crossings: number } {
  const ribs = layers.map((layer): Standing => {
    if (!layer.rib) throw new Error('a rib without a frame');
    return {
      ...layer,
      rib: layer.rib,
      own: pieces.filter((piece) => piece.layer === layer.number).map(({ region }) => region),
    };
  });
  const placeOf = ({ rib: { frame } }: Standing, u: number) =>
    [frame.originMm[0] + u * frame.along[0], frame.originMm[1] + u * frame.along[1]] as const;

  // The assembled ribs reproduce heights along every grid line, slots aside: there the other rib is.
  let checked = 0;
  for (const each of ribs) {
    const { rib, own, regions } = each;
    const [from, , to] = boxOf(ringsOf(regions));
    for (let u = from + 0.37; u < to; u += EVERY_MM) {
      if (rib.crossings.some(({ atMm, widthMm }) => Math.abs(u - atMm) <= widthMm / 2 + 0.01)) continue;
      const foam = foamOver(own, u);
      if (foam.length === 0) continue;
      expect(Math.abs(foam[0])).toBeLessThan(1e-9);
      const wanted = heightOf(ground, ...placeOf(each, u)) - depthMm;
      expect(Math.abs(foam[foam.length - 1] - wanted), `rib ${each.number} at ${u}`).toBeLessThan(HEIGHT_MM);
      // From floor to edge without a hole: a lap is closed.
      const filled = foam.reduce((sum, height, i) => sum + (i % 2 === 0 ? -height : height), 0);
      expect(Math.abs(filled - wanted)).toBeLessThan(HEIGHT_MM);
      checked++;
    }
  }

  // Slots meet at every crossing, and what passes through each is as wide as the board and no wider than the slot.
  let crossings = 0;
  for (const each of ribs) {
    for (const crossing of each.rib.crossings) {
      const other = ribs[crossing.layer - 1];
      const back = other.rib.crossings.find(({ layer }) => layer === each.number);
      expect(back).toBeDefined();
      expect(crossing.widthMm).toBeGreaterThanOrEqual(other.thicknessMm);
      const [x, y] = placeOf(each, crossing.atMm);
      const [ox, oy] = placeOf(other, back?.atMm ?? Number.NaN);
      expect(Math.abs(x - ox) + Math.abs(y - oy)).toBeLessThan(1e-9);
      const [one, two] = [foamOver(each.own, crossing.atMm), foamOver(other.own, back?.atMm ?? 0)];
      expect([one.length, two.length]).toEqual([2, 2]);
      const [low, high] = one[0] < two[0] ? [one, two] : [two, one];
      expect(Math.abs(low[1] - high[0])).toBeLessThan(HEIGHT_MM);
      expect(Math.abs(low[0])).toBeLessThan(1e-9);
      expect(Math.abs(high[1] - (heightOf(ground, x, y) - depthMm))).toBeLessThan(HEIGHT_MM);
      // Depths of both slots together are the height.
      expect(Math.abs(low[1] - low[0] + (high[1] - high[0]) - high[1])).toBeLessThan(HEIGHT_MM);
      // Beside the slot's middle, where the other rib's faces are, nothing stands in its way.
      for (const aside of [-1, 1]) {
        const u = crossing.atMm + aside * (other.thicknessMm / 2 - INSIDE_MM);
        const mid = (two[0] + two[1]) / 2;
        const foam = foamOver(each.own, u);
        for (let i = 0; i < foam.length; i += 2) expect(mid > foam[i] + 0.01 && mid < foam[i + 1] - 0.01).toBe(false);
      }
      crossings++;
    }
  }

  // Pieces: areas add up, do not overlap, are named by their rib; joints are shared to the last bit, clear of slots.
  for (const { number, regions, own, rib, thicknessMm } of ribs) {
    const mine = pieces.filter((piece) => piece.layer === number);
    const length = ringsOf(own).reduce((sum, ring) => sum + ringLength(ring), 0);
    const sum = mine.reduce((area, { areaMm2 }) => area + areaMm2, 0);
    expect(Math.abs(sum - areaOf(regions))).toBeLessThan(SNAP_AREA * length);
    expect(Math.abs(areaOf(unite(own)) - sum)).toBeLessThan(SNAP_AREA * length);
    for (const [i, a] of own.entries()) {
      expect(ringArea(a[0])).toBeGreaterThan(0);
      for (const b of own.slice(i + 1)) expect(areaOf(intersect([a], [b]))).toBeLessThan(1);
    }
    for (const piece of mine) {
      expect(piece.name).toMatch(new RegExp(`^${number}[${LETTERS}]+$`));
      expect(piece.thicknessMm).toBe(thicknessMm);
      for (const joint of piece.joints) {
        const other = mine.find(({ name }) => name === joint.neighbour);
        expect(other?.joints.map(({ label }) => label)).toContain(joint.label);
        for (const side of [piece, other]) {
          const points = new Set<string>();
          for (const ring of side?.region ?? []) {
            for (let i = 0; i < ring.length; i += 2) points.add(`${ring[i]},${ring[i + 1]}`);
          }
          for (let i = 0; i < joint.line.length; i += 2) {
            expect(points).toContain(`${joint.line[i]},${joint.line[i + 1]}`);
          }
        }
        const [left, , right] = boxOf([joint.line]);
        for (const { atMm, widthMm } of rib.crossings) {
          expect(right <= atMm - widthMm / 2 || left >= atMm + widthMm / 2).toBe(true);
        }
      }
    }
  }
  expect(new Set(pieces.map(({ name }) => name)).size).toBe(pieces.length);
  expect(new Set(ribs.map(({ rib }) => rib.gridLine)).size).toBe(ribs.length);
  return { checked, crossings };
}
