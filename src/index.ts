export { builtin } from './builtin.ts';
export { type Comparison, compare, comparisonHtml, comparisonText } from './compare.ts';
export type { Fault, Finding, FindingLevel, Where } from './findings.ts';
export { CannotMake, faultText, placeText, refuse } from './findings.ts';
export { thrownText } from './guard.ts';
export { type JobKit, makeKit } from './job/kit.ts';
export { type JsonSchema, jobKeys, jobSchema, optionSchemas } from './job/schema.ts';
export { type Job, type Override, readJob, type Step } from './job.ts';
export { type Look, landformJob, look } from './look.ts';
export {
  folderName,
  type OffcutFile,
  offcutsFile,
  type PlanFile,
  planFile,
  planSchema,
  readOffcuts,
} from './model/files.ts';
export type { OutputFile, Plan, Quantities } from './model/plan.ts';
export { type Context, definePlugin, type Kit, type Plugin } from './plugin.ts';
export { type AnyPlugin, asPlugin, nearest, type Registry, registry } from './registry.ts';
export { ground, type Made, run } from './run.ts';
export { STAGES, type StageName } from './stages.ts';
export type { JobFiles, Memory, RunOptions } from './steps.ts';
export { type Driver, QUIET, walk, walkNow } from './walk.ts';
export { timeText } from './workshop/taping.ts';
