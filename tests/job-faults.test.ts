import { describe, expect, test } from 'vitest';
import { faultText } from '../src/findings.ts';
import { faultsOf, GOOD, LEAST, spoilt, told } from './help/job-texts.ts';

describe('a bad job', () => {
  // ▸ stands where the fault is to be told.
  test.each<[what: string, from: string, to: string, wanted: string]>([
    ['a misspelt key', 'seed: 11', '▸sed: 11', 'sed "sed" is not a key of a job. Did you mean seed?'],
    [
      'a misspelt key far down',
      'price: 14.5',
      '▸prize: 14.5',
      'stock.boards.0.prize "prize" is not a key of stock.boards.0. Did you mean price?',
    ],
    [
      'a misspelt option',
      'lap: 6.5',
      '▸lapp: 6.5',
      'split.hollow.lapp "lapp" is not a key of split.hollow. Did you mean lap?',
    ],
    [
      'an option that is nothing like one',
      'lap: 6.5',
      '▸colour: red',
      'split.hollow.colour "colour" is not a key of split.hollow. Its keys are lap, pins.',
    ],
    [
      'a word that is no choice',
      'cut: shy',
      'cut: ▸side',
      'slice.layers.cut "side" is not one of proud, shy, middle, sloped.',
    ],
    [
      'a choice in capitals',
      'cut: shy',
      'cut: ▸SHY',
      'slice.layers.cut "SHY" is not one of proud, shy, middle, sloped. Did you mean shy?',
    ],
    [
      'a length with a letter in it',
      'lap: 6.5',
      'lap: ▸5o mm',
      'split.hollow.lap "5o mm" is not a length; write 50, 50 mm, 1.2 m, 2 in or 8 ft.',
    ],
    ['a length with a foreign comma', 'gap: 1.1', 'gap: ▸"1,1"', 'gap "1,1" is not a length'],
    ['a length that is a truth', 'gap: 1.1', 'gap: ▸true', 'gap true is not a length'],
    ['a length that is no number', 'gap: 1.1', 'gap: ▸.inf', 'gap Infinity is not a length'],
    ['a length without end', 'gap: 1.1', 'gap: ▸1e300', 'gap 1e+300 is more than 100 km. Write less.'],
    [
      'a length past its limit',
      'rise: 1.2 m',
      'rise: ▸9.1 m',
      'source.slope.rise "9.1 m" is more than 900 cm. Write 900 cm or less.',
    ],
    ['an empty value', 'gap: 1.1', '▸gap:', 'gap "gap" has no value.'],
    [
      'a size with one side',
      '[240, 120]',
      '▸[240]',
      'stock.boards.0.size a list is not a size; write [width, depth], both above 0.',
    ],
    ['a size that is nothing', '[240, 120]', '[240, ▸0]', 'stock.boards.0.size.1 0 is not above 0.'],
    [
      'a thickness below nothing',
      'thickness: 3,',
      'thickness: ▸-3,',
      'stock.boards.1.thickness -3 is less than 0.01 cm.',
    ],
    ['a price below nothing', 'price: 14.5', 'price: ▸-1', 'stock.boards.0.price -1 is less than 0. Write at least 0.'],
    ['half a board', 'count: 9', 'count: ▸9.5', 'stock.boards.0.count 9.5 is not a whole number.'],
    ['a truth in another tongue', 'faced: false', 'faced: ▸no', 'stock.boards.1.faced "no" is not true or false.'],
    [
      'a board without thickness',
      '{ name: EPS 100, size: [125, 60], thickness: 3, ',
      '▸{ name: EPS 100, size: [125, 60], ',
      'stock.boards.1.thickness "thickness" is missing. Add it',
    ],
    ['a job without name', 'name: Heron ford\n', '▸', 'name "name" is missing.'],
    ['a name that is a number', 'name: Heron ford', 'name: ▸2031', 'name 2031 is not text. Put it in quotes: "2031".'],
    ['a name of blanks', 'name: Heron ford', 'name: ▸"  "', 'name The text is empty.'],
    [
      'a name of 301 emoji',
      'name: Heron ford',
      `name: ▸${'🏔'.repeat(301)}`,
      'name The text has 301 characters. Write at most 300.',
    ],
    ['an unknown unit', 'unit: cm', 'unit: ▸yd', 'unit "yd" is not one of mm, cm, m, in, ft.'],
    [
      'a job without source',
      'name: Heron ford\nunit: cm\nsource:',
      '▸name: Heron ford\nunit: cm\ncrew2:',
      'source "source" is missing.',
    ],
    [
      'an unknown plugin',
      '  slope:',
      '  ▸slop:',
      'source.slop There is no source plugin "slop"; there are slope, survey. Did you mean slope?',
    ],
    [
      'an unknown bare plugin',
      '- cover',
      '- ▸covr',
      'shape.0 There is no shape plugin "covr"; there are cover, fit. Did you mean cover?',
    ],
    ['an option that is missing', '- fit: { height: 61.5 }', '- ▸fit', 'shape.1.fit.height "height" is missing.'],
    [
      'options not indented',
      'split: { hollow: { lap: 6.5 } }',
      'split:\n  ▸hollow:\n  lap: 6.5',
      'split A split step names one plugin; here stand "hollow", "lap". Indent',
    ],
    ['a step without value', 'slice: { layers: { cut: shy, thickness: 5 } }', '▸slice:', 'slice "slice" has no value.'],
    [
      'a step that is a list',
      'split: { hollow: { lap: 6.5 } }',
      'split: ▸[hollow]',
      'split a list is not a split step.',
    ],
    [
      'a step that names nothing',
      'split: { hollow: { lap: 6.5 } }',
      'split: ▸{}',
      'split This split step names no plugin.',
    ],
    [
      'best of one way',
      'split: { hollow: { lap: 6.5 } }',
      'split: { best: ▸[solid] }',
      'split.best best chooses from a list of two ways or more. Write best alone, or best: [solid,',
    ],
    [
      'best of one way twice',
      'split: { hollow: { lap: 6.5 } }',
      'split: { best: [solid, hollow: {}, ▸solid] }',
      'split.best.2 solid stands here twice. Keep one.',
    ],
    [
      'best of an unknown way',
      'split: { hollow: { lap: 6.5 } }',
      'split: { best: [solid, ▸holow] }',
      'split.best.1 There is no split plugin "holow"',
    ],
    [
      'best where nothing may choose',
      'slice: { layers: { cut: shy, thickness: 5 } }',
      'slice: ▸best',
      'slice There is no slice plugin "best"',
    ],
    ['options that are a number', '{ lap: 6.5 }', '▸7', 'split.hollow 7 is not a group of keys.'],
    [
      'a misspelt feature',
      'mound:',
      '▸mond:',
      'source.slope.features.0.mond "mond" is not a key of source.slope.features.0. Did you mean mound?',
    ],
    [
      'a bad length in one of several forms',
      'height: 2 in',
      'height: ▸2 inch',
      'source.slope.features.0.mound.height "2 inch" is not a length',
    ],
    [
      'a value of no known form',
      '- mound: { at: [120, 35 mm], height: 2 in }',
      '- ▸7',
      'source.slope.features.0 7 has none of the forms that are understood here.',
    ],
    [
      'a cover that is a word',
      'cover: { material: dry sand, depth: 2 }',
      'cover: ▸dry sand',
      'cover "dry sand" is not a group of keys.',
    ],
    [
      'a zone of two corners',
      'outline: [[0, 0], [90, 3], [41, 77]]',
      'outline: ▸[[0, 0], [90, 3]]',
      'zones.0.outline a list has 2 entries. Write at least 3.',
    ],
    [
      'a zone of no known kind',
      'kind: solid, name: path',
      'kind: ▸lawn, name: path',
      'zones.0.kind "lawn" is not one of people, solid, seen, lean.',
    ],
    [
      'a zone that crosses itself',
      'outline: [[0, 0], [90, 3], [41, 77]]',
      'outline: ▸[[0, 0], [90, 3], [41, 77], [60, -4]]',
      'zones.0.outline The outline of this zone crosses or touches itself near',
    ],
    [
      'a zone without area',
      'outline: [[0, 0], [90, 3], [41, 77]]',
      'outline: ▸[[0, 0], [90, 3], [90, 3]]',
      'zones.0.outline This zone encloses no area.',
    ],
    [
      'a level of what is no deck',
      'kind: solid, name: path',
      'kind: solid, level: ▸40, name: path',
      'zones.0.level Only a zone of kind people has a level. Take it out.',
    ],
    [
      'a deck below the floor',
      'kind: solid, name: path',
      'kind: people, level: ▸-40, name: path',
      'zones.0.level -40 is less than 0.',
    ],
    [
      'shape that is no list',
      'shape:\n  - cover\n  - fit: { height: 61.5 }',
      'shape: ▸cover',
      'shape "cover" is not a list.',
    ],
    ['a gap under the kerf', 'gap: 1.1', 'gap: ▸0.2 mm', 'gap The gap, 0.02 cm, is less than the kerf, 0.03 cm'],
    [
      'a board that vanishes under its trim',
      'trim: 0.5',
      'trim: ▸60',
      'stock.boards.0.trim A trim of 60 cm on each edge leaves nothing of a board of 240 cm × 120 cm.',
    ],
    [
      'two boards of one name',
      'name: EPS 100',
      'name: ▸"EPS 70 · 5,0 cm"',
      'stock.boards.1.name Board 2 has the name of board 1.',
    ],
    ['a crew of nobody', 'crew: { people: 3 }', 'crew: { people: ▸0 }', 'crew.people 0 is less than 1.'],
    [
      'a key that is there twice',
      'seed: 11',
      'seed: 11\n▸seed: 12',
      ' This key stands here twice. Keep one of the two.',
    ],
    [
      'a bracket that is not closed',
      'size: [125, 60], thickness: 3, density: 20, faced: false }\n  offcuts',
      'size: [125, 60, thickness: 3, density: 20, faced: false }\n  ▸offcuts',
      ' The indent does not fit the lines above, or a bracket is not closed.',
    ],
    [
      'a quote that is not closed',
      'crew: { people: 3 }\n',
      'crew: "three▸',
      ' A bracket, quote, comma, colon or space is missing.',
    ],
    ['a tab', '  - cover', '▸\t- cover', ' A tab is used to indent.'],
    [
      'a tag',
      'material: dry sand',
      'material: ▸!!binary aGk=',
      ' A tag (a word that starts with !) has no meaning here.',
    ],
    ['an alias without anchor', 'seed: 11', 'seed: ▸*eleven', ' No anchor &eleven stands before this.'],
    ['an alias inside itself', 'crew: { people: 3 }', 'crew: &c [ ▸*c ]', ' An alias stands inside itself.'],
    ['a key that would change every object', 'people: 3', '▸__proto__: { admin: true }', ' "__proto__" is not a key.'],
    ['a second job', 'crew: { people: 3 }', '▸---\nname: other', ' A second document starts here.'],
  ])('%s', (_, from, to, wanted) => {
    const marked = spoilt(from, to);
    const before = marked.slice(0, marked.indexOf('▸')).split('\n');
    const place = `${before.length}:${before.at(-1)!.length + 1}`;
    const faults = faultsOf(marked.replace('▸', '')).map(told);
    expect(faults.join('\n')).toContain(`${place} ${wanted}`);
  });

  test('says each fault once, and no more than there are', () => {
    for (const [from, to] of [
      ['seed: 11', 'sed: 11'],
      ['gap: 1.1', 'gap: x'],
      ['seed: 11', 'seed: 11\nseed: 12'],
    ]) {
      expect(faultsOf(spoilt(from, to)).map(told)).toHaveLength(1);
    }
  });

  test('tells all faults at once, with file and path, of the core and of every plugin', () => {
    const text = GOOD.replace('seed: 11', 'sed: 11')
      .replace('cut: shy', 'cut: side')
      .replace('lap: 6.5', 'lapp: 1, pins: 3')
      .replace('gap: 1.1', 'gap: 0.1 mm')
      .replace('trim: 0.5', 'trim: 60')
      .replace('EPS 100, size: [125, 60]', '"EPS 70 · 5,0 cm", size: [125]');
    const faults = faultsOf(text);
    expect(faults.map(({ where }) => where.path).sort()).toEqual([
      'gap',
      'sed',
      'slice.layers.cut',
      'split.hollow.lapp',
      'split.hollow.pins',
      'stock.boards.0.trim',
      'stock.boards.1.name',
      'stock.boards.1.size',
    ]);
    expect(
      faults.every(
        ({ where, message, code }) => where.file === 'job.yaml' && message !== '' && code.startsWith('job/'),
      ),
    ).toBe(true);
    expect(faultText(faults.find(({ where }) => where.path === 'slice.layers.cut')!)).toBe(
      'job.yaml:20:25, slice.layers.cut: "side" is not one of proud, shy, middle, sloped. Write one of these.',
    );
  });

  test("a plugin's own words come through", () => {
    const faults = faultsOf(LEAST.replace('slope: { size: [4300, 2700] }', 'survey: { file: a.png, low: 3, high: 3 }'));
    expect(faults.map(told)).toEqual(['2:48 source.survey.high low and high are the same. Say two heights.']);
  });

  test.each([
    ['nothing', '', 'The job is empty.'],
    ['a list', '- name: x', 'This is not a job'],
    ['a word', 'hello', 'This is not a job'],
    ['no stock', LEAST.replace(/\[ \{ name: EPS.*$/m, '[] }'), 'There is no stock.'],
  ])('is refused when it is %s', (_, text, wanted) => {
    expect(faultsOf(text).map(told).join('\n')).toContain(wanted);
  });

  test.each([
    [
      'aliases that stand for a billion values',
      `${LEAST}crew:\n  a: &a [x,x,x,x,x,x,x,x,x,x]\n${'bcdefghi'
        .split('')
        .map((c, i) => `  ${c}: &${c} [${Array(10).fill(`*${'abcdefghi'[i]}`).join(',')}]`)
        .join('\n')}\n`,
      'job/too-large',
      'Aliases repeat',
    ],
    ['lists nested 100,000 deep', `${LEAST}crew: ${'['.repeat(100_000)}`, 'job/too-deep', 'nested more than 40 deep'],
    [
      'hyphens nested 100,000 deep',
      `${LEAST}crew:\n ${'- '.repeat(100_000)}`,
      'job/too-deep',
      'nested more than 40 deep',
    ],
    ['two million characters', `${LEAST}# ${'x'.repeat(2_000_000)}`, 'job/too-large', 'has 2000'],
  ])('is refused for %s', (_, text, code, wanted) => {
    const [fault, ...others] = faultsOf(text);
    expect([fault.code, others.length]).toEqual([code, 0]);
    expect(fault.message).toContain(wanted);
  });

  test('forty levels are taken, forty-one are not', () => {
    const nested = (levels: number) => `${LEAST}crew: ${'['.repeat(levels)}${']'.repeat(levels)}\n`;
    expect(faultsOf(nested(39)).map(({ code }) => code)).toEqual(['job/bad-value']);
    expect(faultsOf(nested(40)).map(({ code }) => code)).toEqual(['job/too-deep']);
  });

  test('a file of nonsense gives a list that can be read', () => {
    const text = `${LEAST}${Array.from({ length: 3000 }, (_, i) => `k${i}: ${i}`).join('\n')}\n`;
    expect(faultsOf(text).length).toBeLessThanOrEqual(200);
  });
});
