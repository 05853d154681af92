import Module from 'manifold-3d';
import { expect, test } from 'vitest';
import { stream } from '../../src/geometry/random.ts';
import { areaOf, type Ring, ringArea } from '../../src/geometry/ring.ts';
import { sections } from '../../src/geometry/sections.ts';
import type { Solid } from '../../src/model/landform.ts';
import { solidOutlines } from '../../src/slice/layers/solid.ts';
import { walkNow } from '../../src/walk.ts';
import { together } from '../help/solids.ts';

// Reference: manifold-3d 3.5.4 (its own slicing, trimming, projecting and booleans), on solids that it built.
const wasm = await Module();
wasm.setup();
const { Manifold } = wasm;
type Body = InstanceType<typeof Manifold>;

const SIDE = 2000;

/** Balls, blocks and tyres of any size and pose; sizes from `least` up. */
function shapes(seed: number) {
  const random = stream(seed, 'body');
  const between = (low: number, high: number) => low + random() * (high - low);
  const any = (size: number): Body => {
    const kind = random();
    if (kind < 0.4) return Manifold.sphere(size, 12 + Math.floor(random() * 20)).scale([1, between(0.6, 1.4), 0.8]);
    if (kind < 0.7) return Manifold.cube([size * 1.3, size * between(0.8, 2), size], true);
    const tube = between(0.2, 0.45) * size;
    const around = Array.from({ length: 9 }, (_, i): [number, number] => [
      size - tube + tube * Math.cos((2 * Math.PI * i) / 9),
      tube * Math.sin((2 * Math.PI * i) / 9),
    ]);
    return Manifold.revolve([around], 17);
  };
  return (low: number, high: number): Body =>
    any(between(low, high))
      .rotate([between(0, 360), between(0, 360), between(0, 360)])
      .translate([between(200, 700), between(150, 500), between(60, 380)]);
}

/** A lopsided body with overhangs, through holes and, often, cavities and loose shells. */
function randomBody(seed: number): Body {
  const shape = shapes(seed);
  const grown = Manifold.union(Array.from({ length: 6 }, () => shape(60, 150)));
  const cut = Manifold.difference([grown, ...Array.from({ length: 7 }, () => shape(20, 90))]);
  // Read back, so that it stands on the 32-bit numbers that it gives out.
  return new Manifold(cut.getMesh());
}

function solidOf(body: Body): Solid {
  const { vertProperties, triVerts, numProp } = body.getMesh();
  expect(numProp).toBe(3);
  return { kind: 'solid', positionsMm: Float64Array.from(vertProperties), triangles: triVerts, footprint: null };
}

/** What is between two levels, laid flat: its plan area. */
const coveredArea = (body: Body, low: number, high: number) =>
  body.trimByPlane([0, 0, 1], low).trimByPlane([0, 0, -1], -high).project().area();

/** What fills the band between is the box less all that is empty somewhere in it. */
const filledArea = (body: Body, low: number, high: number) =>
  SIDE * SIDE - coveredArea(Manifold.cube([SIDE, SIDE, SIDE], true).subtract(body), low, high);

const area = (rings: readonly Ring[]) => rings.reduce((sum, ring) => sum + ringArea(ring), 0);

/** Outlines stand on a grid of 0.001 mm, so areas differ by their length times that, at most. */
const GRID_MM2 = 3;

