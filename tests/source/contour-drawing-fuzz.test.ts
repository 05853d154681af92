/** The reader of drawings on damaged and made-up files: read or refused, nothing else, and nothing hangs. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { makeKit } from '../../src/job/kit.ts';
import { contourDrawing } from '../../src/source/contour-drawing.ts';
import { walkNow } from '../../src/walk.ts';
import { plan, utf8 } from '../help/drawn-plans.ts';
import { damaged, FUZZ, readsOrRefuses, textOf } from '../help/fuzz.ts';

const options = contourDrawing
  .options(makeKit('mm'))
  .parse({ file: 'f', legend: { '#c02020': 'ridge', red: 40, brow: 'cliff' }, spacing: 30 });
const context = { facts: {}, others: {}, tell: () => {}, random: () => 0.5 };
const read = (bytes: Uint8Array) => walkNow(contourDrawing.run(new Map([['f', bytes]]), options, context));

const SAMPLE = new Uint8Array(readFileSync(new URL('../../samples/dune-garden/plan.svg', import.meta.url)));
/** Everything the reader knows, once. */
const ALL = utf8(
  plan(
    `<style>.a,#k{stroke:#c02020}@media x{b{c:d}}</style><g id="h20-2" transform="translate(3 -4) rotate(12 5 6) scale(.9,1.1) skewX(3)">
    <path class="a" d="M0 0c10 20 30-40 50 60s20 10 30 5q5 5 9 1t3 4a30 20 10 0 1 40 9h-7v8H3V9zl5 5"/><line x2="90" y2="70"/>
    <polyline points="1,2 30,4 5-60"/><polygon points="100 100 190 110 150 190"/></g><g data-kind="spots"><circle id="h9" cx="30" cy="40" r="2"/></g>
    <ellipse data-height="3 cm" cx="250" cy="150" rx="60" ry="40"/><rect id="footprint" x="5" y="5" width="380" height="280" rx="20" ry="9"/>
    <svg x="9" y="9" width="90" height="90" viewBox="0 0 30 30" preserveAspectRatio="xMinYMax slice"><path stroke="red" d="M1 1L20 20"/></svg>
    <text x="100" y="90" font-size="9"><tspan>7</tspan>5</text><path id="brow" d="M300 20L300 250"/><use href="#k"/>`,
  ),
);

test.each([
  ['the dune garden', SAMPLE],
  ['all elements', ALL],
])('damaged: %s', async (_, whole) => {
  expect(() => read(whole)).not.toThrow();
  const { read: sound, refused } = await readsOrRefuses(damaged(whole), read, FUZZ / 2);
  expect(refused).toBeGreaterThan(FUZZ / 40);
  expect(sound).toBeGreaterThan(0);
});

const word = fc.oneof(
  fc.constantFrom(
    '0',
    '10',
    '-7.5',
    '1e9',
    '1e308',
    '-1e-300',
    'NaN',
    'h20',
    'h',
    '#h20',
    'none',
    'red',
    '50%',
    '9mm',
    '',
    'rotate(9)',
    'matrix(1 0 0 0 0 0)',
    'M0 0',
    'M0 0C1 1 2 2',
    'M9 9A0 0 0 1 1 4 4L',
    'ridge',
    'footprint',
    '0 0 0 0',
  ),
  fc.double().map(String),
  fc.integer({ min: -400, max: 400 }).map(String),
);
const attribute = fc.tuple(
  fc.constantFrom(
    'id',
    'd',
    'points',
    'x',
    'y',
    'x1',
    'y2',
    'cx',
    'cy',
    'r',
    'rx',
    'ry',
    'width',
    'height',
    'transform',
    'style',
    'class',
    'stroke',
    'viewBox',
    'data-height',
    'data-kind',
    'display',
    'font-size',
  ),
  fc.oneof(
    word,
    fc.array(word, { maxLength: 9 }).map((words) => words.join(' ')),
    word.map((text) => `stroke:${text};display:${text}`),
  ),
);
const attributes = fc
  .uniqueArray(attribute, { selector: ([name]) => name, maxLength: 7 })
  .map((all) => all.map(([name, value]) => ` ${name}="${value}"`).join(''));
const { element } = fc.letrec<{ element: string }>((tie) => ({
  element: fc
    .tuple(
      fc.constantFrom(
        'g',
        'svg',
        'path',
        'line',
        'polyline',
        'polygon',
        'rect',
        'circle',
        'ellipse',
        'text',
        'tspan',
        'style',
        'use',
        'defs',
        'image',
        'a',
        'title',
      ),
      attributes,
      fc.oneof(
        { depthSize: 'small' },
        word,
        fc.array(tie('element'), { maxLength: 4 }).map((inside) => inside.join('')),
      ),
    )
    .map(([name, said, inside]) => `<${name}${said}>${inside}</${name}>`),
}));

test('made up of its own elements', async () => {
  const drawing = fc
    .array(element, { maxLength: 9 })
    .map((inside) =>
      utf8(plan(`${inside.join('\n')}<path id="h20" d="M0 90L400 60"/><path id="h60" d="M9 190L400 160"/>`)),
    );
  const { read: sound, refused } = await readsOrRefuses(drawing, read);
  expect(sound + refused).toBe(FUZZ);
  expect(sound).toBeGreaterThan(FUZZ / 20);
  expect(refused).toBeGreaterThan(FUZZ / 20);
});

test('made up of its own words', async () => {
  const words = [
    '<svg',
    '<svg xmlns="http://www.w3.org/2000/svg" width="90mm" height="70mm">',
    '</svg>',
    '<g id="h5">',
    '</g>',
    '<path d="M',
    '"/>',
    '>',
    '<',
    '&#0;',
    '&lt;',
    '<![CDATA[',
    ']]>',
    '<!--',
    '-->',
    '<!DOCTYPE svg [',
    '<?xml version="1.0"?>',
    'xmlns:a="b"',
    '<a:b',
  ];
  const { refused } = await readsOrRefuses(textOf(words), read);
  expect(refused).toBeGreaterThan(FUZZ / 2);
});
