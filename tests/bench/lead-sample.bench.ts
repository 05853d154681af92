/** The lead sample by the real program, with every document: seconds and, on Linux, its largest memory. Names the machine. */
import { readFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { join } from 'node:path';
import { afterAll, bench } from 'vitest';
import { emptyFolder, ended, SAMPLES, start } from '../cli/program.ts';

let peakMb = 0;

bench(
  'moor-bank, whole',
  async () => {
    const child = start(['make', join(SAMPLES, 'moor-bank/job.yaml'), '--quiet'], emptyFolder());
    const watch = setInterval(() => {
      peakMb = Math.max(peakMb, peakOf(child.pid));
    }, 50);
    const { code, err } = await ended(child);
    clearInterval(watch);
    if (code !== 0) throw new Error(`ended with ${code}: ${err}`);
  },
  { iterations: 3, time: 0, warmupIterations: 1, warmupTime: 0 },
);

afterAll(() => console.log(`peak ${peakMb.toFixed(0)} MB on ${cpus().length} × ${cpus()[0]?.model ?? 'unknown'}`));

/** The kernel's high-water mark of a process, MB; 0 where it tells none. */
function peakOf(pid: number | undefined): number {
  try {
    return Number(/VmHWM:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1] ?? 0) / 1024;
  } catch {
    return 0;
  }
}
