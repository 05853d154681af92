/** Runs lanes that are sent to it. */
import { parentPort } from 'node:worker_threads';
import { walkNow } from '../../../src/walk.ts';
import { TASKS } from './drive.ts';

parentPort?.on('message', ({ task, input }: { task: string; input: unknown }) => {
  parentPort?.postMessage(walkNow(TASKS[task](input)));
});
