import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import { builtin, type Driver } from '../src/index.ts';
import type { Lane } from './messages.ts';

/**
 * Run a plugin's lanes in workers, as many at a time as there are cores (two at most). Null for plugins that a worker
 * cannot find again: those run in line. The results, and so the bytes of the plan, are the same either way.
 */
export const lanesInWorkers: NonNullable<Driver['lanes']> = (tasks, lanes) => {
  const plugin = builtin.plugins.find((each) => each.tasks !== undefined && each.tasks === tasks);
  const atOnce = Math.min(2, availableParallelism(), lanes.length);
  if (!plugin || atOnce < 2) return null;
  const results: unknown[] = [];
  let next = 0;
  const runner = async () => {
    while (next < lanes.length) {
      const place = next++;
      results[place] = await inWorker({ stage: plugin.stage, plugin: plugin.name, ...lanes[place] });
    }
  };
  return Promise.all(Array.from({ length: atOnce }, runner)).then(() => results);
};

const inWorker = (lane: Lane): Promise<unknown> =>
  new Promise((resolve, reject) => {
    const worker = new Worker(new URL('./worker.js', import.meta.url), { workerData: { lane } });
    worker.once('message', resolve);
    worker.once('error', reject);
    worker.once('exit', (code) => reject(new Error(`a worker ended early (${code})`)));
  });
