import { expect } from 'vitest';
import { boxOf, placed as put, type Region, type Ring } from '../../src/geometry/ring.ts';
import type { Plan } from '../../src/index.ts';
import { heightOf } from '../../src/model/ground-height.ts';
import type { Piece } from '../../src/model/piece.ts';

type Point = readonly [number, number];

/** The least that a pin keeps from edges, seams and voids of each piece that it enters, and from slits; between pins of a piece. */
const CLEAR_MM = 6;
const BETWEEN_MM = 30;
/** How far below the carved surface a pin that stays ends. */
const UNDER_MM = 20;
/** What snapping to the grid may move an end by. */
const ON_MM = 0.001;
/** A piece narrower than so many thicknesses is a sliver. */
const SLIVER = 2;

const edgesOf = (rings: Iterable<Ring>): [Point, Point][] =>
  [...rings].flatMap((ring) =>
    Array.from({ length: ring.length / 2 }, (_, i): [Point, Point] => {
      const k = (2 * i + 2) % ring.length;
      return [
        [ring[2 * i], ring[2 * i + 1]],
        [ring[k], ring[k + 1]],
      ];
    }),
  );

const legsOf = (line: ArrayLike<number>): [Point, Point][] =>
  Array.from({ length: line.length / 2 - 1 }, (_, i): [Point, Point] => [
    [line[2 * i], line[2 * i + 1]],
    [line[2 * i + 2], line[2 * i + 3]],
  ]);

function fromSegment([x, y]: Point, [[ax, ay], [bx, by]]: readonly [Point, Point]): number {
  const [dx, dy] = [bx - ax, by - ay];
  const long = dx * dx + dy * dy;
  const t = long === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / long));
  return Math.hypot(ax + t * dx - x, ay + t * dy - y);
}

/** Worked out by itself: the even-odd rule along a line to the east. */
function isIn([x, y]: Point, region: Region): boolean {
  let inside = false;
  for (const [[ax, ay], [bx, by]] of edgesOf(region)) {
    if (ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * (bx - ax)) inside = !inside;
  }
  return inside;
}

const distance = (point: Point, segments: readonly (readonly [Point, Point])[]): number =>
  segments.reduce((least, segment) => Math.min(least, fromSegment(point, segment)), Infinity);

/** Pins lie inside every layer that they run through, clear of all that would weaken them, and end where they may. */
export function holdPins({ pieces, pins, stack, landform }: Plan): void {
  const edges = new Map(pieces.map((piece) => [piece, edgesOf(piece.region)]));
  const boxes = new Map(pieces.map((piece) => [piece, boxOf(piece.region)]));
  const isNear = ([x, y]: Point, piece: Piece) => {
    const [minX, minY, maxX, maxY] = boxes.get(piece) ?? [0, 0, 0, 0];
    return x >= minX && x <= maxX && y >= minY && y <= maxY;
  };
  const through = new Map<Piece, Point[]>(pieces.map((piece) => [piece, []]));
  for (const { at, fromLayer, toLayer, bottomMm, lengthMm, isPulled } of pins) {
    expect(toLayer).toBeGreaterThan(fromLayer);
    for (let layer = fromLayer; layer <= toLayer; layer++) {
      const holding = pieces.filter((piece) => piece.layer === layer && isNear(at, piece) && isIn(at, piece.region));
      expect(holding.length, `pin at ${at} in layer ${layer}`).toBe(1);
      expect(distance(at, edges.get(holding[0]) ?? [])).toBeGreaterThanOrEqual(CLEAR_MM);
      expect(distance(at, holding[0].slits.flatMap(legsOf))).toBeGreaterThanOrEqual(CLEAR_MM);
      through.get(holding[0])?.push(at);
    }
    const [low, high] = [stack.layers[fromLayer - 1], stack.layers[toLayer - 1]];
    expect(bottomMm).toBeGreaterThan(low.bottomMm);
    expect(bottomMm).toBeLessThan(low.bottomMm + low.thicknessMm);
    const topMm = bottomMm + lengthMm;
    if (isPulled) expect(topMm).toBeGreaterThan(high.bottomMm + high.thicknessMm);
    else {
      expect(topMm).toBeGreaterThan(high.bottomMm);
      expect(topMm).toBeLessThanOrEqual(high.bottomMm + high.thicknessMm + 1e-6);
      if (landform.kind === 'heightfield')
        expect(topMm).toBeLessThanOrEqual(heightOf(landform, ...at) - UNDER_MM + 1e-6);
    }
  }
  // A piece lists every pin that enters it, and no other.
  const sorted = (points: readonly Point[]) => points.map(String).sort();
  for (const piece of pieces) expect(sorted(piece.pins), piece.name).toEqual(sorted(through.get(piece) ?? []));
  // Those that go down from a piece stand apart.
  for (const piece of pieces) {
    const down = pins.filter(
      ({ at, fromLayer }) => fromLayer < piece.layer && piece.pins.some((own) => own === at || `${own}` === `${at}`),
    );
    for (const [i, one] of down.entries()) {
      for (const other of down.slice(i + 1)) {
        expect(Math.hypot(one.at[0] - other.at[0], one.at[1] - other.at[1])).toBeGreaterThanOrEqual(BETWEEN_MM);
      }
    }
  }
}

