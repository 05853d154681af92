import { beforeAll, describe, expect, test } from 'vitest';
import { drawnNow } from '../../src/document/board/drawn-boards.ts';
import { isKept, type PageGrid, pageGrid, pageName, paperFrame } from '../../src/document/pages/grid.ts';
import { sidesOf } from '../../src/document/pages/papers.ts';
import { patternsOf, strokesOf, tracedMarks } from '../../src/document/pages/pattern.ts';
import { pagesPdf } from '../../src/document/pages-pdf.ts';
import { boxOfLine, type Line, openLine } from '../../src/drawing/page.ts';
import { PENS } from '../../src/drawing/pen.ts';
import type { Finding } from '../../src/findings.ts';
import { squaredDistanceToSegment } from '../../src/geometry/ring.ts';
import { makeKit } from '../../src/job/kit.ts';
import type { OutputFile, Plan } from '../../src/model/plan.ts';
import { type PdfFile, type PdfPage, readPdf } from '../help/read-pdf.ts';
import { lying, smallPlan } from '../help/small-plan.ts';

interface Made {
  readonly file: OutputFile;
  readonly pdf: PdfFile;
  readonly findings: readonly Finding[];
}

async function make(plan: Plan, written: Record<string, unknown> = {}): Promise<Made> {
  const findings: Finding[] = [];
  const options = pagesPdf.options(makeKit('mm')).parse(written);
  const context = { facts: {}, tell: (finding: Finding) => void findings.push(finding), random: () => 0.5 };
  const [file, ...others] = (await pagesPdf.run(plan, options, context)) as readonly OutputFile[];
  expect(others).toEqual([]);
  return { file, pdf: await readPdf(file.body as Uint8Array), findings };
}

/** A4 standing: 210 × 297 less margins of 10, a strip of 8 on the left and of 20 at the top, millimetres. */
const VIEW = { left: 18, top: 30, width: 182, height: 257, overlap: 10 };
const AS_SAID = { margin: 10, overlap: 10, barsMm: [100, 100] } as const;
const NEAR_MM = 0.02;

const plan = smallPlan();
let made: Made;
beforeAll(async () => {
  made = await make(plan, { way: 'portrait' });
});

interface Placed {
  readonly page: PdfPage;
  readonly row: number;
  readonly column: number;
}

const gridOf = (board: number, isLying = false): PageGrid => {
  const pattern = patternsOf(plan, drawnNow(plan, 1), 'boards')[board];
  return pageGrid(paperFrame(sidesOf('A4'), isLying, AS_SAID), pattern.box, strokesOf(tracedMarks(pattern)));
};

/** The template pages of a board with their places in its grid; each board's key page comes before them. */
function templates(board: number): Placed[] {
  let at = 1;
  for (let b = 0; b < board; b++) at += gridOf(b).count + 1;
  const grid = gridOf(board);
  const placed: Placed[] = [];
  for (let row = 0; row < grid.rows; row++) {
    for (let column = 0; column < grid.columns; column++) {
      if (isKept(grid, row, column)) placed.push({ page: made.pdf.pages[at++], row, column });
    }
  }
  return placed;
}

const toBoard = ({ row, column }: Placed, x: number, y: number): [number, number] => [
  x - VIEW.left + column * (VIEW.width - VIEW.overlap),
  y - VIEW.top + row * (VIEW.height - VIEW.overlap),
];

const isOn = (line: Line, x: number, y: number) => {
  const { points, closed } = line;
  for (let i = 2; i < points.length; i += 2) {
    if (squaredDistanceToSegment(x, y, points[i - 2], points[i - 1], points[i], points[i + 1]) < NEAR_MM ** 2)
      return true;
  }
  const last = points.length - 2;
  return closed && squaredDistanceToSegment(x, y, points[last], points[last + 1], points[0], points[1]) < NEAR_MM ** 2;
};

const wide = (page: PdfPage): Line[] =>
  page.paths.filter(({ widthMm, dashed }) => Math.abs(widthMm - 0.7) < 1e-3 && !dashed).flatMap(({ lines }) => lines);
const thin = (page: PdfPage): Line[] =>
  page.paths.filter(({ widthMm, dashed }) => Math.abs(widthMm - 0.35) < 1e-3 && !dashed).flatMap(({ lines }) => lines);

