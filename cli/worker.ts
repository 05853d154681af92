/**
 * Runs the core away from the terminal, so that Ctrl-C is heard at once: a long computation that cannot be interrupted
 * is ended with its worker. As a lane it runs one task of a plugin and nothing else.
 */
import { parentPort, workerData } from 'node:worker_threads';
import { builtin, CannotMake, walkNow } from '../src/index.ts';
import { answerTo } from './answer.ts';
import type { Answer, Lane, Request } from './messages.ts';

const port = parentPort;
if (!port) throw new Error('worker.ts runs as a worker');
const work = workerData as { request: Request } | { lane: Lane };

if ('lane' in work) {
  const { stage, plugin, task, input } = work.lane;
  port.postMessage(walkNow(builtin.find(stage, plugin).tasks?.[task]?.(input)));
} else {
  const answer = (message: Answer) => port.postMessage(message);
  try {
    answer(await answerTo(work.request, answer));
  } catch (error) {
    if (error instanceof CannotMake) answer({ kind: 'cannot', faults: error.faults });
    else answer({ kind: 'bug', stack: error instanceof Error ? (error.stack ?? error.message) : String(error) });
  }
}
