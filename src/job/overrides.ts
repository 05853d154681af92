import { CannotMake, type Fault } from '../findings.ts';
import type { Override } from '../job.ts';
import type { Path } from './places.ts';
import { shown } from './words.ts';
import { readYaml } from './yaml.ts';

/** Stages that take one step; a flag that names another plugin there replaces the step. */
const SINGLE = ['source', 'slice', 'split', 'nest'];
/** Stages that take a list of steps. */
const LISTS = ['shape', 'documents'];

type Group = Record<string, unknown>;

/**
 * Set values from outside the file: a dotted path and a text that is read as YAML. What a path names is not judged here;
 * the reader judges file and flags alike, once.
 * @param job changed in place: the reader's own copy.
 */
export function override(job: Group, overrides: readonly Override[]): { flags: Path[]; faults: Fault[] } {
  const faults: Fault[] = [];
  const flags = overrides.map(({ path }) => path.split('.'));
  for (const [i, { value }] of overrides.entries()) {
    const where = { path: `--${flags[i].join('.')}` };
    try {
      const { value: read, faults: wrong } = readYaml(value, '');
      faults.push(...wrong.map((fault) => ({ ...fault, where })));
      const problem = wrong.length > 0 ? undefined : set(job, flags[i], read);
      if (problem !== undefined) {
        faults.push({ code: 'job/no-such-place', message: problem, fix: 'Check the path of the flag.', where });
      }
    } catch (error) {
      if (!(error instanceof CannotMake)) throw error;
      faults.push(...error.faults.map((fault) => ({ ...fault, where })));
    }
  }
  return { flags, faults };
}

/** Set a value at a path, making the groups on the way. Returns what is wrong with the path. */
function set(job: Group, path: Path, value: unknown): string | undefined {
  if (path.some((segment) => segment === '' || segment === '__proto__')) return `"${path.join('.')}" is not a path.`;
  let container: unknown = job;
  for (const [i, segment] of path.entries()) {
    const name = path.slice(0, i).join('.');
    if (Array.isArray(container)) {
      if (!/^\d+$/.test(String(segment))) return `${name} is a list; "${segment}" is not the number of an entry.`;
      if (Number(segment) > container.length) return `${name} has ${container.length} entries, counted from 0.`;
    } else if (typeof container !== 'object' || container === null) {
      return `${name} is ${shown(container)}, not a group of keys.`;
    }
    const group = container as Group;
    if (i === path.length - 1) group[segment] = value;
    else container = group[segment] = opened(Object.hasOwn(group, segment) ? group[segment] : undefined, path, i);
  }
  return undefined;
}

/** What stands at a place, made ready to hold the next segment: a bare word becomes a map, nothing becomes a group. */
function opened(value: unknown, path: Path, i: number): unknown {
  const next = String(path[i + 1]);
  const isStep = i === 0 && SINGLE.includes(String(path[0]));
  if (isStep) {
    const holds = typeof value === 'object' && value !== null && Object.hasOwn(value, next);
    return holds ? value : { [next]: {} };
  }
  const isListed = i === 1 && LISTS.includes(String(path[0]));
  if (isListed && typeof value === 'string') return { [value]: {} };
  if (value === undefined || value === null) return /^\d+$/.test(next) ? [] : {};
  return value;
}
