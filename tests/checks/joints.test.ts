import { expect, test } from 'vitest';
import { joints } from '../../src/checks/joints.ts';
import { type Region, rectangle } from '../../src/geometry/ring.ts';
import type { Joint, Piece } from '../../src/model/piece.ts';
import type { Rib } from '../../src/model/rib.ts';
import { jointOf, layerOf, piecedPlan, pieceOf } from '../help/pieced.ts';

const left: Region = [rectangle(0, 0, 410, 700)];
const right: Region = [rectangle(410, 0, 1000, 700)];
const LINE = [410, 0, 410, 700] as const;

const tell = (one: Joint[], other: Joint[], more: Piece[] = []) =>
  joints(
    piecedPlan(
      [layerOf(1, [rectangle(0, 0, 1000, 700)]), layerOf(2, right)],
      [pieceOf('1A', left, { joints: one }), pieceOf('1C', right, { joints: other }), ...more],
    ),
  );

test('a joint with one label on both of its sides is nothing to tell', () => {
  expect(tell([jointOf('1/A', '1C', ...LINE)], [jointOf('1/A', '1A', ...LINE)])).toEqual([]);
});

test.each<[string, Joint[], Joint[], Piece[], string]>([
  ['on one side only', [jointOf('1/A', '1C', ...LINE)], [], [], 'checks/label'],
  [
    'a third time, in another layer',
    [jointOf('1/A', '1C', ...LINE)],
    [jointOf('1/A', '1A', ...LINE)],
    [pieceOf('2A', right, { joints: [jointOf('1/A', '1A', ...LINE)] })],
    'checks/label',
  ],
  [
    'of two layers',
    [jointOf('1/A', '2A', ...LINE)],
    [],
    [pieceOf('2A', right, { joints: [jointOf('1/A', '1A', ...LINE)] })],
    'checks/label',
  ],
  [
    'with the wrong neighbour',
    [jointOf('1/A', '1D', ...LINE)],
    [jointOf('1/A', '1A', ...LINE)],
    [],
    'checks/neighbour',
  ],
  [
    'where the two do not meet',
    [jointOf('1/A', '1C', ...LINE)],
    [jointOf('1/A', '1A', 470, 0, 470, 700)],
    [],
    'checks/joint-line',
  ],
])('a label %s stops the plan, with its place', (_, one, other, more, code) => {
  const [finding, ...rest] = tell(one, other, more);
  expect(rest).toEqual([]);
  expect(finding).toMatchObject({ level: 'stop', code, where: { layer: 1, piece: '1A', atMm: [410, 700] } });
});

test('a piece that does not begin or end with its layer cannot be laid in its turn', () => {
  const low = pieceOf('2A', right, { bottomMm: 30 });
  expect(tell([], [], [low])).toMatchObject([
    { level: 'stop', code: 'checks/laying', where: { layer: 2, piece: '2A' } },
  ]);
  expect(tell([], [], [pieceOf('2A', right, { thicknessMm: 60 })])).toHaveLength(1);
});

test('a rib whose slots open both ways is told', () => {
  const rib = (...opens: ('top' | 'bottom')[]): Rib => ({
    frame: { originMm: [0, 100, 0], along: [1, 0] },
    gridLine: 'line 1 from the south',
    crossings: opens.map((each, i) => ({ layer: 2 + i, atMm: 200 * (i + 1), widthMm: 51, meetMm: 80, opens: each })),
  });
  const tellRib = (each: Rib) => {
    const plan = piecedPlan([], [pieceOf('1A', left)]);
    return joints({ ...plan, stack: { kind: 'upright', layers: [{ ...layerOf(1, left), rib: each }] } });
  };
  expect(tellRib(rib('top', 'top'))).toEqual([]);
  expect(tellRib(rib('top', 'bottom'))).toMatchObject([
    { level: 'stop', code: 'checks/slot-order', where: { layer: 1 } },
  ]);
});
