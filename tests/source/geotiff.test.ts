/**
 * The files in tests/data/geotiff were written by tifffile (make.py there), which shares nothing with the reader. Keys and tags
 * by OGC GeoTIFF 1.1 (19-008r4) and TIFF 6.0.
 */
import { readFileSync } from 'node:fs';
import { deflateSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { CannotMake, type Fault, type Finding } from '../../src/findings.ts';
import { areaOf } from '../../src/geometry/ring.ts';
import { makeKit } from '../../src/job/kit.ts';
import { groundRange } from '../../src/model/ground.ts';
import { type Heightfield, isWhole } from '../../src/model/landform.ts';
import { decodeLzw } from '../../src/source/geotiff/lzw.ts';
import { metresPerDegree } from '../../src/source/geotiff/placing.ts';
import { geotiff } from '../../src/source/geotiff.ts';

const [ACROSS, DOWN] = [37, 23];
const file = (name: string) => new Uint8Array(readFileSync(new URL(`../data/geotiff/${name}.tif`, import.meta.url)));

/** As make.py has it: row 0 is north. */
const height = (row: number, column: number) => (row * row + 3 * column + ((row * column) % 7)) % 251;
/** The southern row first, millimetres. */
const HEIGHTS = Array.from(
  { length: ACROSS * DOWN },
  (_, i) => 1000 * height(DOWN - 1 - Math.floor(i / ACROSS), i % ACROSS),
);

async function read(given: string | Uint8Array, written: Record<string, unknown> = {}) {
  const findings: Finding[] = [];
  const context = { facts: {}, others: {}, tell: (told: Finding) => void findings.push(told), random: () => 0.5 };
  const bytes = typeof given === 'string' ? file(given) : given;
  const options = geotiff.options(makeKit('mm')).parse({ file: 'g.tif', ...written });
  const made = (await geotiff.run(new Map([['g.tif', bytes]]), options, context)) as Heightfield;
  return { made, findings, codes: findings.map(({ code }) => code) };
}

async function refused(given: string | Uint8Array, written?: Record<string, unknown>): Promise<Fault> {
  try {
    await read(given, written);
  } catch (error) {
    if (error instanceof CannotMake && error.faults.length === 1) return error.faults[0];
    throw error;
  }
  throw new Error('this was not refused');
}

describe('reading', () => {
  test.each([
    'uint8-strips',
    'int8-strips',
    'uint16-strips',
    'int16-strips',
    'uint32-strips',
    'int32-strips',
    'float32-strips',
    'float64-strips',
    'uint8-tiles',
    'int16-tiles-point',
    'float32-tiles-lzw',
    'float32-big-endian',
    'float32-bigtiff',
    'matrix',
  ])('%s: every height, the southern row first, unlike steps', async (name) => {
    const { made, codes } = await read(name);
    // Samples of 8 bits with a sign hold no more than 127.
    const wanted = name.startsWith('int8') ? HEIGHTS.map((mm) => (mm > 127_000 ? mm - 256_000 : mm)) : HEIGHTS;
    expect([...made.heightsMm]).toEqual(wanted);
    expect([made.columns, made.rows, made.stepXMm, made.stepYMm]).toEqual([ACROSS, DOWN, 2500, 4000]);
    expect(isWhole(made)).toBe(true);
    expect(codes).toEqual(['source/placed', 'source/assumed-unit']);
  });

  test('a raster of areas has its posts half a pixel inside, one of points on the tie point', async () => {
    // The tie point is the north-west pixel's corner, or its post: 431000.25, 5621400.5.
    const told = async (name: string) => (await read(name)).findings[0].message;
    expect(await told('int16-strips')).toContain(`at ${431_000.25 + 1.25}, ${5_621_400.5 - 22.5 * 4} in the file`);
    expect(await told('int16-tiles-point')).toContain(`at 431000.25, ${5_621_400.5 - 22 * 4} in the file`);
    expect(await told('matrix')).toContain(`at ${431_000.25 + 1.25}, ${5_621_400.5 - 22.5 * 4} in the file`);
  });

  test('units are the file’s own: survey feet in plan, feet in height', async () => {
    const { made, codes } = await read('feet');
    // A US survey foot is 1200/3937 m (NIST Handbook 44, appendix C), a foot 304.8 mm.
    expect(made.stepXMm).toBeCloseTo((10 * 1_200_000) / 3937, 9);
    expect(made.stepYMm).toBeCloseTo((12 * 1_200_000) / 3937, 9);
    expect(made.heightsMm[5]).toBeCloseTo((HEIGHTS[5] / 1000) * 304.8, 6);
    expect(codes).toEqual(['source/placed']);
    expect((await read('feet', { unit: 'cm' })).made.heightsMm[5]).toBeCloseTo(HEIGHTS[5] / 100, 9);
  });

  test('a spacing that is said wins', async () => {
    const { made } = await read('turned', { spacing: [30, '5 cm'] });
    expect([made.stepXMm, made.stepYMm]).toEqual([30, 50]);
    expect([...made.heightsMm]).toEqual(HEIGHTS);
  });
});

describe('no data', () => {
  test.each([
    // Rows 3 to 5 from column 30 take 4 × 7 cells with them, the lone NaN four more.
    ['float32-holes', 22, 4 * 7 + 4],
    // The north-western 4 × 5 posts, 4 × 5 cells.
    ['int16-holes', 20, 4 * 5],
  ])('%s: cells that touch it are no ground, and never height 0', async (name, missing, cells) => {
    const { made, findings } = await read(name);
    expect(findings.at(-1)?.code).toBe('source/no-data');
    expect(findings.at(-1)?.message).toContain(`${missing} of ${ACROSS * DOWN} posts`);
    expect(areaOf(made.footprint)).toBeCloseTo(((ACROSS - 1) * (DOWN - 1) - cells) * 2500 * 4000, 3);
    expect(groundRange(made).lowMm).toBeGreaterThanOrEqual(0);
    expect(made.heightsMm.every(Number.isFinite)).toBe(true);
  });

  test('filled, holes stay between the heights round them', async () => {
    const { made } = await read('float32-holes', { noData: 'fill' });
    expect(isWhole(made)).toBe(true);
    const at = (row: number, column: number) => made.heightsMm[(DOWN - 1 - row) * ACROSS + column];
    const around = [at(9, 12), at(11, 12), at(10, 11), at(10, 13)];
    expect(at(10, 12)).toBeGreaterThanOrEqual(Math.min(...around));
    expect(at(10, 12)).toBeLessThanOrEqual(Math.max(...around));
    expect(made.heightsMm[0]).toBe(HEIGHTS[0]);
  });

  test('a number that often stands for it and is not named is told; said, it is taken for it', async () => {
    const bytes = file('int16-holes').slice();
    // GDAL_NODATA, tag 42113, under another number: nobody reads it.
    const at = bytes.findIndex(
      (_, i) => bytes[i] === (42113 & 255) && bytes[i + 1] === 42113 >> 8 && bytes[i + 2] === 2,
    );
    expect(at).toBeGreaterThan(0);
    bytes[at] ^= 1;
    const { made, codes } = await read(bytes);
    expect(codes).toContain('source/perhaps-no-data');
    expect(groundRange(made).lowMm).toBe(-32_768_000);
    const said = await read(bytes, { missing: -32_768 });
    expect(said.codes).not.toContain('source/perhaps-no-data');
    expect(groundRange(said.made).lowMm).toBe(groundRange((await read('int16-holes')).made).lowMm);
  });

  test('a block that the file leaves out is no ground, though the library fills it with 0', async () => {
    const bytes = file('uint8-tiles').slice();
    // TileByteCounts, tag 325: 3 × 2 tiles of 16 × 16. The first, in the north-west, is said to be empty.
    const view = new DataView(bytes.buffer, bytes.byteOffset);
    const at = bytes.findIndex((_, i) => view.getUint16(Math.min(i, bytes.length - 2), true) === 325 && i > 8);
    const type = view.getUint16(at + 2, true);
    const values = view.getUint32(at + 8, true);
    if (type === 3) view.setUint16(values, 0, true);
    else view.setUint32(values, 0, true);
    const { made, codes } = await read(bytes);
    expect(codes).toContain('source/no-data');
    expect(areaOf(made.footprint)).toBeCloseTo(((ACROSS - 1) * (DOWN - 1) - 16 * 16) * 2500 * 4000, 3);
  });
});

describe('LZW', () => {
  /** Codes of 9 bits, the highest bit first. */
  const packed = (codes: readonly number[]) => {
    const bits = codes.map((code) => code.toString(2).padStart(9, '0')).join('');
    return Uint8Array.from(bits.match(/.{1,8}/g) ?? [], (byte) => Number.parseInt(byte.padEnd(8, '0'), 2));
  };
  test('of the example in TIFF 6.0, section 13 (from memory)', () => {
    const codes = [256, 7, 258, 8, 8, 258, 6, 6, 257];
    expect([...decodeLzw(packed(codes), 99)]).toEqual([7, 7, 7, 8, 8, 7, 7, 6, 6]);
  });
  test('a code that is only being made repeats itself', () => {
    expect([...decodeLzw(packed([256, 5, 258, 259, 257]), 99)]).toEqual([5, 5, 5, 5, 5, 5]);
  });
  test('it ends with its input, or where the block is full; a code that cannot be is damage', () => {
    expect([...decodeLzw(packed([256, 1, 2, 3]), 99)]).toEqual([1, 2, 3]);
    expect([...decodeLzw(packed([256, 5, 258, 259, 257]), 4)]).toEqual([5, 5, 5, 5]);
    expect(() => decodeLzw(packed([256, 300, 257]), 99)).toThrow('damaged');
    expect(() => decodeLzw(packed([256, 7, 400, 257]), 99)).toThrow('damaged');
  });
});

describe('what is refused', () => {
  test('degrees, with the distance that they come to', async () => {
    const { code, fix, where } = await refused('degrees');
    expect([code, where.file]).toEqual(['source/degrees', 'g.tif']);
    // 0.0003° of longitude and 0.0002° of latitude at 51.2° north are 20.97 and 22.25 m.
    expect(fix).toMatch(/spacing: \[20\.9\d+ m, 22\.2\d+ m\]/);
    const { made } = await read('degrees', { spacing: ['20.97 m', '22.25 m'] });
    expect([made.stepXMm, made.stepYMm]).toEqual([20_970, 22_250]);
  });

  test('a degree is as long as tables say', () => {
    // National Geospatial-Intelligence Agency, "Length of a degree" (WGS 84), from memory: at 0° 111 319 and 110 574 m; at 45°
    // 78 847 and 111 132 m; at 90° 0 and 111 694 m.
    for (const [latitude, east, north] of [
      [0, 111_319, 110_574],
      [45, 78_847, 111_132],
      [-45, 78_847, 111_132],
      [90, 0, 111_694],
    ]) {
      const [x, y] = metresPerDegree(latitude);
      expect(Math.abs(x - east)).toBeLessThan(3);
      expect(Math.abs(y - north)).toBeLessThan(3);
    }
  });

  test.each([
    ['turned', {}, 'source/turned', /spacing/],
    ['no-place', {}, 'source/no-spacing', /spacing: 30 m/],
    ['colours', {}, 'source/colours', /elevation data/],
    ['int16-strips', { band: 2 }, 'source/no-band', /band: 1/],
  ])('%s %o', async (name, written, code, fix) => {
    const fault = await refused(name, written);
    expect(fault.code).toBe(code);
    expect(fault.fix).toMatch(fix);
    expect(fault.where.file).toBe('g.tif');
  });

  test('a spacing of 0 names its place in the job', async () => {
    expect((await refused('no-place', { spacing: [20, 0] })).where.path).toBe('source.geotiff.spacing');
  });

  test.each([
    ['nothing', new Uint8Array(0), 'source/other-kind'],
    ['text', new TextEncoder().encode('ncols 4\nnrows 3\n'), 'source/other-kind'],
    ['a beginning alone', file('int16-strips').slice(0, 8), 'source/damaged-file'],
    ['half a file', file('float64-strips').slice(0, 3000), 'source/damaged-file'],
    ['a first directory beyond the end', file('uint8-strips').with(4, 255).with(6, 255), 'source/damaged-file'],
  ])('%s', async (_, bytes, code) => {
    expect((await refused(bytes)).code).toBe(code);
  });

  test('a block that unpacks to more than it holds, and packings whose size cannot be known', async () => {
    const bomb = await refused(tinyTiff(8, new Uint8Array(deflateSync(new Uint8Array(64 << 20)))));
    expect(bomb.code).toBe('source/damaged-file');
    expect(bomb.message).toContain('unpack to more');
    const sound = await read(tinyTiff(8, new Uint8Array(deflateSync(Uint8Array.of(4, 3, 2, 1)))), { spacing: 500 });
    expect([...sound.made.heightsMm]).toEqual([2000, 1000, 4000, 3000]);
    expect((await refused(tinyTiff(50_000, Uint8Array.of(1, 2, 3)))).code).toBe('source/other-packing');
  });

  test('more posts than are taken in, before room is made for them', async () => {
    const bytes = file('uint8-strips').slice();
    const view = new DataView(bytes.buffer, bytes.byteOffset);
    for (const tag of [256, 257]) {
      const at = bytes.findIndex((_, i) => i > 8 && view.getUint16(Math.min(i, bytes.length - 2), true) === tag);
      view.setUint16(at + 2, 4, true);
      view.setUint32(at + 8, 400_000_000, true);
    }
    expect((await refused(bytes)).code).toBe('source/too-many-posts');
  });
});

/** 2 × 2 posts of 8 bits in one strip (TIFF 6.0, section 2), its bytes as given. */
function tinyTiff(packing: number, strip: Uint8Array): Uint8Array {
  const fields = [
    [256, 2],
    [257, 2],
    [258, 8],
    [259, packing],
    [262, 1],
    [273, 122],
    [277, 1],
    [278, 2],
    [279, strip.length],
  ];
  const bytes = new Uint8Array(122 + strip.length);
  const view = new DataView(bytes.buffer);
  bytes.set([0x49, 0x49, 42, 0, 8, 0, 0, 0, fields.length, 0]);
  fields.forEach(([tag, value], i) => {
    view.setUint16(10 + 12 * i, tag, true);
    view.setUint16(12 + 12 * i, 4, true);
    view.setUint32(14 + 12 * i, 1, true);
    view.setUint32(18 + 12 * i, value, true);
  });
  bytes.set(strip, 122);
  return bytes;
}
