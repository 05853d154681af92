import { writeFileSync } from 'node:fs';
import { Worker } from 'node:worker_threads';
import { CannotMake, type Fault, type Finding, refuse } from '../src/index.ts';
import { EXIT } from './exit-codes.ts';
import type { Answer, Request } from './messages.ts';
import { progressLine } from './progress.ts';
import { checkPlace, writeResult } from './result-folder.ts';
import { faultLines, findingLines, summaryLines } from './summary.ts';
import { systemWords, unlessMemory } from './trouble.ts';
import { type Asked, readUsage, WrongUsage } from './usage.ts';

/** What main.ts hears of Ctrl-C, and how the work is ended then. */
export interface Abandon {
  isAsked: boolean;
  /** Ends what is under way. */
  end(): void;
}

/** Run the program; the exit code comes back. */
export async function program(argv: readonly string[], abandon: Abandon): Promise<number> {
  let asked: Asked | null = null;
  try {
    asked = await readUsage(argv);
    return asked ? await answer(asked, abandon) : EXIT.made;
  } catch (thrown) {
    const error = unlessMemory(thrown);
    if (error instanceof WrongUsage) {
      complain([error.message, 'See lynchet --help.']);
      return EXIT.wrongUsage;
    }
    if (error instanceof CannotMake) return cannot(error.faults, error.told, asked?.json ?? false);
    return bug(error instanceof Error ? (error.stack ?? error.message) : String(error));
  }
}

/** Have the worker do it, and show what comes of it. */
async function answer(asked: Asked, abandon: Abandon): Promise<number> {
  if (asked.command === 'make') checkPlace(asked.out);
  const answer = await inWorker(asked, abandon);
  if (abandon.isAsked) return gone();
  if (answer === null) return ended(asked);
  switch (answer.kind) {
    case 'told':
      print(asked.json ? JSON.stringify(answer.data, null, 2) : answer.text);
      return EXIT.made;
    case 'looked': {
      if (asked.picture !== null && answer.picture !== null) writeAside(asked.picture, answer.picture, '--picture');
      const { data, findings, lines } = answer;
      print(
        asked.json
          ? JSON.stringify({ ...(data as object), findings }, null, 2)
          : [...lines, ...findingLines(findings)].join('\n'),
      );
      return findings.some(({ level }) => level === 'stop') ? EXIT.madeWithStop : EXIT.made;
    }
    case 'compared':
      if (asked.table !== null) writeAside(asked.table, answer.html, '--table');
      print(asked.json ? JSON.stringify(answer.data, null, 2) : answer.lines.join('\n'));
      return EXIT.made;
    case 'made': {
      const folder = await writeResult(asked.out, answer.summary.folder, answer.files, () => abandon.isAsked);
      if (abandon.isAsked) return gone();
      const files = answer.files.map(({ path }) => path);
      if (asked.json) print(JSON.stringify({ ...answer.summary, folder, files }, null, 2));
      else if (!asked.quiet) print(summaryLines(answer.summary, folder, files).join('\n'));
      return answer.summary.findings.some(({ level }) => level === 'stop') ? EXIT.madeWithStop : EXIT.made;
    }
    case 'cannot':
      return cannot(answer.faults, answer.told, asked.json);
    case 'bug':
      return bug(answer.stack);
    default:
      throw new Error(`no last word: ${answer.kind}`);
  }
}

/** The worker's last word, or null when it was ended before it had one. */
function inWorker(asked: Asked, abandon: Abandon): Promise<Answer | null> {
  const { command, file, overrides, plugins, seconds, picture, piecePrice, schema } = asked;
  const request: Request = {
    want: command,
    file,
    overrides,
    plugins,
    seconds,
    picture: picture !== null,
    piecePrice,
    schema,
  };
  const line = progressLine(process.stderr, !asked.quiet && !asked.json);
  return new Promise((resolve, reject) => {
    const worker = new Worker(new URL('./worker.js', import.meta.url), { workerData: request });
    abandon.end = () => void worker.terminate();
    worker.on('message', (message: Answer) => {
      if (message.kind === 'progress') line.show(message.stage, message.done);
      else {
        line.clear();
        resolve(message);
      }
    });
    worker.once('error', reject);
    worker.once('exit', () => {
      line.clear();
      resolve(null);
    });
  });
}

function writeAside(path: string, text: string, flag: string): void {
  try {
    writeFileSync(path, text);
  } catch (error) {
    refuse(
      'out/cannot-write',
      `${path} cannot be written: ${systemWords(error)}.`,
      `Choose another place for ${flag}.`,
    );
  }
}

function cannot(faults: readonly Fault[], told: readonly Finding[], asJson: boolean): number {
  if (asJson) print(JSON.stringify({ faults, told }, null, 2));
  else complain(faultLines(faults, told));
  return EXIT.cannotMake;
}

function bug(stack: string): number {
  complain([stack, 'This is a fault of Lynchet, not of your job. Please report it, with the job file.']);
  return EXIT.bug;
}

/** The work ended without a word and without Ctrl-C: a module of others can do that. */
function ended({ plugins }: Asked): number {
  if (plugins.length === 0) return bug('The work ended before it had an answer.');
  const message = `The work ended before it had an answer: a plugin of ${plugins.join(', ')} seems to have ended it.`;
  return cannot([{ code: 'plugin/ended', message, fix: 'Mend it, or do without it.', where: {} }], [], false);
}

function gone(): number {
  complain(['Abandoned; nothing was written.']);
  return EXIT.abandoned;
}

function print(text: string): void {
  process.stdout.write(`${text}\n`);
}

function complain(lines: readonly string[]): void {
  process.stderr.write(`${lines.join('\n')}\n`);
}
