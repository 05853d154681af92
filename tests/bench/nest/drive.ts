import process from 'node:process';
import { Worker } from 'node:worker_threads';
import { improve, shorten } from '../../../src/nest/engine/engine.ts';
import type { Task } from '../../../src/plugin.ts';
import { type Driver, QUIET } from '../../../src/walk.ts';

/** What lanes may ask for. */
export const TASKS: Readonly<Record<string, Task>> = { improve, shorten };

/** Drives a walk for so many seconds; lanes run in worker threads. The round under way when they are over is waited for. */
export interface Timed extends Driver {
  seconds(): number;
  end(): Promise<void>;
}

/**
 * @param script where the workers start; null to run lanes in line
 * @param byProcessor count seconds of all threads' processor time, halved for two workers: fair on a busy machine
 */
export function timed(seconds: number, workers: number, script: URL | null, byProcessor: boolean): Timed {
  const threads = Array.from({ length: script === null ? 0 : workers }, () => new Worker(script as URL));
  const now = () => {
    if (!byProcessor) return Number(process.hrtime.bigint()) / 1e9;
    const { user, system } = process.cpuUsage();
    return (user + system) / 1e6 / Math.max(1, workers);
  };
  const begun = now();
  const passed = () => now() - begun;
  let lastRound = 0;
  const lanes: Driver['lanes'] = (_, waiting) => {
    if (threads.length === 0) return null;
    const from = passed();
    let next = 0;
    const results: unknown[] = [];
    const run = async (thread: Worker) => {
      while (next < waiting.length) {
        const place = next++;
        results[place] = await answer(thread, waiting[place]);
      }
    };
    return Promise.all(threads.map(run)).then(() => {
      lastRound = passed() - from;
      return results;
    });
  };
  return {
    ...QUIET,
    lanes,
    // A round that would end more than half a round late is not begun.
    ask: () => (passed() + lastRound / 2 >= seconds ? 'enough' : 'go'),
    seconds: passed,
    end: async () => void (await Promise.all(threads.map((thread) => thread.terminate()))),
  };
}

const answer = (thread: Worker, lane: unknown): Promise<unknown> =>
  new Promise((resolve, reject) => {
    thread.once('error', reject);
    thread.once('message', (result) => {
      thread.off('error', reject);
      resolve(result);
    });
    thread.postMessage(lane);
  });
