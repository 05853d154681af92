import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));

export interface SourceFile {
  /** From the project's root, with forward slashes: `src/slice/layers.ts`. */
  readonly path: string;
  readonly text: string;
}

/** Every TypeScript file under the given folders of the project. */
export function sourceFiles(...folders: readonly string[]): SourceFile[] {
  return folders.flatMap((folder) =>
    readdirSync(`${ROOT}${folder}`, { recursive: true, encoding: 'utf8' })
      .map((name) => `${folder}/${name.replaceAll('\\', '/')}`)
      .filter((path) => path.endsWith('.ts') && !path.endsWith('.d.ts'))
      .sort()
      .map((path) => ({ path, text: readFileSync(`${ROOT}${path}`, 'utf8') })),
  );
}

/** The text without comments, strings and regular expressions' worth of noise: what the engine would execute. */
export const withoutComments = (text: string): string =>
  text.replace(/\/\*[\s\S]*?\*\//g, ' ').replace(/(^|[^:'"`\\])\/\/.*$/gm, '$1');
