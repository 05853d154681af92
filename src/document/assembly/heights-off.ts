import type { Plan } from '../../model/plan.ts';
import { thicknessText } from '../../units.ts';
import { thicknessTolerance } from '../../workshop/tolerances.ts';

/** What a measured board's thickness is off by, one of no standard too, and what the eye reads on a stick (common practice, no source). */
const BOARD_OFF_MM = 1;
const READING_MM = 1;

/** How far the heights of a stack may be off. */
export interface HeightsOff {
  /** Of the top of a layer, by its number. */
  topMm(layer: number): number;
  /** What that was counted with. */
  readonly note: string;
}

/**
 * Thicknesses that differ by chance add up as the root of the sum of their squares. A board that the job says the measure of is off by
 * little; others by what their standard lets pass, as the buying list says it.
 */
export function heightsOff(plan: Plan): HeightsOff {
  const layerOf = new Map(plan.pieces.map(({ name, layer }) => [name, layer]));
  const kinds = new Map<string, string>();
  const offMm = new Map<number, number>();
  for (const { stock, thicknessMm, placed } of plan.boards) {
    const { mm, why } = boardOff(plan, stock, thicknessMm);
    if (placed.length > 0) kinds.set(stock, `${stock} ±${thicknessText(mm, plan.unit)} (${why})`);
    for (const { piece } of placed) {
      const layer = layerOf.get(piece);
      if (layer !== undefined) offMm.set(layer, Math.max(mm, offMm.get(layer) ?? 0));
    }
  }
  return {
    topMm: (number) => {
      let squares = 0;
      for (const layer of plan.stack.layers) {
        const mm = offMm.get(layer.number) ?? BOARD_OFF_MM;
        if (layer.number <= number) squares += mm * mm;
      }
      return Math.ceil(READING_MM + Math.sqrt(squares));
    },
    note: `Counted with boards as thick as the plan says, each off by chance: ${[...kinds.values()].join('; ')}. ±${thicknessText(READING_MM, plan.unit)} for reading (common practice, no source).`,
  };
}

function boardOff({ job, facts }: Plan, stock: string, thicknessMm: number): { mm: number; why: string } {
  if (isMeasured(job, stock)) return { mm: BOARD_OFF_MM, why: 'measured; common practice, no source' };
  const foam = facts.work.goods.find((each) => each.stock === stock)?.foam.value;
  const published = foam === undefined ? null : thicknessTolerance(foam, thicknessMm);
  if (published === null) return { mm: BOARD_OFF_MM, why: 'no standard known: measure it; common practice, no source' };
  return { mm: Math.max(published.belowMm, published.aboveMm), why: `not measured; ${published.source}` };
}

/** Whether the job says what a board measures. */
function isMeasured({ stock }: Plan['job'], name: string): boolean {
  type Said = { readonly boards?: readonly { readonly name?: string; readonly measured?: unknown }[] };
  return (stock as Said | undefined)?.boards?.find((board) => board.name === name)?.measured !== undefined;
}
