import { deflateSync } from 'node:zlib';
import { encode } from 'fast-png';
import { describe, expect, it } from 'vitest';
import { CannotMake } from '../../src/findings.ts';
import { stream } from '../../src/geometry/random.ts';
import { extent, type Heightfield, isWhole } from '../../src/model/landform.ts';
import { heightImage } from '../../src/source/height-image.ts';
import { codes, refusal, runPlugin } from '../help/plugin-run.ts';

type Image = Parameters<typeof encode>[0];
const grey = (width: number, data: ArrayLike<number>, depth: 8 | 16 = 8, channels = 1): Image => ({
  width,
  height: data.length / width / channels,
  data: depth === 16 ? Uint16Array.from(data) : Uint8Array.from(data),
  depth,
  channels,
});
const options = { file: 'g.png', low: 0, high: 255, size: [30, 40] };
const read = (file: Uint8Array, more: Record<string, unknown> = {}) =>
  runPlugin<Heightfield>(heightImage, new Map([['g.png', file]]), { ...options, ...more });
const refused = (file: Uint8Array, more?: Record<string, unknown>) => refusal(() => read(file, more));

// Rows from the north: the first pixel is the north-west post.
const PIXELS = [31, 250, 33, 34, 21, 22, 0, 24, 11, 255, 13, 14];
const SOUTH_FIRST = [11, 255, 13, 14, 21, 22, 0, 24, 31, 250, 33, 34];

describe('reading', () => {
  it('reads 8 bits exactly, north up, post to post', () => {
    const { made, findings } = read(encode(grey(4, PIXELS)));
    expect([...made.heightsMm]).toEqual(SOUTH_FIRST);
    expect([made.columns, made.rows, made.stepXMm, made.stepYMm]).toEqual([4, 3, 10, 20]);
    expect(extent(made)).toEqual({ box: [0, 0, 30, 40], lowMm: 0, highMm: 255 });
    expect(isWhole(made)).toBe(true);
    expect(findings.map(({ code }) => code)).toEqual(['source/stretched']);
  });

  it('reads every 16 bit value exactly, and the ends of the range to the digit', () => {
    const values = Array.from({ length: 35 }, (_, i) => (i * 1931 + 7) % 65536);
    values[3] = 65535;
    values[17] = 0;
    const { made } = read(encode(grey(7, values, 16)), { low: 12.1, high: 620.3, size: [60, 40] });
    for (let i = 0; i < 35; i++) {
      const post = (4 - Math.floor(i / 7)) * 7 + (i % 7);
      expect(made.heightsMm[post]).toBeCloseTo(12.1 + (608.2 * values[i]) / 65535, 6);
    }
    expect(extent(made)).toMatchObject({ lowMm: 12.1, highMm: 620.3 });
  });

  it('turns upside down when low is above high', () => {
    const { made } = read(encode(grey(4, PIXELS)), { low: 255, high: 0 });
    expect([...made.heightsMm]).toEqual(SOUTH_FIRST.map((value) => 255 - value));
  });

  it('reads an interlaced image as the same image', () => {
    const values = Array.from({ length: 99 }, (_, i) => (i * 7919) % 65536);
    const more = { size: [100, 80] };
    const plain = read(encode(grey(11, values, 16)), more).made;
    expect(read(encode(grey(11, values, 16), { interlace: 'Adam7' }), more).made).toEqual(plain);
  });

  it.each([
    ['grey with full alpha', 2, (value: number) => [value, 255]],
    ['colours that are greys', 3, (value: number) => [value, value, value]],
    ['such colours with full alpha', 4, (value: number) => [value, value, value, 255]],
  ])('takes %s', (_, channels, pixel) => {
    expect([...read(encode(grey(4, PIXELS.flatMap(pixel), 8, channels))).made.heightsMm]).toEqual(SOUTH_FIRST);
  });

  it('unpacks 1, 2 and 4 bits, the largest value standing for high', () => {
    for (const depth of [1, 2, 4]) {
      const most = (1 << depth) - 1;
      const samples = Array.from({ length: 15 }, (_, i) => (i * 5 + (i >> 2)) & most);
      const { made } = read(packed(5, samples, depth, 0), { high: 90, size: [40, 20] });
      const wanted = [2, 1, 0]
        .flatMap((row) => samples.slice(row * 5, row * 5 + 5))
        .map((value) => (value * 90) / most);
      for (let i = 0; i < 15; i++) expect(made.heightsMm[i]).toBeCloseTo(wanted[i], 6);
    }
  });

  it('looks a palette of greys up, 0 to 255 whatever its bits', () => {
    const { made } = read(packed(2, [0, 3, 1, 2], 2, 3, [7, 7, 7, 90, 90, 90, 200, 200, 200, 255, 255, 255]), {
      size: [9, 9],
    });
    expect([...made.heightsMm]).toEqual([90, 200, 7, 255]);
  });

  it('passes over notes and colour profiles, even broken ones', () => {
    const image = encode(grey(4, PIXELS));
    const note = chunk('iCCP', [1, 2, 3]);
    expect([...read(Uint8Array.from([...image.slice(0, 33), ...note, ...image.slice(33)])).made.heightsMm]).toEqual(
      SOUTH_FIRST,
    );
  });

  it('tells of coarse levels, not of fine ones', () => {
    expect(codes(read(encode(grey(4, PIXELS)), { high: 900, size: [30, 20] }))).toEqual(['source/coarse-levels']);
    expect(codes(read(encode(grey(4, PIXELS, 16)), { high: 900, size: [30, 20] }))).toEqual([]);
  });
});

