import { expect, test } from 'vitest';
import { pins } from '../../src/checks/pins.ts';
import { type Point, type Region, rectangle } from '../../src/geometry/ring.ts';
import { jointOf, layerOf, piecedPlan, pieceOf } from '../help/pieced.ts';

const base: Region = [rectangle(0, 0, 1000, 700)];
const left: Region = [rectangle(100, 100, 800, 600)];
const right: Region = [rectangle(800, 100, 870, 600)];
const joint = (neighbour: string) => jointOf('2/A', neighbour, 800, 100, 800, 600);
const P: Point = [160, 170];
const Q: Point = [610, 530];
const R: Point = [835, 310];

const tell = (below: Point[], large: Point[], small: Point[], isJoined = true) => {
  const joints = (neighbour: string) => (isJoined ? [joint(neighbour)] : []);
  const pieces = [
    pieceOf('1A', base, { pins: below }),
    pieceOf('2A', left, { pins: large, joints: joints('2C') }),
    pieceOf('2C', right, { pins: small, joints: joints('2A') }),
  ];
  return pins(piecedPlan([layerOf(1, base), layerOf(2, left, right)], pieces));
};

test('two pins hold a piece, and one holds a small one against its neighbour', () => {
  expect(tell([P, Q, R], [P, Q], [R])).toEqual([]);
});

test('a piece with no pin, and one whose neighbour has too few, are told', () => {
  expect(tell([P, Q], [P, Q], [])).toMatchObject([
    { level: 'watch', code: 'checks/not-held', where: { layer: 2, piece: '2C', atMm: [835, 350] } },
  ]);
  const both = tell([P, R], [P], [R]);
  expect(both.map(({ where }) => where.piece)).toEqual(['2A', '2C']);
  expect(both[0].message).toContain('one pin');
});

test('a pin from above alone holds nothing down, and without a joint no neighbour helps', () => {
  expect(tell([P], [P, Q], [])).toHaveLength(2);
  expect(tell([P, Q, R], [P, Q], [R], false).map(({ where }) => where.piece)).toEqual(['2C']);
});

test('a pin that lies in no foam of its piece stops the plan', () => {
  const [finding] = tell([P, Q, R], [P, Q, [90, 300]], [R]);
  expect(finding).toMatchObject({
    level: 'stop',
    code: 'checks/pin-astray',
    where: { layer: 2, piece: '2A', atMm: [90, 300] },
  });
});

test('the lowest layer stands on the floor', () => {
  expect(pins(piecedPlan([layerOf(1, base)], [pieceOf('1A', base)]))).toEqual([]);
});
