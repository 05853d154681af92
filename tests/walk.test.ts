/** The driver: the same value whatever drives it; it breathes, reports, asks, and hands lanes to whoever runs them. */
import { describe, expect, test } from 'vitest';
import type { Reply, Walk } from '../src/plugin.ts';
import { type Driver, QUIET, walk, walkNow } from '../src/walk.ts';

/** Adds up to `steps` ones, unless it is told that it is enough. */
function* counting(steps: number): Walk<number> {
  for (let i = 1; i <= steps; i++) {
    const { say } = yield i / steps;
    if (say === 'enough') return i;
  }
  return steps;
}

const tasks = {
  *square(input: number): Generator<number, number, Reply> {
    yield 0.5;
    return input * input;
  },
};

function* squares(inputs: readonly number[]): Walk<readonly unknown[]> {
  const { results } = yield { lanes: inputs.map((input) => ({ task: 'square', input })) };
  return results;
}

/** A driver whose clock moves 7 ms a look. */
function watched(over: Partial<Driver> = {}) {
  const seen = { breaths: 0, reports: [] as number[] };
  let nowMs = 0;
  const driver: Driver = {
    nowMs: () => (nowMs += 7),
    breathe: async () => void seen.breaths++,
    ask: () => 'go',
    report: (done) => void seen.reports.push(done),
    ...over,
  };
  return { driver, seen };
}

describe('walk', () => {
  test('a plain value and a promise pass through', async () => {
    expect(await walk(41, QUIET)).toBe(41);
    expect(await walk(Promise.resolve([3]), QUIET)).toEqual([3]);
  });

  test('reports every step and breathes in between, no oftener than every 20 ms', async () => {
    const { driver, seen } = watched();
    expect(await walk(counting(30), driver)).toBe(30);
    expect(seen.reports).toEqual(Array.from({ length: 30 }, (_, i) => (i + 1) / 30));
    expect(seen.breaths).toBeGreaterThan(5);
    expect(seen.breaths).toBeLessThanOrEqual(Math.ceil((30 * 7) / 20));
  });

  test('"enough" reaches the walk with its next step, and its value counts', async () => {
    let asked = 0;
    const { driver } = watched({ ask: () => (++asked > 4 ? 'enough' : 'go') });
    expect(await walk(counting(1000), driver)).toBe(5);
  });

  test('what the driver throws abandons the walk', async () => {
    const { driver } = watched({
      ask: () => {
        throw new Error('gone');
      },
    });
    await expect(walk(counting(9), driver)).rejects.toThrow('gone');
  });

  test('lanes give the same results in line, at once, and run elsewhere, in their order', async () => {
    const wanted = [49, 4, 169];
    expect(await walk(squares([7, 2, 13]), QUIET, tasks)).toEqual(wanted);
    expect(walkNow(squares([7, 2, 13]), tasks)).toEqual(wanted);
    const lanes: Driver['lanes'] = async (given, list) => {
      const done = await Promise.all(list.map(async ({ task, input }) => walkNow(given?.[task]?.(input))));
      return done;
    };
    expect(await walk(squares([7, 2, 13]), { ...QUIET, lanes }, tasks)).toEqual(wanted);
  });

  test('lanes that the driver cannot run elsewhere run in line, and say how far they are', async () => {
    const { driver, seen } = watched({ lanes: () => null });
    expect(await walk(squares([3, 5]), driver, tasks)).toEqual([9, 25]);
    expect(seen.reports).toEqual([...seen.reports].sort((a, b) => a - b));
    expect(seen.reports.every((done) => done >= 0 && done <= 1)).toBe(true);
  });

  test('a lane that names no task of its plugin is our fault, and says so', async () => {
    await expect(walk(squares([1]), QUIET, {})).rejects.toThrow('"square"');
  });
});
