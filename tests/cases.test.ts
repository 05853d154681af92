/**
 * Runs every tests/cases/<stage>/*.txt: a sentence; what is given, which is the ground, north at the top, or for a source the
 * files that it reads, as text or as bytes in hex, and for a splitter how that is sliced; plugin, thicknesses of the boards on
 * offer (perhaps with prices; for a splitter the size of the one on offer) and options; then what is wanted, in sections that the runner of the stage can write (see RUNNERS). A new case is a new file.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { CannotMake, type Finding } from '../src/findings.ts';
import { stream } from '../src/geometry/random.ts';
import { areaOf } from '../src/geometry/ring.ts';
import { builtin, makeKit } from '../src/index.ts';
import { groundPosts } from '../src/model/ground.ts';
import { extent, type Heightfield, heightfield, type Landform, type Solid } from '../src/model/landform.ts';
import type { LayerStack } from '../src/model/layer.ts';
import type { Blank } from '../src/model/piece.ts';
import type { StageName } from '../src/stages.ts';
import { numberText } from '../src/units.ts';
import { QUIET, walk } from '../src/walk.ts';
import { boardFacts } from './help/board-facts.ts';
import { splitFacts } from './help/stacks.ts';

const FOLDER = fileURLToPath(new URL('cases', import.meta.url));

interface Case {
  readonly sentence: string;
  /** The ground, or of a source the files by name. */
  readonly given: Heightfield | ReadonlyMap<string, Uint8Array>;
  /** How the ground is sliced before it is split. */
  readonly sliced: { readonly plugin: string; readonly options: Record<string, unknown> } | null;
  readonly plugin: string;
  /** Of the board on offer, of a splitter. */
  readonly boardMm: readonly number[];
  readonly thicknessesMm: readonly number[];
  readonly pricesPerM2: readonly number[];
  readonly options: Record<string, unknown>;
  /** Title and text of each section that is wanted. */
  readonly wanted: readonly (readonly [title: string, text: string])[];
}

/** What a stage made, as the sections that its cases may ask for. */
const RUNNERS: Partial<Record<StageName, Record<string, (made: never) => string>>> = {
  source: { ground: sourceText },
  shape: { ground: drawing },
  slice: { layers: layersText },
  split: { pieces: piecesText },
};

function drawing({ columns, rows, heightsMm }: Heightfield): string {
  const row = (j: number) =>
    Array.from(heightsMm.subarray(j * columns, (j + 1) * columns), (h) => numberText(h)).join(' ');
  return Array.from({ length: rows }, (_, j) => row(rows - 1 - j)).join('\n');
}

/** Posts a tenth of a millimetre fine, those outside the footprint as dots; of a solid its size. */
function sourceText(landform: Landform): string {
  if (landform.kind === 'solid') {
    const [x0, y0, x1, y1] = extent(landform).box;
    const { lowMm, highMm } = extent(landform);
    const volume = numberText(volumeOf(landform), 0);
    return `${numberText(x1 - x0)} by ${numberText(y1 - y0)} mm, from ${numberText(lowMm)} to ${numberText(highMm)}, ${volume} mm3, ${landform.triangles.length / 3} triangles`;
  }
  const { columns, rows, stepXMm, stepYMm, heightsMm } = landform;
  const isGround = groundPosts(landform);
  const row = (j: number) =>
    Array.from({ length: columns }, (_, i) => {
      const post = j * columns + i;
      return isGround && isGround[post] === 0 ? '.' : numberText(heightsMm[post], 1);
    }).join(' ');
  const posts = Array.from({ length: rows }, (_, j) => row(rows - 1 - j));
  return [`posts ${numberText(stepXMm)} by ${numberText(stepYMm)} mm apart`, ...posts].join('\n');
}

/** Sixths of it are what each triangle spans with the origin. */
function volumeOf({ positionsMm, triangles }: Solid): number {
  let six = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => positionsMm.subarray(3 * triangles[t + k], 3 * triangles[t + k] + 3));
    six += a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) + a[2] * (b[0] * c[1] - b[1] * c[0]);
  }
  return six / 6;
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

/** Each piece with its area, its neighbours, its pins and what comes out of the same blank. */
function piecesText(blanks: readonly Blank[]): string {
  return blanks
    .flatMap(({ pieces }) =>
      pieces.map(({ name, region, areaMm2, joints, pins }) => {
        const others = pieces.filter((other) => other.name !== name).map((other) => other.name);
        const parts = [
          `${numberText(areaMm2, 0)} mm2`,
          ...(region.length > 1 ? [`${region.length - 1} hole`] : []),
          ...joints.map(({ label, neighbour }) => `${label} to ${neighbour}`),
          ...(pins.length > 0 ? [`${pins.length} pins`] : []),
          ...(others.length > 0 ? [`one blank with ${others.join(' ')}`] : []),
        ];
        return { name, text: `${name}: ${parts.join(', ')}` };
      }),
    )
    .sort((a, b) => Number.parseInt(a.name, 10) - Number.parseInt(b.name, 10) || (a.name < b.name ? -1 : 1))
    .map(({ text }) => text)
    .join('\n');
}

