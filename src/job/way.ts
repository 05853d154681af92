import type { z } from 'zod';
import type { Way } from '../model/facts.ts';
import type { Kit } from '../plugin.ts';

/** The narrowest door on the way in. */
export const doorsSchema = ({ z, length }: Kit) =>
  z.strictObject({
    width: length({ above: 0 }).describe('clear width, with the leaf open'),
    height: length({ above: 0 }).describe('clear height'),
  });

/** The narrowest stair on the way in. */
export const stairSchema = ({ z, length }: Kit) =>
  z.strictObject({
    width: length({ above: 0 }).describe('clear width between walls or rails, on the landing too'),
    height: length({ above: 0 }).optional().describe('clear height under what is above'),
    turn: z.boolean().default(true).describe('whether it turns a corner at a landing'),
  });

/** The lift on the way in. */
export const liftSchema = ({ z, length }: Kit) =>
  z.strictObject({
    width: length({ above: 0 }).describe('clear width inside, or of its door where that is less'),
    depth: length({ above: 0 }).describe('clear depth inside'),
    height: length({ above: 0 }).describe('clear height of its door'),
    payload: z.number().positive().optional().describe('kg'),
  });

/** What the pieces travel in. */
export const vanSchema = ({ z, length }: Kit) =>
  z.strictObject({
    length: length({ above: 0 }).describe('of the load floor'),
    width: length({ above: 0 }).describe('between the wheel arches'),
    height: length({ above: 0 }).describe('of the load door'),
    payload: z.number().positive().optional().describe('kg'),
  });

/** What was said of the way in, as the whole job shares it. */
export function wayOf({ doors, stair, lift, van }: Said): Way {
  return {
    door: doors ? { widthMm: doors.width, heightMm: doors.height } : null,
    stair: stair ? { widthMm: stair.width, heightMm: stair.height ?? null, turns: stair.turn } : null,
    lift: lift
      ? { lengthMm: lift.depth, widthMm: lift.width, heightMm: lift.height, payloadKg: lift.payload ?? null }
      : null,
    van: van
      ? { lengthMm: van.length, widthMm: van.width, heightMm: van.height, payloadKg: van.payload ?? null }
      : null,
  };
}

interface Said {
  readonly doors?: z.output<ReturnType<typeof doorsSchema>>;
  readonly stair?: z.output<ReturnType<typeof stairSchema>>;
  readonly lift?: z.output<ReturnType<typeof liftSchema>>;
  readonly van?: z.output<ReturnType<typeof vanSchema>>;
}
