/** Readers of height grids, images, TIFFs and surveys, of jobs and of kept offcuts, on damaged and made-up files. */
import { readFileSync } from 'node:fs';
import { encode } from 'fast-png';
import { describe, expect, test } from 'vitest';
import { builtin, type OffcutFile, offcutsFile, readJob, readOffcuts } from '../../src/index.ts';
import { makeKit } from '../../src/job/kit.ts';
import type { AnyPlugin } from '../../src/registry.ts';
import { geotiff } from '../../src/source/geotiff.ts';
import { heightGrid } from '../../src/source/height-grid.ts';
import { heightImage } from '../../src/source/height-image.ts';
import { readPoints } from '../../src/source/spot-heights/points.ts';
import { walkNow } from '../../src/walk.ts';
import { damaged, FUZZ, readsOrRefuses, textOf } from '../help/fuzz.ts';

/** Read bytes with a source, as the one file that its options name. */
const reader = (plugin: AnyPlugin, written: Record<string, unknown>) => {
  const options = plugin.options(makeKit('mm')).parse({ file: 'f', ...written });
  const context = { facts: {}, others: {}, tell: () => {}, random: () => 0.5 };
  return (bytes: Uint8Array) => walkNow(plugin.run(new Map([['f', bytes]]), options, context) as never);
};

const GRID = new TextEncoder().encode(
  `ncols 9\nnrows 7\nxllcorner 4312.5\nyllcenter 99\ncellsize 25\nNODATA_value -9999\n${Array.from({ length: 63 }, (_, i) => (i % 11 === 3 ? -9999 : i * 1.25)).join(' ')}\n`,
);
const PNG = encode({
  width: 21,
  height: 13,
  depth: 16,
  channels: 1,
  data: Uint16Array.from({ length: 273 }, (_, i) => (i * 7919) % 65536),
});

describe('height-grid', () => {
  const read = reader(heightGrid, {});
  test('damaged', async () => {
    const { read: sound, refused } = await readsOrRefuses(damaged(GRID), read);
    expect(refused).toBeGreaterThan(FUZZ / 20);
    expect(sound).toBeGreaterThan(0);
  });
  test('made up', async () => {
    await readsOrRefuses(
      textOf(['ncols', 'nrows', 'xllcorner', 'yllcenter', 'cellsize', 'dx', 'NODATA_value', '2', '3']),
      read,
    );
  });
});

test('height-image, damaged', async () => {
  const { refused } = await readsOrRefuses(damaged(PNG), reader(heightImage, { low: 0, high: 90, size: [210, 130] }));
  expect(refused).toBeGreaterThan(FUZZ / 20);
});

describe('spot-heights', () => {
  const SPOTS = new TextEncoder().encode(
    `no;easting;northing;height;code\n${Array.from({ length: 40 }, (_, i) => `${i};${431000.25 + 7.5 * (i % 7)};${5621400 + 9 * Math.floor(i / 7)};${(i * i) % 23},5;G`).join('\n')}\n`,
  );
  // The reading is held here, not the surface that is laid afterwards.
  const read = (bytes: Uint8Array) => readPoints(bytes, {}, 'f');
  test('damaged', async () => {
    const { read: sound, refused } = await readsOrRefuses(damaged(SPOTS), read);
    expect(refused).toBeGreaterThan(FUZZ / 20);
    expect(sound).toBeGreaterThan(0);
  });
  test('made up', async () => {
    await readsOrRefuses(textOf(['x', 'y', 'z', 'height', 'easting', '"', '#', '1;2;3', '4,5 6,5 7']), read);
  });
});

describe('geotiff, damaged', () => {
  const read = reader(geotiff, { spacing: [20, 30] });
  test.each(['uint8-tiles', 'int16-tiles-point', 'float32-tiles-lzw', 'float32-holes', 'float32-bigtiff', 'matrix'])(
    '%s',
    async (name) => {
      const whole = new Uint8Array(readFileSync(new URL(`../data/geotiff/${name}.tif`, import.meta.url)));
      const { read: sound, refused } = await readsOrRefuses(damaged(whole), read, Math.ceil(FUZZ / 4));
      expect(Math.min(sound, refused)).toBeGreaterThan(0);
    },
  );
});

describe('jobs and kept offcuts', () => {
  const JOB = new Uint8Array(readFileSync(new URL('../../samples/moor-bank/job.yaml', import.meta.url)));
  test('a job, damaged', async () => {
    const read = (bytes: Uint8Array) => readJob(new TextDecoder().decode(bytes), 'job.yaml', builtin);
    const { refused } = await readsOrRefuses(damaged(JOB), read, Math.ceil(FUZZ / 4));
    expect(refused).toBeGreaterThan(FUZZ / 20);
  });
  test('offcuts, damaged', async () => {
    const ring = [0, 0, 410.5, 0, 390, 240, 20, 251];
    const kept = {
      name: 'left-1',
      material: 'EPS 70',
      thicknessMm: 50,
      densityKgM3: 15,
      rings: [new Float64Array(ring)],
      from: 'Tern bar',
    };
    const text = JSON.stringify(offcutsFile([kept]) satisfies OffcutFile);
    const read = (bytes: Uint8Array) => readOffcuts(bytes, 'kept.json');
    const { refused } = await readsOrRefuses(damaged(new TextEncoder().encode(text)), read);
    expect(refused).toBeGreaterThan(FUZZ / 20);
  });
});
