import { describe, expect, test } from 'vitest';
import { rectangle } from '../../src/geometry/ring.ts';
import type { Facts } from '../../src/model/facts.ts';
import type { Blank } from '../../src/model/piece.ts';
import { type Group, groupsOf } from '../../src/nest/boards/group.ts';
import { type Lane, laneOf } from '../../src/nest/boards/lane.ts';
import { overlapsIn, PairWeights, severity } from '../../src/nest/boards/overlap.ts';
import { emptyRoom, leave, type Room, roomOf, stand } from '../../src/nest/boards/room.ts';
import { separate } from '../../src/nest/boards/separate.ts';
import type { Turns } from '../../src/nest/boards/turns.ts';
import { walkNow } from '../../src/walk.ts';
import { blank, board, factsOf, lopsidedBlanks } from '../help/nesting.ts';

const GAP = 11.5;

function laneFor(blanks: readonly Blank[], facts: Facts, turns: Turns, seed = 1): { lane: Lane; group: Group } {
  const [group] = walkNow(groupsOf(blanks, facts.stock, facts.gapMm, turns));
  const { shapes, items, kinds, turnsFreely } = group;
  const numbers = items.map(({ shape }) => shape);
  const rest = { gapMm: facts.gapMm, turnsFreely, seed, round: 1, lane: 0, from: null };
  return { lane: laneOf({ shapes, items: numbers, kinds, offcuts: [], ...rest }), group };
}

/** Everything on one heap at the lower left of the first of some boards. */
function heap(lane: Lane, { kinds }: Group, boards: number): Room[] {
  const rooms = Array.from({ length: boards }, () => emptyRoom(0, kinds[0].container));
  for (const [item] of lane.input.items.entries()) {
    const posture = lane.posturesOf(item)[0];
    const [x, y] = [20 - posture.box[0], 20 - posture.box[1]];
    stand(rooms[0], { item, posture, x, y });
  }
  return rooms;
}

const itemsIn = (rooms: readonly Room[]) =>
  rooms.flatMap(({ standing }) => standing.map(({ item }) => item)).sort((a, b) => a - b);

describe('how badly two shapes overlap', () => {
  const facts = factsOf([board([1490, 1180])], GAP);

  test.each([1, 2, 3])('it is above nought and falls as they part, seed %i', (seed) => {
    const { lane } = laneFor(lopsidedBlanks(seed, 2, 700), facts, 'free');
    const [one] = lane.posturesOf(0);
    const [other] = lane.posturesOf(1);
    // From the deepest point on the deepest point, and beyond where they can touch.
    const [dx, dy] = [one.poles()[0] - other.poles()[0], one.poles()[1] - other.poles()[1]];
    const far = one.shape.diameterMm + other.shape.diameterMm;
    const bad = [0, 0.4, 0.8, 1.2].map((share) => severity(one, other, dx + share * far, dy + 0.3 * share * far));
    expect(bad[3]).toBeGreaterThan(0);
    expect(bad).toEqual([...bad].sort((a, b) => b - a));
    expect(bad[0]).toBeGreaterThan(3 * bad[3]);
  });

  test('it is the same seen from either', () => {
    const { lane } = laneFor(lopsidedBlanks(4, 2, 700), facts, 'free');
    const [one, other] = [lane.posturesOf(0)[1], lane.posturesOf(1)[2]];
    expect(severity(one, other, 37, -53)).toBeCloseTo(severity(other, one, -37, 53), 6);
  });
});

test('weights grow by 1.2 to 2 where items overlap, and ease to no less than 1 where they are free', () => {
  const weights = new PairWeights(4);
  weights.adapt([
    { a: 0, b: 2, severity: 30 },
    { a: 3, b: 1, severity: 15 },
  ]);
  expect([weights.of(0, 2), weights.of(2, 0), weights.of(1, 3), weights.of(0, 1)]).toEqual([2, 2, 1.6, 1]);
  weights.adapt([{ a: 1, b: 3, severity: 9 }]);
  expect([weights.of(0, 2), weights.of(1, 3), weights.of(0, 1)]).toEqual([1.9, 3.2, 1]);
  for (let i = 0; i < 40; i++) weights.adapt([]);
  expect(weights.of(3, 1)).toBe(1);
});

describe('parting what overlaps', () => {
  test.each([1, 2, 3])('a heap becomes boards on which nothing is nearer than the gap, seed %i', (seed) => {
    const facts = factsOf([board([1490, 1180], { trimMm: 7 })], GAP);
    const { lane, group } = laneFor(lopsidedBlanks(seed, 9, 700), facts, 'free', seed);
    const rooms = heap(lane, group, 3);
    expect(overlapsIn(rooms).length).toBeGreaterThan(20);
    expect(walkNow(separate(lane, rooms, 200_000))).toEqual([]);
    expect(overlapsIn(rooms)).toEqual([]);
    expect(itemsIn(rooms)).toEqual(lane.input.items.map((_, item) => item));
  });

  test('what cannot be parted is told, and nothing is lost', () => {
    // Three of these do not fit the board whatever is done: 3 × 690 × 480 is more than 1110 × 820.
    const blanks = [1, 2, 3].map((i) => blank(`${i}A`, [rectangle(0, 0, 690 + i, 480)]));
    const { lane, group } = laneFor(blanks, factsOf([board([1110, 820])], GAP), 'quarter');
    const rooms = heap(lane, group, 1);
    const left = walkNow(separate(lane, rooms, 20_000));
    expect(left.length).toBeGreaterThan(0);
    expect(overlapsIn(rooms)).toEqual(left);
    expect(itemsIn(rooms)).toEqual([0, 1, 2]);
    expect(lane.tally.evaluations).toBeLessThan(40_000);
  });

  test.each(['quarter', 'half'] as const)('%s turns: no others are taken', (turns) => {
    const { lane, group } = laneFor(lopsidedBlanks(5, 8, 700), factsOf([board([1490, 1180])], GAP), turns);
    const rooms = heap(lane, group, 2);
    walkNow(separate(lane, rooms, 60_000));
    const step = turns === 'quarter' ? 90 : 180;
    for (const { posture } of rooms.flatMap(({ standing }) => standing)) expect(posture.turnDeg % step).toBe(0);
  });
});

test('an item that leaves a room gives its area back; one that stands nowhere is a fault', () => {
  const { lane, group } = laneFor(lopsidedBlanks(6, 3, 500), factsOf([board([1490, 1180])], GAP), 'free');
  const rooms = heap(lane, group, 2);
  const before = rooms[0].freeMm2;
  leave(roomOf(rooms, 1), 1);
  expect(rooms[0].freeMm2 - before).toBeCloseTo(lane.posturesOf(1)[0].shape.areaMm2, 6);
  expect(itemsIn(rooms)).toEqual([0, 2]);
  expect(() => roomOf(rooms, 1)).toThrow('stands nowhere');
});
