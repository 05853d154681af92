/**
 * Runs every tests/cases/<stage>/*.txt: a sentence; the ground, north at the top; plugin, thicknesses of the boards on offer (perhaps with prices)
 * and options; then what is wanted, in sections that the runner of the stage can write (see RUNNERS). A new case is a new file.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { CannotMake, type Finding } from '../src/findings.ts';
import { stream } from '../src/geometry/random.ts';
import { areaOf } from '../src/geometry/ring.ts';
import { builtin, makeKit } from '../src/index.ts';
import { type Heightfield, heightfield } from '../src/model/landform.ts';
import type { LayerStack } from '../src/model/layer.ts';
import type { StageName } from '../src/stages.ts';
import { numberText } from '../src/units.ts';
import { walkNow } from '../src/walk.ts';
import { boardFacts } from './help/board-facts.ts';

const FOLDER = fileURLToPath(new URL('cases', import.meta.url));

interface Case {
  readonly sentence: string;
  readonly ground: Heightfield;
  readonly plugin: string;
  readonly thicknessesMm: readonly number[];
  readonly pricesPerM2: readonly number[];
  readonly options: Record<string, unknown>;
  /** Title and text of each section that is wanted. */
  readonly wanted: readonly (readonly [title: string, text: string])[];
}

/** What a stage made, as the sections that its cases may ask for. */
const RUNNERS: Partial<Record<StageName, Record<string, (made: never) => string>>> = {
  shape: { ground: drawing },
  slice: { layers: layersText },
};

function drawing({ columns, rows, heightsMm }: Heightfield): string {
  const row = (j: number) =>
    Array.from(heightsMm.subarray(j * columns, (j + 1) * columns), (h) => numberText(h)).join(' ');
  return Array.from({ length: rows }, (_, j) => row(rows - 1 - j)).join('\n');
}

function layersText({ layers }: LayerStack): string {
  const count = (n: number, word: string) => `${n} ${word}${n === 1 ? '' : 's'}`;
  return layers
    .map(({ number, regions }) => {
      const holes = regions.reduce((sum, region) => sum + region.length - 1, 0);
      const shape = `${count(regions.length, 'outline')}${holes > 0 ? `, ${count(holes, 'hole')}` : ''}`;
      return `${number}: ${shape}, ${numberText(areaOf(regions), 0)} mm2`;
    })
    .join('\n');
}

const groundAs = (text: string, title: string): Heightfield => {
  const [stepX, stepY] = /posts ([\d.]+) by ([\d.]+) mm apart/.exec(title)?.slice(1).map(Number) ?? [];
  const rows = text.split('\n').reverse();
  const heights = rows.flatMap((row) => row.trim().split(/\s+/).map(Number));
  return heightfield(heights.length / rows.length, rows.length, stepX, stepY, Float64Array.from(heights));
};

function readCase(text: string): Case {
  const sections = text.split(/^--- ?/m);
  const parts = sections.slice(1).map((section) => {
    const end = section.indexOf('\n');
    return [section.slice(0, end).trim(), section.slice(end + 1).trimEnd()] as const;
  });
  const [[groundTitle, ground], [run, options], ...wanted] = parts;
  const listed = (pattern: RegExp) => pattern.exec(run)?.[1].split(', ').map(Number) ?? [];
  return {
    sentence: sections[0].trim().replace(/\s+/g, ' '),
    ground: groundAs(ground, groundTitle),
    plugin: run.split(',')[0],
    thicknessesMm: listed(/boards ([\d., ]+) mm/),
    pricesPerM2: listed(/at ([\d., ]+) a square metre/),
    options: parse(options) ?? {},
    wanted,
  };
}

function sectionsOf(
  stage: StageName,
  { ground, plugin, thicknessesMm, pricesPerM2, options }: Case,
): Record<string, string> {
  const findings: Finding[] = [];
  const found = builtin.find(stage, plugin);
  try {
    const made = walkNow(
      found.run(ground, found.options(makeKit('mm')).parse(options), {
        facts: { ...boardFacts(thicknessesMm, pricesPerM2), cover: null },
        tell: (finding: Finding) => void findings.push(finding),
        random: stream(1, stage, 0),
      }),
    );
    const texts = Object.entries(RUNNERS[stage] ?? {}).map(([title, write]) => [title, write(made as never)]);
    return {
      ...Object.fromEntries(texts),
      findings: findings.map(({ code, message }) => `${code}: ${message}`).join('\n'),
    };
  } catch (error) {
    if (!(error instanceof CannotMake)) throw error;
    return { refused: error.faults.map(({ code, message }) => `${code}: ${message}`).join('\n') };
  }
}

describe.each(readdirSync(FOLDER))('%s', (stage) => {
  const files = readdirSync(`${FOLDER}/${stage}`).filter((file) => file.endsWith('.txt'));
  test.each(files.map((file) => [file, readCase(readFileSync(`${FOLDER}/${stage}/${file}`, 'utf8'))] as const))(
    '%s',
    (_, each) => {
      const made = sectionsOf(stage as StageName, each);
      // What was told and not announced fails too.
      const wanted = { ...((made.findings ?? '') === '' ? {} : { findings: '' }), ...Object.fromEntries(each.wanted) };
      for (const [title, text] of Object.entries(wanted)) expect(made[title], `${each.sentence} (${title})`).toBe(text);
      expect(each.wanted.length).toBeGreaterThan(0);
    },
  );
});
