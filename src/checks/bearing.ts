import type { Finding, Where } from '../findings.ts';
import { subtract } from '../geometry/clip.ts';
import { distanceToRings, regionArea, ringsOf } from '../geometry/ring.ts';
import { supportOf } from '../geometry/support.ts';
import { usualLapMm } from '../model/layer.ts';
import type { Piece } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { numberText } from '../units.ts';

/** A piece that rests on less of itself than this is told of. */
const LEAST_SHARE = 0.1;
/** Smaller differences between a layer and its pieces are the grid's, at points that seams put on long edges. */
const SPECK_MM2 = 1;
/** What arithmetic may take from a lap. */
const ROUNDING_MM = 0.01;

/** Whether every piece rests steadily on the foam beneath, and laps it by as much as the job says. */
export function bearing({ pieces, stack, job }: Plan): Finding[] {
  const byLayer = new Map<number, Piece[]>();
  for (const piece of pieces) byLayer.set(piece.layer, [...(byLayer.get(piece.layer) ?? []), piece]);
  const tipping: string[] = [];
  const said = lapOf(job);
  let worst: { lapMm: number; wantedMm: number; where: Where } | undefined;
  for (const [i, layer] of stack.layers.entries()) {
    const foam = (byLayer.get(layer.number) ?? []).map(({ region }) => region);
    for (const { name, region } of byLayer.get(layer.number + 1) ?? []) {
      const { share, isSteady } = supportOf(region, foam, 0);
      if (!isSteady || share < LEAST_SHARE) tipping.push(name);
    }
    const next = stack.layers[i + 1];
    if (!next) continue;
    const wantedMm = said ?? usualLapMm(next.thicknessMm);
    const outline = ringsOf(next.regions);
    const voids = subtract(layer.regions, foam).filter((region) => regionArea(region) > SPECK_MM2);
    for (const ring of ringsOf(voids)) {
      for (let k = 0; k < ring.length; k += 2) {
        const lapMm = distanceToRings(ring[k], ring[k + 1], outline);
        if (lapMm < wantedMm - ROUNDING_MM && (!worst || lapMm - wantedMm < worst.lapMm - worst.wantedMm)) {
          worst = { lapMm, wantedMm, where: { layer: layer.number, atMm: [ring[k], ring[k + 1]] } };
        }
      }
    }
  }
  return [
    ...(tipping.length > 0 ? [tips(tipping)] : []),
    ...(worst ? [lapShort(worst.lapMm, worst.wantedMm, worst.where)] : []),
  ];
}

/** The lap that the job says, millimetres; null when it says none. */
function lapOf(job: Plan['job']): number | null {
  const split = job.split as { readonly hollow?: { readonly lap?: unknown } } | undefined;
  const lap = split?.hollow?.lap;
  return typeof lap === 'number' ? lap : null;
}

const tips = (names: readonly string[]): Finding => ({
  level: 'watch',
  code: 'checks/tips',
  message: `${names.length === 1 ? 'A piece, laid loose, tips or has' : `${names.length} pieces, laid loose, tip or have`} little under them: ${names.slice(0, 8).join(', ')}${names.length > 8 ? ' …' : ''}.`,
  fix: 'Block under them with a plug or an offcut until the glue has set, widen the lap, or split solid.',
  where: { piece: names[0] },
});

const lapShort = (lapMm: number, wantedMm: number, where: Where): Finding => ({
  level: 'stop',
  code: 'checks/lap-short',
  message: `The next layer laps this one by ${numberText(lapMm, 1)} mm only; ${numberText(wantedMm)} mm are wanted.`,
  fix: 'Split again with a wider lap.',
  where,
});
