import { expect, test } from 'vitest';
import { distanceToRings, type Region, rectangle, reversed } from '../../src/geometry/ring.ts';
import type { Lying } from '../../src/nest/boards/lying.ts';
import { runIns } from '../../src/nest/boards/run-ins.ts';

/** A square frame about (300, 310) with a void, slit through its left side. */
function frame(blank: number, name: string, halfMm: number, voidMm: number): Lying {
  const square = (half: number) => rectangle(300 - half, 310 - half, 300 + half, 310 + half);
  const region: Region = [square(halfMm), reversed(square(voidMm))];
  return {
    blank,
    pieces: [{ name, region, slits: [new Float64Array([300 - halfMm, 330, 300 - voidMm, 330])] }],
  };
}

test('in voids within voids the way begins at the innermost, in whatever order the blanks come', () => {
  const core: Lying = { blank: 3, pieces: [{ name: '3A', region: [rectangle(280, 270, 330, 335)], slits: [] }] };
  const nested = [frame(1, '1A', 250, 200), frame(2, '2A', 180, 120), core];
  const edges = [rectangle(0, 0, 900, 620)];
  for (const order of [
    [0, 1, 2],
    [2, 1, 0],
    [1, 2, 0],
  ]) {
    const blanks = order.map((i) => nested[i]);
    const made = runIns(blanks, edges, 12, 2);
    const within = new Map(made.map((way) => [way.blank, way.within]));
    expect([1, 2, 3].map((blank) => within.get(blank))).toEqual([undefined, '1A', '2A']);
    const [line] = made.flatMap((way) => (way.blank === 3 ? [way.line] : []));
    // From the mouth of the slit in the inner void to the core.
    expect([...line.slice(0, 2)]).toEqual([180, 330]);
    expect(distanceToRings(line[line.length - 2], line[line.length - 1], core.pieces[0].region)).toBeLessThan(0.01);
  }
});
