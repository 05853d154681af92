import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import { builtin, type Driver } from '../src/index.ts';
import type { Lane } from './messages.ts';

/**
 * Runs plugins' lanes in workers, as many at a time as there are cores (two at most). The workers are started with the
 * first lanes and kept for the next: starting one costs more than many lanes. Plugins that a worker cannot find again
 * run in line. The results, and so the bytes of the plan, are the same either way.
 */
export function lanePool(): { readonly lanes: NonNullable<Driver['lanes']>; end(): Promise<void> } {
  const workers: Worker[] = [];
  const start = () => {
    const worker = new Worker(new URL('./worker.js', import.meta.url), { workerData: 'lanes' });
    workers.push(worker);
    return worker;
  };
  const lanes: NonNullable<Driver['lanes']> = (tasks, waiting) => {
    const plugin = builtin.plugins.find((each) => each.tasks !== undefined && each.tasks === tasks);
    const atOnce = Math.min(2, availableParallelism(), waiting.length);
    if (!plugin || atOnce < 2) return null;
    while (workers.length < atOnce) start();
    const results: unknown[] = [];
    let next = 0;
    const runner = async (worker: Worker) => {
      while (next < waiting.length) {
        const place = next++;
        results[place] = await answerOf(worker, { stage: plugin.stage, plugin: plugin.name, ...waiting[place] });
      }
    };
    return Promise.all(workers.slice(0, atOnce).map(runner)).then(() => results);
  };
  return { lanes, end: async () => void (await Promise.all(workers.map((worker) => worker.terminate()))) };
}

const answerOf = (worker: Worker, lane: Lane): Promise<unknown> =>
  new Promise((resolve, reject) => {
    const fail = (reason: unknown) =>
      reject(reason instanceof Error ? reason : new Error(`a worker ended early (${reason})`));
    worker.once('error', fail);
    worker.once('exit', fail);
    worker.once('message', (result) => {
      worker.off('error', fail);
      worker.off('exit', fail);
      resolve(result);
    });
    worker.postMessage(lane);
  });
