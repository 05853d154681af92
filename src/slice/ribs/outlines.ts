import { subtract } from '../../geometry/clip.ts';
import { type HeightLine, mostBetween } from '../../geometry/height-line.ts';
import { type Region, rectangle } from '../../geometry/ring.ts';
import { snapped } from '../../geometry/snap.ts';
import type { Layer } from '../../model/layer.ts';
import type { Crossing, Frame } from '../../model/rib.ts';
import type { Bare, Pass } from './crossings.ts';
import type { GridLine } from './grid.ts';

/** A slot is cut so far beyond the edge that it opens at. */
const OPEN_MM = 10;

/**
 * The ribs that something crosses, as layers with their slots cut out: numbered first those that stand first, each set from the
 * south or the west. Stretches without a crossing are left out.
 */
export function cutOut(
  lines: readonly GridLine[],
  ribs: readonly Bare[],
  firsts: number,
  found: readonly Pass[],
  { thicknessMm, slotMm }: { readonly thicknessMm: number; readonly slotMm: number },
): Layer[] {
  const passing = ribs.map((_, rib) =>
    found.flatMap((pass) => {
      if (pass.first === rib) return [{ other: firsts + pass.second, stretch: pass.firstStretch, opens: 'top', pass }];
      if (firsts + pass.second === rib)
        return [{ other: pass.first, stretch: pass.secondStretch, opens: 'bottom', pass }];
      return [];
    }),
  );
  const standing = ribs.map((_, rib) => rib).filter((rib) => passing[rib].length > 0);
  const numberOf = new Map(standing.map((rib, i) => [rib, i + 1]));
  return standing.map((rib, i): Layer => {
    const own = passing[rib].sort((a, b) => ribs[a.other].atMm - ribs[b.other].atMm);
    const crossings = own.map(
      ({ other, opens, pass }): Crossing => ({
        layer: numberOf.get(other) as number,
        atMm: ribs[other].atMm,
        widthMm: slotMm,
        meetMm: pass.meetMm,
        opens: opens as Crossing['opens'],
      }),
    );
    const regions = ribs[rib].stretches.flatMap((stretch, k) => {
      const slots = crossings.filter((_, c) => own[c].stretch === k);
      return slots.length > 0 ? outline(stretch, slots) : [];
    });
    const upright = { frame: frameOf(lines[rib]), gridLine: lines[rib].name, crossings };
    return { number: i + 1, bottomMm: 0, thicknessMm, regions, rib: upright };
  });
}

/** From the floor up to a line, less slots. */
function outline(line: HeightLine, crossings: readonly Crossing[]): Region[] {
  const ring = [line[0], 0, line[line.length - 2], 0];
  for (let i = line.length - 2; i >= 0; i -= 2) ring.push(line[i], line[i + 1]);
  const topMm = mostBetween(line, -Infinity, Infinity) + OPEN_MM;
  const slots = crossings.map(({ atMm, widthMm, meetMm, opens }): Region => {
    const from = snapped(atMm - widthMm / 2);
    const to = snapped(from + widthMm);
    return [opens === 'top' ? rectangle(from, meetMm, to, topMm) : rectangle(from, -OPEN_MM, to, meetMm)];
  });
  return subtract([[Float64Array.from(ring)]], slots);
}

const frameOf = ({ along, atMm }: GridLine): Frame =>
  along === 'x' ? { originMm: [0, atMm, 0], along: [1, 0] } : { originMm: [atMm, 0, 0], along: [0, 1] };
