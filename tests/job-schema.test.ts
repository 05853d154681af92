import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { jobSchema, optionSchemas } from '../src/job/schema.ts';
import { GOOD, LEAST, read, spoilt } from './help/job-texts.ts';
import { testPlugins } from './help/test-plugins.ts';

const schema = jobSchema(testPlugins);
const accepts = new Ajv2020({ allErrors: true }).compile(schema as object);

describe('the schema of a job', () => {
  test('is draft 2020-12 and says what keys mean', () => {
    const { properties } = schema as { properties: Record<string, { description?: string; default?: unknown }> };
    expect(schema.$schema).toBe('https://json-schema.org/draft/2020-12/schema');
    expect(properties.gap).toMatchObject({ default: '10 mm', description: expect.stringContaining('clearance') });
    expect(properties.slice).toMatchObject({ default: { layers: {} }, description: expect.stringContaining('layers') });
    for (const [key, { description }] of Object.entries(properties)) expect(description, key).toBeTruthy();
  });

  test('a step is one of the plugins at hand', () => {
    const { split } = schema.properties as { split: { oneOf: unknown[] } };
    expect(split.oneOf).toHaveLength(5);
    expect(split.oneOf[2]).toMatchObject({ enum: ['hollow', 'solid'] });
    expect(split.oneOf[4]).toMatchObject({ const: 'best' });
  });

  test.each([
    ['rich', parse(GOOD)],
    ['bare', parse(LEAST)],
    ['written', read(GOOD).written],
    ['with best', parse(GOOD.replace('{ hollow: { lap: 6.5 } }', 'best'))],
    ['with best of two', parse(GOOD.replace('{ hollow: { lap: 6.5 } }', '{ best: [solid, hollow: { lap: 6.5 }] }'))],
    ['written with best', read(GOOD.replace('{ hollow: { lap: 6.5 } }', 'best')).written],
    ['with an empty step', parse(GOOD.replace('- cover', '- cover:'))],
  ])('a %s job passes', (_, job) => {
    accepts(job);
    expect(accepts.errors ?? []).toEqual([]);
  });

  test.each([
    ['seed: 11', 'sed: 11'],
    ['lap: 6.5', 'lapp: 6.5'],
    ['cut: shy', 'cut: side'],
    ['gap: 1.1', 'gap: 5o mm'],
    ['name: Heron ford\n', ''],
    ['name: Heron ford', 'name: ""'],
    ['  slope:', '  slop:'],
    ['- cover', '- covr'],
    ['- fit: { height: 61.5 }', '- fit'],
    ['- fit: { height: 61.5 }', '- fit:'],
    ['split: { hollow: { lap: 6.5 } }', 'split: { hollow: {}, solid: {} }'],
    ['split: { hollow: { lap: 6.5 } }', 'split: { best: [solid] }'],
    ['split: { hollow: { lap: 6.5 } }', 'split: { best: solid }'],
    ['slice: { layers: { cut: shy, thickness: 5 } }', 'slice: best'],
    ['[240, 120]', '[240]'],
    ['count: 9', 'count: 9.5'],
    ['thickness: 3, ', ''],
    ['unit: cm', 'unit: yd'],
    ['[41, 77]', '[41]'],
  ])('the schema and the reader refuse alike: %s → %s', (from, to) => {
    const text = spoilt(from, to);
    expect(() => read(text)).toThrow();
    expect(accepts(parse(text))).toBe(false);
  });

  test('gives the options of one plugin for lists and help', () => {
    const { properties } = optionSchemas(testPlugins)['slice/layers'] as { properties: Record<string, object> };
    expect(properties.cut).toMatchObject({ default: 'proud', enum: ['proud', 'shy', 'middle', 'sloped'] });
  });
});