describe('clear pixels', () => {
  // A clear pixel in row 1 from the north, column 2: the four cells that it touches have no ground.
  const alpha = PIXELS.flatMap((value, i) => [value, i === 6 ? 0 : 255]);
  it('have no height: the cells that they touch are no ground', () => {
    const { made, findings } = read(encode(grey(4, alpha, 8, 2)));
    expect(findings.map(({ code }) => code)).toContain('source/no-data');
    const [west, east] = [made.footprint.length, made.columns];
    expect([west, east]).toEqual([1, 2]);
    expect(Math.min(...made.heightsMm)).toBeGreaterThan(0);
  });
  it('are filled from their rim where the job says so', () => {
    const { made } = read(encode(grey(4, alpha, 8, 2)), { noData: 'fill' });
    expect(made.columns).toBe(4);
    const [filled, sound] = [made.heightsMm[6], read(encode(grey(4, PIXELS))).made.heightsMm];
    expect(filled).toBeCloseTo((sound[2] + sound[5] + sound[7] + sound[10]) / 4, 4);
  });
});

describe('refusing', () => {
  const good = encode(grey(4, PIXELS));
  it.each<[string, Uint8Array, string, string]>([
    ['nothing', new Uint8Array(0), 'source/empty-file', 'empty'],
    ['a JPEG', Uint8Array.from([0xff, 0xd8, 0xff, 0xe0, 1, 2, 3, 4]), 'source/not-png', 'a JPEG image'],
    ['a TIFF', Uint8Array.from([0x49, 0x49, 0x2a, 0, 8, 0, 0, 0]), 'source/not-png', 'a TIFF image'],
    ['a text', new TextEncoder().encode('ncols 4'), 'source/not-png', 'plain text'],
    ['a single row', encode(grey(4, [1, 2, 3, 4])), 'source/too-few-posts', '4 × 1'],
    ['a single pixel', encode(grey(1, [9])), 'source/too-few-posts', '1 × 1'],
    ['a signature alone', good.slice(0, 8), 'source/broken-image', 'cut off'],
    ['half a file', good.slice(0, 50), 'source/broken-image', 'cut off'],
    ['a file without its end', good.slice(0, good.length - 5), 'source/broken-image', 'cut off'],
    ['colours', encode(grey(2, [1, 1, 1, 2, 2, 2, 3, 4, 3, 5, 5, 5], 8, 3)), 'source/in-colour', 'column 1 of row 2'],
    [
      'pixels that are see-through',
      encode(grey(2, [1, 255, 2, 255, 3, 9, 4, 255], 8, 2)),
      'source/see-through',
      'seen through in part',
    ],
    [
      'a palette of colours',
      packed(2, [0, 1, 0, 1], 1, 3, [7, 7, 7, 9, 0, 0]),
      'source/in-colour',
      'column 2 of row 1',
    ],
    [
      'a palette that lacks a colour',
      packed(2, [0, 1, 2, 1], 2, 3, [7, 7, 7, 9, 9, 9]),
      'source/broken-image',
      'damaged',
    ],
    [
      'a size past all, before any room is taken',
      withSize(good, 200_000, 200_000),
      'source/too-many-posts',
      '200000 × 200000',
    ],
    ['more pixels than the bytes can hold', withSize(good, 9000, 9000), 'source/broken-image', 'cut off'],
  ])('%s', (_, file, code, part) => {
    const fault = refused(file);
    expect(fault.code).toBe(code);
    expect(fault.message).toContain(part);
    expect(fault.fix.length).toBeGreaterThan(8);
  });

  it('a range of nothing, and a file that was not given', () => {
    expect(refused(good, { low: 40, high: '4 cm' }).code).toBe('source/flat');
    expect(refusal(() => runPlugin(heightImage, new Map(), options)).code).toBe('source/empty-file');
  });
});

