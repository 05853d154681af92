import { linesInside, offset, unite } from '../../geometry/clip.ts';
import { lineAround } from '../../geometry/line-distance.ts';
import { boxOf, lineLength, placed, ringLength } from '../../geometry/ring.ts';
import type { Piece } from '../../model/piece.ts';
import type { Plan } from '../../model/plan.ts';

/** A piece that needs no template: its whole outline is drawn on pieces of the layer below, as they are marked. */
export interface Traced {
  readonly piece: Piece;
  /** The pieces on which its outline is drawn; each has a template of its own. */
  readonly from: readonly Piece[];
}

/** A seam between traced pieces, which no placing line shows: to be drawn on a piece below, in coordinates of that one's board. */
export interface SeamToDraw {
  readonly label: string;
  readonly on: string;
  readonly board: number;
  /** Flat x, y …, from the board's lower left corner. */
  readonly lineMm: Float64Array;
}

/** An edge flush with that of the piece below counts as drawn; so does what rounding moved. */
const FLUSH_MM = 0.05;
/** Shorter bits of an outline do not make a piece below a source. */
const LEAST_MM = 1;

/**
 * Which pieces can be traced, from the ground up: all of a piece's outline, openings too, lies on pieces below that have templates. A
 * traced piece brings no line of what comes on it, so nothing is traced from it.
 */
export function tracedPieces({ pieces, stack }: Plan): Traced[] {
  if (stack.kind !== 'flat') return [];
  const traced = new Map<string, Traced>();
  for (const { number } of stack.layers) {
    const below = pieces.filter(({ layer, name }) => layer === number - 1 && !traced.has(name));
    const boxes = below.map(({ region }) => boxOf(region));
    for (const piece of pieces.filter(({ layer }) => layer === number)) {
      const [minX, minY, maxX, maxY] = boxOf(piece.region);
      const near = below.filter((_, i) => {
        const box = boxes[i];
        return box[0] < maxX && box[2] > minX && box[1] < maxY && box[3] > minY;
      });
      if (near.length === 0) continue;
      const outline = piece.region.map(lineAround);
      const drawn = linesLength(linesInside(outline, offset(unite(near.map(({ region }) => region)), FLUSH_MM)));
      const whole = piece.region.reduce((sum, ring) => sum + ringLength(ring), 0);
      if (drawn < whole - LEAST_MM / 10) continue;
      const from = near.filter(({ region }) => linesLength(linesInside(outline, [region])) >= LEAST_MM);
      if (from.length > 0) traced.set(piece.name, { piece, from });
    }
  }
  return [...traced.values()];
}

/** The seams of traced pieces, each stretch once, on the pieces below that they cross. */
export function seamsToDraw(traced: readonly Traced[], { boards }: Plan): SeamToDraw[] {
  const places = new Map(boards.flatMap((board) => board.placed.map((place) => [place.piece, { board, place }])));
  const seen = new Set<string>();
  const seams: SeamToDraw[] = [];
  for (const { piece, from } of traced) {
    for (const { label, line } of piece.joints) {
      if (seen.has(label)) continue;
      seen.add(label);
      for (const { name, region } of from) {
        const lies = places.get(name);
        if (!lies) continue;
        for (const run of linesInside([line], [region])) {
          seams.push({ label, on: name, board: lies.board.number, lineMm: placed(run, lies.place) });
        }
      }
    }
  }
  return seams;
}

const linesLength = (lines: readonly Float64Array[]): number => lines.reduce((sum, line) => sum + lineLength(line), 0);
