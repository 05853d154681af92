import { type AnyPlugin, registry } from './registry.ts';

/** Every plugin that comes with the program. Adding one: its file, its cases, one line here. */
const BUILTIN: readonly AnyPlugin[] = [];

export const builtin = registry(BUILTIN);
