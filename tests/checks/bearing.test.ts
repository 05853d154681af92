import { expect, test } from 'vitest';
import { bearing } from '../../src/checks/bearing.ts';
import { type Region, rectangle, reversed } from '../../src/geometry/ring.ts';
import type { Piece } from '../../src/model/piece.ts';
import { smallPlan } from '../help/small-plan.ts';

const piece = (name: string, region: Region): Piece => ({
  name,
  layer: Number.parseInt(name, 10),
  bottomMm: 0,
  thicknessMm: 50,
  region,
  areaMm2: 0,
  joints: [],
  pins: [],
  slits: [],
  placing: [],
});

/** Two layers, both 1000 × 700, the lower with a void; what is told of the pieces of the upper one. */
function tell(hole: readonly [number, number, number, number], upper: readonly Piece[], lap?: number) {
  const whole: Region[] = [[rectangle(0, 0, 1000, 700)]];
  const layers = [1, 2].map((number) => ({ number, bottomMm: (number - 1) * 50, thicknessMm: 50, regions: whole }));
  const ring: Region = [rectangle(0, 0, 1000, 700), reversed(rectangle(...hole))];
  const job = { split: { hollow: { lap } } };
  return bearing({ ...smallPlan(), stack: { kind: 'flat', layers }, pieces: [piece('1A', ring), ...upper], job });
}

const lid = piece('2A', [rectangle(0, 0, 1000, 700)]);

test('a lid that laps all round is nothing to tell', () => {
  expect(tell([70, 80, 900, 610], [lid], 70)).toEqual([]);
});

test('a piece over the void, and one with its edge alone on foam, are told by name', () => {
  const over = piece('2C', [rectangle(300, 200, 600, 410)]);
  const edge = piece('2D', [rectangle(20, 250, 410, 330)]);
  const [finding] = tell([90, 80, 900, 610], [over, edge], 70);
  expect(finding).toMatchObject({ level: 'watch', code: 'checks/tips', where: { piece: '2C' } });
  expect(finding.message).toContain('2C, 2D');
});

test('a lap less than the job says stops the plan, and the place is told', () => {
  const [finding] = tell([70, 80, 900, 645], [lid], 70);
  expect(finding).toMatchObject({ level: 'stop', code: 'checks/lap-short', where: { layer: 1 } });
  expect(finding.message).toContain('55 mm');
  expect(finding.where.atMm?.[1]).toBe(645);
});

test('where the job says no lap, none is held against it', () => {
  expect(tell([70, 80, 900, 645], [lid])).toEqual([]);
});
