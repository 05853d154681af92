import type { Finding } from '../../findings.ts';
import type { Point } from '../../geometry/ring.ts';
import type { Plan } from '../../model/plan.ts';
import { roomiest } from './labels.ts';

/** A finding as the report lists it. */
export interface Listed {
  readonly finding: Finding;
  /** Where a layer's figure shows it by its number; null when it has no place in a layer. */
  readonly mark: Mark | null;
}

export interface Mark {
  /** From 1, in the order of the list. */
  readonly number: number;
  readonly layer: number;
  readonly atMm: Point;
}

/** Everything told of a plan, the gravest first; what has a place in a lying layer is numbered, in that order. */
export function listed(plan: Plan): Listed[] {
  let number = 0;
  const sorted = (['stop', 'watch', 'note'] as const).flatMap((level) =>
    plan.findings.filter((each) => each.level === level),
  );
  return sorted.map((finding) => {
    const place = placeOf(finding, plan);
    if (place) number++;
    return { finding, mark: place && { number, ...place } };
  });
}

/** The layer and the point of a finding: that of its piece where it says none. Null for ribs: their figures have other axes. */
function placeOf({ where }: Finding, { pieces, stack }: Plan): Omit<Mark, 'number'> | null {
  if (stack.kind !== 'flat') return null;
  const piece = pieces.find(({ name }) => name === where.piece);
  const layer = where.layer ?? piece?.layer;
  if (layer === undefined || !stack.layers.some((each) => each.number === layer)) return null;
  const atMm = where.atMm ?? (piece && roomiest(piece.region));
  return atMm ? { layer, atMm } : null;
}
