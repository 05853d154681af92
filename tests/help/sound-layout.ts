import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import DistanceOp from 'jsts/org/locationtech/jts/operation/distance/DistanceOp.js';
import { expect } from 'vitest';
import { layout as check } from '../../src/checks/layout.ts';
import { intersect, linesInside, offset, regionsFromRings, subtract, unite } from '../../src/geometry/clip.ts';
import { areaOf, boxOf, distanceToRings, placed, type Region, type Ring, rectangle } from '../../src/geometry/ring.ts';
import type { Facts } from '../../src/model/facts.ts';
import type { Layout, LayoutBoard } from '../../src/model/layout.ts';
import type { Blank } from '../../src/model/piece.ts';
import { planOf } from './nesting.ts';

/** The outlines of the pieces on a board, as they lie. */
export const regionOn = (layout: Layout, blanks: readonly Blank[], board: number): Region[] =>
  layout.boards[board].placed.map((each) => {
    const piece = blanks.flatMap(({ pieces }) => pieces).find(({ name }) => name === each.piece);
    return piece ? piece.region.map((ring) => placed(ring, each)) : [];
  });

/** Grid of the clipping, on both sides. */
const GRID_MM = 0.002;
/** What the laws allow. */
const ALLOWED_MM = 0.001;

/**
 * What must hold of every layout: told by the check, and by two libraries that share nothing with it: clipper-lib and JSTS
 * (the JTS Topology Suite's distance, Vivid Solutions; public, EDL).
 */
export function expectSound(blanks: readonly Blank[], layout: Layout, facts: Facts): void {
  expect(check(planOf(blanks, layout, facts))).toEqual([]);
  expect(layout.boards.map(({ number }) => number)).toEqual(layout.boards.map((_, i) => i + 1));
  expect(layout.bound.boards).toBeLessThanOrEqual(layout.boards.filter(({ rings }) => !rings).length);
  for (const [i, board] of layout.boards.entries()) {
    const pieces = regionOn(layout, blanks, i);
    const usable = usableOf(board);
    for (const region of pieces) expect(areaOf(subtract([region], offset(usable, GRID_MM)))).toBe(0);
    expectApart(board, pieces, facts.gapMm);
    expectOffcuts(board, pieces, usable, facts.tool.kerfMm);
    expectWays(board, pieces, facts);
  }
}

/** What of a board may be cut up, worked out apart. */
function usableOf({ sizeMm, trimMm, rings, keepOuts = [] }: LayoutBoard): Region[] {
  const whole = rings ? regionsFromRings(rings) : [[rectangle(trimMm, trimMm, sizeMm[0] - trimMm, sizeMm[1] - trimMm)]];
  return subtract(whole, unite(keepOuts.flatMap((patch) => regionsFromRings([patch]))));
}

function expectApart({ placed: standing }: LayoutBoard, pieces: readonly Region[], gapMm: number): void {
  const polygons = pieces.map(polygonOf);
  const boxes = pieces.map((region) => boxOf(region));
  for (const [a, one] of pieces.entries()) {
    for (let b = a + 1; b < pieces.length; b++) {
      if (standing[a].blank === standing[b].blank) continue;
      const [p, q] = [boxes[a], boxes[b]];
      if (p[2] + gapMm < q[0] || q[2] + gapMm < p[0] || p[3] + gapMm < q[1] || q[3] + gapMm < p[1]) continue;
      if (gapMm > 0) expect(DistanceOp.distance(polygons[a], polygons[b])).toBeGreaterThanOrEqual(gapMm - ALLOWED_MM);
      const [grown, other] = [one, pieces[b]].map((region) => offset([region], gapMm / 2 - GRID_MM));
      expect(areaOf(intersect(grown, other))).toBe(0);
    }
  }
}

const factory = new GeometryFactory();
const ringOf = (ring: Ring) => {
  const points = Array.from({ length: ring.length / 2 + 1 }, (_, i) => (2 * i) % ring.length);
  return factory.createLinearRing(points.map((at) => new Coordinate(ring[at], ring[at + 1])));
};
const polygonOf = ([outer, ...holes]: Region) => factory.createPolygon(ringOf(outer), holes.map(ringOf));

function expectOffcuts({ offcuts }: LayoutBoard, pieces: readonly Region[], usable: readonly Region[], kerfMm: number) {
  for (const { rings, rectangle: largest } of offcuts) {
    expect(areaOf(subtract([rings], offset(usable, GRID_MM)))).toBe(0);
    const near = pieces.flatMap((region) => offset([region], kerfMm - GRID_MM));
    expect(areaOf(intersect([rings], near))).toBe(0);
    expect(regionsFromRings(rings)).toHaveLength(1);
    expect(areaOf(offset([rings], -70))).toBeGreaterThan(0);
    if (!largest) throw new Error('an offcut without its largest rectangle');
    expect(areaOf(subtract([[rectangle(...largest)]], offset([rings], GRID_MM)))).toBe(0);
  }
}

/** Every blank has a way in that cuts into nothing; straight cuts cross no blank, and leave none too deep for the bow. */
function expectWays(board: LayoutBoard, pieces: readonly Region[], { tool, gapMm }: Facts): void {
  const { runIns = [], breakDowns = [], placed: standing, rings, sizeMm } = board;
  if ((tool.kind !== 'hot wire' && tool.kind !== 'saw') || gapMm < tool.kerfMm) return;
  const thin = offset(pieces, -Math.min(0.5, gapMm / 4));
  expect(linesInside(breakDowns, thin)).toEqual([]);
  const edges = [...(rings ?? [rectangle(0, 0, sizeMm[0], sizeMm[1])]), ...breakDowns];
  expect(runIns.map(({ blank }) => blank)).toEqual(
    [...new Set(standing.map(({ blank }) => blank))].sort((a, b) => a - b),
  );
  for (const { blank, line, within } of runIns) {
    expect(linesInside([line], thin)).toEqual([]);
    const own = standing.flatMap((each, i) => (each.blank === blank ? pieces[i] : []));
    expect(distanceToRings(line[line.length - 2], line[line.length - 1], own)).toBeLessThan(0.6);
    const from = within ? pieces[standing.findIndex(({ piece }) => piece === within)] : edges;
    expect(distanceToRings(line[0], line[1], from)).toBeLessThan(0.02);
  }
}
