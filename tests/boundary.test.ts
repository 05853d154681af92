/** Who may import whom (the table in DEVELOPERS.md), and what the core's arithmetic may use. Read from the source. */
import { posix } from 'node:path';
import { describe, expect, test } from 'vitest';
import { sourceFiles, withoutComments } from './help/source-files.ts';

const ROOMS = [
  'source',
  'shape',
  'slice',
  'split',
  'nest',
  'document',
  'workshop',
  'checks',
  'drawing',
  'model',
  'geometry',
];
const STAGE_MAY = ['plugin', 'units', 'findings', 'model', 'geometry'];
const MAY: Readonly<Record<string, readonly string[]>> = {
  source: STAGE_MAY,
  shape: STAGE_MAY,
  slice: STAGE_MAY,
  split: STAGE_MAY,
  nest: STAGE_MAY,
  document: [...STAGE_MAY, 'drawing', 'workshop'],
  workshop: ['units', 'findings', 'model', 'geometry'],
  checks: ['units', 'findings', 'model', 'geometry', 'workshop'],
  drawing: ['units', 'geometry'],
  model: ['units', 'findings', 'geometry'],
  geometry: [],
};
/** Packages that one file alone may import. */
const ONLY: Readonly<Record<string, string>> = {
  'clipper-lib': 'src/geometry/clip.ts',
  'svg-builder': 'src/drawing/svg.ts',
  pdfkit: 'src/drawing/pdf.ts',
  yargs: 'cli/usage.ts',
};
const IMPORT =
  /(?:^|\n)\s*(?:import|export)\s[^'"]*?from\s+'([^']+)'|(?:^|\n)\s*import\s+'([^']+)'|import\('([^']+)'\)/g;

interface Import {
  readonly from: string;
  readonly to: string;
}

const core = sourceFiles('src');
const everything = [...core, ...sourceFiles('cli')];
const imports: Import[] = everything.flatMap(({ path, text }) =>
  [...text.matchAll(IMPORT)].map((match) => {
    const to = match[1] ?? match[2] ?? match[3];
    return { from: path, to: to.startsWith('.') ? posix.normalize(posix.join(posix.dirname(path), to)) : to };
  }),
);
const room = (path: string): string =>
  path
    .replace(/^src\//, '')
    .split('/')[0]
    .replace(/\.ts$/, '');

describe('who imports whom', () => {
  test('the reader of imports sees them', () => {
    expect(imports).toContainEqual({ from: 'src/geometry/clip.ts', to: 'clipper-lib' });
    expect(imports).toContainEqual({ from: 'src/attempt.ts', to: 'src/checks/inspect.ts' });
  });

  test('each room imports only what its row allows', () => {
    const wrong = imports.filter(({ from, to }) => {
      const here = room(from);
      if (!from.startsWith('src/') || !ROOMS.includes(here) || !to.startsWith('src/')) return false;
      const there = room(to);
      return there !== here && !MAY[here].includes(there);
    });
    expect(wrong).toEqual([]);
  });

  test('a plugin or check imports no sibling, and a helper folder no plugin', () => {
    const isPlugin = (path: string) => /^src\/(source|shape|slice|split|nest|document)\/[^/]+\.ts$/.test(path);
    expect(
      imports.filter(({ from, to }) => from.startsWith('src/') && room(from) === room(to) && isPlugin(to)),
    ).toEqual([]);
  });

  test('the command line imports the core by its front door', () => {
    const wrong = imports.filter(
      ({ from, to }) => from.startsWith('cli/') && to.startsWith('src/') && to !== 'src/index.ts',
    );
    expect(wrong).toEqual([]);
  });

  test('the core imports no module of Node and nothing of the command line', () => {
    const wrong = imports.filter(
      ({ from, to }) => from.startsWith('src/') && (to.startsWith('node:') || to.startsWith('cli/')),
    );
    expect(wrong).toEqual([]);
  });

  test('some packages are known to one file only', () => {
    for (const [name, only] of Object.entries(ONLY)) {
      const users = new Set(imports.filter(({ to }) => to === name).map(({ from }) => from));
      expect([...users], name).toEqual([only]);
    }
  });

  test('every import inside the project names its file with the ending', () => {
    expect(imports.filter(({ to }) => /^(src|cli)\//.test(to) && !to.endsWith('.ts'))).toEqual([]);
  });
});

describe('the core gives the same bytes on every engine', () => {
  const BANNED: readonly [RegExp, string][] = [
    [/\*\*/, 'the power operator'],
    [
      /Math\.(?!(sqrt|abs|min|max|floor|trunc|round|ceil|sign|imul|fround|SQRT2|SQRT1_2)\b)\w+/,
      'Math beyond what is exact everywhere',
    ],
    [/\bIntl\b|localeCompare|toLocale\w+/, 'words that depend on the place'],
    // A fixed day is no clock: file formats want one.
    [/\bDate\b(?!\(0\))|performance\.|\bconsole\./, 'a clock or a console'],
    [/\bprocess\b|\bBuffer\b|\bglobalThis\b|\bwindow\b|\bdocument\./, 'an outside'],
  ];

  test.each(BANNED)('no %s', (pattern, what) => {
    // The one file that fetches the functions from their library may name them.
    const found = core
      .filter(({ path }) => path !== 'src/geometry/exact-math.ts' && !path.startsWith('src/loft/'))
      .filter(({ text }) => pattern.test(withoutComments(text).replace(/'[^'\n]*'/g, "''")));
    expect(found.map(({ path }) => `${path}: ${what}`)).toEqual([]);
  });
});
