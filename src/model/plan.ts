import type { Finding } from '../findings.ts';
import type { Unit } from '../units.ts';
import type { Facts } from './facts.ts';
import type { Landform } from './landform.ts';
import type { LayerStack } from './layer.ts';
import type { Bound, LayoutBoard } from './layout.ts';
import type { Blank, Piece } from './piece.ts';
import type { PinThrough } from './pin.ts';
import type { Offcut } from './stock.ts';

/** How far one layer's foam is from the ground in its thickness. */
export interface LayerDeviation {
  readonly layer: number;
  /** Foam that stands out of the ground: carved off. */
  readonly carveMm3: number;
  /** Ground without foam: filled up. */
  readonly fillMm3: number;
}

/** How far the stack as cut is from the design. */
export interface Deviation {
  readonly layers: readonly LayerDeviation[];
  readonly carveMm3: number;
  /** Ground over the top layer counts too. */
  readonly fillMm3: number;
  /** Where a corner of a layer's edge stands farthest from the ground, square to it; null without an edge. */
  readonly largestStep: {
    readonly mm: number;
    readonly layer: number;
    readonly atMm: readonly [number, number];
  } | null;
}

/** How a piece rests on the foam beneath it, laid loose. */
export interface PieceRest {
  readonly piece: string;
  /** What of it rests, and its share of the piece, 0…1. */
  readonly areaMm2: number;
  readonly share: number;
  /** How far its middle of mass lies inside the hull of where it rests: below 0 it tips. −Infinity when nothing is under it. */
  readonly insideMm: number;
  /** From its edge on the layer's outline to the nearest void beneath; null where none is near. */
  readonly leastLap: {
    readonly mm: number;
    readonly wantedMm: number;
    readonly atMm: readonly [number, number];
  } | null;
}

/** How many pins there are of a length. */
export interface PinCount {
  readonly lengthMm: number;
  /** Pulled again before carving. */
  readonly isPulled: boolean;
  readonly count: number;
}

/** Skewers of one length as sold, and what is cut from them. */
export interface PinStock {
  readonly soldMm: number;
  /** How many are bought. */
  readonly sticks: number;
  readonly pins: number;
  /** Of those pins, how many are pulled again before carving. */
  readonly pulled: number;
  readonly leastMm: number;
  readonly mostMm: number;
}

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
  /** What is laid over ribs: the sloping ground and its sides, without waste; null for layers. */
  readonly coveringM2: number | null;
  /** Foam that stands out of the ground and is carved off, where the cut line rule leaves it; 0 for ribs. */
  readonly carveM3: number;
  /** Ground that no foam reaches: cover fills these steps besides its depth. */
  readonly stepFillM3: number;
  /** How far a corner of a layer's edge stands from the ground at most, square to it; null for ribs. */
  readonly largestStepMm: number | null;
  readonly cutLengthM: number;
  readonly pins: number;
  readonly pinLengths: readonly PinCount[];
  /** The lengths as sold that they are cut from. */
  readonly pinStock: readonly PinStock[];
  /** Faces between layers that take glue. */
  readonly glueM2: number;
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
  /** Before hollowing; null for ribs. */
  readonly deviation: Deviation | null;
  readonly blanks: readonly Blank[];
  readonly pieces: readonly Piece[];
  readonly pins: readonly PinThrough[];
  /** Of lying layers but the lowest. */
  readonly rests: readonly PieceRest[];
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
