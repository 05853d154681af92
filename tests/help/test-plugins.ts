import { definePlugin } from '../../src/plugin.ts';
import { registry } from '../../src/registry.ts';

/** Plugins that only have options: for tests of the job file, which must not depend on the real ones. */
const nothing = (): never => {
  throw new Error('a test plugin does not run');
};

const slope = definePlugin({
  api: 1,
  stage: 'source',
  name: 'slope',
  summary: 'an even slope',
  options: ({ z, size, length, point }) =>
    z.strictObject({
      size: size(),
      spacing: length({ above: 0 }).prefault('25 mm'),
      rise: length({ least: 0, most: 9000 }).default(310),
      from: point().optional(),
      features: z
        .array(
          z.union([
            z.strictObject({ mound: z.strictObject({ at: point(), height: length() }) }),
            z.strictObject({ trench: z.strictObject({ depth: length({ above: 0 }) }) }),
          ]),
        )
        .default([]),
    }),
  run: nothing,
});

const survey = definePlugin({
  api: 1,
  stage: 'source',
  name: 'survey',
  summary: 'heights from a file',
  options: ({ z, file, length }) =>
    z
      .strictObject({ file: file(), mask: file().optional(), low: length(), high: length() })
      .refine(({ low, high }) => low !== high, {
        message: 'low and high are the same.\nSay two heights.',
        path: ['high'],
      }),
  run: nothing,
});

const cover = definePlugin({
  api: 1,
  stage: 'shape',
  name: 'cover',
  summary: 'takes the cover off',
  options: ({ z }) => z.strictObject({}),
  run: nothing,
});

const fit = definePlugin({
  api: 1,
  stage: 'shape',
  name: 'fit',
  summary: 'scales to a height',
  options: ({ z, length }) => z.strictObject({ height: length({ above: 0 }), note: z.string().default('') }),
  run: nothing,
});

const layers = definePlugin({
  api: 1,
  stage: 'slice',
  name: 'layers',
  summary: 'lying layers',
  options: ({ z, length }) =>
    z.strictObject({
      cut: z.enum(['proud', 'shy', 'middle', 'sloped']).default('proud').describe('the cut line rule'),
      thickness: length({ above: 0 }).optional(),
    }),
  run: nothing,
});

const hollow = definePlugin({
  api: 1,
  stage: 'split',
  name: 'hollow',
  summary: 'leaves out what bears nothing',
  options: ({ z, length }) =>
    z.strictObject({ lap: length({ above: 0 }).prefault('60 mm'), pins: z.boolean().default(true) }),
  run: nothing,
});

const solid = definePlugin({
  api: 1,
  stage: 'split',
  name: 'solid',
  summary: 'keeps every layer whole',
  options: ({ z }) => z.strictObject({ most: z.int().min(1).max(12).default(7) }),
  run: nothing,
});

const boards = definePlugin({
  api: 1,
  stage: 'nest',
  name: 'boards',
  summary: 'places on boards',
  options: ({ z }) => z.strictObject({ effort: z.int().positive().default(4000) }),
  run: nothing,
});

const lists = ['board-svg', 'cut-list'].map((name) =>
  definePlugin({
    api: 1,
    stage: 'document',
    name,
    summary: `makes ${name}`,
    options: ({ z }) => z.strictObject({}),
    run: nothing,
  }),
);

const pages = definePlugin({
  api: 1,
  stage: 'document',
  name: 'pages-pdf',
  summary: 'pages to print',
  options: ({ z }) => z.strictObject({ paper: z.enum(['A4', 'A3']).default('A4') }),
  run: nothing,
});

export const testPlugins = registry([slope, survey, cover, fit, layers, hollow, solid, boards, ...lists, pages]);
