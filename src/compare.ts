import { blocksOf, CAUTION, tableOf } from './compare/table.ts';
import { type Otherwise, otherWays, stepOf, type Typed } from './compare/ways.ts';
import { flowHtml } from './drawing/flow/flow-html.ts';
import { escaped } from './drawing/svg.ts';
import { CannotMake } from './findings.ts';
import { type Job, readJob } from './job.ts';
import type { Plan } from './model/plan.ts';
import type { Registry } from './registry.ts';
import { run } from './run.ts';
import { previewOf } from './saving.ts';
import type { JobFiles, RunOptions } from './steps.ts';
import type { Unit } from './units.ts';
import { type Contender, type Figures, figuresOf, flips, ranked } from './workshop/comparing.ts';

export interface Row extends Contender {
  readonly isNow: boolean;
}

/** Ways to build a job beside each other, the best first. */
export interface Comparison {
  readonly name: string;
  readonly unit: Unit;
  /** What an hour counts for; null when the job says none. */
  readonly rate: number | null;
  /** At most six. */
  readonly rows: readonly Row[];
  /** What was not tried or not shown, and why. */
  readonly dropped: readonly { readonly name: string; readonly why: string }[];
  /** The outcome in words. */
  readonly told: readonly string[];
  /** What would have to be otherwise for another to win. */
  readonly flips: readonly string[];
}

/** More than six columns are read by nobody. */
const MOST_ROWS = 6;

/**
 * Build a job as it stands and in other ways, each through the whole pipeline with packing in preview, and set them beside each
 * other. A way that stops is behind every one that does not; then comes float, then money with hours, then wire. No score.
 */
export async function compare(
  job: Job,
  files: JobFiles,
  registry: Registry,
  typed: Typed,
  options: RunOptions = {},
): Promise<Comparison> {
  const memory = options.memory ?? new Map();
  const plans = new Map<string, Plan>();
  const built = async (written: Readonly<Record<string, unknown>>): Promise<Plan> => {
    const text = JSON.stringify(written);
    const known = plans.get(text);
    if (known) return known;
    const read = readJob(text, 'job', registry);
    const job = { ...read, nest: previewOf(read.nest), documents: [] };
    const { plan } = await run(job, files, { ...options, memory, isCompared: true });
    plans.set(text, plan);
    return plan;
  };
  const now = await built(job.written);
  const rows: Row[] = [{ name: wayOf(now), figures: figuresOf(now), isNow: true }];
  const dropped: { name: string; why: string }[] = [];
  for (const way of otherWays(now, typed)) {
    const tried = await figuresIn(way, built);
    if (typeof tried === 'string') dropped.push({ name: way.name, why: tried });
    else rows.push({ name: way.name, figures: tried, isNow: false });
  }
  const { work } = now.facts;
  const rate = work.crew.hourRate;
  const leastFloat = work.rules.leastFloatDays.value;
  const order = ranked(rows, rate, leastFloat);
  const first = order.slice(0, MOST_ROWS);
  const shown = first.some(({ isNow }) => isNow) ? first : [...first.slice(0, -1), rows[0]];
  for (const row of order) {
    if (!shown.includes(row)) dropped.push({ name: row.name, why: 'it comes after all that are shown' });
  }
  return {
    name: now.name,
    unit: now.unit,
    rate,
    rows: shown,
    dropped,
    told: outcome(shown, rate, leastFloat),
    flips: flips(shown, rate, work.rules.secondsAMetre.value),
  };
}

/** The figures of another way, or why there are none. */
async function figuresIn(
  way: Otherwise,
  built: (written: Readonly<Record<string, unknown>>) => Promise<Plan>,
): Promise<Figures | string> {
  if (way.job === null) return way.why;
  try {
    const plan = await built(way.job);
    const figures = figuresOf(plan);
    return way.adjusted ? way.adjusted(figures, plan) : figures;
  } catch (error) {
    if (error instanceof CannotMake) return error.faults[0].message;
    throw error;
  }
}

const wayOf = ({ job }: Plan): string => stepOf(job.split, 'as it is')[0];

function outcome(rows: readonly Row[], rate: number | null, leastFloat: number): string[] {
  const [best] = rows;
  const { stops, floatDays } = best.figures;
  if (stops.length > 0) return ['Every way is stopped by something: see the first line.'];
  const name = best.isNow ? `the job as it stands (${best.name})` : best.name;
  const late =
    floatDays !== null && floatDays < leastFloat
      ? ' None has the float that is asked for; it comes nearest by its cost.'
      : '';
  const how = rate === null ? 'by money, hours beside it (no hour has a rate)' : `by money and hours at ${rate}`;
  return [`First is ${name}, ${how}.${late}`];
}

/** For people, a line each. */
export function comparisonText(comparison: Comparison): string[] {
  const { head, lines } = tableOf(comparison);
  const all = [head, ...lines];
  const widths = head.map((_, i) => Math.min(MOST_WIDTH, Math.max(...all.map((line) => line[i].length))));
  const rows = all.flatMap((line) => wrapped(line, widths));
  return [
    ...rows,
    '',
    ...comparison.told,
    ...comparison.flips.map((flip) => `${flip}.`),
    ...comparison.dropped.map(({ name, why }) => `Left out: ${name}: ${why}`),
    CAUTION,
  ];
}

const MOST_WIDTH = 26;

/** A line of a table, its cells broken at spaces and set below each other. */
function wrapped(cells: readonly string[], widths: readonly number[]): string[] {
  const broken = cells.map((cell, i) => {
    const lines: string[] = [''];
    for (const word of cell.split(' ')) {
      const last = lines[lines.length - 1];
      if (last === '') lines[lines.length - 1] = word;
      else if (last.length + 1 + word.length <= widths[i]) lines[lines.length - 1] = `${last} ${word}`;
      else lines.push(word);
    }
    return lines;
  });
  const height = Math.max(...broken.map(({ length }) => length));
  return Array.from({ length: height }, (_, k) =>
    broken
      .map((lines, i) => (lines[k] ?? '').padEnd(widths[i]))
      .join('  ')
      .trimEnd(),
  );
}

/** A page for a browser. */
export const comparisonHtml = (comparison: Comparison): string =>
  `<!doctype html>\n<html lang="en"><head><meta charset="utf-8"/><title>${escaped(comparison.name)}: ways to build it</title>
<style>body{font:15px/1.4 system-ui,sans-serif;margin:2em;max-width:80em}table{border-collapse:collapse}th,td{border:1px solid #999;padding:.3em .6em;text-align:left;vertical-align:top}td:first-child{font-weight:600}</style></head>
<body>\n${flowHtml(blocksOf(comparison))}\n</body></html>\n`;
