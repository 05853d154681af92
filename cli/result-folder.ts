import {
  accessSync,
  constants,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
} from 'node:fs';
import { mkdir, writeFile } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import { CannotMake, type OutputFile, refuse } from '../src/index.ts';
import { systemWords } from './trouble.ts';

/**
 * Write a result so that, killed at any moment, `out` holds the old result or the new, or the old one aside, which the
 * next run puts back. Made beside its place, then: old aside, new in, old deleted. A folder cannot be renamed onto a
 * full one. Only a result that Lynchet made is replaced.
 * @returns the folder, as the user will find it.
 */
export async function writeResult(
  out: string,
  folder: string,
  files: readonly OutputFile[],
  isAbandoned: () => boolean,
): Promise<string> {
  const target = resolve(out, folder);
  const aside = resolve(out, `.${folder}.old`);
  const fresh = resolve(out, `.${folder}.new-${process.pid}`);
  try {
    makeFolders(resolve(out));
    tidy(out, folder);
    mayReplace(target);
    await mkdir(fresh);
    for (const { path, body } of files) {
      if (path !== basename(path)) throw new Error(`not a bare file name: ${path}`);
      await writeFile(join(fresh, path), body);
      if (isAbandoned()) return target;
    }
    if (existsSync(target)) renameSync(target, aside);
    renameSync(fresh, target);
    rmSync(aside, { recursive: true, force: true });
    return join(out, folder);
  } catch (error) {
    return refuseDisk(error, target);
  } finally {
    if (existsSync(fresh)) rmSync(fresh, { recursive: true, force: true });
  }
}

/** Refuse a place for results that is no folder or may not be written to, before hours of work are spent. */
export function checkPlace(out: string): void {
  let place = resolve(out);
  while (!existsSync(place)) place = dirname(place);
  try {
    if (!statSync(place).isDirectory()) throw Object.assign(new Error('not a folder'), { code: 'ENOTDIR' });
    accessSync(place, constants.W_OK);
  } catch (error) {
    refuseDisk(error, resolve(out));
  }
}

/** Make a folder and those above it, one at a time: the recursive call never returns where the system refuses (/proc). */
function makeFolders(path: string): void {
  if (existsSync(path)) return;
  makeFolders(dirname(path));
  mkdirSync(path);
}

/** Put back what a killed run left aside, and clear away what it had not finished. */
function tidy(out: string, folder: string): void {
  const target = resolve(out, folder);
  const aside = resolve(out, `.${folder}.old`);
  if (existsSync(aside)) {
    if (existsSync(target)) rmSync(aside, { recursive: true, force: true });
    else renameSync(aside, target);
  }
  if (!existsSync(out)) return;
  for (const name of readdirSync(out)) {
    const pid = new RegExp(`^\\.${folder}\\.new-(\\d+)$`).exec(name)?.[1];
    if (pid !== undefined && !isRunning(Number(pid))) rmSync(resolve(out, name), { recursive: true, force: true });
  }
}

function mayReplace(target: string): void {
  if (!existsSync(target)) return;
  const fix = 'Choose another place with --out, or move it away.';
  try {
    if (readdirSync(target).length === 0) return;
    const plan = JSON.parse(readFileSync(join(target, 'plan.json'), 'utf8'));
    if (typeof plan === 'object' && plan !== null && 'lynchet' in plan) return;
  } catch {
    // No plan in it, or it is no folder: not ours.
  }
  refuse('out/not-ours', `${target} is there already and was not made by Lynchet; it is left alone.`, fix);
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

/** A fault of the disk is the user's to mend; anything else is ours. */
function refuseDisk(error: unknown, target: string): never {
  const { code } = error as NodeJS.ErrnoException;
  if (error instanceof CannotMake || code === undefined) throw error;
  return refuse(
    'out/cannot-write',
    `${target} cannot be written: ${systemWords(error)}.`,
    'Choose another place with --out.',
  );
}