it('meets flipped bytes with heights or a refusal, never anything else, seed 23', () => {
  const good = encode(
    grey(
      12,
      Array.from({ length: 108 }, (_, i) => (i * 607) % 65536),
      16,
    ),
  );
  const random = stream(23, 'flips');
  let refusals = 0;
  for (let variant = 0; variant < 120; variant++) {
    const bad = good.slice(0, variant % 6 === 0 ? Math.floor(random() * good.length) : good.length);
    // Every fourth mends the header's sum after the flip, so that what stands behind it is tried too.
    const inHeader = variant % 4 === 1;
    bad[inHeader ? 16 + Math.floor(random() * 13) : Math.floor(random() * bad.length)] = Math.floor(random() * 256);
    try {
      expect([...read(inHeader ? mended(bad) : bad).made.heightsMm].every(Number.isFinite)).toBe(true);
    } catch (error) {
      expect(error).toBeInstanceOf(CannotMake);
      refusals++;
    }
  }
  expect(refusals).toBeGreaterThan(60);
});

/** CRC-32 as in the PNG specification, annex D. */
function crc(bytes: ArrayLike<number>): number {
  let c = 0xffffffff;
  for (let i = 0; i < bytes.length; i++) {
    c ^= bytes[i];
    for (let bit = 0; bit < 8; bit++) c = c & 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1;
  }
  return ~c >>> 0;
}

function chunk(name: string, body: readonly number[]): number[] {
  const named = [...new TextEncoder().encode(name), ...body];
  return [...word(body.length), ...named, ...word(crc(named))];
}

function word(value: number): number[] {
  return [value >>> 24, (value >>> 16) & 255, (value >>> 8) & 255, value & 255];
}

it('does not unpack pixels beyond the size that the image says', () => {
  // Node's zlib packs; 64 MB where two rows of two pixels are promised.
  const file = Uint8Array.from([
    ...[137, 80, 78, 71, 13, 10, 26, 10],
    ...chunk('IHDR', [...word(2), ...word(2), 8, 0, 0, 0, 0]),
    ...chunk('IDAT', [...deflateSync(new Uint8Array(64 << 20))]),
    ...chunk('IEND', []),
  ]);
  const fault = refused(file);
  expect([fault.code, fault.where.file]).toEqual(['source/broken-image', 'g.png']);
  expect(fault.message).toContain('more pixels');
});

/** A PNG of few bits a pixel, which the library does not write: its pixels stored without shrinking (RFC 1950, 1951). */
function packed(
  width: number,
  samples: readonly number[],
  depth: number,
  colour: 0 | 3,
  palette: readonly number[] = [],
): Uint8Array {
  const raw: number[] = [];
  const height = samples.length / width;
  for (let row = 0; row < height; row++) {
    const line = new Array<number>(Math.ceil((width * depth) / 8)).fill(0);
    for (let x = 0; x < width; x++) {
      line[Math.floor((x * depth) / 8)] |= samples[row * width + x] << (8 - depth - ((x * depth) % 8));
    }
    raw.push(0, ...line);
  }
  let [a, b] = [1, 0];
  for (const byte of raw) [a, b] = [(a + byte) % 65521, (b + a + byte) % 65521];
  const stored = [0x78, 1, 1, raw.length & 255, raw.length >> 8, ~raw.length & 255, (~raw.length >> 8) & 255, ...raw];
  return Uint8Array.from([
    ...[137, 80, 78, 71, 13, 10, 26, 10],
    ...chunk('IHDR', [...word(width), ...word(height), depth, colour, 0, 0, 0]),
    ...(palette.length > 0 ? chunk('PLTE', palette) : []),
    ...chunk('IDAT', [...stored, b >> 8, b & 255, a >> 8, a & 255]),
    ...chunk('IEND', []),
  ]);
}

function mended(png: Uint8Array): Uint8Array {
  const copy = png.slice();
  if (copy.length >= 33) copy.set(word(crc(copy.subarray(12, 29))), 29);
  return copy;
}

function withSize(png: Uint8Array, width: number, height: number): Uint8Array {
  const copy = png.slice();
  copy.set([...word(width), ...word(height)], 16);
  return mended(copy);
}
