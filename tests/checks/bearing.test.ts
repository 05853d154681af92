import { expect, test } from 'vitest';
import { bearing } from '../../src/checks/bearing.ts';
import { inspect } from '../../src/checks/inspect.ts';
import { type Region, rectangle, reversed } from '../../src/geometry/ring.ts';
import type { Zone } from '../../src/model/facts.ts';
import type { Piece } from '../../src/model/piece.ts';
import { planFile } from '../../src/model/plan-file.ts';
import { jointOf, layerOf, piecedPlan, pieceOf } from '../help/pieced.ts';

const whole: Region = [rectangle(0, 0, 1000, 700)];

/** Two layers, both 1000 × 700, the lower with a void; what is told of the pieces of the upper one, notes left out. */
function tell(
  hole: readonly [number, number, number, number],
  upper: readonly Piece[],
  lap?: number | string,
  zones: Zone[] = [],
) {
  const ring: Region = [rectangle(0, 0, 1000, 700), reversed(rectangle(...hole))];
  const layers = [layerOf(1, whole), layerOf(2, whole)];
  const job = { split: { hollow: { lap } } };
  const plan = piecedPlan(layers, [pieceOf('1A', ring), ...upper], { job, facts: { zones } });
  return bearing(plan).filter(({ level }) => level !== 'note');
}

const lid = pieceOf('2A', whole);

test('a lid that laps all round is nothing to tell', () => {
  expect(tell([70, 80, 900, 610], [lid], 70)).toEqual([]);
});

test('a piece over the void, and one with its edge alone on foam, are told with their middles, the worst first', () => {
  const over = pieceOf('2C', [rectangle(300, 200, 600, 410)]);
  const edge = pieceOf('2D', [rectangle(20, 250, 410, 330)]);
  const [first, second, ...more] = tell([90, 80, 900, 610], [edge, over], 70);
  expect(more).toEqual([]);
  expect(first).toMatchObject({
    level: 'watch',
    code: 'checks/tips',
    where: { layer: 2, piece: '2C', atMm: [450, 305] },
  });
  expect(first.message).toContain('nothing under it');
  expect(second.where).toEqual({ layer: 2, piece: '2D', atMm: [215, 290] });
  expect(second.message).toMatch(/tips: .* 18 % of it/);
});

test('a piece that is steady on next to nothing is told how much of it rests', () => {
  // Two ledges of 20 of its 860 mm.
  const bridge = pieceOf('2C', [rectangle(50, 200, 910, 300)]);
  const [finding] = tell([70, 80, 890, 610], [bridge], 10);
  expect(finding.message).toContain('no more than 4.7 % of itself');
});

test('of many that tip three are told and the others named', () => {
  const names = ['2A', '2C', '2D', '2E', '2F'];
  const pieces = names.map((name, i) => pieceOf(name, [rectangle(150 + 100 * i, 200, 220 + 100 * i, 290)]));
  const findings = tell([70, 80, 900, 610], pieces, 70);
  expect(findings.map(({ where }) => where.piece)).toEqual(['2A', '2C', '2D']);
  expect(findings[2].message).toContain('And 2 more: 2E, 2F.');
});

test('a lap less than the job says stops the plan, and the place and the piece are told', () => {
  const [finding] = tell([70, 80, 900, 645], [lid], 70);
  expect(finding).toMatchObject({ level: 'stop', code: 'checks/lap-short', where: { layer: 1 } });
  expect(finding.message).toMatch(/^2A laps this layer by 55 mm/);
  expect(finding.where.atMm?.[1]).toBe(645);
});

test('a lap said in thicknesses is held, and where the job says none, the layer’s height', () => {
  expect(tell([76, 80, 900, 610], [lid], '1.5 x thickness')).toEqual([]);
  expect(tell([74, 80, 900, 610], [lid], '1.5 x thickness')).toMatchObject([{ code: 'checks/lap-short' }]);
  expect(tell([51, 80, 900, 645], [lid])).toEqual([]);
  expect(tell([49, 80, 900, 645], [lid])).toMatchObject([{ code: 'checks/lap-short' }]);
});

