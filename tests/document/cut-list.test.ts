import { parse } from 'csv-parse/sync';
import { describe, expect, test } from 'vitest';
import { cutList } from '../../src/document/cut-list.ts';
import { boxOf } from '../../src/geometry/ring.ts';
import type { OutputFile, Plan } from '../../src/model/plan.ts';
import { smallPlan } from '../help/small-plan.ts';

type Row = Record<string, string>;

const made = (plan: Plan): OutputFile => (cutList.run(plan, {}, {} as never) as OutputFile[])[0];
const rows = (plan: Plan): Row[] => parse(made(plan).body as string, { bom: true, columns: true });

/** Every board under another name. */
const renamed = (stock: string): Plan => {
  const plan = smallPlan();
  return { ...plan, boards: plan.boards.map((board) => ({ ...board, stock })) };
};

describe('cut-list.csv', () => {
  test('has a row for each piece, in their order, with what is wanted of it', () => {
    const plan = smallPlan();
    const list = rows(plan);
    expect(list.map(({ piece }) => piece)).toEqual(['1A', '1C', '1D', '2A', '2C', '2D']);
    expect(list.map((row) => row['of the layer'])).toEqual([
      '1 of 3',
      '2 of 3',
      '3 of 3',
      '1 of 3',
      '2 of 3',
      '3 of 3',
    ]);
    expect(list.map(({ board, stock }) => `${board} ${stock}`)).toEqual([
      '1 EPS 70',
      '1 EPS 70',
      '1 EPS 70',
      '2 kept K3',
      '1 EPS 70',
      '2 kept K3',
    ]);
    expect(list.map(({ joints }) => joints)).toEqual(['1/A', '1/A', '', '2/A', '2/A', '']);
    expect(list.map(({ pins }) => Number(pins))).toEqual(plan.pieces.map(({ pins }) => pins.length));
    // Each pin where its upper end is.
    expect(list.map((row) => row['pins driven from its top (mm)'])).toEqual(['', '', '', '60 60', '', '60']);
  });

  test('adds up to the plan', () => {
    const plan = smallPlan();
    const sum = (key: string) => rows(plan).reduce((total, row) => total + Number(row[key]), 0);
    const areaM2 = plan.pieces.reduce((total, { areaMm2 }) => total + areaMm2, 0) / 1e6;
    expect(sum('area (m²)')).toBeCloseTo(areaM2, 3);
    expect(sum('mass (kg)')).toBeCloseTo(areaM2 * 0.05 * 15, 2);
  });

  test('follows each outline and slit', () => {
    // 2D is a triangle: 30.265 + 55.145 + 57.245 mm round, by hand from its corners.
    expect(Number(rows(smallPlan())[5]['cut length (m)'])).toBeCloseTo(0.143, 3);
    const plan = smallPlan();
    const pieces = plan.pieces.map((piece) => (piece.name === '1C' ? { ...piece, slits: [] } : piece));
    const [with1C, without1C] = [plan, { ...plan, pieces }].map((each) => Number(rows(each)[1]['cut length (m)']));
    const [x1, y1, x2, y2] = plan.pieces[1].slits[0];
    expect(with1C - without1C).toBeCloseTo(Math.hypot(x2 - x1, y2 - y1) / 1000, 2);
  });

  test.each([
    ['mm', 1],
    ['in', 25.4],
    ['ft', 304.8],
  ] as const)('gives lengths in %s, the unit of the job', (unit, mm) => {
    const plan = smallPlan({ unit });
    const [minX, minY, maxX, maxY] = boxOf(plan.pieces[2].region);
    const row = rows(plan)[2];
    expect(Number(row[`width (${unit})`]) * mm).toBeCloseTo(maxX - minX, 0);
    expect(Number(row[`depth (${unit})`]) * mm).toBeCloseTo(maxY - minY, 0);
    expect(Number(row[`thickness (${unit})`]) * mm).toBeCloseTo(50, 0);
  });

  test.each(['a "b", c', 'two\nlines', 'EPS 70; 5,0 cm', '沙丘 🏔', ' blank around '])('keeps the name %j', (stock) => {
    expect(rows(renamed(stock))[0].stock).toBe(stock);
  });

  test.each(['=1+1', '+1', '-1', '@SUM(A1)', '\t=1', '\r=1', '=HYPERLINK("x","y")'])(
    'makes no formula of the name %j',
    (stock) => {
      expect(rows(renamed(stock))[0].stock).toBe(`'${stock}`);
    },
  );

  test('is RFC 4180: CRLF rows of one length, with the mark of UTF-8', () => {
    const body = made(smallPlan()).body as string;
    expect(body.startsWith('\ufeffpiece,layer,')).toBe(true);
    expect(body.endsWith('\r\n')).toBe(true);
    expect(body.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    expect(parse(body, { bom: true }).every((row: string[]) => row.length === 14)).toBe(true);
  });

  test('leaves cells of a piece on no board empty', () => {
    const [row] = rows(smallPlan({ boards: [] }));
    expect([row.board, row.stock, row['mass (kg)']]).toEqual(['', '', '']);
  });
});
