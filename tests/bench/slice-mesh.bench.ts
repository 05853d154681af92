// Two million triangles into 40 layers. Read the ratios of one run; the times depend on the machine.
import Module from 'manifold-3d';
import { bench, describe } from 'vitest';
import { sections } from '../../src/geometry/sections.ts';
import type { Solid } from '../../src/model/landform.ts';
import { solidOutlines } from '../../src/slice/layers/solid.ts';
import { closedTriangles } from '../../src/source/mesh/close.ts';
import { selfCrossing } from '../../src/source/mesh/self-crossing.ts';
import { outwardTriangles } from '../../src/source/mesh/shells.ts';
import { weld } from '../../src/source/mesh/weld.ts';
import { walkNow } from '../../src/walk.ts';

const AROUND = 2000;
const ROWS = 501;
const LAYERS = 40;

/** A boulder of 2 m with lumps and hollows: two points and rings of points between. */
function boulder(): Solid {
  const positions: number[] = [];
  const triangles: number[] = [];
  const point = (row: number, i: number) => {
    const down = (Math.PI * row) / ROWS;
    const turn = (2 * Math.PI * i) / AROUND;
    const radius = 1000 + 130 * Math.sin(5 * turn + 3 * down) * Math.sin(down) + 60 * Math.sin(17 * down);
    positions.push(
      1200 + radius * Math.sin(down) * Math.cos(turn),
      1300 + 0.8 * radius * Math.sin(down) * Math.sin(turn),
      1100 + 0.9 * radius * Math.cos(down),
    );
  };
  point(0, 0);
  for (let row = 1; row < ROWS; row++) for (let i = 0; i < AROUND; i++) point(row, i);
  point(ROWS, 0);
  const at = (row: number, i: number) => 1 + (row - 1) * AROUND + (i % AROUND);
  for (let i = 0; i < AROUND; i++) {
    triangles.push(0, at(1, i), at(1, i + 1));
    for (let row = 1; row + 1 < ROWS; row++) {
      triangles.push(at(row, i), at(row + 1, i), at(row + 1, i + 1), at(row, i), at(row + 1, i + 1), at(row, i + 1));
    }
    triangles.push(at(ROWS - 1, i), at(ROWS, 0), at(ROWS - 1, i + 1));
  }
  return {
    kind: 'solid',
    positionsMm: Float64Array.from(positions),
    triangles: Uint32Array.from(triangles),
    footprint: null,
  };
}

const solid = boulder();
const surface = { positions: solid.positionsMm, triangles: solid.triangles };
const levels = Float64Array.from({ length: LAYERS + 1 }, (_, k) => 200 + 45.5 * k);
const wasm = await Module();
wasm.setup();
const mesh = new wasm.Mesh({
  numProp: 3,
  vertProperties: Float32Array.from(solid.positionsMm),
  triVerts: solid.triangles,
});
const body = new wasm.Manifold(mesh);
const soup = { points: solid.positionsMm, corners: solid.triangles };
const options = { iterations: 3, warmupIterations: 1, time: 0, warmupTime: 0 };
let sink = 0;

describe(`${solid.triangles.length / 3} triangles, ${LAYERS} levels: sections`, () => {
  bench(
    'sections in one pass',
    () => {
      sink += walkNow(sections(surface, levels, 'above')).length;
    },
    options,
  );
  bench(
    'manifold-3d, body ready: slice and read',
    () => {
      for (const level of levels) sink += body.slice(level).toPolygons().length;
    },
    options,
  );
});

describe('the same, with what comes before', () => {
  bench(
    'joined, closed, shells sorted, sections',
    () => {
      const { positions, triangles } = weld(soup, 1, 'boulder.obj', 'mm');
      const closed = closedTriangles({ positions, triangles }, 10, 'boulder.obj', () => '');
      const outward = outwardTriangles({ positions, triangles: closed.triangles }, closed.shells);
      sink += walkNow(sections({ positions, triangles: outward.triangles }, levels, 'above')).length;
    },
    options,
  );
  bench(
    'manifold-3d: body made, slice and read',
    () => {
      const made = new wasm.Manifold(mesh);
      for (const level of levels) sink += made.slice(level).toPolygons().length;
      made.delete();
    },
    options,
  );
});

// Trimming the body costs manifold-3d seconds a layer, so this one takes every tenth.
const some = levels.filter((_, k) => k % 10 < 2);

describe('the same: what each of four layers covers', () => {
  bench(
    'proud outlines',
    () => {
      sink += walkNow(solidOutlines(solid, some, 'proud')).length;
    },
    options,
  );
  bench(
    'manifold-3d, body ready: trim, project and read',
    () => {
      for (let k = 0; k + 1 < some.length; k += 2) {
        const above = body.trimByPlane([0, 0, 1], some[k]);
        const between = above.trimByPlane([0, 0, -1], -some[k + 1]);
        const outline = between.project();
        sink += outline.toPolygons().length;
        for (const each of [above, between, outline]) each.delete();
      }
    },
    { ...options, iterations: 1, warmupIterations: 0 },
  );
});

describe('the same: looking for places where it crosses itself', () => {
  bench(
    'self-crossing',
    async () => {
      sink += (await selfCrossing(surface, new Uint32Array(surface.triangles.length / 3))).isSure ? 1 : 0;
    },
    { ...options, iterations: 2, warmupIterations: 0 },
  );
});

if (sink < 0) throw new Error('keeps the results alive');
