import { type AnyPlugin, registry } from './registry.ts';
import { sketch } from './source/sketch.ts';

/** Every plugin that comes with the program. Adding one: its file, its cases, one line here. */
const BUILTIN: readonly AnyPlugin[] = [sketch];

export const builtin = registry(BUILTIN);
