import { describe, expect, test } from 'vitest';
import { faultsOf, GOOD, LEAST, read, spoilt, told } from './help/job-texts.ts';

describe('values from outside the file', () => {
  const set = (...pairs: readonly string[]) =>
    pairs.map((pair) => ({ path: pair.slice(0, pair.indexOf('=')), value: pair.slice(pair.indexOf('=') + 1) }));

  test('win over the file, and make what is missing', () => {
    const job = read(
      GOOD,
      set(
        'slice.layers.cut=middle',
        'gap=2 in',
        'shape.1.fit.height=700 mm',
        'carry.mass=31',
        'stock.boards.1.count=4',
        'unit=cm',
        'split.hollow.pins=false',
      ),
    );
    expect(job.slice.options).toEqual({ cut: 'middle', thickness: 50 });
    expect([job.facts.gapMm, job.shape[1].options.height, job.facts.carry.massKg]).toEqual([50.8, 700, 31]);
    expect(job.facts.stock.boards[1].count).toBe(4);
    expect(job.split[0].options).toEqual({ lap: 65, pins: false });
    expect(read(LEAST, set('cover.material=soil', 'cover.depth=35')).facts.cover?.depthMm).toBe(35);
  });

  test('replace a step by another plugin, as a word or by an option', () => {
    expect(read(GOOD, set('split=solid')).split[0]).toMatchObject({ path: 'split.solid', options: { most: 7 } });
    expect(read(GOOD, set('split.solid.most=3')).split[0]).toMatchObject({ path: 'split.solid', options: { most: 3 } });
    expect(read(LEAST, set('split.solid.most=3')).split[0].options).toEqual({ most: 3 });
  });

  test('open a bare word, add to a list, and take whole lists', () => {
    const { documents } = read(
      GOOD,
      set('documents.0=pages-pdf', 'documents.0.pages-pdf.paper=A3', 'documents.1=cut-list', 'documents.2=board-svg'),
    );
    expect(documents.map(({ plugin, options }) => [plugin.name, options])).toEqual([
      ['pages-pdf', { paper: 'A3' }],
      ['cut-list', {}],
      ['board-svg', {}],
    ]);
    expect(
      read(GOOD, set('documents=[cut-list, pages-pdf: {paper: A3}]')).documents.map(({ plugin }) => plugin.name),
    ).toEqual(['cut-list', 'pages-pdf']);
    expect(read(GOOD, set('shape=[]')).shape).toEqual([]);
  });

  test.each([
    ['slice.layers.cut=side', '--slice.layers.cut', '"side" is not one of proud, shy, middle, sloped.'],
    ['slice.layers.kut=shy', '--slice.layers.kut', '"kut" is not a key of slice.layers.'],
    ['slice.layer.cut=shy', '--slice.layer.cut', 'There is no slice plugin "layer"; there are layers.'],
    ['split=solidd', '--split', 'There is no split plugin "solidd"; there are hollow, solid.'],
    ['gapp=3', '--gapp', '"gapp" is not a key of a job.'],
    ['gap=0.1 mm', '--gap', 'is less than the kerf'],
    ['gap.wide=3', '--gap.wide', 'gap is 1.1, not a group of keys.'],
    ['shape.7.fit.height=3', '--shape.7.fit.height', 'shape has 2 entries, counted from 0.'],
    ['shape.fit.height=3', '--shape.fit.height', 'shape is a list; "fit" is not the number of an entry.'],
    ['shape.1.fit.heigth=3', '--shape.1.fit.heigth', '"heigth" is not a key of shape.1.fit.'],
    ['gap=[1', '--gap', 'A bracket, quote, comma, colon or space is missing.'],
    ['gap=', '--gap', '"gap" has no value.'],
    ['stock.__proto__.x=1', '--stock.__proto__.x', 'is not a path.'],
    ['stock..x=1', '--stock..x', 'is not a path.'],
    ['constructor.name=x', '--constructor.name', '"constructor" is not a key of a job.'],
    ['documents=[pages-pdf: {paper: A9}]', '--documents', '"A9" is not one of A4, A3.'],
  ])('%s names the flag, not a line', (flag, path, message) => {
    const faults = faultsOf(GOOD, set(flag));
    const fault = faults.find(({ where }) => where.path === path);
    expect(faults.map(({ message }) => message).join('\n')).toContain(message);
    expect(fault?.message).toContain(message);
    expect(fault?.where).toEqual({ path });
  });

  test('a flag whose group the file lacks is named for what is still missing there', () => {
    expect(faultsOf(LEAST, set('cover.depth=35')).map(told)).toEqual([
      'undefined:undefined --cover.depth "material" is missing. Add it: material: …',
    ]);
  });

  test('the file keeps its lines for its own faults', () => {
    const faults = faultsOf(spoilt('lap: 6.5', 'lapp: 6.5'), set('split.hollow.pins=maybe'));
    expect(faults.map(({ where }) => where)).toEqual([
      { path: '--split.hollow.pins' },
      { file: 'job.yaml', line: 21, column: 20, path: 'split.hollow.lapp' },
    ]);
  });
});
