import { expect, test } from 'vitest';
import { closure } from '../../src/checks/closure.ts';
import { type Region, rectangle, reversed } from '../../src/geometry/ring.ts';
import type { Zone } from '../../src/model/facts.ts';
import { layerOf, piecedPlan, pieceOf } from '../help/pieced.ts';

const box = (...corners: [number, number, number, number]): Region => [rectangle(...corners)];
const ring = (outer: Region, ...holes: Region[]): Region => [outer[0], ...holes.map(([hole]) => reversed(hole))];
const left: Region = [new Float64Array([0, 0, 410, 0, 430, 700, 0, 700])];
const right: Region = [new Float64Array([410, 0, 1000, 0, 1000, 700, 430, 700])];
const whole: Region = [new Float64Array([0, 0, 410, 0, 1000, 0, 1000, 700, 430, 700, 0, 700])];

test('pieces that make their layer again are nothing to tell', () => {
  expect(closure(piecedPlan([layerOf(1, whole)], [pieceOf('1A', left), pieceOf('1C', right)]))).toEqual([]);
});

test('a void under the next layer is nothing to tell; one beside it is a hole that shows', () => {
  const hollow = ring(whole, box(500, 100, 900, 600));
  const tell = (next: Region) =>
    closure(piecedPlan([layerOf(1, whole), layerOf(2, next)], [pieceOf('1A', hollow), pieceOf('2A', next)]));
  expect(tell(box(440, 40, 960, 660))).toEqual([]);
  const [finding, ...more] = tell(box(560, 40, 960, 660));
  expect(more).toEqual([]);
  expect(finding).toMatchObject({ level: 'stop', code: 'checks/left-out', where: { layer: 1, atMm: [530, 350] } });
  expect(finding.message).toContain('30000 mm²');
});

test('a top layer with a hole in its pieces is told', () => {
  const [finding] = closure(piecedPlan([layerOf(1, whole)], [pieceOf('1A', left)]));
  expect(finding).toMatchObject({ level: 'stop', code: 'checks/left-out', where: { layer: 1 } });
});

test('room for a deck may be left open, and no more than that', () => {
  const zone = (clearanceMm: number): Zone => ({
    ...{ kind: 'people', name: null, levelMm: null, clearanceMm, loadKg: null },
    outline: [
      [500, 0],
      [900, 0],
      [900, 300],
      [500, 300],
    ],
  });
  const notched: Region = [new Float64Array([0, 0, 475, 0, 475, 325, 925, 325, 925, 0, 1000, 0, 1000, 700, 0, 700])];
  const plain = box(0, 0, 1000, 700);
  const tell = (clearanceMm: number) =>
    closure(piecedPlan([layerOf(1, plain)], [pieceOf('1A', notched)], { facts: { zones: [zone(clearanceMm)] } }));
  expect(tell(25)).toEqual([]);
  expect(tell(0)).toMatchObject([{ code: 'checks/left-out' }]);
});

test('pieces that overlap by a hundredth of a square millimetre are told with both names and the place', () => {
  const wide: Region = [new Float64Array([0, 0, 410, 0, 430.7, 350, 430, 700, 0, 700])];
  const [finding] = closure(piecedPlan([layerOf(1, whole)], [pieceOf('1A', wide), pieceOf('1C', right)]));
  expect(finding).toMatchObject({ level: 'stop', code: 'checks/not-closed', where: { layer: 1, piece: '1A' } });
  expect(finding.message).toContain('1A and 1C overlap');
  expect(finding.where.atMm?.[1]).toBeCloseTo(350, -2);
});

test('a piece that sticks out of its layer is told', () => {
  const out: Region = [new Float64Array([410, 0, 1000, 0, 1012, 350, 1000, 700, 430, 700])];
  const [finding] = closure(piecedPlan([layerOf(1, whole)], [pieceOf('1A', left), pieceOf('1C', out)]));
  expect(finding).toMatchObject({ code: 'checks/not-closed', where: { piece: '1C' } });
  expect(finding.message).toContain('sticks out');
  expect(finding.where.atMm?.[0]).toBeCloseTo(1004, 0);
});

test('a point that a seam puts a grid step beside a long edge opens nothing', () => {
  const bent: Region = [new Float64Array([410, 0.001, 1000, 0, 1000, 700, 430, 700])];
  const alike: Region = [new Float64Array([0, 0, 410, 0.001, 430, 700, 0, 700])];
  const straight = box(0, 0, 1000, 700);
  expect(closure(piecedPlan([layerOf(1, straight)], [pieceOf('1A', alike), pieceOf('1C', bent)]))).toEqual([]);
});