describe('the cut lines', () => {
  test('every point of every outline is on a page, and on each of the pages that overlap there', () => {
    let onTwo = 0;
    for (const [b, board] of plan.boards.entries()) {
      const pages = templates(b).map((placed) => ({ placed, lines: wide(placed.page) }));
      for (const placement of board.placed) {
        for (const ring of lying(plan, placement)) {
          for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
            const steps = Math.ceil(Math.hypot(ring[i] - ring[j], ring[i + 1] - ring[j + 1]) / 7);
            for (let k = 0; k < steps; k++) {
              const x = ring[j] + ((ring[i] - ring[j]) * k) / steps;
              const y = board.sizeMm[1] - (ring[j + 1] + ((ring[i + 1] - ring[j + 1]) * k) / steps);
              const showing = pages.filter(({ placed }) => {
                const [left, top] = toBoard(placed, VIEW.left, VIEW.top);
                return x >= left && x <= left + VIEW.width && y >= top && y <= top + VIEW.height;
              });
              expect(showing.length, `${placement.piece} at ${x}, ${y}`).toBeGreaterThan(0);
              if (showing.length > 1) onTwo++;
              for (const { placed, lines } of showing) {
                const [dx, dy] = toBoard(placed, 0, 0);
                expect(
                  lines.some((line) => isOn(line, x - dx, y - dy)),
                  `${placement.piece} at ${x}, ${y}`,
                ).toBe(true);
              }
            }
          }
        }
      }
    }
    expect(onTwo).toBeGreaterThan(40);
  });

  test('nothing of the drawing is printed outside the view, nor anything in the margins', () => {
    for (const { page } of templates(0)) {
      for (const line of wide(page)) {
        const [left, top, right, bottom] = boxOfLine(line);
        expect(left).toBeGreaterThanOrEqual(VIEW.left - NEAR_MM);
        expect(top).toBeGreaterThanOrEqual(VIEW.top - NEAR_MM);
        expect(right).toBeLessThanOrEqual(VIEW.left + VIEW.width + NEAR_MM);
        expect(bottom).toBeLessThanOrEqual(VIEW.top + VIEW.height + NEAR_MM);
      }
    }
    for (const { paths, widthPt, heightPt } of made.pdf.pages) {
      const [width, height] = [(widthPt * 25.4) / 72, (heightPt * 25.4) / 72];
      for (const { lines } of paths) {
        for (const line of lines) {
          const [left, top, right, bottom] = boxOfLine(line);
          expect(Math.min(left, top, width - right, height - bottom)).toBeGreaterThanOrEqual(10 - NEAR_MM);
        }
      }
    }
  });
});

describe('the pages', () => {
  test('each carries a bar of 100 mm both ways', () => {
    for (const page of made.pdf.pages) {
      const bars = thin(page).filter(({ points }) => points.length === 4);
      const is100 = (a: number, b: number) => Math.abs(a - 100) < NEAR_MM && Math.abs(b) < NEAR_MM;
      const sizes = bars.map(({ points: [ax, ay, bx, by] }) => [Math.abs(bx - ax), Math.abs(by - ay)]);
      expect(sizes.some(([w, h]) => is100(w, h))).toBe(true);
      expect(sizes.some(([w, h]) => is100(h, w))).toBe(true);
    }
  });

  // ISO 216 A4 210 × 297, A3 297 × 420; ANSI/ASME Y14.1 A 8.5 × 11 in, B 11 × 17 in. 1 in = 72 pt.
  test.each([
    ['A4', 595.276, 841.89],
    ['A3', 841.89, 1190.551],
    ['Letter', 612, 792],
    ['Tabloid', 792, 1224],
  ])('%s is as large as its standard says', async (paper, short, long) => {
    const { pdf, file } = await make(smallPlan({ boards: [plan.boards[1]] }), { paper });
    for (const { widthPt, heightPt } of pdf.pages) {
      expect(Math.min(widthPt, heightPt)).toBeCloseTo(short, 2);
      expect(Math.max(widthPt, heightPt)).toBeCloseTo(long, 2);
    }
    expect(file.pages).toBe(pdf.pages.length);
  });

  test('joining marks of neighbours meet: each mark is drawn at the same place of the board on both', () => {
    let joints = 0;
    for (const b of [0, 1]) {
      const pages = templates(b);
      // A whole diamond, or the half of it that a page shows which is trimmed there, has this vertex.
      const tips = (placed: Placed, axis: 0 | 1) =>
        thin(placed.page)
          .filter(({ points }) => points.length >= 6 && points.length <= 10)
          .filter((line) => {
            const [left, top, right, bottom] = boxOfLine(line);
            return Math.abs((axis === 0 ? bottom - top : right - left) - 8) < 0.05;
          })
          .map((line) => {
            const [left, top, right, bottom] = boxOfLine(line);
            return axis === 0
              ? toBoard(placed, right, (top + bottom) / 2)
              : toBoard(placed, (left + right) / 2, bottom);
          });
      for (const placed of pages) {
        for (const axis of [0, 1] as const) {
          const next = pages.find(
            ({ row, column }) => row === placed.row + axis && column === placed.column + 1 - axis,
          );
          if (!next) continue;
          const at = toBoard(next, VIEW.left, VIEW.top)[axis];
          const here = tips(placed, axis).filter((tip) => Math.abs(tip[axis] - 4 - at) < 0.05);
          const there = tips(next, axis).filter((tip) => Math.abs(tip[axis] - 4 - at) < 0.05);
          expect(here).toHaveLength(2);
          expect(there).toHaveLength(2);
          for (const [x, y] of here) {
            expect(there.some(([u, v]) => Math.hypot(x - u, y - v) < 0.05)).toBe(true);
          }
          joints++;
        }
      }
    }
    expect(joints).toBeGreaterThan(40);
  });

  test('their number and the time for taping are told, and each board lies the way with fewer', async () => {
    const { findings, file, pdf } = await make(plan);
    const fewest = [0, 1].map((board) => Math.min(gridOf(board).count, gridOf(board, true).count));
    const auto = fewest[0] + fewest[1] + 2;
    expect([file.pages, pdf.pages.length]).toEqual([auto, auto]);
    expect(auto).toBeLessThan(made.file.pages as number);
    const note = findings.find(({ code }) => code === 'document/pages') as Finding;
    expect(note.level).toBe('note');
    expect(note.message).toContain(`prints on ${auto} pages of A4: ${auto - 2} of templates and 2 of keys`);
    expect(note.message).toContain(`about ${Math.round((auto - 2) / 3) / 10} hours`);
  });

  test('the same plan gives the same bytes', async () => {
    const again = await make(smallPlan(), { way: 'portrait' });
    expect(Buffer.compare(again.file.body as Uint8Array, made.file.body as Uint8Array)).toBe(0);
  });

  test('a name full of markup, pictures and control characters breaks nothing', async () => {
    const name = `"><script>alert(1)</script>&🏔\u0007)${'long '.repeat(60)}`;
    const { pdf, file } = await make(smallPlan({ name, boards: [plan.boards[1]] }));
    expect(file.path).toBe('pages.pdf');
    expect(pdf.pages.length).toBe(file.pages);
  });

  test('no boards, no file; margins and overlaps that no printer or hand can use are refused', async () => {
    const options = pagesPdf.options(makeKit('mm'));
    const context = { facts: {}, tell: () => {}, random: () => 0.5 };
    expect(await pagesPdf.run(smallPlan({ boards: [] }), options.parse({}), context)).toEqual([]);
    for (const written of [
      { margin: 2 },
      { margin: 90 },
      { overlap: 0 },
      { paper: 'A9' },
      { paper: [90, 400] },
      { bars: [80, 100] },
      { way: 'aslant' },
      { scale: 0.5 },
    ]) {
      expect(options.safeParse(written).success, JSON.stringify(written)).toBe(false);
    }
    expect(options.parse({ margin: '0.5 in' })).toMatchObject({ margin: 12.7, overlap: 10, paper: 'A4', way: 'auto' });
    // A plain number counts in the job's unit; what is not said is 10 mm in any.
    expect(pagesPdf.options(makeKit('in')).parse({ margin: 0.5 })).toMatchObject({ margin: 12.7, overlap: 10 });
  });
});

