import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CannotMake } from '../../src/findings.ts';
import { stream } from '../../src/geometry/random.ts';
import { boxOf, regionArea } from '../../src/geometry/ring.ts';
import { type Heightfield, isWhole } from '../../src/model/landform.ts';
import { readPoints } from '../../src/source/spot-heights/points.ts';
import { spotHeights } from '../../src/source/spot-heights.ts';
import { codes, refusal, runPlugin } from '../help/plugin-run.ts';

const bytes = (text: string | Uint8Array) => (typeof text === 'string' ? new TextEncoder().encode(text) : text);
const read = (text: string | Uint8Array, options: Record<string, unknown> = {}, unit: 'mm' | 'm' = 'mm') =>
  runPlugin<Heightfield>(spotHeights, new Map([['s.csv', bytes(text)]]), { file: 's.csv', ...options }, { unit });
const refused = (text: string | Uint8Array, options?: Record<string, unknown>) => refusal(() => read(text, options));
const points = (text: string | Uint8Array, wanted = {}) => {
  const { x, y, z } = readPoints(bytes(text), wanted, 's.csv');
  return [x, y, z].map((values) => [...values]);
};
const heightAt = ({ columns, stepXMm, stepYMm, heightsMm }: Heightfield, x: number, y: number) =>
  heightsMm[Math.round(y / stepYMm) * columns + Math.round(x / stepXMm)];

/** Four corners of a lopsided quadrilateral and two spots within, on the plane z = 5 + x / 8 − y / 16. */
const SPOTS = [
  [0, 40],
  [800, 0],
  [720, 560],
  [80, 480],
  [320, 160],
  [400, 400],
].map(([x, y]) => [x, y, 100 + x / 8 - y / 16] as const);
const CSV = `x,y,z\n${SPOTS.map((spot) => spot.join(',')).join('\n')}\n`;
const WANTED = [0, 1, 2].map((axis) => SPOTS.map((spot) => spot[axis]));

describe('the columns of a file', () => {
  const lines = (separator: string, write = (value: number) => String(value)) =>
    SPOTS.map((spot) => spot.map(write).join(separator)).join('\n');
  const comma = (value: number) => String(value).replace('.', ',');

  it.each([
    ['commas', CSV],
    ['semicolons and decimal commas', `X;Y;Z\n${lines(';', comma)}`],
    ['tabs and decimal commas', lines('\t', comma)],
    ['blanks, some of them many', `  ${lines('   ').replaceAll('\n', ' \n ')}`],
    ['blanks and decimal commas', lines(' ', comma)],
    ['commas with blanks', lines(' , ')],
    [
      'a byte order mark, returns, comments and empty lines',
      `\ufeff# survey\r\n\r\n${CSV.replaceAll('\n', '\r\n')}\r\n% end\r\n`,
    ],
    ['old line ends', CSV.replaceAll('\n', '\r')],
    ['quotes', CSV.replace(/^(\d+),/gm, '"$1",')],
    ['signs, exponents, bare points', CSV.replace('320,160', '+3.2e2,160.')],
    [
      'names in capitals, with units, in another order',
      `Height (mm),NORTHING [mm],Easting_\n${SPOTS.map(([x, y, z]) => `${z},${y},${x}`).join('\n')}`,
    ],
    [
      'point numbers, codes and remarks beside them',
      `pt;code;east;north;elev;remark\n${SPOTS.map(([x, y, z], i) => `A${i};GR;${x};${y};${z};"wall; old"`).join('\n')}`,
    ],
    ['a first column that counts, without a header', SPOTS.map((spot, i) => [101 + i, ...spot].join(' ')).join('\n')],
    ['a code behind, without a header', SPOTS.map((spot) => `${spot.join(',')},GRASS`).join('\n')],
  ])('are found: %s', (_, text) => {
    expect(points(text)).toEqual(WANTED);
  });

  it('are found in UTF-16 with a byte order mark', () => {
    const wide = new Uint8Array(2 + 2 * CSV.length);
    wide.set([0xff, 0xfe]);
    for (let i = 0; i < CSV.length; i++) wide[2 + 2 * i] = CSV.charCodeAt(i);
    expect(points(wide)).toEqual(WANTED);
  });

  it('are taken as the job says, by name or by number', () => {
    const text = `Rechts,Hoch,Tiefe,Höhe\n${SPOTS.map(([x, y, z]) => `${x},${y},0,${z}`).join('\n')}`;
    expect(points(text, { x: 'rechts', y: 2, z: 'HÖHE' })).toEqual(WANTED);
  });

  it('are told when taken by their order', () => {
    const counted = SPOTS.map((spot, i) => [i + 1, ...spot].join(' ')).join('\n');
    expect(codes(read(counted))).toEqual(['source/columns-taken']);
    expect(read(counted).findings[0].message).toContain('Columns 2, 3 and 4');
    expect(codes(read(CSV))).toEqual([]);
  });
});

