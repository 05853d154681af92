import type { Finding } from '../findings.ts';
import { lineAround } from '../geometry/line-distance.ts';
import { type Point, type Region, ringsOf } from '../geometry/ring.ts';
import { SegmentIndex } from '../geometry/segment-index.ts';
import type { Layer } from '../model/layer.ts';
import type { Plan } from '../model/plan.ts';
import { lengthText, numberText, type Unit } from '../units.ts';
import { groundSections } from '../workshop/deviation/sections.ts';
import { told } from './told.ts';

/**
 * An edge that is carved to less than this over the width below is a feather: 10° or flatter. Feathers are the first to
 * break in handling (players of table-top terrain, as quoted in trade literature); the angle is our choice.
 */
const FEATHER_MM = 5;
const FEATHER_WIDE_MM = 28;
/** Boards thinner than this are card: their whole edge would count. */
const LEAST_THICKNESS_MM = 4 * FEATHER_MM;
/** Shorter than this it is a corner. */
const LEAST_LENGTH_MM = 300;
/** Edges are looked at in steps of this. */
const STEP_MM = 50;

interface Feather {
  readonly layer: number;
  readonly lengthMm: number;
  /** Where the longest run ends. */
  readonly atMm: Point;
}

/**
 * Edges that end as a feather once they are carved to the ground, or cut by a leaning wire: where the ground leaves the
 * layer's underside so flatly that the foam is hardly there for a hand's breadth. Only of layers cut proud or sloped, whose
 * foam begins where the ground does. One section of the ground for each layer, O(cells + edges).
 */
export function feather({ landform, stack, job, unit }: Plan): Finding[] {
  const slice = (job.slice as { readonly layers?: { readonly cut?: unknown } } | undefined)?.layers;
  const layers = stack.layers.filter(
    ({ slope, thicknessMm }) => thicknessMm >= LEAST_THICKNESS_MM && (slope || slice?.cut === 'proud'),
  );
  if (layers.length === 0) return [];
  const levels = Float64Array.from(layers, ({ bottomMm }) => bottomMm + FEATHER_MM);
  const sections = groundSections(landform)(levels);
  const found = layers
    .flatMap((layer, i) => featherOf(layer, sections[i]))
    .filter(({ lengthMm }) => lengthMm >= LEAST_LENGTH_MM)
    .sort((a, b) => b.lengthMm - a.lengthMm || a.layer - b.layer);
  return told(
    found,
    (each) => isFeather(each, unit),
    ({ layer }) => `layer ${layer}`,
  );
}

/** The edges of a layer beyond reach of where the foam has some thickness. */
function featherOf({ number, regions }: Layer, stout: readonly Region[]): Feather[] {
  const index = new SegmentIndex(ringsOf(stout).map(lineAround));
  let lengthMm = 0;
  let longest = 0;
  let atMm: Point = [0, 0];
  for (const ring of ringsOf(regions)) {
    let run = 0;
    for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
      const [dx, dy] = [ring[i] - ring[j], ring[i + 1] - ring[j + 1]];
      const side = Math.sqrt(dx * dx + dy * dy);
      const steps = Math.max(1, Math.ceil(side / STEP_MM));
      for (let k = 0; k < steps; k++) {
        const t = (k + 0.5) / steps;
        const [x, y] = [ring[j] + t * dx, ring[j + 1] + t * dy];
        if (index.distance(x, y, FEATHER_WIDE_MM) <= FEATHER_WIDE_MM) {
          run = 0;
          continue;
        }
        lengthMm += side / steps;
        run += side / steps;
        if (run > longest) [longest, atMm] = [run, [x, y]];
      }
    }
  }
  return lengthMm > 0 ? [{ layer: number, lengthMm, atMm }] : [];
}

const isFeather = ({ layer, lengthMm, atMm }: Feather, unit: Unit): Finding => ({
  level: 'note',
  code: 'checks/feather',
  message: `Carved to the ground, ${numberText(lengthMm / 1000, 1)} m of this layer's edge run out to a feather, under ${lengthText(FEATHER_MM, unit, 1)} for ${lengthText(FEATHER_WIDE_MM, unit, 1)} or more; the longest run ends here.`,
  fix: 'Carve only after gluing and let the cover make the last of it, or cut shy or middle there.',
  where: { layer, atMm },
});
