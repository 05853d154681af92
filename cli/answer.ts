import { existsSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { dirname, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import {
  asPlugin,
  builtin,
  compare,
  comparisonHtml,
  comparisonText,
  type Driver,
  folderName,
  type Job,
  type JobFiles,
  jobSchema,
  landformJob,
  look,
  makeKit,
  planSchema,
  QUIET,
  type Registry,
  type RunOptions,
  readJob,
  refuse,
  run,
  thrownText,
} from '../src/index.ts';
import { lanePool } from './lanes.ts';
import type { Answer, Request } from './messages.ts';
import { pluginList } from './plugin-list.ts';
import { systemWords } from './trouble.ts';

/** Do what was asked. Progress goes to `tell`; the answer is returned. Throws CannotMake where the user must act. */
export async function answerTo(request: Request, tell: (answer: Answer) => void): Promise<Answer> {
  const registry = await withPlugins(request.plugins);
  if (request.want === 'plugins') return { kind: 'told', ...pluginList(registry) };
  if (request.want === 'schema') {
    const data = request.schema === 'job' ? jobSchema(registry) : planSchema();
    return { kind: 'told', text: JSON.stringify(data, null, 2), data };
  }
  const isJob = request.want !== 'look' || /\.(ya?ml|json)$/i.test(request.file);
  const text = isJob ? decode(await bytesOf(request.file), request.file) : landformJob(request.file);
  const job = readJob(text, request.file, registry, request.overrides);
  const files = await filesOf(job, isJob ? dirname(request.file) : '.');
  const pool = lanePool();
  try {
    const options = { driver: driver(request.seconds, pool.lanes), progress: progress(tell) };
    if (request.want === 'compare') return await compared(job, files, registry, request.piecePrice, options);
    return request.want === 'look'
      ? await looked(job, files, options, isJob, request.picture)
      : await made(job, files, options);
  } finally {
    await pool.end();
  }
}

async function looked(
  job: Job,
  files: JobFiles,
  options: RunOptions,
  isJob: boolean,
  isDrawn: boolean,
): Promise<Answer> {
  const { lines, data, picture, findings } = await look(job, files, options, isJob);
  return { kind: 'looked', lines, data, picture: isDrawn ? picture() : null, findings };
}

async function compared(
  job: Job,
  files: JobFiles,
  registry: Registry,
  piecePrice: number | null,
  options: RunOptions,
): Promise<Answer> {
  const comparison = await compare(job, files, registry, { piecePrice }, options);
  return { kind: 'compared', lines: comparisonText(comparison), data: comparison, html: comparisonHtml(comparison) };
}

async function made(job: Job, files: JobFiles, options: RunOptions): Promise<Answer> {
  const made = await run(job, files, options);
  const { name, quantities, bound, findings, facts } = made.plan;
  const pages = made.files.reduce((sum, file) => sum + (file.pages ?? 0), 0);
  const tapingMinutes = made.files.reduce((sum, file) => sum + (file.tapingMinutes ?? 0), 0);
  const cover = facts.cover?.material ?? null;
  return {
    kind: 'made',
    summary: { name, folder: folderName(name), quantities, bound, cover, pages, tapingMinutes, findings },
    files: made.files,
  };
}

/** The built-in plugins and those of the modules named on the command line: a job file can never cause an import. */
async function withPlugins(modules: readonly string[]): Promise<Registry> {
  const loaded = [];
  for (const path of modules) {
    const module = await import(pathToFileURL(resolve(path)).href).catch((error: unknown) => {
      const fix = 'Check the path after --plugin; it must be a JavaScript module.';
      const why = existsSync(path) ? thrownText(error) : 'there is no such file';
      refuse('plugin/cannot-load', `${path} cannot be loaded: ${why}.`, fix);
    });
    loaded.push(asPlugin(module.default, makeKit('mm'), path));
  }
  return builtin.with(...loaded);
}

/** Bytes of every file that the job names. Relative paths start at the job file. */
async function filesOf(job: Job, folder: string): Promise<Map<string, Uint8Array>> {
  const files = new Map<string, Uint8Array>();
  for (const name of [...job.sourceFiles, ...job.offcutFiles])
    files.set(name, await bytesOf(resolve(folder, name), name));
  return files;
}

async function bytesOf(path: string, name = path): Promise<Uint8Array> {
  try {
    return await readFile(path);
  } catch (error) {
    const why = systemWords(error);
    const fix =
      name === path ? 'Check its name and place.' : 'Check its name and place; it is looked for from the job file on.';
    return refuse('file/cannot-read', `${name} cannot be read: ${why}.`, fix);
  }
}

function decode(bytes: Uint8Array, name: string): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    const fix = 'A job is a text file: YAML in UTF-8.';
    return refuse('job/not-text', 'This file is not text.', fix, { file: name });
  }
}

function driver(seconds: number | null, lanes: Driver['lanes']): Driver {
  const started = performance.now();
  return {
    ...QUIET,
    nowMs: () => performance.now(),
    breathe: () => new Promise((done) => setImmediate(done)),
    ask: () => (seconds !== null && performance.now() - started > seconds * 1000 ? 'enough' : 'go'),
    lanes,
  };
}

/** Progress at most every 50 ms: a message a step would cost more than the steps. */
function progress(tell: (answer: Answer) => void) {
  let last = Number.NEGATIVE_INFINITY;
  return (stage: Extract<Answer, { kind: 'progress' }>['stage'], done: number) => {
    const now = performance.now();
    if (now - last < 50 && done > 0) return;
    last = now;
    tell({ kind: 'progress', stage, done });
  };
}
