import type { Supply } from '../../model/work.ts';

/**
 * What a bare live conductor that can be touched may carry, at any load. Dry: 25 V AC, 60 V DC (as makers of isolating
 * supplies print it after IEC 61140: bre-trafo.de, "Safety extra-low voltage"). In the damp: 12 V AC, 30 V DC (IEC
 * 60364-4-41, clause 414.4.5, from memory). A hot wire is such a conductor.
 */
const DRY = { AC: 25, DC: 60 } as const;
const DAMP = { AC: 12, DC: 30 } as const;

export const mostVolts = (current: Supply['current'], isDamp: boolean): number => (isDamp ? DAMP : DRY)[current];

/** No mains is lower: 100 V in Japan. */
const LEAST_MAINS_VOLTS = 100;

/** The ways out where a wire wants more than may be touched. */
const LESS_VOLTS = 'Take a shorter bow, a thicker wire, a slower feed or a foam of lower density';

/** What a supply stands at when nothing draws from it: it says so, or is assumed so much above its label. */
export const noLoadVolts = ({ volts, noLoadVolts: said, current }: Supply, noLoadShare: number): number =>
  said ?? (current === 'DC' ? volts : volts * (1 + noLoadShare));

/** Why a supply may not feed a bare wire, and the way out; nothing where it may. Only voltages that are said are judged. */
export function unsafe(
  supply: Supply,
  isDamp: boolean,
): { readonly message: string; readonly fix: string } | undefined {
  const most = mostVolts(supply.current, isDamp);
  const highest = Math.max(supply.volts, supply.noLoadVolts ?? 0);
  if (highest <= most) return undefined;
  const where = isDamp ? ' in the damp' : '';
  if (highest >= LEAST_MAINS_VOLTS) {
    const message = `A bare wire is never fed from the mains, with a dimmer or without: ${highest} V kills.`;
    return { message, fix: `Use an isolated supply of at most ${most} V ${supply.current}. ${LESS_VOLTS}.` };
  }
  const message = `${highest} V ${supply.current} is more than a bare wire that can be touched may carry${where}: at most ${most} V ${supply.current}, without load too.`;
  return { message, fix: `Use an isolated supply of at most ${most} V. ${LESS_VOLTS}.` };
}
