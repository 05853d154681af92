/** Labels and match marks: read on both sides, unique, and never alike when a piece is turned or flipped. */
import { describe, expect, test } from 'vitest';
import { distanceToRings, type Point } from '../../src/geometry/ring.ts';
import type { Joint } from '../../src/model/piece.ts';
import { matchesOn } from '../../src/split/pieces/matches.ts';
import { split } from '../help/split-run.ts';
import { randomStack } from '../help/stacks.ts';

const lengthOf = (line: Float64Array) => {
  let length = 0;
  for (let i = 2; i < line.length; i += 2) length += Math.hypot(line[i] - line[i - 2], line[i + 1] - line[i - 1]);
  return length;
};

/** How far along a line a point of it is. */
function along(line: Float64Array, [x, y]: Point): number {
  let [before, best, least] = [0, 0, Infinity];
  for (let i = 2; i < line.length; i += 2) {
    const [dx, dy] = [line[i] - line[i - 2], line[i + 1] - line[i - 1]];
    const long = Math.hypot(dx, dy);
    const t = Math.max(0, Math.min(1, ((x - line[i - 2]) * dx + (y - line[i - 1]) * dy) / long ** 2));
    const off = Math.hypot(line[i - 2] + t * dx - x, line[i - 1] + t * dy - y);
    if (off < least) [least, best] = [off, before + t * long];
    before += long;
  }
  return best;
}

/** How far a point is from an open line. */
const offLine = (x: number, y: number, line: Float64Array): number =>
  Math.min(
    ...Array.from({ length: line.length / 2 - 1 }, (_, i) => distanceToRings(x, y, [line.slice(2 * i, 2 * i + 4)])),
  );

const marksOf = ({ line, matches }: Joint) => matches.map((point) => along(line, point)).sort((a, b) => a - b);
const gaps = (marks: readonly number[]) => marks.slice(1).map((mark, i) => mark - marks[i]);
/** How far one row of marks is from covering another, wherever it is slid to. */
function apart(a: readonly number[], b: readonly number[]): number {
  const far = (some: readonly number[], others: readonly number[]) =>
    Math.max(...some.map((one) => Math.min(...others.map((other) => Math.abs(one - other)))));
  const slides = a.flatMap((from) => b.map((to) => to - from));
  return Math.min(...slides.map((by) => a.map((mark) => mark + by)).map((row) => Math.max(far(row, b), far(b, row))));
}

const HILLS = [1, 2, 3, 4, 5, 6].flatMap((seed) => [['solid', seed] as const, ['hollow', seed] as const]);

describe.each(HILLS)('%s, hill %i', (name, seed) => {
  const { pieces } = split(name, randomStack(seed, { widthMm: 5200, depthMm: 3300, layers: 3 }));
  const joints = pieces.flatMap((piece) => piece.joints.map((joint) => ({ piece, joint })));

  test('each label stands on two pieces of one layer and nowhere else, and each names the other', () => {
    expect(joints.length).toBeGreaterThan(8);
    for (const { piece, joint } of joints) {
      const both = joints.filter(({ joint: { label } }) => label === joint.label);
      expect(both).toHaveLength(2);
      const other = both.find((side) => side.piece !== piece);
      expect([other?.piece.name, other?.joint.neighbour]).toEqual([joint.neighbour, piece.name]);
      expect(joint.label.startsWith(`${piece.layer}/`)).toBe(true);
      expect(other?.joint.matches).toEqual(joint.matches);
    }
  });

  test('three marks on the joint, one alone and two together: run the other way, they match nowhere', () => {
    for (const { joint } of joints) {
      expect(joint.matches).toHaveLength(3);
      for (const [x, y] of joint.matches) expect(offLine(x, y, joint.line)).toBeLessThan(0.002);
      const marks = marksOf(joint);
      const long = lengthOf(joint.line);
      const [wide, close] = gaps(marks).sort((a, b) => b - a);
      expect(wide).toBeGreaterThan(0.15 * long);
      expect(close).toBeLessThan(0.4 * wide);
      expect(
        apart(
          marks,
          marks.map((mark) => long - mark),
        ),
      ).toBeGreaterThan(Math.min(2.9, 0.05 * long));
    }
  });

  test('a piece that is turned round or flipped matches by none of its other joints', () => {
    for (const { joints: own } of pieces) {
      for (const a of own) {
        for (const b of own.filter((other) => other !== a)) {
          const [longA, longB] = [lengthOf(a.line), lengthOf(b.line)];
          const [marksA, marksB] = [marksOf(a), marksOf(b)];
          // Starts or ends laid together, either way round.
          for (const row of [marksA, marksA.map((mark) => longA - mark)]) {
            for (const by of [0, longB - longA]) {
              const laid = row.map((mark) => mark + by);
              const off = Math.max(
                ...laid.map((mark) => Math.min(...marksB.map((other) => Math.abs(mark - other)))),
                ...marksB.map((mark) => Math.min(...laid.map((other) => Math.abs(mark - other)))),
              );
              // A joint that is much shorter cannot be told apart so far, and is told by its length.
              if (Math.min(longA, longB) > 150) expect(off, `${a.label} on ${b.label}`).toBeGreaterThan(7.5);
            }
          }
        }
      }
    }
  });
});

describe('awkward joints', () => {
  test.each([1000, 100, 41, 12, 3])('%i mm long', (long) => {
    const { alongMm, points } = matchesOn(Float64Array.of(7, 5, 7 + long, 5), []);
    expect(points).toHaveLength(3);
    const [a, b, c] = alongMm;
    expect(a).toBeGreaterThan(0);
    expect(c).toBeLessThan(long);
    expect(Math.min(b - a, c - b)).toBeCloseTo(Math.min(6, long / 8), 6);
    expect(Math.max(b - a, c - b)).toBeGreaterThan(2 * Math.min(b - a, c - b));
  });

  test('bent: marks lie on the line', () => {
    const line = Float64Array.of(0, 0, 310, 20, 330, 410, 90, 520);
    for (const point of matchesOn(line, []).points) {
      const [x, y] = point;
      expect(offLine(x, y, line)).toBeLessThan(0.002);
      const at = along(line, point);
      expect(at).toBeGreaterThan(0);
      expect(at).toBeLessThan(lengthOf(line));
    }
  });

  test('many joints of one length round one piece all differ as long as there are places, and later ones still have marks', () => {
    const line = Float64Array.of(0, 0, 600, 0);
    const made: ReturnType<typeof matchesOn>[] = [];
    for (let i = 0; i < 30; i++) made.push(matchesOn(line, made));
    expect(new Set(made.slice(0, 8).map(({ alongMm }) => alongMm.join(' '))).size).toBe(8);
    for (const { points } of made) expect(points).toHaveLength(3);
  });
});
