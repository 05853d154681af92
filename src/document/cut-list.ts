import { boxOf } from '../geometry/ring.ts';
import type { Piece } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { definePlugin } from '../plugin.ts';
import { MM_IN, numberText } from '../units.ts';
import { boardOfPiece, cutLengthMm, pieceMasses } from '../workshop/quantities.ts';

/**
 * cut-list.csv: a row for each piece, for spreadsheets (RFC 4180, UTF-8 with the mark by which they know it). Sizes are
 * of the piece's box as it lies on the ground, in the job's unit; areas, masses and cut lengths in m², kg and m.
 */
export const cutList = definePlugin({
  api: 1,
  stage: 'document',
  name: 'cut-list',
  summary: 'every piece with its board, size, mass and cuts, for a spreadsheet',
  options: ({ z }) => z.strictObject({}),
  run: (plan) => [{ path: 'cut-list.csv', mediaType: 'text/csv', body: `\ufeff${csv(rows(plan))}` }],
});

function rows(plan: Plan): string[][] {
  const boardOf = boardOfPiece(plan.boards);
  const masses = pieceMasses(plan.pieces, plan.boards);
  // Each pin once in the list: where its upper end is.
  const driven = new Map(plan.pins.map(({ at, toLayer, lengthMm }) => [`${toLayer} ${at}`, lengthMm]));
  const length = (mm: number) => numberText(mm / MM_IN[plan.unit], 3);
  const title = (what: string) => `${what} (${plan.unit})`;
  const head = ['piece', 'layer', 'of the layer', 'board', 'stock', title('width'), title('depth'), title('thickness')];
  const more = ['area (m²)', 'mass (kg)', 'cut length (m)', 'joints', 'pins', title('pins driven from its top')];
  const row = (piece: Piece) => {
    const [minX, minY, maxX, maxY] = boxOf(piece.region);
    const board = boardOf.get(piece.name);
    const mass = masses.get(piece.name);
    return [
      piece.name,
      `${piece.layer}`,
      placeInLayer(piece, plan.pieces),
      board ? `${board.number}` : '',
      board?.stock ?? '',
      length(maxX - minX),
      length(maxY - minY),
      length(piece.thicknessMm),
      numberText(piece.areaMm2 / 1e6, 4),
      mass === undefined ? '' : numberText(mass, 3),
      numberText(cutLengthMm(piece) / 1000, 3),
      piece.joints.map(({ label }) => label).join(' '),
      `${piece.pins.length}`,
      piece.pins
        .flatMap((at) => driven.get(`${piece.layer} ${at}`) ?? [])
        .map(length)
        .join(' '),
    ];
  };
  return [[...head, ...more], ...plan.pieces.map(row)];
}

/** `2 of 5`: how many pieces the layer has, so that a missing one is missed. */
function placeInLayer(piece: Piece, pieces: readonly Piece[]): string {
  const layer = pieces.filter((other) => other.layer === piece.layer);
  return `${layer.indexOf(piece) + 1} of ${layer.length}`;
}

/** RFC 4180: CRLF ends a row; a cell with comma, quote or line break is quoted, quotes in it doubled. */
const csv = (table: readonly (readonly string[])[]): string =>
  table.map((row) => `${row.map(cell).join(',')}\r\n`).join('');

function cell(text: string): string {
  // A spreadsheet would run these as formulas: an apostrophe before them makes them text.
  const safe = /^[=+\-@\t\r]/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
