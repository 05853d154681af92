import type { Box } from '../../geometry/ring.ts';
import { snapped } from '../../geometry/snap.ts';
import type { Run } from './profiles.ts';
import { edgeTooNear, tooClose, tooMany, tooSmall } from './told.ts';

/** A line of the grid, and what it is called. */
export interface GridLine extends Run {
  readonly name: string;
}

export interface Grid {
  /** Along x first, then along y; each set from the south or west. */
  readonly lines: readonly GridLine[];
  /** From line to line: between those that run south to north (measured west to east), and between those that run west to east. */
  readonly apartMm: readonly [x: number, y: number];
}

/** What a grid is laid by. */
export interface Wanted {
  readonly spacingMm: readonly [x: number, y: number];
  /** From the sides of the box to the outermost lines. */
  readonly edgeMm: number;
  /** The edge that a slot leaves foam beside. */
  readonly leastEdgeMm: number;
  /** From line to line, so that slots leave foam between them. */
  readonly leastApartMm: number;
}

const MOST_LINES = 1000;
/** What arithmetic may add to a whole number of spacings. */
const ROUNDING = 1e-9;

/**
 * Lay a grid of lines over a box: the outermost ones so far inside its sides, the others evenly between, no further apart than
 * wanted save where slots would then come too near one another.
 */
export function gridOver([minX, minY, maxX, maxY]: Box, wanted: Wanted): Grid {
  const { edgeMm, leastEdgeMm, spacingMm, leastApartMm } = wanted;
  if (edgeMm < leastEdgeMm - ROUNDING) edgeTooNear(leastEdgeMm);
  if (Math.min(...spacingMm) < leastApartMm) tooClose(Math.min(...spacingMm), leastApartMm);
  const sides = [maxX - minX, maxY - minY];
  if (Math.min(...sides) - 2 * edgeMm < leastApartMm) tooSmall(sides, edgeMm);
  const count = sides.reduce((sum, side, i) => sum + Math.ceil((side - 2 * edgeMm) / spacingMm[i]) + 1, 0);
  if (count > MOST_LINES) tooMany(count, MOST_LINES);
  const x = places(minX + edgeMm, maxX - edgeMm, spacingMm[0], leastApartMm);
  const y = places(minY + edgeMm, maxY - edgeMm, spacingMm[1], leastApartMm);
  return {
    lines: [
      ...y.map((atMm, i) => ({ along: 'x' as const, atMm, name: `line ${i + 1} from the south` })),
      ...x.map((atMm, i) => ({ along: 'y' as const, atMm, name: `line ${i + 1} from the west` })),
    ],
    apartMm: [apart(x), apart(y)],
  };
}

function places(from: number, to: number, spacingMm: number, leastMm: number): number[] {
  const wanted = Math.ceil((to - from) / spacingMm - ROUNDING);
  const bays = Math.max(1, Math.min(wanted, Math.floor((to - from) / leastMm)));
  return Array.from({ length: bays + 1 }, (_, i) => snapped(from + ((to - from) * i) / bays));
}

const apart = (places: readonly number[]): number => (places[places.length - 1] - places[0]) / (places.length - 1);
