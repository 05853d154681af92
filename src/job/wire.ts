import { known } from '../model/rules.ts';
import { ALLOYS, NOTHING_SAID, type Work } from '../model/work.ts';
import type { Kit } from '../plugin.ts';

/** Keys of the tool that say what a wire is and what feeds it. */
export const wireKeys = ({ z, length }: Kit) => ({
  alloy: z.enum(ALLOYS).optional().describe('of the wire'),
  diameter: length({ above: 0, most: 10 }).optional().describe('of the wire'),
  damp: z.boolean().optional().describe('whether it is used outdoors, on a wet floor or on metal staging'),
  supply: z
    .strictObject({
      volts: z.number().positive().max(100_000).describe('on its label'),
      amps: z.number().positive().max(10_000).describe('on its label'),
      current: z.enum(['AC', 'DC']).describe('on its label'),
      noLoad: z.number().positive().max(100_000).optional().describe('volts without load, where the label says them'),
    })
    .optional()
    .describe('what feeds the wire: an isolated low-voltage supply, as its label reads'),
});

export interface WireSaid {
  readonly alloy?: (typeof ALLOYS)[number];
  readonly diameter?: number;
  readonly damp?: boolean;
  readonly supply?: { volts: number; amps: number; current: 'AC' | 'DC'; noLoad?: number };
}

export function wireOf({ alloy, diameter, damp, supply }: WireSaid): Work['wire'] {
  const { wire } = NOTHING_SAID;
  return {
    alloy: known(alloy, wire.alloy.value),
    diameterMm: known(diameter, wire.diameterMm.value),
    isDamp: known(damp, wire.isDamp.value),
    supply: supply
      ? { volts: supply.volts, amps: supply.amps, current: supply.current, noLoadVolts: supply.noLoad ?? null }
      : null,
  };
}
