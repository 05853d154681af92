/**
 * Bad input, from the file to the refusal: each says what, where and the way out, as a CannotMake and never as a crash. What the
 * program leaves on the disk meanwhile is held by tests/cli.
 */
import { encode } from 'fast-png';
import { SaxesParser } from 'saxes';
import { describe, expect, test } from 'vitest';
import { builtin, CannotMake, type Fault, readJob, run } from '../src/index.ts';

const bytes = (text: string) => new TextEncoder().encode(text);
const BOARDS = { boards: [{ name: 'EPS 70', size: [430, 310], thickness: 25 }] };
const MOUND = {
  sketch: { size: [400, 300], spacing: 10, features: [{ mound: { at: [180, 140], radius: 150, height: 70 } }] },
};
const job = (over: object) =>
  JSON.stringify({
    name: 'Bad',
    source: MOUND,
    stock: BOARDS,
    nest: { boards: { effort: 500 } },
    documents: [],
    ...over,
  });

/** The faults of a job with its files; none when it can be made. */
async function faultsOf(text: string, files: Readonly<Record<string, Uint8Array>> = {}): Promise<readonly Fault[]> {
  try {
    await run(readJob(text, 'job.yaml', builtin), new Map(Object.entries(files)));
    return [];
  } catch (error) {
    if (error instanceof CannotMake) return error.faults;
    throw error;
  }
}

const grey = (width: number, height: number, data: number[]) =>
  encode({ width, height, depth: 8, channels: 1, data: new Uint8Array(data) });
const image = (size: unknown = [400, 300]) =>
  job({ source: { 'height-image': { file: 'f', low: 0, high: 80, size } } });
const grid = job({ source: { 'height-grid': { file: 'f' } } });
const mesh = job({ source: { mesh: { file: 'f' } } });
const named = job({ source: { mesh: { file: 'f.stl' } } });
const head = 'ncols 3\nnrows 3\nxllcorner 0\nyllcorner 0\ncellsize 90\nNODATA_value -9\n';
const PNG = grey(3, 2, [0, 90, 200, 30, 160, 70]);
/** A PNG whose header claims other measures; its checksum is wrong, but no memory may be taken to find that out. */
const claimed = (side: number) => {
  const lie = PNG.slice();
  new DataView(lie.buffer).setUint32(16, side);
  new DataView(lie.buffer).setUint32(20, side);
  return lie;
};
const stl = (count: number, length = 84 + 50 * count) => {
  const file = new Uint8Array(length);
  new DataView(file.buffer).setUint32(80, count, true);
  return file;
};
const TETRA = 'v 0 0 0\nv 300 0 0\nv 0 210 0\nv 40 50 160\n';

describe('files', () => {
  test.each<[string, string, Uint8Array, RegExp]>([
    ['an empty image', image(), new Uint8Array(), /empty|nothing|image/i],
    ['a JPEG called PNG', image(), new Uint8Array([0xff, 0xd8, 0xff, 0xe0, 0, 16, 74, 70, 73, 70]), /JPEG/],
    ['a truncated image', image(), PNG.slice(0, PNG.length - 20), /damaged|cut|broken|ends|read/i],
    ['an image of 1 × 1', image(), grey(1, 1, [7]), /1 × 1|two|2/],
    ['an image of four thousand million posts', image(), claimed(65_000), /100|million/],
    ['a ragged grid', grid, bytes(`${head}1 2 3\n4 5\n6 7 8\n`), /row|numbers/i],
    ['words in a grid', grid, bytes(`${head}1 2 3\n4 five 6\n7 8 9\n`), /five/],
    ['a grid of nothing', grid, bytes(`${head}-9 -9 -9\n-9 -9 -9\n-9 -9 -9\n`), /data/],
    ['a grid of too many', grid, bytes(head.replace('3', '900000').replace('3', '900000')), /100|million/],
    ['NaN in a grid', grid, bytes(`${head}1 2 3\n4 nan 6\n7 8 9\n`), /nan/i],
    ['a truncated STL', named, stl(4, 200), /ends|cut|200|damaged|short/i],
    ['an STL that claims too many', named, stl(0xfffffff0, 184), /100|million|many|ends|damaged/i],
    ['an empty STL', mesh, stl(0), /no |empty/i],
    ['an open mesh', mesh, bytes(`${TETRA}f 1 3 2\nf 1 2 4\nf 2 3 4\n`), /open|closed/],
    ['NaN in a mesh', mesh, bytes(`${TETRA.replace('160', 'nan')}f 1 3 2\nf 1 2 4\nf 2 3 4\nf 1 4 3\n`), /nan|number/i],
    [
      'infinity in a mesh',
      mesh,
      bytes(`${TETRA.replace('160', '1e999')}f 1 3 2\nf 1 2 4\nf 2 3 4\nf 1 4 3\n`),
      /number|finite|inf/i,
    ],
    ['a flat mesh', mesh, bytes('v 0 0 0\nv 9 0 0\nv 0 9 0\nf 1 2 3\nf 1 3 2\n'), /flat|volume|outside|inside/i],
  ])('%s is refused', async (_, text, file, words) => {
    const faults = await faultsOf(text, { f: file, 'f.stl': file });
    expect(faults.length).toBeGreaterThan(0);
    for (const { message, fix } of faults) expect(`${message} ${fix}`.length).toBeGreaterThan(30);
    expect(faults.map(({ message, fix }) => `${message} ${fix}`).join(' ')).toMatch(words);
  });

  test('a mesh in metres is told: its size is absurd in millimetres', async () => {
    const metres = bytes('v 0 0 0\nv 3 0 0\nv 0 2.1 0\nv 0.4 0.5 1.6\nf 1 3 2\nf 1 2 4\nf 2 3 4\nf 1 4 3\n');
    const thin = { boards: [{ name: 'card', size: [50, 40], thickness: 0.5 }] };
    const text = job({ source: { mesh: { file: 'f' } }, stock: thin, gap: 2 });
    const { plan } = await run(readJob(text, 'job.yaml', builtin), new Map([['f', metres]]));
    const told = plan.findings.find(({ code }) => code === 'source/unlikely-size');
    expect(`${told?.message} ${told?.fix}`).toMatch(/unit: m/);
  });

  test.each([
    '{"lynchet": 1}',
    'boards',
    '{"lynchet":1,"offcuts":[{"name":"x","material":"EPS","thicknessMm":25,"densityKgM3":15,"rings":[[0,0,90,80,90,0,0,80]],"from":""}]}',
  ])('a file of offcuts that is none, or crosses itself, is refused: %s', async (text) => {
    const faults = await faultsOf(job({ stock: { ...BOARDS, offcuts: ['kept.json'] } }), { 'kept.json': bytes(text) });
    expect(faults.length).toBeGreaterThan(0);
    expect(JSON.stringify(faults)).toContain('kept.json');
  });
});

