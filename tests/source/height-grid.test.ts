import { describe, expect, it } from 'vitest';
import { CannotMake } from '../../src/findings.ts';
import { stream } from '../../src/geometry/random.ts';
import { areaOf, ringsOf } from '../../src/geometry/ring.ts';
import { groundOf, groundRange } from '../../src/model/ground.ts';
import { extent, type Heightfield, isWhole } from '../../src/model/landform.ts';
import { heightGrid } from '../../src/source/height-grid.ts';
import { codes, refusal, runPlugin } from '../help/plugin-run.ts';
import { volcano } from '../help/volcano.ts';

const bytes = (text: string) => new TextEncoder().encode(text);
const read = (text: string | Uint8Array, options: Record<string, unknown> = {}, unit: 'mm' | 'cm' | 'm' = 'mm') =>
  runPlugin<Heightfield>(
    heightGrid,
    new Map([['g.asc', typeof text === 'string' ? bytes(text) : text]]),
    { file: 'g.asc', ...options },
    { unit },
  );
const refused = (text: string | Uint8Array, options?: Record<string, unknown>) => refusal(() => read(text, options));

const HEAD = 'ncols 4\nnrows 3\nxllcorner 1750000\nyllcorner 5900000\ncellsize 25\nNODATA_value -9999\n';
const ROWS = '31 32 33 34\n21 22 23 24\n11 12 13 14.5\n';

describe('reading', () => {
  it('puts the last row south, the first column west, the south-west post at (0, 0)', () => {
    const { made, findings } = read(HEAD + ROWS);
    expect(findings).toEqual([]);
    expect([made.columns, made.rows, made.stepXMm, made.stepYMm, ...made.originMm]).toEqual([4, 3, 25, 25, 0, 0]);
    expect([...made.heightsMm]).toEqual([11, 12, 13, 14.5, 21, 22, 23, 24, 31, 32, 33, 34]);
    expect(isWhole(made)).toBe(true);
  });

  it.each([
    ['keys in any case and order', 'NROWS 3\nCellSize 25\nNcOlS 4\nXLLCENTER 1\nyllcenter 2\n', ROWS],
    [
      'tabs, returns, blank lines and a byte order mark',
      `\ufeff${HEAD.replaceAll(' ', '\t').replaceAll('\n', '\r\n')}`,
      `\r\n${ROWS.replaceAll('\n', '\r\n')}\r\n`,
    ],
    ['old line ends', HEAD.replaceAll('\n', '\r'), ROWS.replaceAll('\n', '\r')],
    ['no last line end, leading blanks', HEAD, ` ${ROWS.trimEnd().replaceAll('\n', '\n  ')}`],
    ['rows wrapped where they like', HEAD, '31 32 33\n34 21 22 23 24 11\n12\n13 14.5'],
    ['semicolons', HEAD, ROWS.replaceAll(' ', '; ')],
    ['exponents, signs, long digits', HEAD, '3.1e1 +32 33.0 340E-1\n21 22.000000000000000000 23 24\n11 12 13 014.5'],
  ])('takes %s', (_, head, rows) => {
    expect([...read(head + rows).made.heightsMm]).toEqual([11, 12, 13, 14.5, 21, 22, 23, 24, 31, 32, 33, 34]);
  });

  it('takes bare rows with a spacing of their own, commas and all', () => {
    const { made } = read('5,7,9\n1,2,4\n', { spacing: [20, '3.5 cm'] });
    expect([made.stepXMm, made.stepYMm]).toEqual([20, 35]);
    expect([...made.heightsMm]).toEqual([1, 2, 4, 5, 7, 9]);
  });

  it('counts heights and spacing alike: in the job unit, or in the one that is said', () => {
    const inCm = read(HEAD + ROWS, {}, 'cm').made;
    expect([inCm.stepXMm, inCm.heightsMm[3]]).toEqual([250, 145]);
    const inM = read(HEAD + ROWS, { unit: 'm' }, 'cm').made;
    expect([inM.stepXMm, inM.heightsMm[3]]).toEqual([25000, 14500]);
  });

  it('takes dx and dy, and a spacing that wins over them', () => {
    const text = HEAD.replace('cellsize 25', 'dx 20\ndy 35') + ROWS;
    expect([read(text).made.stepXMm, read(text).made.stepYMm]).toEqual([20, 35]);
    expect(read(text, { spacing: 8 }).made.stepYMm).toBe(8);
  });

  it('reads every number as the language does, seed 31', () => {
    const random = stream(31, 'numbers');
    const words = Array.from({ length: 600 }, (_, i) => {
      const value = (random() - 0.5) * [1, 1e3, 1e7, 1e-5][i % 4];
      return [value.toString(), value.toFixed(i % 9), value.toExponential(i % 15)][i % 3];
    });
    const text = Array.from({ length: 30 }, (_, row) => words.slice(row * 20, row * 20 + 20).join(' ')).join('\n');
    const { made } = read(text, { spacing: 1, unit: 'cm' });
    const wanted = words.map((word) => Math.round(Number(word) * 10 * 1e7) / 1e7 + 0);
    for (let row = 0; row < 30; row++) {
      expect([...made.heightsMm.subarray(row * 20, row * 20 + 20)]).toEqual(
        wanted.slice((29 - row) * 20, (30 - row) * 20),
      );
    }
  });

  it('reads the real ground of a volcano: 860 × 600 m, 94 to 195 m', () => {
    const { columns, rows, heightsM } = volcano();
    const lines = Array.from({ length: rows }, (_, row) =>
      heightsM.slice(row * columns, (row + 1) * columns).join(' '),
    );
    const text = `ncols ${columns}\nnrows ${rows}\nxllcorner 0\nyllcorner 0\ncellsize 10\n${lines.join('\n')}\n`;
    const { made } = read(text, { unit: 'm' });
    expect(extent(made)).toEqual({ box: [0, 0, 860_000, 600_000], lowMm: 94_000, highMm: 195_000 });
    expect(made.heightsMm[0]).toBe(heightsM[(rows - 1) * columns] * 1000);
    expect(made.heightsMm[rows * columns - 1]).toBe(heightsM[columns - 1] * 1000);
  });
});

