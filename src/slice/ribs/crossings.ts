import { type HeightLine, heightAt, leastBetween, partBetween } from '../../geometry/height-line.ts';
import { snapped } from '../../geometry/snap.ts';

/** A rib before it is cut out: the stretches of its upper edge. */
export interface Bare {
  readonly atMm: number;
  stretches: readonly HeightLine[];
}

/** Where two ribs pass through each other. */
export interface Pass {
  /** Numbers in the lists of those that stand first and of those that are let down into them, and of the stretches. */
  readonly first: number;
  readonly firstStretch: number;
  readonly second: number;
  readonly secondStretch: number;
  readonly meetMm: number;
}

export interface Slots {
  readonly widthMm: number;
  /** Foam that is wanted on either side of a slot, along the rib. */
  readonly besideMm: number;
  /** Foam that is wanted over or under a slot. */
  readonly webMm: number;
}

/**
 * Where the ribs of two directions pass through each other. Where one would have no room for its slot (too near an end, or
 * too little foam over it beside a step of the ground) it ends against the other: it is cut back to the side of the slot. Each
 * cut takes a place out of a stretch for good, so it ends. Changes the stretches. O(crossings), each time that something was cut.
 * @returns the passes, and how many ends were cut back.
 */
export function passes(
  firsts: readonly Bare[],
  seconds: readonly Bare[],
  slots: Slots,
): { found: Pass[]; cut: number } {
  let cut = 0;
  for (;;) {
    const found: Pass[] = [];
    let isSettled = true;
    for (const [first, a] of firsts.entries()) {
      for (const [second, b] of seconds.entries()) {
        const firstStretch = stretchAt(a, b.atMm, slots);
        const secondStretch = stretchAt(b, a.atMm, slots);
        if (firstStretch < 0 || secondStretch < 0) continue;
        const meetMm = snapped(heightAt(a.stretches[firstStretch], b.atMm) / 2);
        const isIn = hasRoom(a.stretches[firstStretch], b.atMm, slots, 0);
        const isOver = hasRoom(b.stretches[secondStretch], a.atMm, slots, meetMm);
        if (isIn && isOver) {
          found.push({ first, firstStretch, second, secondStretch, meetMm });
          continue;
        }
        if (isIn) cutBack(b, secondStretch, a.atMm, slots);
        else cutBack(a, firstStretch, b.atMm, slots);
        cut++;
        isSettled = false;
      }
    }
    if (isSettled) return { found, cut };
  }
}

/** The stretch that reaches into the place of a slot; −1 for none. */
const stretchAt = ({ stretches }: Bare, atMm: number, { widthMm }: Slots): number =>
  stretches.findIndex((line) => line[0] < atMm + widthMm / 2 && line[line.length - 2] > atMm - widthMm / 2);

function hasRoom(line: HeightLine, atMm: number, { widthMm, besideMm, webMm }: Slots, overMm: number): boolean {
  const [from, to] = [atMm - widthMm / 2, atMm + widthMm / 2];
  const isClear = line[0] <= from - besideMm && line[line.length - 2] >= to + besideMm;
  return isClear && leastBetween(line, from, to) - overMm >= webMm;
}

function cutBack(rib: Bare, stretch: number, atMm: number, { widthMm, besideMm }: Slots): void {
  const line = rib.stretches[stretch];
  const sides = [
    partBetween(line, -Infinity, atMm - widthMm / 2, besideMm),
    partBetween(line, atMm + widthMm / 2, Infinity, besideMm),
  ];
  rib.stretches = rib.stretches.flatMap((each, i) => (i === stretch ? sides.filter((side) => side !== null) : [each]));
}