describe('the ground', () => {
  it('stands on the hull of the spots, its box from (0, 0), and passes through them', () => {
    const { made } = read(CSV, { spacing: 40 });
    expect(boxOf(made.footprint[0])).toEqual([0, 0, 800, 560]);
    expect(made.footprint[0][0]).toHaveLength(8);
    expect([made.columns, made.rows, made.stepXMm, made.stepYMm]).toEqual([21, 15, 40, 40]);
    for (const [x, y, z] of SPOTS) expect(heightAt(made, x, y)).toBeCloseTo(z, 6);
  });

  it('stands on the rectangle, or inside an outline in the coordinates of the file', () => {
    expect(isWhole(read(CSV, { edge: 'rectangle' }).made)).toBe(true);
    const outline = [
      [200, 480],
      [600, 400],
      [640, 120],
      [160, 80],
    ];
    const { made } = read(CSV, { outline, spacing: 40 });
    expect(boxOf(made.footprint[0])).toEqual([0, 0, 480, 400]);
    // Clockwise as given; outer rings run the other way.
    expect(regionArea(made.footprint[0])).toBeGreaterThan(0);
    // Spots beyond the outline bear on it: the plane goes on.
    expect(heightAt(made, 240, 200)).toBeCloseTo(100 + 400 / 8 - 280 / 16, 6);
  });

  it('keeps the digits of survey coordinates, and reads metres', () => {
    const far = `n,e,h\n${SPOTS.map(([x, y, z]) => `${(5418220 + y / 1000).toFixed(4)},${(4187310 + x / 1000).toFixed(4)},${z / 1000}`).join('\n')}`;
    const near = read(CSV, { spacing: 40 }).made;
    const { made, findings } = read(far, { unit: 'm', spacing: 40 });
    expect(findings).toEqual([]);
    expect([made.columns, made.rows]).toEqual([near.columns, near.rows]);
    for (let i = 0; i < near.heightsMm.length; i++) {
      expect(Math.abs(made.heightsMm[i] - near.heightsMm[i])).toBeLessThan(1e-3);
    }
  });

  it('has at most the spacing between posts, and 200 steps along its longer side when nothing is said', () => {
    const { made } = read(CSV, { spacing: 33 });
    expect(made.stepXMm).toBeLessThanOrEqual(33);
    expect((made.columns - 1) * made.stepXMm).toBeCloseTo(800, 9);
    expect(read(CSV).made.columns).toBe(201);
  });
});

describe('what is told', () => {
  it('spots given twice, and what was taken where their heights differ', () => {
    const same = read(`${CSV}320,160,${SPOTS[4][2]}\n`);
    expect(same.findings.map(({ code, where }) => [code, where.line])).toEqual([['source/spots-repeated', 8]]);
    const differ = read(`${CSV}320.05,160,${SPOTS[4][2] + 20}\n`, { spacing: 20 });
    expect(differ.findings.map(({ code, level, where }) => [code, level, where.line])).toEqual([
      ['source/spots-differ', 'watch', 8],
    ]);
    expect(differ.findings[0].message).toContain('Lines 6, 8');
    expect(heightAt(differ.made, 320, 160)).toBeCloseTo(SPOTS[4][2] + 10, 1);
  });

  const field = (bad: number) => {
    const next = stream(7, 'field', 0);
    const rows = Array.from({ length: 90 }, (_, i) => {
      const [x, y] = [60 * (i % 10) + 40 * next(), 55 * Math.floor(i / 10) + 40 * next()];
      return `${x.toFixed(2)},${y.toFixed(2)},${(200 + 0.1 * x + 30 * Math.sin(x / 150) * Math.cos(y / 120) + (i === 44 ? bad : 0)).toFixed(2)}`;
    });
    return rows.join('\n');
  };

  it('a slip of the pen, where it lies, and keeps it', () => {
    expect(codes(read(field(0)))).toEqual([]);
    const { findings, made } = read(field(-400));
    expect(findings.map(({ code, where }) => [code, where.line])).toEqual([['source/outlier', 45]]);
    expect(Math.min(...made.heightsMm)).toBeLessThan(-100);
  });

  it('spots that posts cannot follow, with a spacing that can', () => {
    const crowd = '400,300,100\n401,300,160\n400,301,90\n401,301,190\n400.5,300.5,60\n402,300,120\n';
    const first = read(CSV + crowd, { spacing: 60 });
    expect(codes(first)).toContain('source/spots-missed');
    const spacing = Number(/spacing of ([\d.]+) mm/.exec(first.findings.at(-1)?.fix ?? '')?.[1]);
    expect(spacing).toBeGreaterThan(0.1);
    const outline = [
      [395, 295],
      [406, 295],
      [406, 306],
      [395, 306],
    ];
    expect(codes(read(CSV + crowd, { spacing, outline, edge: 'hull' }))).not.toContain('source/spots-missed');
  });
});

