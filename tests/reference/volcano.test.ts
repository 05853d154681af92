/**
 * A real elevation grid through the whole pipeline: Maunga Whau, 87 × 61 posts 10 m apart, 94–195 m (digitised by Ross Ihaka;
 * vega-datasets, data/volcano.json; not accurate by its own note, test use only). At 1:500 it is 1720 × 1200 mm.
 */

import Ajv from 'ajv/dist/2020';
import { contours } from 'd3-contour';
import { expect, test } from 'vitest';
import { areaOf } from '../../src/geometry/ring.ts';
import { planSchema, run } from '../../src/index.ts';
import { groundOf } from '../../src/model/ground.ts';
import { inlineJob } from '../help/jobs.ts';
import { volcano } from '../help/volcano.ts';

const { columns, rows, heightsM } = volcano();
const text = [
  `ncols ${columns}`,
  `nrows ${rows}`,
  'xllcorner 0',
  'yllcorner 0',
  'cellsize 10',
  ...Array.from({ length: rows }, (_, row) => heightsM.slice(row * columns, (row + 1) * columns).join(' ')),
].join('\n');
const THICKNESS = 20;

const made = (cut: string, documents: string[] = []) => {
  const job = {
    name: 'Maunga Whau',
    source: { 'height-grid': { file: 'volcano.asc', unit: 'm' } },
    shape: [{ fit: { scale: 500 } }, { base: { cut: 'lowest', lift: 10 } }],
    stock: { boards: [{ name: 'EPS', size: [1200, 600], thickness: THICKNESS }] },
    slice: { layers: { cut, simplify: 0 } },
    nest: { boards: { effort: 500 } },
    documents,
  };
  const { job: read, files } = inlineJob(JSON.stringify(job), { 'volcano.asc': new TextEncoder().encode(text) });
  return run(read, files);
};

test('a layer for every board thickness of its height, and areas that a library for contours agrees with', async () => {
  const { plan } = await made('proud');
  const low = Math.min(...heightsM);
  const high = Math.max(...heightsM);
  const heightMm = ((high - low) * 1000) / 500 + 10;
  expect(plan.stack.layers.length).toBe(Math.ceil(heightMm / THICKNESS));
  for (const layer of plan.stack.layers.slice(1)) {
    const levelM = low + ((layer.bottomMm - 10) * 500) / 1000;
    const { coordinates } = contours().size([columns, rows]).contour(heightsM, levelM);
    const cells = coordinates.reduce((sum, rings) => sum + rings.reduce((area, ring) => area + shoelace(ring), 0), 0);
    // One of its cells is 10 m × 10 m, 20 mm × 20 mm at 1:500. It runs straight across cells where we bend, and half a cell
    // wider at the rim, so areas agree to a few per cent of a rim one cell wide.
    const area = areaOf(layer.regions) / 400;
    expect(Math.abs(area - Math.abs(cells))).toBeLessThan(0.02 * Math.abs(cells) + columns + rows);
  }
});

const shoelace = (ring: readonly (readonly number[])[]) =>
  ring.reduce((sum, [x, y], i) => sum + x * ring[(i + 1) % ring.length][1] - ring[(i + 1) % ring.length][0] * y, 0) / 2;

test('the ground lies between its shy and its proud stack, and between the sums of its posts', async () => {
  const [proud, shy] = [await made('proud'), await made('shy')];
  const volume = groundOf(proud.plan.landform).volumeMm3;
  const stackOf = ({ plan }: typeof proud) =>
    plan.stack.layers.reduce((sum, layer) => sum + areaOf(layer.regions) * layer.thicknessMm, 0);
  expect(stackOf(proud)).toBeGreaterThan(volume);
  expect(stackOf(shy)).toBeLessThan(volume);
  // Each cell's volume is the mean of its posts times its area: summed here from the file, without the project's code.
  let sum = 0;
  for (let row = 0; row + 1 < rows; row++) {
    for (let column = 0; column + 1 < columns; column++) {
      const at = row * columns + column;
      const posts = [heightsM[at], heightsM[at + 1], heightsM[at + columns], heightsM[at + columns + 1]];
      sum += posts.reduce((total, height) => total + (height - Math.min(...heightsM)) * 2 + 10, 0) / 4;
    }
  }
  expect(volume / (sum * 400)).toBeCloseTo(1, 9);
});

test('every document is written, and plan.json is what its schema says', async () => {
  const { files } = await made('middle', ['board-svg', 'pages-pdf', 'cut-list', 'offcuts', 'report']);
  const names = files.map(({ path }) => path);
  for (const name of ['board-01.svg', 'pages.pdf', 'cut-list.csv', 'offcuts.json', 'report.html', 'plan.json']) {
    expect(names).toContain(name);
  }
  const validate = new Ajv({ strict: false }).compile(planSchema());
  validate(JSON.parse(String(files.find(({ path }) => path === 'plan.json')?.body)));
  expect(validate.errors).toBeNull();
});
