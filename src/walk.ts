import type { Lanes, Reply, Task, Walk, Work } from './plugin.ts';

/** What the edge gives to a walk. The core has no clock, no event loop and no workers of its own. */
export interface Driver {
  /** Milliseconds of any steady clock. */
  nowMs(): number;
  /** Let the event loop turn. */
  breathe(): Promise<void>;
  /** Asked at every breath: go on, or say enough. Throw here to abandon. */
  ask(): 'go' | 'enough';
  /** Progress of the present walk, 0…1. */
  report(done: number): void;
  /** Run lanes elsewhere and give their results in order; null when they are to be run in line. */
  lanes?(tasks: Readonly<Record<string, Task>> | undefined, lanes: Lanes['lanes']): Promise<readonly unknown[]> | null;
}

const BREATH_MS = 20;

/** Everything in line, no clock: for tests, and where nobody waits. */
export const QUIET: Driver = { nowMs: () => 0, breathe: async () => {}, ask: () => 'go', report: () => {} };

/**
 * Drive some work to its value. Between steps it breathes at most every 20 ms, reports progress and asks whether to go
 * on. Same value with or without workers: a walk's schedule never depends on them.
 */
export async function walk<T>(work: Work<T>, driver: Driver, tasks?: Readonly<Record<string, Task>>): Promise<T> {
  if (!isWalk(work)) return work;
  let results: readonly unknown[] = [];
  let lastMs = driver.nowMs();
  let say: Reply['say'] = 'go';
  let done = 0;
  for (let step = work.next({ say, results }); ; step = work.next({ say, results })) {
    if (step.done) return step.value;
    results = [];
    if (typeof step.value === 'number') driver.report((done = step.value));
    else {
      const { lanes, upTo = 1 } = step.value;
      const from = done;
      const report = (share: number) => driver.report((done = from + share * (upTo - from)));
      results = (await driver.lanes?.(tasks, lanes)) ?? (await inLine(lanes, { ...driver, report }, tasks));
    }
    const nowMs = driver.nowMs();
    if (nowMs - lastMs >= BREATH_MS) {
      await driver.breathe();
      lastMs = driver.nowMs();
    }
    say = driver.ask();
  }
}

/** Run a walk that yields no lanes, or whose lanes may run in line, at once and to its end. */
export function walkNow<T>(work: T | Walk<T>, tasks?: Readonly<Record<string, Task>>): T {
  if (!isWalk(work)) return work as T;
  let results: readonly unknown[] = [];
  for (let step = work.next({ say: 'go', results }); ; step = work.next({ say: 'go', results })) {
    if (step.done) return step.value;
    results =
      typeof step.value === 'number'
        ? []
        : step.value.lanes.map(({ task, input }) => walkNow(taskOf(tasks, task)(input)));
  }
}

async function inLine(lanes: Lanes['lanes'], driver: Driver, tasks?: Readonly<Record<string, Task>>) {
  const results: unknown[] = [];
  for (const [i, { task, input }] of lanes.entries()) {
    const report = (done: number) => driver.report((i + done) / lanes.length);
    results.push(await walk(taskOf(tasks, task)(input), { ...driver, report }));
  }
  return results;
}

function taskOf(tasks: Readonly<Record<string, Task>> | undefined, name: string): Task {
  const task = tasks?.[name];
  if (!task) throw new Error(`a lane names the task "${name}", which its plugin does not have`);
  return task;
}

/** Whether some work is a walk, to be driven step by step. */
export const isWalk = <T>(work: Work<T>): work is Walk<T> =>
  typeof work === 'object' && work !== null && typeof (work as Walk<T>).next === 'function' && Symbol.iterator in work;
