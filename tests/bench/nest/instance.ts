import { poseOf, prepareShape, type Shape } from '../../../src/nest/engine/engine.ts';

/** A problem read from a file: a strip, or boards of one size. Lengths in the file's unit. */
export interface Instance {
  readonly name: string;
  /** The fixed side of a strip; null for boards. */
  readonly stripWidth: number | null;
  readonly board: readonly [number, number] | null;
  /** Boards of the layout that the pieces were cut from; null when not known. */
  readonly knownBoards: number | null;
  readonly pieces: readonly Piece[];
}

export interface Piece {
  readonly id: number | string;
  readonly demand: number;
  readonly turnsDeg: readonly number[] | null;
  readonly rings: readonly (readonly (readonly [number, number])[])[];
}

interface FileItem {
  readonly id: number | string;
  readonly demand: number;
  readonly allowedRotationsDeg: readonly number[] | null;
  readonly outer: readonly (readonly [number, number])[];
  readonly holes?: readonly (readonly (readonly [number, number])[])[];
}

interface FileInstance {
  readonly name: string;
  readonly stripWidth?: number;
  readonly binWidth?: number;
  readonly binHeight?: number;
  readonly knownBins?: number | null;
  readonly items: readonly FileItem[];
}

/**
 * Read one instance of a file: a strip, the same on boards where a board is said, or one of a jigsaw set.
 * @param which the name of the instance or its place from 0, where a file holds several
 */
export function instanceOf(text: string, which: string | null, board: readonly [number, number] | null): Instance {
  const file = JSON.parse(text) as FileInstance & { readonly instances?: readonly FileInstance[] };
  const found = file.instances
    ? file.instances.find(({ name }, i) => (which === null ? i === 0 : name === which || String(i) === which))
    : file;
  if (!found) throw new Error(`there is no instance ${which} in that file`);
  const { name, stripWidth, binWidth, binHeight, knownBins, items } = found;
  const own = binWidth !== undefined && binHeight !== undefined ? ([binWidth, binHeight] as const) : null;
  return {
    name,
    stripWidth: board === null && own === null ? (stripWidth ?? null) : null,
    board: board ?? own,
    knownBoards: board === null ? (knownBins ?? null) : null,
    pieces: items.map(({ id, demand, allowedRotationsDeg, outer, holes = [] }) => ({
      id,
      demand,
      turnsDeg: allowedRotationsDeg,
      rings: [outer, ...holes],
    })),
  };
}

/** An instance as the engine takes it: in units a power of ten finer, so that its grid of thousandths is fine enough. */
export interface Prepared {
  readonly perUnit: number;
  readonly shapes: readonly Shape[];
  readonly items: readonly number[];
  /** Of each item: the place of its piece in the instance, and which copy of it. */
  readonly of: readonly { readonly piece: number; readonly copy: number }[];
  readonly area: number;
}

const QUARTERS = [0, 90, 180, 270];

export function prepared({ pieces, stripWidth, board }: Instance, areTurnsFree: boolean): Prepared {
  const smallest = stripWidth ?? Math.min(...(board ?? [1000]));
  let perUnit = 1;
  while (smallest * perUnit < 1000) perUnit *= 10;
  const shapes = pieces.map(({ rings, turnsDeg }) =>
    prepareShape([rings.map((ring) => Float64Array.from(ring.flat(), (v) => v * perUnit))], {
      gapMm: 0,
      poses: (turnsDeg ?? QUARTERS).map((turnDeg) => poseOf(turnDeg)),
      turnsFreely: areTurnsFree || turnsDeg === null,
      hasOddContainers: false,
    }),
  );
  const of = pieces.flatMap(({ demand }, piece) => Array.from({ length: demand }, (_, copy) => ({ piece, copy })));
  const items = of.map(({ piece }) => piece);
  const area = items.reduce((sum, piece) => sum + shapes[piece].areaMm2, 0) / (perUnit * perUnit);
  return { perUnit, shapes, items, of, area };
}
