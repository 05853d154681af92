import { CannotMake, type Fault, type Finding } from './findings.ts';
import type { Job, Step } from './job.ts';
import type { Landform } from './model/landform.ts';
import type { Others } from './plugin.ts';
import type { JobFiles, RunStage } from './steps.ts';

/** The ground of a job, as it goes to be sliced: its source, then its shapers, each after the sources that it names. */
export async function landformOf(job: Job, files: JobFiles, stage: RunStage, told: Finding[]): Promise<Landform> {
  let landform = await stage(job.source, files, 0, told);
  // Places among all sources of the job, in the order in which they are written: each draws from a stream of its own.
  let place = 1;
  for (const [i, step] of job.shape.entries()) {
    const others: Record<string, Landform> = {};
    for (const [key, source] of Object.entries(step.sources ?? {})) {
      others[key] = await otherGround(source, files, place++, stage, told);
    }
    landform = await stage(step, landform, i, told, others satisfies Others);
  }
  return landform;
}

/** Run a source within a shaper: what it tells names its own place in the job, not the job's source. */
async function otherGround(source: Step<'source'>, files: JobFiles, place: number, stage: RunStage, told: Finding[]) {
  const inside = source.path.slice(0, source.path.lastIndexOf('.'));
  const moved = <T extends Fault>(each: T): T => {
    const path = each.where.path?.replace(/^source(?=\.|$)/, inside);
    return path === undefined ? each : { ...each, where: { ...each.where, path } };
  };
  const heard: Finding[] = [];
  try {
    const ground = await stage(source, files, place, heard);
    told.push(...heard.map(moved));
    return ground;
  } catch (error) {
    throw error instanceof CannotMake
      ? new CannotMake(error.faults.map(moved), [...told, ...error.told.map(moved)])
      : error;
  }
}
