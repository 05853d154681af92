import { fineText, lengthText, type Unit } from '../../units.ts';
import { densityText } from '../density-text.ts';
import { reckonWire, type WireTask } from './reckoning.ts';

/** Wire that can be bought, mm (common practice, no source). */
const DIAMETERS_MM = [0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5, 0.6, 0.7, 0.8, 1, 1.2, 1.5, 2];

/** Each way alone, with the figure that does it where one does: shorter, thicker, slower, lighter. */
export function waysOutOf(task: WireTask, mostVolts: number, unit: Unit): string[] {
  const volts = (change: Partial<WireTask>) => reckonWire({ ...task, ...change })?.cutting.volts ?? Infinity;
  const isEnough = (change: Partial<WireTask>) => volts(change) <= mostVolts;
  const shorter = steps(task.lengthMm, 50).find((lengthMm) => isEnough({ lengthMm }));
  const thicker = DIAMETERS_MM.find((diameterMm) => diameterMm > task.diameterMm && isEnough({ diameterMm }));
  const slower = [0.8, 0.6, 0.5, 0.4, 0.3, 0.2].find((share) => isEnough({ feedMmS: task.feedMmS * share }));
  const lighter = [30, 25, 20, 15, 12, 10].find(
    (densityKgM3) => densityKgM3 < task.densityKgM3 && isEnough({ densityKgM3 }),
  );
  const ways = [
    shorter === undefined ? null : `A shorter bow: a wire of ${lengthText(shorter, unit)} or less.`,
    thicker === undefined ? null : `A thicker wire: ${fineText(thicker, unit)}; it wants more amps.`,
    slower === undefined ? null : `A slower feed: ${fineText(task.feedMmS * slower, unit)} a second or less.`,
    lighter === undefined ? null : `Foam of lower density: ${densityText(lighter, unit)}.`,
  ].filter((text) => text !== null);
  return ways.length > 0 ? ways : ['Cut it with a saw or a knife: no one change brings this wire down.'];
}

/** Down from a length in whole steps, the longest first. */
const steps = (from: number, step: number): number[] =>
  Array.from({ length: Math.max(0, Math.ceil(from / step) - 1) }, (_, i) => (Math.ceil(from / step) - 1 - i) * step);
