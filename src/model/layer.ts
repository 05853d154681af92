import type { Region } from '../geometry/ring.ts';

/** One board thickness of the stack. Numbered from 1 at the ground upward. Never empty. */
export interface Layer {
  readonly number: number;
  readonly bottomMm: number;
  readonly thicknessMm: number;
  /** The outline to cut, whole, before hollowing. Free of overlaps, on the grid of SNAP. Landform coordinates. */
  readonly regions: readonly Region[];
}

/** The layers from the ground up. `flat`: they lie. `upright`: they stand as ribs. A splitter says which it takes. */
export interface LayerStack {
  readonly kind: 'flat' | 'upright';
  readonly layers: readonly Layer[];
}

/** Lap when the job says none: a layer's height, and no less than two rows of pins and a bead of glue take (common practice, no source). */
export const usualLapMm = (thicknessMm: number): number => Math.max(40, thicknessMm);