describe('the grid', () => {
  const mark = (...lines: Line[]) => strokesOf([{ pen: PENS.cut, lines }]);
  const frame = paperFrame(sidesOf('A4'), false, AS_SAID);

  test('covers the board with as few fields as the overlap allows', () => {
    expect([frame.leftMm, frame.topMm, frame.viewWidthMm, frame.viewHeightMm]).toEqual([18, 30, 182, 257]);
    // (2400 − 10) / 172 = 13.9, (1200 − 10) / 247 = 4.8
    const grid = pageGrid(frame, [0, 0, 2400, 1200], mark(openLine(0, 0, 2400, 1200)));
    expect([grid.columns, grid.rows]).toEqual([14, 5]);
    const small = pageGrid(frame, [0, 0, 182, 257], mark(openLine(1, 1, 5, 5)));
    expect([small.columns, small.rows, small.count]).toEqual([1, 1, 1]);
  });

  test('leaves out what shows nothing, but keeps pages that join the others', () => {
    // Two short lines: in the first field, and in column 4 of row 2.
    const grid = pageGrid(frame, [0, 0, 1200, 1200], mark(openLine(20, 20, 60, 50), openLine(800, 640, 840, 690)));
    const kept = [];
    for (let row = 0; row < grid.rows; row++) {
      for (let column = 0; column < grid.columns; column++) {
        if (isKept(grid, row, column)) kept.push(pageName(row, column));
      }
    }
    expect(kept[0]).toBe('A1');
    expect(kept[kept.length - 1]).toBe('C5');
    // The fewest that join them: four steps along and two down.
    expect(kept).toHaveLength(7);
    expect(grid.count).toBe(7);
    expect(pageGrid(frame, [0, 0, 1200, 1200], new Float64Array(0)).count).toBe(0);
  });

  test('rows have letters that are not misread as numbers', () => {
    expect([0, 1, 7, 8, 12, 13, 23, 24, 25].map((row) => pageName(row, 2))).toEqual([
      'A3',
      'B3',
      'H3',
      'J3',
      'N3',
      'P3',
      'Z3',
      'AA3',
      'AB3',
    ]);
  });
});