describe('what is refused', () => {
  it.each([
    ['an empty file', '', 'source/no-spots', undefined],
    ['comments alone', '# x,y,z\n\n', 'source/no-spots', undefined],
    ['a header alone', 'x,y,z\n', 'source/no-spots', undefined],
    ['words', 'lorem ipsum\ndolor sit\n', 'source/too-few-columns', 1],
    ['two columns', '1,2\n3,4\n5,6\n', 'source/too-few-columns', 1],
    ['a short line', 'x,y,z\n1,2,3\n4,5\n', 'source/too-few-columns', 3],
    ['a word for a number', '1,2,3\n4,5,six\n7,8,9\n', 'source/not-a-number', 2],
    ['nothing for a number', 'x,y,z\n1,2,3\n4,,6\n7,8,9\n', 'source/not-a-number', 3],
    ['an infinite number', 'x,y,z\n1,2,3\n4,5,Infinity\n', 'source/not-a-number', 3],
    ['a number beyond all', 'x,y,z\n1,2,3\n4,5,1e999\n', 'source/not-a-number', 3],
    ['a quote that never ends', 'x,y,z\n1,2,3\n"4,5,6\n7,8,9\n', 'source/open-quote', 3],
    ['a quote that swallows the file', `x,y,z\n1,2,3\n"${'4,5,6\n'.repeat(5000)}`, 'source/long-line', 3],
    ['zero bytes', 'x,y,z\n1,2,3\n\0\0\0', 'source/not-text', 3],
    ['names that say nothing', 'a,b,c,d\n1,2,3,4\n5,6,7,8\n', 'source/columns', 1],
    ['some names that do', 'x,b,c\n1,2,3\n5,6,7\n', 'source/columns', 1],
    ['a name twice', 'x,y,z,z\n1,2,3,4\n', 'source/column-twice', 1],
    ['degrees of arc', 'lat,lon,height\n51.1,7.2,3\n', 'source/degrees', 1],
    ['one spot', '1,2,3\n', 'source/no-area', undefined],
    ['all in one place', '1,2,3\n1,2,3\n1,2,3\n', 'source/no-area', undefined],
    ['all on one line', '1,2,3\n2,4,9\n4,8,3\n', 'source/no-area', undefined],
    ['a slip of a million', '1,2,3\n2,4e12,9\n4,8,3\n', 'source/too-wide', undefined],
  ])('%s', (_, text, code, line) => {
    const fault = refused(text);
    expect([fault.code, fault.where.file, fault.where.line]).toEqual([code, 's.csv', line]);
    expect(fault.fix).not.toBe('');
  });

  it.each([
    ['columns that are not there', { columns: { z: 'depth' } }, 'source/no-column'],
    ['one column for two', { columns: { x: 1, y: 1 } }, 'source/same-column'],
    [
      'an outline that crosses itself',
      {
        outline: [
          [0, 0],
          [9, 9],
          [9, 0],
          [0, 7],
        ],
      },
      'source/outline-crosses',
    ],
    [
      'an outline without area',
      {
        outline: [
          [0, 0],
          [9, 9],
          [9, 9],
        ],
      },
      'source/no-area',
    ],
    ['posts without number', { spacing: 0.1 }, 'source/too-many-posts'],
  ])('%s', (_, options, code) => {
    expect(refused(CSV, options).code).toBe(code);
  });

  it('more spots than are taken, with the line', () => {
    const fault = refused('1,2,3\n'.repeat(200_001));
    expect([fault.code, fault.where.line]).toEqual(['source/too-many-spots', 200_001]);
  });

  it('spots on one line become a plane that is level across it, where an outline says so', () => {
    const { made } = read('100,0,10\n200,0,30\n300,0,50\n', {
      outline: [
        [100, -50],
        [300, -50],
        [300, 90],
        [100, 90],
      ],
      spacing: 20,
    });
    expect(heightAt(made, 0, 0)).toBeCloseTo(10, 6);
    expect(heightAt(made, 200, 140)).toBeCloseTo(50, 6);
  });
});

describe('any bytes', () => {
  const survey = new Uint8Array(readFileSync(new URL('../../samples/play-hill/survey.csv', import.meta.url)));
  const survives = (input: Uint8Array, options = {}) => {
    try {
      const { made } = read(input, { spacing: '1 m', ...options }, 'm');
      expect(made.heightsMm.every(Number.isFinite)).toBe(true);
    } catch (error) {
      if (!(error instanceof CannotMake)) throw error;
      expect(error.faults[0].code).toMatch(/^source\//);
    }
  };

  it('end in ground or in a refusal: a survey with bytes flipped', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.nat(survey.length - 1), fc.nat(255)), { minLength: 1, maxLength: 6 }),
        (flips) => {
          const bad = survey.slice(0, 1500);
          for (const [at, byte] of flips) bad[at % bad.length] = byte;
          survives(bad);
        },
      ),
      { numRuns: 120, seed: 4 },
    );
  });

  it('end in ground or in a refusal: texts of numbers, quotes and separators', () => {
    const word = fc.constantFrom(
      '1',
      '-2.5',
      '3,25',
      '1e3',
      '"',
      ',',
      ';',
      '\t',
      ' ',
      '\n',
      '\r\n',
      '#',
      'x',
      'z',
      '\u0000',
      'é',
    );
    fc.assert(
      fc.property(fc.array(word, { maxLength: 60 }), (words) => survives(bytes(words.join('')))),
      { numRuns: 120, seed: 5 },
    );
  });
});
