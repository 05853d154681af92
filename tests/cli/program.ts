import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync } from 'node:fs';
import { constants, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const PROGRAM = fileURLToPath(new URL('../../dist/lynchet.js', import.meta.url));
export const SAMPLES = fileURLToPath(new URL('../../samples', import.meta.url));

export interface Ended {
  /** As a shell gives it: 128 and the signal's number when a signal ended it before the program could hear it. */
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

export const emptyFolder = (): string => mkdtempSync(join(tmpdir(), 'lynchet-'));

// The test runner forces colour on its children; a user's pipe does not.
const { FORCE_COLOR: _, ...plainEnvironment } = process.env;

/** Start the real program. */
export const start = (args: readonly string[], cwd: string): ChildProcess =>
  spawn(process.execPath, [PROGRAM, ...args], { cwd, env: plainEnvironment });

/** Run the real program to its end. */
export const program = (args: readonly string[], cwd: string): Promise<Ended> => ended(start(args, cwd));

export const ended = (child: ChildProcess): Promise<Ended> =>
  new Promise((resolve) => {
    let out = '';
    let err = '';
    child.stdout?.on('data', (data) => (out += data));
    child.stderr?.on('data', (data) => (err += data));
    child.on('close', (code, signal) =>
      resolve({ code: code ?? 128 + (signal ? constants.signals[signal] : 0), out, err }),
    );
  });
