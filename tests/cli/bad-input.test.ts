/**
 * What is handed in by mistake, and what on purpose: every case ends in a sentence that says what, where and the way out, never
 * in a stack or a half-written result. Most run the core in place; the last part runs the real program.
 */
import { chmodSync, existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { SaxesParser } from 'saxes';
import { describe, expect, test } from 'vitest';
import { builtin, CannotMake, type Fault, folderName, type JobFiles, readJob, run } from '../../src/index.ts';
import { bytes, FILES } from '../help/bad-files.ts';
import { readPdf } from '../help/read-pdf.ts';
import { readSvg } from '../help/read-svg.ts';
import { longestTaken } from '../help/taken.ts';
import { emptyFolder, program } from './program.ts';

const MOUND = 'mound: { at: [300, 210], radius: 260, height: 90 }';
const BOARD = '{ name: EPS 70, size: [900, 600], thickness: 25 }';

const GOOD = `name: Small bank
source: { sketch: { size: [700, 500], spacing: 25, level: 5, features: [ { ${MOUND} } ] } }
stock: { boards: [ ${BOARD} ] }
nest: { boards: { effort: 500 } }
documents: []
`;

/** The good job with one text replaced, which must be there. */
function but(from: string, to: string): string {
  if (!GOOD.includes(from)) throw new Error(`the good job does not hold ${from}`);
  return GOOD.replace(from, () => to);
}
const source = (text: string) => GOOD.replace(/source:.*\n/, () => `source: ${text}\n`);
const image = (file: string, size = '[410, 300]') =>
  source(`{ height-image: { file: ${file}, low: 0, high: 100, size: ${size} } }`);
const grid = (file: string) => source(`{ height-grid: { file: ${file} } }`);
const mesh = (file: string) => source(`{ mesh: { file: ${file} } }`);
const and = (line: string) => `${GOOD}${line}\n`;
const boards = (...list: string[]) => but(`[ ${BOARD} ]`, `[ ${list.join(', ')} ]`);
const board = (from: string, to: string) => boards(BOARD.replace(from, () => to));
const level = (mm: number) => source(`{ sketch: { size: [700, 500], level: ${mm} } }`);
const kept = (...files: string[]) => but(BOARD, `${BOARD} ], offcuts: [ ${files.join(', ')}`);
const keptAlone = (file: string) => but(`boards: [ ${BOARD} ]`, `offcuts: [ ${file} ]`);

const make = (text: string, files: Readonly<Record<string, Uint8Array>> = FILES) =>
  run(readJob(text, 'job.yaml', builtin), new Map(Object.entries(files)) satisfies JobFiles);

/** What the work is refused with. Fails when it is not, or in another way. */
async function refusal(text: string): Promise<CannotMake> {
  try {
    await make(text);
  } catch (error) {
    if (error instanceof CannotMake) return error;
    throw error;
  }
  throw new Error('this was not refused');
}

/** Code, place, message and way out of a fault. */
const told = ({ code, where: { file, line, path, layer, piece }, message, fix }: Fault) =>
  [code, file, line, path, layer, piece, message, fix].filter((part) => part !== undefined).join(' ');

/** That a text holds some pieces in their order: `one … two … three`. */
function expectInOrder(text: string, wanted: string): void {
  let at = 0;
  for (const piece of wanted.split(' … ')) {
    const found = text.indexOf(piece, at);
    expect(found, `"${piece}" in: ${text}`).toBeGreaterThanOrEqual(0);
    at = found + piece.length;
  }
}

/** Every element with its attributes' names, and every text, by a strict XML parser. */
function readXml(text: string) {
  const parser = new SaxesParser();
  const elements: string[] = [];
  const texts: string[] = [];
  parser.on('error', (error) => {
    throw error;
  });
  parser.on('opentag', ({ name, attributes }) => elements.push(`${name} ${Object.keys(attributes).join(' ')}`));
  parser.on('text', (found) => texts.push(found.replaceAll(/\s/g, ' ')));
  parser.write(text).close();
  return { elements: [...new Set(elements)].sort(), texts };
}

const repeated = (text: string, times: number) => new Array(times).fill(text).join(', ');
const BOMB = `a: &a [${repeated('x', 9)}]\nb: &b [${repeated('*a', 9)}]\nc: &c [${repeated('*b', 9)}]\nd: &d [${repeated('*c', 9)}]\ne: [${repeated('*d', 9)}]\n`;

describe('refused:', () => {
  test.each<[what: string, text: string, wanted: string]>([
    // Content that is not what the name says, or not all there.
    ['a JPEG named .png', image('jpeg.png'), 'source/not-png … jpeg.png … JPEG … Save'],
    ['text named .png', image('text.png'), 'source/not-png … text.png … plain text'],
    ['an STL named .obj', mesh('stl.obj'), 'source/other-kind … stl.obj … binary STL … .stl'],
    ['a PNG named .stl', mesh('png.stl'), 'source/other-kind … png.stl … PNG … Save'],
    ['a PNG named .asc', grid('png.asc'), 'source/not-text … png.asc … PNG … Export'],
    ['a web page named .asc', grid('page.asc'), 'source/not-text … page.asc … web page'],
    ['an empty image', image('empty.png'), 'source/empty-file … empty.png … empty'],
    ['an empty mesh file', mesh('empty.stl'), 'source/other-kind … empty.stl … empty'],
    ['a PNG cut off', image('cut.png'), 'source/broken-image … cut.png … cut off … again'],
    ['a PNG without its end', image('endless.png'), 'source/broken-image … endless.png … cut off'],
    ['an STL cut off', mesh('cut.stl'), 'source/damaged-file … cut.stl … 12 triangles … room for 4 … again'],
    ['a text STL cut off', mesh('cut-text.stl'), 'source/damaged-file … cut-text.stl … damaged'],

    // Ground that is none.
    ['an image of 1 × 1', image('one.png'), 'source/too-few-posts … one.png … 1 × 1 … 2 × 2'],
    ['a black image', image('black.png'), 'slice/nothing … highest ground is 0 mm … taller'],
    ['an image of no width', image('slope.png', '[0.0001, 300]'), 'slice/nothing … source … 0 mm × 300 mm … unit'],
    ['a ragged grid', grid('ragged.asc'), 'source/ragged-row … ragged.asc 5 … Row 2 holds 2 numbers; 3'],
    ['a word in a grid', grid('words.asc'), 'source/not-a-number … words.asc 5 … "five" … −9999'],
    ['NaN in a grid', grid('nan.asc'), 'source/not-a-number … nan.asc 4 … "nan"'],
    ['infinity in a grid', grid('inf.asc'), 'source/not-a-number … inf.asc 4 … "1e999"'],
    ['a grid without data', grid('void.asc'), 'source/no-heights … void.asc … no height … Fetch'],
    ['a grid of holes', grid('holes.asc'), 'source/no-ground … holes.asc … noData: fill'],
    ['a grid on one spot', grid('still.asc'), 'source/spacing … still.asc … above 0 … cellsize'],
    ['a grid a hair wide', grid('narrow.asc'), 'slice/nothing … source … in plan … unit … spacing'],
    ['NaN in a mesh', mesh('nan.stl'), 'source/not-a-number … nan.stl … Triangle 1'],
    ['infinity in a mesh', mesh('inf.obj'), 'source/damaged-file … inf.obj 1 … not three numbers'],
    ['a corner that is not there', mesh('astray.obj'), 'source/damaged-file … astray.obj 4 … not there'],
    ['a mesh of nothing', mesh('none.obj'), 'source/no-surface … none.obj … no triangles'],
    [
      'an open mesh',
      mesh('open.stl'),
      'slice/open … 4 … gap of 153 mm at a height of 90 mm … to 10 mm … base and walls … close: 153 mm',
    ],
    ['a flat mesh', mesh('flat.stl'), 'source/flat … flat.stl … encloses nothing … base and walls'],
    ['a floating mesh', mesh('floating.stl'), 'slice/floating … 1 … Layer 1 is empty … base: { cut: lowest }'],
    ['a mesh under the floor', mesh('sunk.stl'), 'slice/below-zero … -35 mm … base'],

    // Numbers that nothing can be built of.
    ['a size of 0', but('[700, 500]', '[0, 500]'), 'job/bad-value … job.yaml 2 source.sketch.size.0 0 is not above 0'],
    ['a size below 0', but('[700, 500]', '[700, -500]'), 'job/bad-value … 2 source.sketch.size.1 -500 is not above 0'],
    ['a radius of NaN', but('radius: 260', 'radius: .nan'), 'job/bad-value … 2 … mound.radius NaN is not a length'],
    ['a height of infinity', but('height: 90', 'height: .inf'), 'job/bad-value … 2 … mound.height Infinity is not'],
    ['a height of 100 km', but('height: 90', 'height: 1e8'), 'slice/too-many … more than 2000 layers … unit'],
    ['a thickness of 0', board('thickness: 25', 'thickness: 0'), 'job/bad-value … 3 … thickness 0 is less than 0.1 mm'],
    ['a price of infinity', board('25 }', '25, price: .inf }'), 'job/bad-value … 3 … price Infinity is not a number'],
    ['a price of 1e300', board('25 }', '25, price: 1e300 }'), 'job/bad-value … 3 … price 1e+300 is more than'],
    ['a density of 1e300', board('25 }', '25, density: 1e300 }'), 'job/bad-value … 3 … density 1e+300 is more than'],
    ['a board of a kilometre', board('900', '1 km'), 'job/bad-value … 3 … "1 km" is not a length'],
    ['a board of 1000 m', board('900', '1000 m'), 'job/bad-value … 3 … "1000 m" is more than 20000 mm'],
    ['less than no board', board('25 }', '25, count: -1 }'), 'job/bad-value … 3 … count -1 is less than 0'],
    ['half a board', board('25 }', '25, count: 0.5 }'), 'job/bad-value … 3 … count 0.5 is not a whole number'],
    ['a gap below the kerf', and('gap: 1'), 'job/bad-value … 6 gap … less than the kerf, 2 mm … gap: 2 mm or more'],
    ['a scale of 1e-300', and('shape: [ fit: { scale: 1e-300 } ]'), 'job/bad-value … 6 shape.0.fit.scale … less than'],
    [
      'scales that multiply up',
      and(`shape: [ ${repeated('fit: { scale: 0.001 }', 3)} ]`),
      'shape/too-large … shape.fit … 1000 km … scale',
    ],
    ['a fit that says nothing', and('shape: [ fit ]'), 'job/bad-value … 6 shape.0.fit … Say scale'],
    ['a cover without depth', and('shape: [ cover ]'), 'shape/no-cover … cover … Say cover:'],
    ['a crop beside the ground', and('shape: [ crop: { rectangle: [[800, 0], [950, 90]] } ]'), 'shape/outside … crop'],

    // Boards that do not do.
    ['a board under its trim', board('25 }', '25, trim: 310 }'), 'job/bad-value … 3 … trim … leaves nothing … Check'],
    ['a board hardly over its trim', board('25 }', '25, trim: 296 }'), 'split/boards-too-small … trim … larger'],
    ['boards for dolls', board('[900, 600]', '[30, 15]'), 'split/boards-too-small … 1 … larger boards'],
    [
      'boards of several thicknesses',
      boards(BOARD, '{ name: T, size: [900, 600], thickness: 30 }'),
      'slice/which-board … 25 mm, 30 mm … thickness:',
    ],
    ['a thickness nobody offers', and('slice: { layers: { thickness: 40 } }'), 'slice/no-board … 40 mm … 25 mm … Say'],
    ['shy ground under a board', `${level(20)}slice: { layers: { cut: shy } }\n`, 'slice/nothing … 20 mm … cut proud'],
    ['ground at nothing', level(0), 'slice/nothing … 0 mm … taller'],
    ['ground below the floor', level(-20), 'slice/below-zero … -20 mm … base'],
    [
      'too few boards',
      board('[900, 600], thickness: 25', '[410, 300], thickness: 25, count: 1'),
      'nest/too-few-boards … 1 board … more are needed … count',
    ],
    ['no board at all', board('25 }', '25, count: 0 }'), 'nest/too-few-boards … No boards … 2 are needed … count'],
    ['a stock of nothing', but(`boards: [ ${BOARD} ]`, ''), 'job/bad-value … 3 stock … no stock … Name'],
    ['a hand too small', and('carry: { size: [15, 9] }'), 'split/carry-too-small … carry.size … 20 mm'],
    [
      'feet for millimetres',
      `${GOOD.replace(/source:.*\n/, 'source: { sketch: { size: [700 ft, 500 ft], level: 9 } }\n')}`,
      'split/too-many-pieces … 10000 … units',
    ],

    // Saved offcuts.
    ['offcuts that are not there', kept('gone.json'), 'stock/offcut-file … gone.json … not there … Check'],
    ['offcuts in words', kept('text.json'), 'stock/offcut-file … text.json … JSON'],
    ['another file of ours', kept('plan.json'), 'stock/offcut-file … plan.json … see offcuts … It holds'],
    ['offcuts of one name', kept('twice.json'), 'stock/offcut-file … twice.json … "K3" … Rename'],
    ['one file twice', kept('kept.json', 'kept.json'), 'stock/offcut-twice … stock.offcuts.1 … "K3" … named twice'],
    ['one offcut in two files', kept('kept.json', 'thin.json'), 'stock/offcut-twice … kept.json … thin.json … rename'],
    ['an offcut over itself', kept('crossing.json'), 'stock/offcut-file … "K3" … crosses itself … Measure'],
    ['an offcut of half points', kept('odd.json'), 'stock/offcut-file … see offcuts.0.rings.0'],
    ['a hole outside', kept('outside.json'), 'stock/offcut-file … hole lies outside … Measure'],
    ['an offcut of endless mass', kept('endless.json'), 'stock/offcut-file … see offcuts.0.densityKgM3'],
    [
      'offcuts of nothing alone',
      keptAlone('none.json'),
      'stock/empty … stock … none.json holds no offcut … Add a board',
    ],
    [
      'offcuts too thin',
      `${keptAlone('thin.json')}slice: { layers: { thickness: 25 } }\n`,
      'slice/no-board … 25 mm … 20 mm',
    ],
    ['offcuts too few', keptAlone('kept.json'), 'nest/offcuts-taken … Add a board of at least'],

    // Jobs that are none.
    ['an empty job', '', 'job/yaml job.yaml 1 … empty … name: …'],
    ['a job of remarks', '# later\n', 'job/yaml job.yaml 1 … empty'],
    ['a list', '- name: x\n', 'job/yaml … not a job'],
    ['two jobs in one', `${GOOD}---\n${GOOD}`, 'job/yaml … 6 … second document … one job'],
    ['a key twice', and('name: Other bank'), 'job/yaml … 6 … twice … Keep one'],
    ['an alias bomb', BOMB, 'job/too-large … 10000 … Write the values out'],
    ['brackets without end', and(`crew: ${'['.repeat(3000)}`), 'job/too-deep … 6 … 40'],
    ['an alias in itself', and('crew: &a [ *a ]'), 'job/too-deep … 6 … itself'],
    ['a tag', and('crew: !!js/function x'), 'job/yaml … 6 … tag … Take it out'],
    ['a key of the language', and('__proto__: { seed: 4 }'), 'job/unknown-key … 6 … __proto__'],
    ['a plugin of the language', and('split: constructor'), 'job/no-such-plugin … "constructor"'],
    [
      'a document twice',
      and('').replace('[]', '[ cut-list, report, cut-list ]'),
      'job/step … 5 documents.2 … twice … Keep one',
    ],
  ])('%s', async (_, text, wanted) => {
    const { faults } = await refusal(text);
    expectInOrder(told(faults[0]), wanted);
    for (const { message, fix, where } of faults) {
      expect(message).toMatch(/[.!?]$/);
      expect(`${message} ${fix}`).not.toMatch(/TypeError|undefined|\[object|\.ts\b/);
      expect(Object.keys(where).length, `a place of: ${message}`).toBeGreaterThan(0);
    }
  });

  test.each<[what: string, text: string, wanted: string]>([
    ['a PNG', image('huge.png'), 'source/too-many-posts … huge.png … 60000 × 40000 … 100000000'],
    ['a PNG of few bytes', image('hollow.png'), 'source/broken-image … hollow.png'],
    ['a grid', grid('huge.asc'), 'source/too-many-posts … huge.asc … 70000 × 90000 … 100000000'],
    ['a grid of few numbers', grid('short.asc'), 'source/too-few-numbers … short.asc … 7000 × 9000'],
    ['an STL', mesh('huge.stl'), 'source/damaged-file … huge.stl … 4000000000 triangles … room for 12'],
    ['a PLY', mesh('huge.ply'), 'source/too-many-triangles … huge.ply … 3000000000 … 100000000'],
    ['a sketch', but('spacing: 25', 'spacing: 0.02'), 'source/too-many-posts … sketch.spacing … 0.02 mm … 100 million'],
  ])('%s of a size that is only claimed, before memory is taken', async (_, text, wanted) => {
    let fault: Fault | undefined;
    const longest = await longestTaken(async () => {
      fault = (await refusal(text)).faults[0];
    });
    expectInOrder(told(fault as Fault), wanted);
    expect(longest).toBeLessThan(100_000);
  });

  test('a watch on memory that sees what is taken', async () => {
    expect(await longestTaken(async () => new Float64Array(123_456))).toBe(123_456);
  });

  test('with what was told before: ground in metres that gives no layer', async () => {
    const { faults, told: before } = await refusal(`${mesh('metres.stl')}slice: { layers: { cut: shy } }\n`);
    expect(faults[0].code).toBe('slice/nothing');
    expect(before.map(({ code, fix }) => `${code} ${fix}`).join()).toMatch(/source\/unlikely-size .*say unit: m/);
  });
});

describe('made, and told:', () => {
  test.each<[what: string, text: string, code: string | null]>([
    ['a mesh inside out', mesh('inside-out.stl'), 'source/inside-out'],
    ['a mesh whose bodies run into one another', mesh('crossing.stl'), 'source/bodies-cross'],
    ['an offcut too thin for the layers', kept('thin.json'), null],
    ['ground far lower than one board, cut proud', level(4), 'slice/stack-height'],
    ['a feature beside the ground', but('at: [300, 210]', 'at: [-900, 210]'), 'source/feature-outside'],
  ])('%s', async (_, text, code) => {
    const { plan } = await make(text);
    expect(plan.pieces.length).toBeGreaterThan(0);
    if (code !== null) expect(plan.findings.map((finding) => finding.code)).toContain(code);
    else expect(plan.boards.every(({ thicknessMm }) => thicknessMm === 25)).toBe(true);
  });
});

describe('names of any kind reach every document:', () => {
  const NAMES = [
    'Plain bank',
    '../../etc/passwd',
    `"><script>alert(1)</script><img src=x onerror='alert(2)'>`,
    `it's & "so" <b>`,
    '=HYPERLINK("http://x","y")',
    '+1+1',
    '@SUM(A1)',
    '🏔️ móor 丘',
    'تلة الرمل',
    'up\u202enwod',
    'x'.repeat(300),
    'tab\there\u0000\u001b[2J\u009b31m\nline',
    'half \ud83c of a pair \ufffe',
  ];

  // Whatever the names, the report has no other elements and attributes.
  const REPORT = new Set<string>();

  test.each(NAMES)('%j', async (name) => {
    const said = JSON.stringify(name);
    const text = `name: ${said}
source: { sketch: { size: [700, 500], spacing: 25, level: 20, features: [ { mound: { at: [-900, 210], radius: 260, height: 90 } } ] } }
stock: { boards: [ { name: ${said}, size: [600, 410], thickness: 25, count: 1 } ], offcuts: [ kept.json ] }
cover: { material: ${said}, depth: 4 }
front: { word: ${said} }
zones: [ { kind: solid, name: ${said}, outline: [[0, 0], [90, 3], [41, 77]] } ]
nest: { boards: { effort: 500 } }
`;
    const kept = { name: `K ${name}`.slice(0, 300), material: name, from: name };
    const rings = [[0, 0, 590, 0, 590, 430, 0, 420]];
    const file = { lynchet: 1, offcuts: [{ ...kept, thicknessMm: 25, densityKgM3: 15, rings }] };
    const { files, plan } = await make(text, { 'kept.json': bytes(JSON.stringify(file)) });
    expect(
      plan.boards.some(({ rings }) => rings !== undefined),
      'the offcut is used',
    ).toBe(true);
    const body = (ending: string) => files.filter(({ path }) => path.endsWith(ending)).map((each) => each.body);

    expect(folderName(name)).toMatch(/^[A-Za-z0-9-]{1,60}$/);
    for (const { path } of files) expect(path).toMatch(/^[a-z0-9-]+\.(svg|pdf|csv|json|html)$/);
    // What XML may hold of it stands there whole.
    const writable = name.replace(/[^\t\n\r -\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu, '');
    const svgs = body('.svg').map((svg) => readSvg(svg as string));
    expect(svgs.length).toBeGreaterThan(0);
    for (const svg of svgs) {
      expect([...svg.elements].filter((element) => !['svg', 'title', 'desc', 'g', 'path'].includes(element))).toEqual(
        [],
      );
      expect(svg.title + svg.description).toContain(writable.slice(0, 40));
    }
    const { elements, texts } = readXml(body('report.html')[0] as string);
    REPORT.add(elements.join());
    expect(REPORT.size).toBe(1);
    expect(texts).toContain(writable.replaceAll(/\s/g, ' '));
    const rows: string[][] = parse(body('.csv')[0] as string, { bom: true });
    expect(rows.flat().filter((cell) => /^[=+\-@\t\r]/.test(cell))).toEqual([]);
    if (/^[=+@]/.test(name)) expect(rows.flat()).toContain(`'${name}`);
    for (const json of body('.json')) expect(() => JSON.parse(json as string)).not.toThrow();
    expect(JSON.parse(body('plan.json')[0] as string).job.name).toBe(name);
    for (const pdf of body('.pdf')) expect((await readPdf(pdf as Uint8Array)).pages.length).toBeGreaterThan(0);
  });
});

describe('the real program', () => {
  /** Every file and folder with its content. */
  const seen = (folder: string) =>
    readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .sort()
      .map((path) => [path, statSync(join(folder, path)).isFile() ? readFileSync(join(folder, path), 'latin1') : null]);

  const TILT = "api: 1, stage: 'shape', name: 'tilt', summary: 'x', options: ({ z }) => z.strictObject({})";
  const tilt = (run: string) => ({
    'job.yaml': and('shape: [ tilt ]'),
    'tilt.mjs': `export default { ${TILT}, run: ${run} };`,
  });
  const PLUGIN = ['--plugin', 'tilt.mjs'];
  const draws = (files: string) => ({
    'job.yaml': GOOD.replace('documents: []', 'documents: [ tilt ]'),
    'tilt.mjs': `export default { ${TILT.replace('shape', 'document')}, run: () => ${files} };`,
  });

  test.each<[what: string, args: string[], files: Record<string, string | Uint8Array>, code: number, wanted: string]>([
    ['a job that is not there', ['gone.yaml'], {}, 3, 'gone.yaml … no such file … Check'],
    ['a job that is a folder', ['folder'], {}, 3, 'folder … is a folder … Check'],
    ['a binary job', ['job.yaml'], { 'job.yaml': FILES['slope.png'] }, 3, 'job.yaml … not text … UTF-8'],
    ['an empty job', ['job.yaml'], { 'job.yaml': '' }, 3, 'job.yaml:1:1: The job is empty'],
    ['a source that is not there', ['job.yaml'], { 'job.yaml': mesh('gone.stl') }, 3, 'gone.stl … no such file'],
    ['a source that is a folder', ['job.yaml'], { 'job.yaml': mesh('folder') }, 3, 'folder … is a folder'],
    ['no time at all', ['job.yaml', '--seconds', '0'], { 'job.yaml': GOOD }, 2, '--seconds … above 0 … "0"'],
    ['a flag without its value', ['job.yaml', '--out'], { 'job.yaml': GOOD }, 2, '--out wants a value'],
    ['results into a file', ['job.yaml', '--out', 'job.yaml'], { 'job.yaml': GOOD }, 3, 'job.yaml … a file stands'],
    [
      'results under a file',
      ['job.yaml', '--out', 'job.yaml/a/b'],
      { 'job.yaml': GOOD },
      3,
      'a/b … a file stands … --out',
    ],
    [
      'orders to the terminal',
      ['job.yaml'],
      { 'job.yaml': and('split: "\\e[2J\\e[31mx"') },
      3,
      'no split plugin "·[2J·[31mx"',
    ],
    ['a module that is not there', ['job.yaml', ...PLUGIN], { 'job.yaml': GOOD }, 3, 'tilt.mjs … no such file'],
    [
      'a module that throws null',
      ['job.yaml', ...PLUGIN],
      { ...tilt(''), 'tilt.mjs': 'throw null' },
      3,
      'tilt.mjs … cannot be loaded',
    ],
    [
      'a module without a plugin',
      ['job.yaml', ...PLUGIN],
      { ...tilt(''), 'tilt.mjs': 'export default 5' },
      3,
      'exports no plugin',
    ],
    [
      'a plugin that throws',
      ['job.yaml', ...PLUGIN],
      tilt("() => { throw new Error('boo') }"),
      3,
      'tilt.mjs:1: … "tilt" … failed: boo',
    ],
    ['a plugin that leaves', ['job.yaml', ...PLUGIN], tilt('() => process.exit(0)'), 3, 'ended before … tilt.mjs'],
    [
      'a document beside its folder',
      ['job.yaml', ...PLUGIN],
      draws("[{ path: '../x.txt', mediaType: '', body: '' }]"),
      3,
      'tilt … path … not a bare file name',
    ],
    [
      'a document in place of the plan',
      ['job.yaml', ...PLUGIN],
      draws("[{ path: 'Plan.json', mediaType: '', body: '' }]"),
      3,
      'plan.json … another document',
    ],
  ])('%s', async (_, args, files, code, wanted) => {
    const cwd = emptyFolder();
    mkdirSync(join(cwd, 'folder'));
    for (const [name, content] of Object.entries(files)) writeFileSync(join(cwd, name), content);
    const before = seen(cwd);
    const ended = await program(['make', ...args], cwd);
    expectInOrder(ended.err, wanted);
    expect(ended.err).not.toMatch(/^\s+at |TypeError|\p{Cc}(?<!\n)/mu);
    expect([ended.code, ended.out]).toEqual([code, '']);
    expect(seen(cwd)).toEqual(before);
  });

  test('a refused job leaves the earlier result as it was', async () => {
    const cwd = emptyFolder();
    writeFileSync(join(cwd, 'job.yaml'), GOOD);
    expect((await program(['make', 'job.yaml', '--quiet'], cwd)).code).toBe(0);
    const before = seen(cwd);
    expect((await program(['make', 'job.yaml', '--source.sketch.level', '-30'], cwd)).code).toBe(3);
    expect(seen(cwd)).toEqual(before);
  });

  test('a finding of level stop: made, and 1', async () => {
    const cwd = emptyFolder();
    const finding = "{ level: 'stop', code: 'shape/tilt', message: 'It \\u001b[2Jslides.', fix: 'Peg it.', where: {} }";
    const files = tilt(`(ground, _, { tell }) => { tell(${finding}); return ground }`);
    for (const [name, content] of Object.entries(files)) writeFileSync(join(cwd, name), content);
    const { code, out, err } = await program(['make', 'job.yaml', ...PLUGIN], cwd);
    expect([code, err]).toEqual([1, '']);
    expect(out).toMatch(/stop +It ·\[2Jslides\. Peg it\./);
    expect(existsSync(join(cwd, 'out/Small-bank/plan.json'))).toBe(true);
  });

  test.skipIf(process.getuid?.() === 0)('a folder that may not be written to', async () => {
    const cwd = emptyFolder();
    mkdirSync(join(cwd, 'shut'));
    writeFileSync(join(cwd, 'job.yaml'), GOOD);
    chmodSync(join(cwd, 'shut'), 0o500);
    const { code, err } = await program(['make', 'job.yaml', '--out', 'shut'], cwd);
    expect([code, readdirSync(join(cwd, 'shut'))]).toEqual([3, []]);
    expect(err).toMatch(/shut .*no right.*--out/);
  });
});
