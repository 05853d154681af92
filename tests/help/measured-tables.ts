/** Measure-off tables as they are printed, read back and joined into outlines. */
import { expect } from 'vitest';
import { distanceToRings, placed, type Ring } from '../../src/geometry/ring.ts';
import type { Plan } from '../../src/model/plan.ts';
import type { ReadSheet } from './read-sheet.ts';

/** The marks of each piece as the printed tables have them: number, along, up. */
function printed(pages: readonly ReadSheet[], measures: 'mm' | 'inches') {
  const value = (text: string) =>
    measures === 'mm'
      ? Number(text)
      : 25.4 *
        text.split(' ').reduce((sum, part) => {
          const [over, under = 1] = part.split('/').map(Number);
          return sum + over / under;
        }, 0);
  const pieces = new Map<string, Map<number, [number, number]>>();
  let piece = '';
  const joins = new Map<string, string>();
  for (const { lines } of pages) {
    // A row is what stands on one base line.
    const rows = new Map<string, typeof lines>();
    for (const line of lines) {
      const key = line.yMm.toFixed(1);
      rows.set(key, [...(rows.get(key) ?? []), line]);
    }
    for (const row of [...rows.values()].sort((a, b) => a[0].yMm - b[0].yMm)) {
      const cells = [...row].sort((a, b) => a.xMm - b.xMm).map(({ text }) => text.trim());
      const heading = /^Piece (\S+)$/.exec(cells[0]);
      if (heading) piece = heading[1];
      if (/^Join /.test(cells[0])) joins.set(piece, cells[0]);
      for (let i = 1; i < cells.length; i++) {
        const along = cells[i - 1];
        if (!/^[\d/ ]+$/.test(along) || !/\(\d+\)/.test(cells[i])) continue;
        for (const [, up, number] of cells[i].matchAll(/([\d/ ]+?) \((\d+)\)/g)) {
          const marks = pieces.get(piece) ?? new Map<number, [number, number]>();
          pieces.set(piece, marks.set(Number(number), [value(along.trim()), value(up.trim())]));
        }
      }
    }
  }
  return { pieces, joins };
}

const farFrom = (from: Ring, to: readonly Ring[]) => {
  let most = 0;
  for (let i = 0; i < from.length; i += 2) {
    const j = (i + 2) % from.length;
    // Every 2 mm; longer edges at 40 places.
    const steps = Math.max(1, Math.min(40, Math.ceil(Math.hypot(from[j] - from[i], from[j + 1] - from[i + 1]) / 2)));
    for (let k = 0; k < steps; k++) {
      const x = from[i] + ((from[j] - from[i]) * k) / steps;
      const y = from[i + 1] + ((from[j + 1] - from[i + 1]) * k) / steps;
      most = Math.max(most, distanceToRings(x, y, to));
    }
  }
  return most;
};

/** The marks of every piece, joined by their numbers, lie within the tolerance of its outline, and it of them. */
export function expectWithin(plan: Plan, pages: readonly ReadSheet[], measures: 'mm' | 'inches', tolerance: number) {
  const { pieces, joins } = printed(pages, measures);
  const places = plan.boards.flatMap(({ placed }) => placed);
  expect([...pieces.keys()].sort()).toEqual(plan.pieces.map(({ name }) => name).sort());
  for (const { name, region } of plan.pieces) {
    const place = places.find(({ piece }) => piece === name);
    if (!place) throw new Error(`${name} lies nowhere`);
    const truth = region.map((ring) => placed(ring, place));
    const marks = pieces.get(name) ?? new Map();
    const runs = [...(joins.get(name) ?? '').matchAll(/(\d+) to (\d+) and back/g)];
    expect(runs).toHaveLength(region.length);
    const rebuilt = runs.map(([, first, last]) => {
      const ring: number[] = [];
      for (let n = Number(first); n <= Number(last); n++) ring.push(...(marks.get(n) ?? [Number.NaN, 0]));
      return new Float64Array(ring);
    });
    for (const ring of rebuilt) expect(farFrom(ring, truth)).toBeLessThanOrEqual(tolerance);
    for (const ring of truth) expect(farFrom(ring, rebuilt)).toBeLessThanOrEqual(tolerance);
  }
}
