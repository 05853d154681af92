/** Units a plain number in a job may stand for. A written unit (`2 in`, `8 ft`, `1.2 m`) always wins. */
export const UNITS = ['mm', 'cm', 'm', 'in', 'ft'] as const;
export type Unit = (typeof UNITS)[number];

/** Millimetres in one unit. The inch is 25.4 mm exactly (international yard and pound agreement, 1959). */
export const MM_IN: Readonly<Record<Unit, number>> = { mm: 1, cm: 10, m: 1000, in: 25.4, ft: 304.8 };

/** A length as people write it: a number and, perhaps, a unit. */
export const LENGTH = /^\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)\s*(mm|cm|m|in|ft)?\s*$/;

/** Millimetres of a written length, or NaN when it cannot be read. A plain number counts in `unit`. */
export function toMm(value: number | string, unit: Unit): number {
  if (typeof value === 'number') return fromUnit(value, unit);
  const match = LENGTH.exec(value);
  return match ? fromUnit(Number(match[1]), (match[2] as Unit | undefined) ?? unit) : Number.NaN;
}

/** A tenth of a nanometre is dropped, so that 2.01 m is 2010 mm and not 2009.9999999999998. */
function fromUnit(value: number, unit: Unit): number {
  const mm = value * MM_IN[unit];
  const rounded = Math.round(mm * 1e7) / 1e7;
  return Number.isFinite(rounded) ? rounded : mm;
}

/** Standard gravity, m/s² (CGPM 1901; ISO 80000-3). */
export const GRAVITY = 9.80665;

const DECIMALS: Readonly<Record<Unit, number>> = { mm: 0, cm: 1, m: 3, in: 2, ft: 2 };

/** A length for people, in their unit, with it: `1200 mm`, `47.24 in`. */
export const lengthText = (mm: number, unit: Unit, decimals = DECIMALS[unit]): string =>
  `${numberText(mm / MM_IN[unit], decimals)} ${unit}`;

const FINE_DECIMALS: Readonly<Record<Unit, number>> = { mm: 1, cm: 2, m: 4, in: 2, ft: 3 };

/** A thickness or a height of layers for people: finer than other lengths, since boards are measured and stacked. */
export const thicknessText = (mm: number, unit: Unit): string => lengthText(mm, unit, FINE_DECIMALS[unit]);

const SMALL_DECIMALS: Readonly<Record<Unit, number>> = { mm: 2, cm: 3, m: 5, in: 4, ft: 5 };

/** A small length for people: of a wire, a kerf, a crust, a sag, or a feed. */
export const fineText = (mm: number, unit: Unit): string => lengthText(mm, unit, SMALL_DECIMALS[unit]);

/** Whether a job counts in feet and inches: its areas, weights and volumes are written in feet, pounds and gallons. */
export const isInFeet = (unit: Unit): boolean => unit === 'in' || unit === 'ft';

/** A number with at most so many decimals and no trailing zeros; never an exponent, never −0. */
export function numberText(value: number, decimals = 3): string {
  if (!Number.isFinite(value)) throw new Error(`not a number that can be written: ${value}`);
  // From here on toFixed writes an exponent; such numbers are whole.
  if (Math.abs(value) >= 1e21) return String(BigInt(value));
  const text = value.toFixed(decimals);
  const short = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  return short === '-0' ? '0' : short;
}
