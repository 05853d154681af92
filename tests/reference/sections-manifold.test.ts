import Module from 'manifold-3d';
import { expect, test } from 'vitest';
import { stream } from '../../src/geometry/random.ts';
import { areaOf, type Ring, ringArea } from '../../src/geometry/ring.ts';
import { sections } from '../../src/geometry/sections.ts';
import type { Solid } from '../../src/model/landform.ts';
import { solidOutlines } from '../../src/slice/layers/solid.ts';
import { walkNow } from '../../src/walk.ts';

// Reference: manifold-3d 3.5.4 (its own slicing, trimming and projecting), on solids that it built from random cuts.
const wasm = await Module();
wasm.setup();
const { Manifold } = wasm;
type Body = InstanceType<typeof Manifold>;

/** A lopsided body with overhangs, through holes and, often, cavities and loose shells. */
function randomBody(seed: number): Body {
  const random = stream(seed, 'body');
  const between = (low: number, high: number) => low + random() * (high - low);
  const blob = (size: number) =>
    Manifold.sphere(size, 12 + Math.floor(random() * 20))
      .scale([between(0.6, 1.4), between(0.6, 1.4), between(0.5, 1.2)])
      .rotate([between(0, 360), between(0, 360), between(0, 360)])
      .translate([between(200, 700), between(150, 500), between(60, 380)]);
  const grown = Manifold.union(Array.from({ length: 6 }, () => blob(between(60, 150))));
  return Manifold.difference([grown, ...Array.from({ length: 7 }, () => blob(between(20, 90)))]);
}

function solidOf(body: Body): Solid {
  const { vertProperties, triVerts, numProp } = body.getMesh();
  expect(numProp).toBe(3);
  return { kind: 'solid', positionsMm: Float64Array.from(vertProperties), triangles: triVerts, footprint: null };
}

/** What is between two levels, laid flat: its plan area. */
const coveredArea = (body: Body, low: number, high: number) =>
  body.trimByPlane([0, 0, 1], low).trimByPlane([0, 0, -1], -high).project().area();

const area = (rings: readonly Ring[]) => rings.reduce((sum, ring) => sum + ringArea(ring), 0);

for (const seed of [1, 2, 3, 4, 5, 6, 7, 8, 9, 10]) {
  test(`random solid ${seed}: sections and layers agree`, () => {
    const body = randomBody(seed);
    const solid = solidOf(body);
    const levels = Array.from({ length: 10 }, (_, k) => 17.5 + 43 * k);

    const cuts = walkNow(sections({ positions: solid.positionsMm, triangles: solid.triangles }, levels, 'above'));
    levels.forEach((level, k) => {
      const reference = body.slice(level).area();
      expect(Math.abs(area(cuts[k]) - reference)).toBeLessThanOrEqual(1e-6 * reference);
    });

    const proud = walkNow(solidOutlines(solid, levels, 'proud'));
    const shy = walkNow(solidOutlines(solid, levels, 'shy'));
    // What fills the band is the box less all that is empty somewhere in it.
    const box = Manifold.cube([2000, 2000, 2000], true);
    const air = box.subtract(body);
    for (let k = 0; k + 1 < levels.length; k++) {
      const covered = coveredArea(body, levels[k], levels[k + 1]);
      // Outlines stand on a grid of 0.001 mm, so areas differ by their length times that, at most.
      expect(Math.abs(areaOf(proud[k]) - covered)).toBeLessThan(3);
      const filled = 2000 * 2000 - coveredArea(air, levels[k], levels[k + 1]);
      expect(Math.abs(areaOf(shy[k]) - filled)).toBeLessThan(3);
    }
    expect(areaOf(proud[3])).toBeGreaterThan(areaOf(shy[3]) + 100);
  });
}