const groundAs = (text: string, title: string): Heightfield => {
  const [stepX, stepY] = /posts ([\d.]+) by ([\d.]+) mm apart/.exec(title)?.slice(1).map(Number) ?? [];
  const rows = text.split('\n').reverse();
  const heights = rows.flatMap((row) => row.trim().split(/\s+/).map(Number));
  return heightfield(heights.length / rows.length, rows.length, stepX, stepY, Float64Array.from(heights));
};

function readCase(stage: string, text: string): Case {
  const sections = text.split(/^--- ?/m);
  const parts = sections.slice(1).map((section) => {
    const end = section.indexOf('\n');
    return [section.slice(0, end).trim(), section.slice(end + 1).trimEnd()] as const;
  });
  const files = new Map<string, Uint8Array>();
  for (; parts[0][0].startsWith('file '); parts.shift()) {
    const [, name, isHex] = /^file (\S+?)(, hex)?$/.exec(parts[0][0]) ?? [];
    files.set(name, Buffer.from(isHex ? parts[0][1].replace(/\s/g, '') : `${parts[0][1]}\n`, isHex ? 'hex' : 'utf8'));
  }
  const given = stage === 'source' ? files : groundAs(parts[0][1], parts.shift()?.[0] ?? '');
  const [, slicer] = /^sliced into (\S+)$/.exec(parts[0][0]) ?? [];
  const sliced = slicer ? { plugin: slicer, options: parse(parts.shift()?.[1] ?? '') ?? {} } : null;
  const [[run, options], ...wanted] = parts;
  const boardMm = /board ([\d.]+) by ([\d.]+) by ([\d.]+) mm/.exec(run)?.slice(1).map(Number) ?? [];
  const listed = (pattern: RegExp) => pattern.exec(run)?.[1].split(', ').map(Number) ?? [];
  return {
    sentence: sections[0].trim().replace(/\s+/g, ' '),
    given,
    sliced,
    plugin: run.split(',')[0],
    boardMm,
    thicknessesMm: boardMm.length > 0 ? [boardMm[2]] : listed(/boards ([\d., ]+) mm/),
    pricesPerM2: listed(/at ([\d., ]+) a square metre/),
    options: parse(options) ?? {},
    wanted,
  };
}

async function sectionsOf(
  stage: StageName,
  { given, sliced, plugin, boardMm, thicknessesMm, pricesPerM2, options }: Case,
): Promise<Record<string, string>> {
  const findings: Finding[] = [];
  const found = builtin.find(stage, plugin);
  const [long, short, thicknessMm] = boardMm;
  const boardSizes = [{ sizeMm: [long, short] as const, thicknessMm, densityKgM3: 15, trimMm: 0 }];
  const facts = { ...splitFacts({ boardSizes }), ...boardFacts(thicknessesMm, pricesPerM2) };
  try {
    const input = sliced ? { stack: await stackOf(sliced, given, facts), wishes: [] } : given;
    const work = found.run(input, found.options(makeKit('mm')).parse(options), {
      facts,
      tell: (finding: Finding) => void findings.push(finding),
      random: stream(1, stage, 0),
    });
    const made = await walk(work, QUIET);
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

/** The ground sliced before it is split; what is told of that is another case's. */
async function stackOf({ plugin, options }: NonNullable<Case['sliced']>, given: Case['given'], facts: object) {
  const found = builtin.find('slice', plugin);
  const context = { facts, tell: () => {}, random: stream(1, 'slice', 0) };
  return walk(found.run(given, found.options(makeKit('mm')).parse(options), context as never), QUIET);
}

describe.each(readdirSync(FOLDER))('%s', (stage) => {
  const files = readdirSync(`${FOLDER}/${stage}`).filter((file) => file.endsWith('.txt'));
  test.each(files.map((file) => [file, readCase(stage, readFileSync(`${FOLDER}/${stage}/${file}`, 'utf8'))] as const))(
    '%s',
    async (_, each) => {
      const made = await sectionsOf(stage as StageName, each);
      // What was told and not announced fails too.
      const wanted = { ...((made.findings ?? '') === '' ? {} : { findings: '' }), ...Object.fromEntries(each.wanted) };
      for (const [title, text] of Object.entries(wanted)) expect(made[title], `${each.sentence} (${title})`).toBe(text);
      expect(each.wanted.length).toBeGreaterThan(0);
    },
  );
});