/** A wire reaches every inner outline through slits that run inside the foam from outline to outline; other tools need none. */
export function holdSlits({ pieces, facts }: Plan): void {
  for (const { name, region, slits } of pieces) {
    if (facts.tool.kind !== 'hot wire') {
      expect(slits).toEqual([]);
      continue;
    }
    expect(slits.length, name).toBe(region.length - 1);
    const rims = region.map((ring) => edgesOf([ring]));
    const reached = new Set([0]);
    const joined = slits.map((slit) => {
      const ends: Point[] = [
        [slit[0], slit[1]],
        [slit[slit.length - 2], slit[slit.length - 1]],
      ];
      const [from, to] = ends.map((end) => rims.findIndex((rim) => distance(end, rim) <= ON_MM));
      expect(from, name).toBeGreaterThanOrEqual(0);
      expect(to, name).toBeGreaterThanOrEqual(0);
      for (const share of [0.01, 0.5, 0.99]) {
        const point = [0, 1].map((axis) => ends[0][axis] + share * (ends[1][axis] - ends[0][axis]));
        expect(isIn([point[0], point[1]], region), `${name}: a slit leaves the foam`).toBe(true);
      }
      return [from, to] as const;
    });
    for (let grew = true; grew; ) {
      const before = reached.size;
      for (const [from, to] of joined) if (reached.has(from) || reached.has(to)) reached.add(from).add(to);
      grew = reached.size > before;
    }
    expect(reached.size, `${name}: a wire does not reach every outline`).toBe(region.length);
  }
}

/** Every piece fits its board as it is turned, less the trim; where the board is a saved offcut the layout's check has its say. */
export function holdOnBoards({ boards, pieces }: Plan): void {
  const byName = new Map(pieces.map((piece) => [piece.name, piece]));
  for (const { sizeMm, trimMm, rings, placed } of boards) {
    if (rings) continue;
    for (const place of placed) {
      const [outer] = byName.get(place.piece)?.region ?? [];
      const ring = put(outer, place);
      for (let i = 0; i < ring.length; i++) {
        expect(ring[i], `${place.piece} on its board`).toBeGreaterThanOrEqual(trimMm - 1e-6);
        expect(ring[i], `${place.piece} on its board`).toBeLessThanOrEqual(sizeMm[i % 2] - trimMm + 1e-6);
      }
    }
  }
}

/** Width of the narrowest strip between two lines that holds a ring: some edge of its hull lies along one of them. By brute force. */
function stripMm(ring: Ring): number {
  const points = Array.from({ length: ring.length / 2 }, (_, i): Point => [ring[2 * i], ring[2 * i + 1]]);
  points.sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const half = (list: readonly Point[]) => {
    const chain: Point[] = [];
    for (const p of list) {
      for (;;) {
        const [a, b] = chain.slice(-2);
        if (!b || (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]) > 0) break;
        chain.pop();
      }
      chain.push(p);
    }
    return chain.slice(0, -1);
  };
  const hull = [...half(points), ...half([...points].reverse())];
  return hull.reduce((least, a, i) => {
    const b = hull[(i + 1) % hull.length];
    const long = Math.hypot(b[0] - a[0], b[1] - a[1]);
    const width = hull.reduce(
      (most, p) => Math.max(most, ((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])) / long),
      0,
    );
    return Math.min(least, width);
  }, Infinity);
}

/** Pieces that a seam bounds and that are narrower than foam may be. */
export const sliversOf = ({ pieces }: Plan): readonly Piece[] =>
  pieces.filter(
    ({ joints, region, thicknessMm }) => joints.length > 0 && stripMm(region[0]) < SLIVER * thicknessMm - ON_MM,
  );

/** No piece is under the least width untold: as many are told of as there are. */
export function holdWidths(plan: Plan): void {
  const told = plan.findings.filter(({ code }) => code === 'checks/sliver');
  const more = told.reduce((sum, { message }) => sum + Number(/And (\d+) more:/.exec(message)?.[1] ?? 0), 0);
  expect(told.length + more).toBe(sliversOf(plan).length);
}
