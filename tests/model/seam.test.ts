/** Seams: each told once, and their ends put into the rings of their layers and nowhere else. */
import { describe, expect, test } from 'vitest';
import { intersect, subtract } from '../../src/geometry/clip.ts';
import { type Region, rectangle, regionArea, reversed, ringArea } from '../../src/geometry/ring.ts';
import type { Layer } from '../../src/model/layer.ts';
import type { Joint, Piece } from '../../src/model/piece.ts';
import { seamSegments, withSeamPoints } from '../../src/model/seam.ts';

const joint = (label: string, neighbour: string, ...line: number[]): Joint => ({
  label,
  neighbour,
  line: Float64Array.from(line),
  matches: [],
});

const piece = (name: string, layer: number, region: Region, ...joints: Joint[]): Piece => ({
  name,
  layer,
  bottomMm: 50 * (layer - 1),
  thicknessMm: 50,
  region,
  areaMm2: regionArea(region),
  joints,
  pins: [],
  slits: [],
  placing: [],
});

const layer = (number: number, ...regions: Region[]): Layer => ({
  number,
  bottomMm: 50 * (number - 1),
  thicknessMm: 50,
  regions,
});

/** 200 × 90 with a hole; seams at x = 70 (two: below and above the hole) and x = 131.25. */
const OUTER = rectangle(0, 0, 200, 90);
const HOLE = reversed(rectangle(52, 31, 88, 47));
const SEAMS = [
  joint('3/A', '3C', 70, 0, 70, 31),
  joint('3/C', '3C', 70, 47, 70, 90),
  joint('3/D', '3D', 131.25, 90, 131.25, 0),
];
const PIECES = [
  piece('3A', 3, [rectangle(0, 0, 70, 90)], SEAMS[0], SEAMS[1]),
  piece(
    '3C',
    3,
    [rectangle(70, 0, 131.25, 90)],
    joint('3/A', '3A', 70, 31, 70, 0),
    joint('3/C', '3A', 70, 90, 70, 47),
    SEAMS[2],
  ),
  piece('3D', 3, [rectangle(131.25, 0, 200, 90)], joint('3/D', '3C', 131.25, 0, 131.25, 90)),
];

test('each seam is told once, bends and all, from whichever side', () => {
  const bent = joint('4/A', '4C', 10, 0, 13, 20, 9, 41);
  expect(seamSegments([piece('4A', 4, [OUTER], bent), piece('4C', 4, [OUTER], { ...bent, neighbour: '4A' })])).toEqual([
    10, 0, 13, 20, 13, 20, 9, 41,
  ]);
  expect(seamSegments(PIECES)).toHaveLength(3 * 4);
  expect(seamSegments([])).toEqual([]);
});

describe('withSeamPoints', () => {
  test('puts ends in, in order along each edge, outline and hole alike', () => {
    const [made] = withSeamPoints([layer(3, [OUTER, HOLE])], PIECES);
    expect([...made.regions[0][0]]).toEqual([0, 0, 70, 0, 131.25, 0, 200, 0, 200, 90, 131.25, 90, 70, 90, 0, 90]);
    // The hole runs clockwise: from (52, 47) east, and back along y = 31.
    const hole = [...made.regions[0][1]];
    const at = (x: number, y: number) =>
      hole.findIndex((value, i) => i % 2 === 0 && value === x && hole[i + 1] === y) / 2;
    expect(hole).toHaveLength(12);
    const along = [at(52, 47), at(70, 47), at(88, 47), at(88, 31), at(70, 31), at(52, 31)];
    expect(new Set(along).size).toBe(6);
    expect(along.map((place, i) => (along[(i + 1) % 6] - place + 6) % 6)).toEqual([1, 1, 1, 1, 1, 1]);
  });

  test('changes no area, and every point of the pieces is then one of the layer or of a seam', () => {
    const slanted = Float64Array.from([0, 0, 187, 13, 166, 97, 21, 74]);
    const cut = rectangle(-50, -50, 83.125, 200);
    const halves = [intersect([[slanted]], [[cut]])[0], subtract([[slanted]], [[cut]])[0]];
    const ends = [...halves[0][0]].flatMap((x, i, all) => (i % 2 === 0 && x === 83.125 ? [[x, all[i + 1]]] : []));
    const line = joint('3/A', '3C', ...ends.flat());
    const pieces = halves.map((half, k) => piece(`3${'AC'[k]}`, 3, half, line));
    const [made] = withSeamPoints([layer(3, [slanted])], pieces);
    const ring = made.regions[0][0];
    expect(ring).toHaveLength(slanted.length + 4);
    // Ends lie on the grid of a thousandth, so within half of one of the edge, over edges of at most 190.
    expect(Math.abs(ringArea(ring) - ringArea(slanted))).toBeLessThan(190 * 0.0005);
    const points = (of: Float64Array) =>
      Array.from({ length: of.length / 2 }, (_, i) => `${of[2 * i]},${of[2 * i + 1]}`);
    for (const half of halves) for (const point of points(half[0])) expect(points(ring)).toContain(point);
  });

  test('leaves alone what is a corner already, what is off the rim, and other layers', () => {
    const corner = piece('3A', 3, [OUTER], joint('3/A', '3C', 0, 0, 200, 90));
    const off = piece('3C', 3, [OUTER], joint('3/C', '3D', 60, 5, 60, 80));
    const wrongLayer = piece('4A', 4, [OUTER], joint('4/A', '4C', 70, 0, 70, 90));
    const given = layer(3, [OUTER, HOLE]);
    const [made] = withSeamPoints([given], [corner, off, wrongLayer]);
    expect(made.regions[0].map((ring) => [...ring])).toEqual([[...OUTER], [...HOLE]]);
    expect(withSeamPoints([given], [wrongLayer])[0]).toBe(given);
    expect(withSeamPoints([given], [])[0]).toBe(given);
  });

  test('done twice is done once, and what was given stays as it was', () => {
    const given = layer(3, [OUTER.slice(), HOLE.slice()]);
    const once = withSeamPoints([given], PIECES);
    expect(withSeamPoints(once, PIECES)).toEqual(once);
    expect(given).toEqual(layer(3, [OUTER, HOLE]));
  });

  test('an end beside a sharp corner, within a thousandth of both its edges, is put in once', () => {
    const spike = Float64Array.from([0, 0, 90, 0, 0, 0.02, -40, 31]);
    const end = joint('3/A', '3C', 89.99, 0, 21, 0.01);
    const [made] = withSeamPoints([layer(3, [spike])], [piece('3A', 3, [spike], end)]);
    expect([...made.regions[0][0]].slice(0, 6)).toEqual([0, 0, 89.99, 0, 90, 0]);
    const ring = [...made.regions[0][0]];
    const points = Array.from({ length: ring.length / 2 }, (_, i) => `${ring[2 * i]},${ring[2 * i + 1]}`);
    expect(points).toHaveLength(5);
    expect(new Set(points).size).toBe(5);
  });
});
