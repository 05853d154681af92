import { isMap, isScalar, isSeq } from 'yaml';
import type { Where } from '../findings.ts';
import type { Node, YamlFile } from './yaml.ts';

/** A place in the job: keys and numbers of list entries. */
export type Path = readonly (string | number)[];

/** Where in the file, or in which flag, a path of the job was written. */
export interface Places {
  /** @param of the key that is wrong, or the value; for what is missing, the nearest that is there. */
  where(path: Path, of: 'key' | 'value'): Where;
}

/** @param flags paths that were set from the command line: a fault there names the flag, not a line. */
export function places(yaml: YamlFile, file: string, flags: readonly Path[]): Places {
  return {
    where(path, of) {
      const { depth, key, value } = walk(yaml, path);
      const flag =
        flags.find((set) => isUnder(path, set)) ??
        (depth < path.length ? flags.find((set) => isUnder(set, path.slice(0, depth + 1))) : undefined);
      if (flag) return { path: `--${flag.join('.')}` };
      // What is missing or empty has no place of its own: its group's key, or its own, is what people look for.
      const isEmpty = isScalar(value) && value.value === null;
      const node = depth < path.length || of === 'key' || isEmpty ? (key ?? value) : (value ?? key);
      return { file, ...yaml.at(node?.range?.[0] ?? 0), ...(path.length > 0 ? { path: path.join('.') } : {}) };
    },
  };
}

const isUnder = (path: Path, above: Path): boolean =>
  above.length <= path.length && above.every((segment, i) => String(segment) === String(path[i]));

/** How much of a path the file has, with the last key and value on it. */
function walk(yaml: YamlFile, path: Path): { depth: number; key: Node; value: Node } {
  let key: Node = null;
  let value: Node = yaml.root;
  for (const [depth, segment] of path.entries()) {
    const node = yaml.resolved(value);
    if (isMap(node)) {
      const pair = node.items.find((item) => isScalar(item.key) && String(item.key.value) === String(segment));
      if (!pair) return { depth, key, value };
      key = pair.key as Node;
      value = pair.value as Node;
    } else if (isSeq(node) && Number(segment) in node.items) {
      key = null;
      value = node.items[Number(segment)] as Node;
    } else return { depth, key, value };
  }
  return { depth: path.length, key, value };
}
