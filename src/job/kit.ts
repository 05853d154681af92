import { z } from 'zod';
import type { Kit, SourceOption } from '../plugin.ts';
import { LENGTH, lengthText, toMm, type Unit } from '../units.ts';
import { empty, missing, shown } from './words.ts';

/** A kit that remembers which files the options parsed with it named, in the order in which they were met. */
export interface JobKit extends Kit {
  readonly files: readonly string[];
  /** Source steps as written that were met, and the options that stand for them: empty until steps.ts has read the step. */
  readonly sources: { written: SourceOption | string; option: Record<string, unknown> }[];
}

/** No set is longer than this; past it, millimetres could not be written and read back to the same number. */
const LONGEST_MM = 1e8;

/** What plugins declare their options with, for a job whose plain numbers count in `unit`. Millimetres come out. */
export function makeKit(unit: Unit): JobKit {
  const files: string[] = [];
  const sources: JobKit['sources'] = [];

  const length: Kit['length'] = (limits = {}) =>
    z
      .union([z.number(), z.string().regex(LENGTH, { error: notALength })], { error: notALength })
      .transform((written, context) => {
        const mm = toMm(written, unit);
        const message = outside(written, mm, limits, unit);
        if (message !== undefined) context.issues.push({ code: 'custom', message, input: written });
        return mm === 0 ? 0 : mm; // −0 would be read back as 0
      });

  return {
    z,
    unit,
    files,
    sources,
    length,
    point: () => z.tuple([length(), length()], { error: notA('a point', '[x, y]') }),
    size: ({ most } = {}) =>
      z.tuple([length({ above: 0, most }), length({ above: 0, most })], {
        error: notA('a size', '[width, depth], both above 0'),
      }),
    file: () =>
      fileName().transform((name) => {
        if (!files.includes(name)) files.push(name);
        return name;
      }),
    source: () =>
      z
        .union([z.string(), z.custom<SourceOption>(isGroup)], {
          error: notA('a source', '{ sketch: { its options } }'),
        })
        .transform((written) => {
          const option = typeof written === 'string' ? { [written]: {} } : { ...written };
          sources.push({ written, option });
          return option;
        }),
  };
}

const isGroup = (value: unknown): boolean => typeof value === 'object' && value !== null && !Array.isArray(value);

/** The name of a file beside the job. */
export const fileName = () =>
  z
    .string()
    .min(1, { error: 'A file has no name.\nWrite its path, from the job file on.' })
    .max(1000)
    .refine((name) => !name.includes('\0'), { error: 'A file name holds a zero character.\nTake it out.' });

type Wrong = { readonly input?: unknown; readonly path?: readonly PropertyKey[] };

/** A field that is absent or empty is told as such, whatever its kind. */
const absent = ({ input, path }: Wrong): string | undefined => {
  const key = String(path?.at(-1) ?? 'the value');
  return input === undefined ? missing(key) : input === null ? empty(key) : undefined;
};

const notALength = (wrong: Wrong): string =>
  absent(wrong) ?? `${shown(wrong.input)} is not a length; write 50, 50 mm, 1.2 m, 2 in or 8 ft.`;

const notA = (what: string, form: string) => (wrong: Wrong) =>
  absent(wrong) ?? `${shown(wrong.input)} is not ${what}; write ${form}.`;

function outside(
  written: number | string,
  mm: number,
  { above = -Infinity, least = -Infinity, most = LONGEST_MM }: { above?: number; least?: number; most?: number },
  unit: Unit,
): string | undefined {
  const text = (limitMm: number) => (limitMm === 0 ? '0' : lengthText(limitMm, unit, 3));
  if (!Number.isFinite(mm) || Math.abs(mm) > LONGEST_MM) return `${shown(written)} is more than 100 km.\nWrite less.`;
  if (mm <= above) return `${shown(written)} is not above ${text(above)}.\nWrite more than ${text(above)}.`;
  if (mm < least) return `${shown(written)} is less than ${text(least)}.\nWrite ${text(least)} or more.`;
  if (mm > most) return `${shown(written)} is more than ${text(most)}.\nWrite ${text(most)} or less.`;
  return undefined;
}
