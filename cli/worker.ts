/**
 * Runs the core away from the terminal, so that Ctrl-C is heard at once: a long computation that cannot be interrupted
 * is ended with its worker. With the word `lanes` it runs tasks of plugins, one after the other, and nothing else.
 */
import { parentPort, workerData } from 'node:worker_threads';
import { builtin, CannotMake, walkNow } from '../src/index.ts';
import { answerTo } from './answer.ts';
import type { Answer, Lane, Request } from './messages.ts';
import { unlessMemory } from './trouble.ts';

const port = parentPort;
if (!port) throw new Error('worker.ts runs as a worker');

if (workerData === 'lanes') {
  port.on('message', ({ stage, plugin, task, input }: Lane) => {
    const { tasks } = builtin.find(stage, plugin);
    port.postMessage(walkNow(tasks?.[task]?.(input), tasks));
  });
} else {
  const answer = (message: Answer) => port.postMessage(message);
  try {
    answer(await answerTo(workerData as Request, answer));
  } catch (thrown) {
    const error = unlessMemory(thrown);
    if (error instanceof CannotMake) answer({ kind: 'cannot', faults: error.faults, told: error.told });
    else answer({ kind: 'bug', stack: error instanceof Error ? (error.stack ?? error.message) : String(error) });
  }
}
