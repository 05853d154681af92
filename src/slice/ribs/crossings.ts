import { type HeightLine, heightAt, leastBetween, partBetween } from '../../geometry/height-line.ts';
import { snapped } from '../../geometry/snap.ts';

/** A rib before it is cut out: the stretches of its upper edge. */
export interface Bare {
  readonly atMm: number;
  readonly stretches: readonly HeightLine[];
}

type Cut = { -readonly [K in keyof Bare]: Bare[K] };

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

/** Ribs of two directions, how they pass through each other, and what of them is left out. */
export interface Crossed {
  readonly firsts: readonly Bare[];
  readonly seconds: readonly Bare[];
  readonly found: readonly Pass[];
  /** How many ends were cut back. */
  readonly cut: number;
  /** Places of lines, of both directions, of which a stretch is left out since nothing crosses it. */
  readonly loose: readonly number[];
}

/**
 * Let ribs of two directions pass through each other. Where one would have no room for its slot (too near an end, or too
 * little foam over it beside a step of the ground) it ends against the other: it is cut back to the side of the slot. A stretch that
 * nothing crosses is left out, and everything is done again without it, so that nothing ends against what is not there. O(crossings),
 * each time that something was cut or left out.
 */
export function crossed(firsts: readonly Bare[], seconds: readonly Bare[], slots: Slots): Crossed {
  const all = [...firsts, ...seconds];
  let kept: readonly Bare[] = all;
  for (;;) {
    const now = kept.map((rib): Cut => ({ ...rib }));
    const [a, b] = [now.slice(0, firsts.length), now.slice(firsts.length)];
    const { found, cut } = passes(a, b, slots);
    const held = kept.map(({ stretches }, line) =>
      stretches.filter((stretch) => found.some((pass) => isOn(stretch, pass, line, a, b))),
    );
    if (held.every((stretches, line) => stretches.length === kept[line].stretches.length)) {
      const loose = all.map((_, line) => line).filter((line) => held[line].length < all[line].stretches.length);
      return { firsts: a, seconds: b, found, cut, loose };
    }
    kept = kept.map((rib, line) => ({ ...rib, stretches: held[line] }));
  }
}

/** Whether a pass lies on a stretch of a line. */
function isOn(stretch: HeightLine, pass: Pass, line: number, a: readonly Bare[], b: readonly Bare[]): boolean {
  if (line !== pass.first && line !== a.length + pass.second) return false;
  const at = line < a.length ? b[pass.second].atMm : a[pass.first].atMm;
  return at > stretch[0] && at < stretch[stretch.length - 2];
}

/** Where the ribs pass, and how many ends were cut back on the way: each cut takes a place out of a stretch for good, so it ends. */
function passes(firsts: readonly Cut[], seconds: readonly Cut[], slots: Slots): { found: Pass[]; cut: number } {
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

function cutBack(rib: Cut, stretch: number, atMm: number, { widthMm, besideMm }: Slots): void {
  const line = rib.stretches[stretch];
  const sides = [
    partBetween(line, -Infinity, atMm - widthMm / 2, besideMm),
    partBetween(line, atMm + widthMm / 2, Infinity, besideMm),
  ];
  rib.stretches = rib.stretches.flatMap((each, i) => (i === stretch ? sides.filter((side) => side !== null) : [each]));
}