describe('posts without data', () => {
  // North-west corner missing, a hole east of the middle, the south row missing from the west.
  const HOLED = `ncols 6\nnrows 5\nxllcorner 0\nyllcorner 0\ncellsize 10\nNODATA_value -1
-1 52 53 54 55 56
41 42 43 44 45 46
31 32 33 -1 35 36
21 22 23 24 25 26
-1 -1 13 14 15 16`;

  it('leaves out every cell that they touch, exactly on the grid lines', () => {
    const { made, findings } = read(HOLED);
    expect(findings.map(({ code }) => code)).toEqual(['source/no-data']);
    // 20 cells, less one in the corner, two in the south-west and four round the hole.
    expect(areaOf(made.footprint)).toBe(13 * 100);
    expect(made.footprint.length).toBe(1);
    expect(made.footprint[0].length).toBe(2);
    expect(extent(made).box).toEqual([0, 0, 50, 40]);
    for (const ring of ringsOf(made.footprint)) expect(ring.every((value) => value % 10 === 0)).toBe(true);
    expect([...made.heightsMm].every(Number.isFinite)).toBe(true);
    expect(extent(made)).toMatchObject({ lowMm: 13, highMm: 56 });
  });

  it('crops to what is ground, so that it starts at (0, 0), and lets no lone post count', () => {
    const text = `ncols 5\nnrows 4\ncellsize 7\n900 -9999 -9999 -9999 -9999\n-9999 -9999 61 72 -9999\n-9999 -9999 53 84 95\n-9999 -9999 -9999 -9999 2`;
    const { made } = read(text);
    expect([made.columns, made.rows]).toEqual([2, 2]);
    expect([...made.heightsMm]).toEqual([53, 84, 61, 72]);
    expect(isWhole(made)).toBe(true);
    expect(groundRange(made)).toMatchObject({ lowMm: 53, highMm: 84 });
  });

  it('fills them when asked: from the rim, within its range, and a plane stays a plane', () => {
    const plane = (x: number, y: number) => 40 + 3 * x - 2 * y;
    const line = (y: number) =>
      Array.from({ length: 9 }, (_, x) => ((x - 4) ** 2 + (y - 3) ** 2 < 5 ? -9999 : plane(x, y))).join(' ');
    const { made, findings } = read(Array.from({ length: 8 }, (_, y) => line(7 - y)).join('\n'), {
      spacing: 10,
      noData: 'fill',
    });
    expect(findings.map(({ code }) => code)).toEqual(['source/no-data']);
    expect(isWhole(made)).toBe(true);
    for (let y = 0; y < 8; y++)
      for (let x = 0; x < 9; x++) expect(made.heightsMm[y * 9 + x]).toBeCloseTo(plane(x, y), 3);
  });

  it('knows a mark that went through single precision', () => {
    const text = `${HEAD.replace('-9999', '-3.4028234663852886e+38')}31 -3.40282346639e+38 33 34\n21 22 23 24\n11 12 13 14`;
    expect(areaOf(read(text).made.footprint)).toBe(4 * 625);
  });

  it('keeps cells apart that touch at a corner, so that the volume adds up', () => {
    const { made } = read(`-9999 -9999 33 34\n-9999 22 23 24\n11 12 13 -9999\n1 2 -9999 -9999`, { spacing: 10 });
    expect(made.footprint.length).toBe(3);
    expect(groundOf(made).planAreaMm2).toBeCloseTo(areaOf(made.footprint), 9);
    expect(groundOf(made).volumeMm3).toBeCloseTo(
      100 * ((11 + 12 + 1 + 2) / 4 + (22 + 23 + 12 + 13) / 4 + (33 + 34 + 23 + 24) / 4),
      6,
    );
  });
});