test('a corner of the next layer that comes near the middle of a void’s edge is a lap too', () => {
  const dented: Region = [new Float64Array([0, 0, 1000, 0, 1000, 700, 520, 700, 500, 640, 480, 700, 0, 700])];
  const ring: Region = [rectangle(0, 0, 1000, 700), reversed(rectangle(100, 100, 900, 600))];
  const plan = piecedPlan([layerOf(1, whole), layerOf(2, dented)], [pieceOf('1A', ring), pieceOf('2A', dented)], {
    job: { split: { hollow: { lap: 60 } } },
  });
  const [finding] = bearing(plan);
  expect(finding).toMatchObject({ code: 'checks/lap-short', where: { layer: 1, atMm: [500, 640] } });
  expect(finding.message).toContain('40 mm');
});

test('foam left out round a deck is no short lap', () => {
  const outline = [
    [300, 200],
    [600, 200],
    [600, 700],
    [300, 700],
  ] as const;
  const deck: Zone = { kind: 'people', name: null, outline, levelMm: 90, clearanceMm: 0, loadKg: null };
  const about: Region = [new Float64Array([0, 0, 1000, 0, 1000, 700, 600, 700, 600, 200, 300, 200, 300, 700, 0, 700])];
  const plan = piecedPlan([layerOf(1, whole), layerOf(2, whole)], [pieceOf('1A', about), pieceOf('2A', about)], {
    facts: { zones: [deck] },
  });
  expect(bearing(plan)).toEqual([]);
});

test('what holds least, though it holds, is noted with its share and the least lap', () => {
  const ring: Region = [rectangle(0, 0, 1000, 700), reversed(rectangle(70, 80, 900, 610))];
  const plan = piecedPlan([layerOf(1, whole), layerOf(2, whole)], [pieceOf('1A', ring), lid]);
  const [note, ...more] = bearing(plan);
  expect(more).toEqual([]);
  expect(note).toMatchObject({ level: 'note', code: 'checks/least-bearing', where: { layer: 2, piece: '2A' } });
  // 1 − 830 × 530 / 700,000 of it.
  expect(note.message).toMatch(/37 % of it, 0.26 m².* least lap of all is 70 mm, on layer 1, under 2A/);
});

test('of each piece: the area and the share that rest, how far its middle of mass is in, and its own least lap', () => {
  const ring: Region = [rectangle(0, 0, 1000, 700), reversed(rectangle(70, 80, 900, 610))];
  const west = pieceOf('2A', [rectangle(0, 0, 400, 700)], { joints: [jointOf('2/A', '2C', 400, 0, 400, 700)] });
  const east = pieceOf('2C', [rectangle(400, 0, 1000, 700)], { joints: [jointOf('2/A', '2A', 400, 0, 400, 700)] });
  const island = pieceOf('2D', [rectangle(400, 300, 500, 400)]);
  const plan = piecedPlan([layerOf(1, whole), layerOf(2, whole)], [pieceOf('1A', ring), west, east, island]);
  const { rests } = inspect(plan);
  expect(rests.map(({ piece }) => piece)).toEqual(['2A', '2C', '2D']);
  // 400 × 700 less 330 × 530; it rests all round but in the east, as wide as it is.
  expect(rests[0]).toMatchObject({ areaMm2: 280_000 - 330 * 530, leastLap: { mm: 70, wantedMm: 50 } });
  expect(rests[0].share).toBeCloseTo(1 - (330 * 530) / 280_000, 9);
  expect(rests[0].insideMm).toBeCloseTo(200, 6);
  // In the west is a seam, no edge: its laps are 80 in the south, 90 in the north, 100 in the east.
  expect(rests[1].leastLap?.mm).toBe(80);
  expect(rests[2]).toMatchObject({ areaMm2: 0, share: 0, insideMm: -Infinity, leastLap: null });
  const file = planFile({ ...plan, rests });
  expect(file.pieces.map(({ rest }) => rest?.insideMm)).toEqual([
    undefined,
    expect.closeTo(200, 6),
    expect.closeTo(300, 6),
    null,
  ]);
  expect(file.pieces[2].rest?.leastLapMm).toBe(80);
});