describe('jobs', () => {
  test.each<[string, object, RegExp]>([
    [
      'a board smaller than its trim',
      { stock: { boards: [{ name: 'b', size: [400, 300], thickness: 25, trim: 160 }] } },
      /trim/,
    ],
    ['a size of nothing', { stock: { boards: [{ name: 'b', size: [0, 300], thickness: 25 }] } }, /above 0|0/],
    ['a negative thickness', { stock: { boards: [{ name: 'b', size: [400, 300], thickness: -25 }] } }, /above 0|-25/],
    ['a layer that no board can hold', { stock: { boards: [{ name: 'b', size: [18, 9], thickness: 25 }] } }, /board/],
    ['no board of the thickness', { slice: { layers: { thickness: 40 } } }, /40/],
    [
      'a thickness not said where several are on offer',
      { stock: { boards: [...BOARDS.boards, { name: 'thick', size: [430, 310], thickness: 50 }] } },
      /25.*50|thickness/,
    ],
    ['too few boards', { stock: { boards: [{ ...BOARDS.boards[0], count: 1 }] } }, /more|1/],
    [
      'ground lower than a board, cut shy',
      { stock: { boards: [{ name: 'b', size: [430, 310], thickness: 90 }] }, slice: { layers: { cut: 'shy' } } },
      /thinner|layer|board/,
    ],
    ['more posts than fit in memory', { source: { sketch: { size: [400, 300], spacing: 0.001 } } }, /100|million/],
    ['a gap under the kerf', { gap: 1 }, /kerf/],
  ])('%s is refused', async (_, over, words) => {
    const faults = await faultsOf(job(over));
    expect(faults.length).toBeGreaterThan(0);
    expect(faults.map(({ message, fix }) => `${message} ${fix}`).join(' ')).toMatch(words);
  });
});

describe('names', () => {
  test.each([
    '../../etc',
    `a"b'c<script>alert(1)</script>&amp;`,
    '🏔️ موقع 丘',
    'x'.repeat(300),
    '=HYPERLINK("x")',
    '\u202egnp.exe',
  ])('%j reaches every document safely', async (name) => {
    const text = job({
      name,
      stock: { boards: [{ ...BOARDS.boards[0], name }] },
      front: { word: name },
      documents: undefined,
    });
    const { files } = await run(readJob(text, 'job.yaml', builtin), new Map());
    expect(files.length).toBeGreaterThan(5);
    for (const { path, body } of files) {
      expect(path).toMatch(/^[a-z0-9-]+\.(svg|pdf|csv|json|html)$/);
      if (path.endsWith('.svg')) new SaxesParser().write(String(body)).close();
      if (path.endsWith('.html')) expect(String(body)).not.toMatch(/<script/i);
      if (path.endsWith('.csv')) expect(String(body)).not.toMatch(/(^|,|\n|")[=+@-][A-Z]/);
    }
  });
});
