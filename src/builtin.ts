import { report } from './document/report.ts';
import { type AnyPlugin, registry } from './registry.ts';
import { sketch } from './source/sketch.ts';

/** Every plugin that comes with the program. Adding one: its file, its cases, one line here. */
const BUILTIN: readonly AnyPlugin[] = [sketch, report];

export const builtin = registry(BUILTIN);
