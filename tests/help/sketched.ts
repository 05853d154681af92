import type { Finding } from '../../src/findings.ts';
import { stream } from '../../src/geometry/random.ts';
import { makeKit } from '../../src/job/kit.ts';
import type { Heightfield } from '../../src/model/landform.ts';
import { sketch } from '../../src/source/sketch.ts';
import { walkNow } from '../../src/walk.ts';

/** Built once: it is a large schema. */
const OPTIONS = sketch.options(makeKit('mm'));

/** A sketch as written in a job, made; `seed` is the job's. */
export function sketched(written: unknown, seed = 1): { field: Heightfield; told: Finding[] } {
  const told: Finding[] = [];
  const context = {
    facts: {},
    others: {},
    tell: (finding: Finding) => void told.push(finding),
    random: stream(seed, 'source', 0),
  };
  const options = OPTIONS.parse(written);
  return { field: walkNow(sketch.run(new Map(), options, context)) as Heightfield, told };
}

/** What reading a sketch complains of: path and message, a line each; `none` when nothing. */
export function sketchFault(written: unknown): string {
  const read = OPTIONS.safeParse(written);
  return read.success
    ? 'none'
    : read.error.issues.map(({ path, message }) => `${path.join('.')}: ${message}`).join('\n');
}
