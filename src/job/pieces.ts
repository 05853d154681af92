import { type PieceRule, TURNS } from '../model/facts.ts';
import type { Kit } from '../plugin.ts';

/** A job tells no more pieces apart: more come from a program that writes jobs, and each is looked for by its name. */
const MOST_PIECES = 10_000;

/** What is said of single pieces, by their names. */
export const piecesSchema = ({ z, point }: Kit) =>
  z
    .record(
      z.string().min(1).max(40),
      z.strictObject({
        turns: z.enum(TURNS).optional().describe('how it may be turned on its board; as all others when not said'),
        held: z
          .strictObject({
            board: z.int().min(1).describe('number of the board it was cut from'),
            stock: z.string().optional().describe('name of that board in the stock, or of the saved offcut'),
            at: point().describe('where it lies: xMm and yMm of plan.json'),
            turn: z.number().min(-360).max(360).default(0).describe('degrees counter-clockwise: turnDeg of plan.json'),
            mirrored: z.boolean().default(false),
          })
          .optional()
          .describe('cut already: it stays where it lies, and only the rest is placed'),
      }),
    )
    .refine((rules) => Object.keys(rules).length <= MOST_PIECES, {
      error: `More than ${MOST_PIECES} pieces are named.\nName only those that differ from the rest.`,
    });

/** The rules as the whole job shares them. */
export const pieceRules = (said: NonNullable<ReturnType<ReturnType<typeof piecesSchema>['parse']>>): PieceRule[] =>
  Object.entries(said).map(([piece, { turns, held }]) => ({
    piece,
    turns: turns ?? null,
    held: held
      ? {
          board: held.board,
          stock: held.stock ?? null,
          turnDeg: held.turn,
          mirrored: held.mirrored,
          xMm: held.at[0],
          yMm: held.at[1],
        }
      : null,
  }));
