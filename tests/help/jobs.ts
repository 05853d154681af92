import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { builtin, type Job, type JobFiles, type Override, readJob } from '../../src/index.ts';

const SAMPLES = fileURLToPath(new URL('../../samples', import.meta.url));

export interface LoadedJob {
  readonly name: string;
  readonly job: Job;
  readonly files: JobFiles;
}

/** A job file with the bytes of the files it names. */
export function loadJob(path: string, overrides: readonly Override[] = []): LoadedJob {
  const job = readJob(readFileSync(path, 'utf8'), path, builtin, overrides);
  const names = [...job.sourceFiles, ...job.offcutFiles];
  const files = new Map(names.map((name) => [name, new Uint8Array(readFileSync(resolve(dirname(path), name)))]));
  return { name: job.name, job, files };
}

/** Folder names of the samples that hold a job. */
export const sampleNames = readdirSync(SAMPLES).filter((name) => existsSync(join(SAMPLES, name, 'job.yaml')));

export const loadSample = (name: string, overrides: readonly Override[] = []): LoadedJob =>
  loadJob(join(SAMPLES, name, 'job.yaml'), overrides);

/** A job written in a test, with the files it names given in place. */
export const inlineJob = (text: string, files: Readonly<Record<string, Uint8Array>> = {}): LoadedJob => {
  const job = readJob(text, 'job.yaml', builtin);
  return { name: job.name, job, files: new Map(Object.entries(files)) };
};