describe('refusing', () => {
  it.each<[string, string | Uint8Array, string, Record<string, unknown>?]>([
    ['nothing', '', 'source/empty-file'],
    ['a PNG', Uint8Array.from([137, 80, 78, 71, 13, 10, 26, 10, 0]), 'source/not-text'],
    ['UTF-16', Uint8Array.from([255, 254, 110, 0]), 'source/not-text'],
    ['a web page', '<html>not found</html>', 'source/not-text'],
    ['a strange word in the header', `colour 3\n${HEAD}${ROWS}`, 'source/grid-header'],
    ['a word said twice', `ncols 4\n${HEAD}${ROWS}`, 'source/grid-header'],
    ['a missing word', HEAD.replace('nrows 3\n', '') + ROWS, 'source/grid-header'],
    ['half a row', HEAD.replace('ncols 4', 'ncols 4.5') + ROWS, 'source/too-few-posts'],
    ['a single column', `ncols 1\nnrows 3\ncellsize 5\n1\n2\n3`, 'source/too-few-posts'],
    ['no cell size', HEAD.replace('25', '0') + ROWS, 'source/spacing'],
    ['more posts than are taken in', HEAD.replace('ncols 4', 'ncols 400000000') + ROWS, 'source/too-many-posts'],
    [
      'a header that promises what the file cannot hold',
      HEAD.replace('nrows 3', 'nrows 300000') + ROWS,
      'source/too-few-numbers',
    ],
    ['a number too few', HEAD + ROWS.replace(' 14.5', '').replace('31 ', '31 9 '), 'source/ragged-row'],
    ['a row too many', `${HEAD}${ROWS}1 2 3 4`, 'source/too-many-numbers'],
    ['a row too few', HEAD + ROWS.slice(0, 24), 'source/too-few-numbers'],
    ['a word among the numbers', HEAD + ROWS.replace('23', 'twenty'), 'source/not-a-number'],
    ['nan', HEAD + ROWS.replace('31', 'nan'), 'source/not-a-number'],
    ['infinity', HEAD + ROWS.replace('23', '-inf'), 'source/not-a-number'],
    ['a number past any', HEAD + ROWS.replace('23', '1e999'), 'source/not-a-number'],
    ['a height past any ground', HEAD + ROWS.replace('23', '1e300'), 'source/no-height'],
    ['no data anywhere', HEAD + '-9999 '.repeat(12), 'source/no-heights'],
    ['no cell with four heights', `1 -9999 3\n-9999 5 -9999`, 'source/no-ground', { spacing: 5 }],
    ['bare rows without a spacing', ROWS, 'source/no-spacing'],
    ['a spacing of nothing', ROWS, 'source/spacing', { spacing: [0, 5] }],
    ['a decimal comma', `1,5 2,5\n3,5 4,5`, 'source/separators', { spacing: 5 }],
    ['an empty place', `1,,3\n4,5,6`, 'source/not-a-number', { spacing: 5 }],
  ])('%s', (_, text, code, options) => {
    const fault = refused(text, options);
    expect(fault.code).toBe(code);
    expect(fault.fix.length).toBeGreaterThan(8);
  });

  it('names row, line and column', () => {
    expect(refused(HEAD + ROWS.replace('23', 'x7')).where).toEqual({ file: 'g.asc', line: 8, column: 7 });
    const ragged = refused(HEAD + ROWS.replace('23 ', ''));
    expect(ragged.where).toEqual({ file: 'g.asc', line: 8 });
    expect(ragged.message).toContain('Row 2 holds 3 numbers; 4 are wanted');
  });

  it('watches for degrees, unless a spacing is given', () => {
    const text = `ncols 4\nnrows 3\nxllcorner -3.2\nyllcorner 54.4\ncellsize 0.000277\n${ROWS}`;
    expect(codes(read(text))).toEqual(['source/degrees']);
    expect(codes(read(text, { spacing: 30 }))).toEqual([]);
    expect(codes(read(HEAD + ROWS))).toEqual([]);
  });
});

it('meets flipped bytes with heights or a refusal, never anything else, seed 17', () => {
  const good = bytes(`${HEAD.replace('-9999', '-1')}31 32 33 34\n21 -1 23 24\n11 12 13 14.5\n`);
  const random = stream(17, 'flips');
  let refusals = 0;
  for (let variant = 0; variant < 120; variant++) {
    const bad = good.slice(0, variant % 5 === 0 ? Math.floor(random() * good.length) : good.length);
    for (let flip = 0; flip <= variant % 3; flip++) bad[Math.floor(random() * bad.length)] = Math.floor(random() * 256);
    try {
      expect([...read(bad).made.heightsMm].every(Number.isFinite)).toBe(true);
    } catch (error) {
      expect(error).toBeInstanceOf(CannotMake);
      refusals++;
    }
  }
  expect(refusals).toBeGreaterThan(30);
});