for (let seed = 1; seed <= 20; seed++) {
  test(`random solid ${seed}: sections and layers agree`, () => {
    const body = randomBody(seed);
    const solid = solidOf(body);
    const levels = Array.from({ length: 10 }, (_, k) => 17.5 + 43 * k);

    const cuts = walkNow(sections({ positions: solid.positionsMm, triangles: solid.triangles }, levels, 'above'));
    levels.forEach((level, k) => {
      const reference = body.slice(level).area();
      expect(Math.abs(area(cuts[k]) - reference)).toBeLessThanOrEqual(1e-6 * Math.max(reference, 1));
    });

    const some = levels.filter((_, k) => k % 3 === seed % 3);
    const proud = walkNow(solidOutlines(solid, some, 'proud'));
    const shy = walkNow(solidOutlines(solid, some, 'shy'));
    const known = walkNow(solidOutlines({ ...solid, isSimple: true }, some, 'shy'));
    for (let k = 0; k + 1 < some.length; k++) {
      expect(Math.abs(areaOf(proud[k]) - coveredArea(body, some[k], some[k + 1]))).toBeLessThan(GRID_MM2);
      expect(Math.abs(areaOf(shy[k]) - filledArea(body, some[k], some[k + 1]))).toBeLessThan(GRID_MM2);
      // Shells that lie apart need no looking beneath.
      expect(Math.abs(areaOf(known[k]) - areaOf(shy[k]))).toBeLessThan(GRID_MM2);
    }
    expect(areaOf(proud[1])).toBeGreaterThan(areaOf(shy[1]) + 100);
  });
}

for (let seed = 31; seed <= 38; seed++) {
  test(`shells that overlap, as they come and united by the reference, ${seed}: layers agree`, () => {
    const shape = shapes(seed);
    const bodies = Array.from({ length: 7 }, () => shape(60, 170));
    const united = Manifold.union(bodies);
    const loose = together(...bodies.map(solidOf));
    const levels = [37.5, 104, 190, 251.25, 340];
    for (let k = 0; k + 1 < levels.length; k++) {
      const pair = [levels[k], levels[k + 1]];
      const [middle] = walkNow(solidOutlines(loose, pair, 'middle'));
      expect(Math.abs(areaOf(middle) - united.slice((pair[0] + pair[1]) / 2).area())).toBeLessThan(GRID_MM2);
    }
    const proud = walkNow(solidOutlines(loose, levels, 'proud'));
    const shy = walkNow(solidOutlines(loose, levels, 'shy'));
    let lost = 0;
    const apart = walkNow(solidOutlines({ ...loose, isSimple: true }, levels, 'shy'));
    for (let k = 0; k + 1 < levels.length; k++) {
      expect(Math.abs(areaOf(proud[k]) - coveredArea(united, levels[k], levels[k + 1]))).toBeLessThan(GRID_MM2);
      expect(Math.abs(areaOf(shy[k]) - filledArea(united, levels[k], levels[k + 1]))).toBeLessThan(GRID_MM2);
      lost += areaOf(shy[k]) - areaOf(apart[k]);
    }
    // Read as shells that lie apart, they would lose what only several fill together.
    expect(lost).toBeGreaterThan(500);
  });
}

test('blocks that stand on each other face to face, one with room around and one with an overhang', () => {
  const block = (from: readonly [number, number, number], to: readonly [number, number, number]) =>
    Manifold.cube([to[0] - from[0], to[1] - from[1], to[2] - from[2]]).translate([...from]);
  const bodies = [
    block([10, 20, 0], [410, 300, 55]),
    block([60, 50, 55], [210, 330, 130]),
    block([230, 40, 55], [390, 270, 90]),
    // Turned, and standing with a part of its foot in the air.
    block([-60, -40, 0], [60, 40, 50]).rotate([0, 0, 31]).translate([330, 250, 90]),
  ];
  const united = Manifold.union(bodies);
  const levels = [30, 70, 110, 150];
  const shy = walkNow(solidOutlines(together(...bodies.map(solidOf)), levels, 'shy'));
  for (let k = 0; k + 1 < levels.length; k++) {
    expect(Math.abs(areaOf(shy[k]) - filledArea(united, levels[k], levels[k + 1]))).toBeLessThan(GRID_MM2);
  }
  // The upper blocks stand on the lower one: filled from 30 to 70 but for the strip of the tall one that hangs over.
  expect(areaOf(shy[0])).toBeCloseTo(150 * 250 + 160 * 230, 0);
});
