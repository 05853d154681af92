import { expect, test } from 'vitest';
import { reach } from '../../src/checks/reach.ts';
import { type Region, rectangle, reversed } from '../../src/geometry/ring.ts';
import type { Tool } from '../../src/model/facts.ts';
import type { Plan } from '../../src/model/plan.ts';
import { boardOf, layerOf, piecedPlan, pieceOf } from '../help/pieced.ts';

const BARE: Tool = { kind: 'hot wire', kerfMm: 2, throatMm: null, wireMm: null, bladeMm: null, tableMm: null };
const outer = rectangle(0, 0, 1500, 1100);
const ring: Region = [outer, reversed(rectangle(200, 150, 700, 900))];

const plan = (tool: Partial<Tool>, region: Region = ring, more: Partial<Omit<Plan, 'facts'>> = {}) =>
  piecedPlan([layerOf(1, [outer])], [pieceOf('1A', region)], { facts: { tool: { ...BARE, ...tool } }, ...more });

test('what is not said of the tool is not checked', () => {
  expect(reach(plan({}))).toEqual([]);
});

test('wire and blade go through the board with some to spare, or the layer is told', () => {
  expect(reach(plan({ wireMm: 70 }))).toEqual([]);
  expect(reach(plan({ wireMm: 69 }))).toMatchObject([
    { level: 'stop', code: 'checks/wire-short', where: { layer: 1 } },
  ]);
  expect(reach(plan({ kind: 'knife', bladeMm: 70 }))).toEqual([]);
  expect(reach(plan({ kind: 'knife', bladeMm: 60 }))).toMatchObject([{ level: 'stop', code: 'checks/blade-short' }]);
  // A knife has no wire.
  expect(reach(plan({ kind: 'knife', wireMm: 10 }))).toEqual([]);
});

test('a wire that leans needs more, told where it leans most', () => {
  // Feet and tops 0, 120 and 50 apart: √(50² + 120²) = 130.
  const stations = new Float64Array([10, 10, 10, 10, 900, 10, 900, 130, 900, 700, 870, 660]);
  const layers = [{ ...layerOf(1, [outer]), slope: { top: [], stations: [stations] } }];
  const tell = (wireMm: number) => reach(plan({ wireMm }, ring, { stack: { kind: 'flat', layers } }));
  expect(tell(150)).toEqual([]);
  const [finding] = tell(149);
  expect(finding).toMatchObject({ code: 'checks/wire-short', where: { layer: 1, atMm: [900, 10] } });
  expect(finding.message).toContain('150 mm');
});

test('an inner outline deeper in the piece than the throat cannot be cut with the bow', () => {
  const deep: Region = [outer, reversed(new Float64Array([500, 470, 900, 470, 880, 520]))];
  const found = reach(plan({ throatMm: 510 }, deep));
  expect(found).toMatchObject([
    { level: 'stop', code: 'checks/throat-inside', where: { layer: 1, piece: '1A', atMm: [880, 520] } },
    { level: 'watch', code: 'checks/throat', where: { layer: 1, piece: '1A', board: 1 } },
  ]);
  expect(found[0].message).toContain('520 mm');
  expect(reach(plan({ throatMm: 525 }, deep))).toEqual([]);
});

test('a cut deep in a whole board is told with its place in the ground, mirrored or not', () => {
  const wedge: Region = [new Float64Array([0, 0, 300, 0, 140, 620])];
  const [board] = [boardOf([pieceOf('1A', wedge)])];
  const tell = (mirrored: boolean, throatMm: number) => {
    const placed = [{ ...board.placed[0], mirrored, xMm: 1200, yMm: 10 }];
    return reach(plan({ throatMm }, wedge, { boards: [{ ...board, placed }] }));
  };
  for (const mirrored of [false, true]) {
    // The tip stands 570 from the board's upper edge, the nearest one.
    expect(tell(mirrored, 569)).toMatchObject([
      { level: 'watch', code: 'checks/throat', where: { board: 1, atMm: [140, 620] } },
    ]);
    expect(tell(mirrored, 571)).toEqual([]);
  }
});

test('straight cuts that are made first are edges to come in from', () => {
  const wedge: Region = [new Float64Array([0, 0, 300, 0, 140, 620])];
  const board = boardOf([pieceOf('1A', wedge)]);
  const placed = [{ ...board.placed[0], xMm: 1200, yMm: 10 }];
  const tell = (throatMm: number, ...cuts: number[][]) => {
    const breakDowns = cuts.map((cut) => Float64Array.from(cut));
    return reach(plan({ throatMm }, wedge, { boards: [{ ...board, placed, breakDowns }] }));
  };
  // The tip at (1340, 630) is 570 from the board's upper edge, 190 from a cut at x = 1530, 70 from one at y = 700.
  expect(tell(569)).toMatchObject([{ code: 'checks/throat', where: { board: 1 } }]);
  expect(tell(191, [1530, 0, 1530, 1200])).toEqual([]);
  const [short] = tell(189, [1530, 0, 1530, 1200]);
  expect(short).toMatchObject({ level: 'watch', code: 'checks/throat', where: { atMm: [140, 620] } });
  expect(short.message).toContain('or straight cut');
  // A cut that ends before it comes near is no edge there: it ends at (1000, 700), 347 away from the tip.
  expect(tell(340, [0, 700, 1000, 700])).toMatchObject([{ code: 'checks/throat' }]);
  expect(tell(71, [0, 700, 2400, 700])).toEqual([]);
});

test('a board that hangs over the table is noted; a piece that a router’s bed does not hold stops the plan', () => {
  expect(reach(plan({ tableMm: [1200, 2400] }))).toEqual([]);
  expect(reach(plan({ tableMm: [1200, 2000] }))).toMatchObject([
    { level: 'note', code: 'checks/table', where: { board: 1 } },
  ]);
  expect(reach(plan({ kind: 'router', tableMm: [1100, 1500] }))).toEqual([]);
  expect(reach(plan({ kind: 'router', tableMm: [1090, 3000] }))).toMatchObject([
    { level: 'stop', code: 'checks/table', where: { layer: 1, piece: '1A' } },
  ]);
});
