import type { Finding } from '../findings.ts';
import type { Unit } from '../units.ts';
import type { Facts } from './facts.ts';
import type { Landform } from './landform.ts';
import type { LayerStack } from './layer.ts';
import type { Bound, LayoutBoard } from './layout.ts';
import type { Blank, Piece } from './piece.ts';
import type { Offcut } from './stock.ts';

/** What it takes and costs. Volumes are foam and ground as they are, not as they are sold. */
export interface Quantities {
  readonly layers: number;
  readonly pieces: number;
  readonly boards: number;
  readonly boardsBought: number;
  /** Money for the boards bought, in the job's money; null when a price is missing. */
  readonly price: number | null;
  readonly planAreaM2: number;
  /** True sloping area of the ground. */
  readonly surfaceAreaM2: number;
  readonly groundVolumeM3: number;
  /** Foam in the pieces, and its mass. */
  readonly foamVolumeM3: number;
  readonly foamMassKg: number;
  /** Cover laid at its depth over the sloping ground; null without a cover. */
  readonly coverVolumeM3: number | null;
  /** null when the material's density is not known. */
  readonly coverMassKg: number | null;
  /** Cover that fills the steps besides, where the cut line rule leaves them open. */
  readonly stepFillM3: number;
  readonly cutLengthM: number;
  readonly pins: number;
  readonly joints: number;
  readonly offcutAreaM2: number;
}

/** Everything computed for a job: the value in memory. `model/files.ts` has the form it is written in. */
export interface Plan {
  readonly name: string;
  /** What is printed for people follows this; everything inside is millimetres. */
  readonly unit: Unit;
  /** The job as read, defaults filled in, unit mm: reading it back gives the same job. */
  readonly job: Readonly<Record<string, unknown>>;
  readonly facts: Facts;
  readonly landform: Landform;
  readonly stack: LayerStack;
  readonly blanks: readonly Blank[];
  readonly pieces: readonly Piece[];
  readonly boards: readonly LayoutBoard[];
  readonly bound: Bound;
  readonly unusedOffcuts: readonly Offcut[];
  readonly evaluations: number;
  readonly quantities: Quantities;
  readonly findings: readonly Finding[];
}

/** A file made for people or machines, in memory: the edge writes it. */
export interface OutputFile {
  /** A bare file name, safe on every system. */
  readonly path: string;
  readonly mediaType: string;
  readonly body: string | Uint8Array;
  /** How many pages of paper it prints on, where it is printed. */
  readonly pages?: number;
  /** How long trimming and taping those pages takes, where they are taped together. */
  readonly tapingMinutes?: number;
}
