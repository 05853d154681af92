/** The plugins at hand: found, not found, twice the same, and what is no plugin at all. */
import { describe, expect, test } from 'vitest';
import { makeKit } from '../src/job/kit.ts';
import { definePlugin, type Kit } from '../src/plugin.ts';
import { asPlugin, nearest, registry } from '../src/registry.ts';
import { refusal } from './help/plugin-run.ts';
import { testPlugins } from './help/test-plugins.ts';

const terraces = definePlugin({
  api: 1,
  stage: 'shape',
  name: 'terraces',
  summary: 'steps the ground',
  options: ({ z, length }) => z.strictObject({ rise: length({ above: 0 }) }),
  run: (landform) => landform as never,
});

const KIT = makeKit('mm');

describe('registry', () => {
  test('finds by stage and name, and lists a stage in order', () => {
    expect(testPlugins.find('shape', 'fit').summary).toBe('scales to a height');
    expect(testPlugins.of('document').map(({ name }) => name)).toEqual(['board-svg', 'cut-list', 'pages-pdf']);
  });

  test('with others it is a new one; the old one is as it was', () => {
    const more = testPlugins.with(terraces);
    expect(more.find('shape', 'terraces')).toBe(terraces);
    expect(more.plugins).toHaveLength(testPlugins.plugins.length + 1);
    expect(refusal(() => testPlugins.find('shape', 'terraces')).code).toBe('job/no-such-plugin');
  });

  test('a name that is not there: those that are, the likely one, and where it was asked for', () => {
    const fault = refusal(() => testPlugins.find('split', 'hallow', { path: 'split' }));
    expect(fault.message).toBe('There is no split plugin "hallow"; there are hollow, solid.');
    expect(fault.fix).toBe('Did you mean hollow? Load others with --plugin <path>.');
    expect(fault.where).toEqual({ path: 'split' });
    expect(refusal(() => testPlugins.find('split', 'quarters')).fix).toBe('Load others with --plugin <path>.');
    expect(refusal(() => registry([]).find('nest', 'boards')).message).toContain('there is none');
  });

  test('a plugin of another stage is not found', () => {
    expect(refusal(() => testPlugins.find('source', 'fit')).code).toBe('job/no-such-plugin');
  });

  test('two of one stage and name are refused, two of one name in two stages are not', () => {
    const fault = refusal(() => testPlugins.with(terraces, { ...terraces, summary: 'other steps' }));
    expect(fault.code).toBe('plugin/twice');
    expect(fault.message).toBe('There are two shape plugins called "terraces".');
    expect(testPlugins.with(terraces, { ...terraces, stage: 'split' }).of('split')).toHaveLength(3);
  });
});

describe('asPlugin', () => {
  test('takes a plugin, or a function that makes one from the kit', () => {
    let given: Kit | undefined;
    const make = (kit: Kit) => {
      given = kit;
      return terraces;
    };
    for (const exported of [terraces, make]) {
      const { api, stage, name, summary, options } = asPlugin(exported, KIT, 'mine.mjs');
      expect({ api, stage, name, summary }).toEqual({
        api: 1,
        stage: 'shape',
        name: 'terraces',
        summary: 'steps the ground',
      });
      expect(options(KIT).parse({ rise: '2 in' })).toEqual({ rise: 50.8 });
    }
    expect(given).toBe(KIT);
  });

  test.each([
    ['nothing', undefined, 'plugin/not-one'],
    ['null', null, 'plugin/not-one'],
    ['a text', 'terraces', 'plugin/not-one'],
    ['a function that makes nothing', () => undefined, 'plugin/not-one'],
    ['one of a later kind', { ...terraces, api: 2 }, 'plugin/api'],
    ['one that does not say its kind', { ...terraces, api: undefined }, 'plugin/api'],
    ['one of no stage', { ...terraces, stage: 'paint' }, 'plugin/stage'],
    ['one without a name', { ...terraces, name: undefined }, 'plugin/name'],
    ['a name with capitals', { ...terraces, name: 'Terraces' }, 'plugin/name'],
    ['a name with a dot, which would be a path', { ...terraces, name: 'ter.races' }, 'plugin/name'],
    ['a name that starts with a digit', { ...terraces, name: '3steps' }, 'plugin/name'],
    ['a name without end', { ...terraces, name: 'a'.repeat(42) }, 'plugin/name'],
    ['a name with a line break', { ...terraces, name: 'a\n' }, 'plugin/name'],
    ['one without a summary', { ...terraces, summary: undefined }, 'plugin/shape'],
    ['one whose options are a value', { ...terraces, options: {} }, 'plugin/shape'],
    ['one that cannot run', { ...terraces, run: null }, 'plugin/shape'],
  ])('refuses %s', (_, value, code) => {
    const fault = refusal(() => asPlugin(value, KIT, 'mine.mjs'));
    expect(fault.code).toBe(code);
    expect(fault.message).toMatch(/mine\.mjs|terraces/);
    expect(fault.fix).toContain('samples/');
  });
});

describe('nearest', () => {
  const WORDS = ['proud', 'shy', 'middle', 'sloped'];

  test.each([
    ['prowd', 'proud'],
    ['PROUD', 'proud'],
    ['midle', 'middle'],
    ['shi', 'shy'],
    ['slope', 'sloped'],
    ['', undefined],
    ['outer', undefined],
    ['sky blue', undefined],
  ])('%j: %s', (word, wanted) => {
    expect(nearest(word, WORDS)).toBe(wanted);
  });

  test('capitals count on neither side', () => {
    expect(nearest('audience', ['AUDIENCE', 'audit'])).toBe('AUDIENCE');
    expect(nearest('a3', ['A4', 'A3', 'Letter'])).toBe('A3');
  });

  test('no words, and a word without end, give nothing', () => {
    expect(nearest('proud', [])).toBeUndefined();
    expect(nearest('proud'.repeat(13), WORDS)).toBeUndefined();
  });
});
