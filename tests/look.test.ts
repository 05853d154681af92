/** A look at a job, and at a raw landform file; a job that cannot be made still shows its ground. */
import { encode } from 'fast-png';
import { expect, test } from 'vitest';
import { builtin } from '../src/builtin.ts';
import { CannotMake } from '../src/findings.ts';
import { landformJob, look, readJob } from '../src/index.ts';
import { glb, gltfOf } from './help/gltf-files.ts';
import { wedge } from './help/grounds.ts';
import { inlineJob } from './help/jobs.ts';
import { refusal } from './help/plugin-run.ts';
import { ply } from './help/solid-files.ts';

const DUNE = {
  name: 'Dune',
  source: {
    sketch: { size: [640, 410], spacing: 10, features: [{ mound: { at: [250, 190], radius: 230, height: 96 } }] },
  },
  stock: { boards: [{ name: 'EPS 70', size: [500, 310], thickness: 25, price: 4.3 }] },
  nest: { boards: { effort: 2000 } },
  documents: ['report'],
};

/** Look at a job written in place. */
function lookAt(job: object) {
  const { job: read, files } = inlineJob(JSON.stringify(job));
  return look(read, files, {}, true);
}

/** Look at a landform file, as it is done when no job was written for it. */
function lookAtFile(file: string, bytes: Uint8Array) {
  const job = readJob(landformJob(file), file, builtin);
  return look(job, new Map([[file, bytes]]), {}, false);
}

test('a job shows its ground, its layers, pieces and boards, and what is told of its plan', async () => {
  const { lines, data, findings, picture } = await lookAt(DUNE);
  expect(lines).toHaveLength(3);
  expect(lines[0]).toBe('65 × 42 posts');
  expect(lines[1]).toBe('640 mm × 410 mm in plan, ground from 0 mm to 96 mm');
  expect(data).toMatchObject({ kind: 'heightfield', sizeMm: [640, 410], lowMm: 0, layers: 4 });
  expect(lines[2]).toMatch(new RegExp(`^4 layers, ${data.pieces} pieces, ${data.boards} boards \\(fewer than \\d`));
  expect(findings.every(({ level }) => level !== 'stop')).toBe(true);
  const svg = picture();
  expect(svg).toMatch(/^(<\?xml[^>]*>\s*)?<svg /);
  expect(svg).toContain('Dune from above');
  expect(svg.match(/class="contour"/g)).toHaveLength(4);
});

test('lengths are told in the job’s unit', async () => {
  const { lines, data } = await lookAt({
    ...DUNE,
    unit: 'in',
    source: { sketch: { size: [25, 16], spacing: 0.5, features: [{ mound: { at: [10, 7], radius: 9, height: 4 } }] } },
    stock: { boards: [{ name: 'EPS 70', size: [30, 20], thickness: 1 }] },
  });
  expect(lines[1]).toBe('25 in × 16 in in plan, ground from 0 in to 4 in');
  expect(data.sizeMm).toEqual([635, 406.4]);
});

test('a job that cannot be made tells why, and shows its ground all the same', async () => {
  const short = { ...DUNE, stock: { boards: [{ ...DUNE.stock.boards[0], count: 1 }] } };
  const { lines, data, findings, picture } = await lookAt(short);
  expect(lines).toEqual(['65 × 42 posts', '640 mm × 410 mm in plan, ground from 0 mm to 96 mm']);
  expect(data).toMatchObject({ kind: 'heightfield', sizeMm: [640, 410] });
  expect(data.boards).toBeUndefined();
  const stops = findings.filter(({ level }) => level === 'stop');
  expect(stops.length).toBeGreaterThan(0);
  for (const { code, message, fix } of stops) expect([code, message, fix].every((text) => text !== '')).toBe(true);
  expect(picture()).toContain('Dune from above');
});

test('ground that cannot be had is refused: there is nothing to show', async () => {
  const job = inlineJob(JSON.stringify({ ...DUNE, source: { mesh: { file: 'rock.ply', unit: 'mm' } } }), {
    'rock.ply': new TextEncoder().encode('no mesh at all'),
  });
  await expect(look(job.job, job.files, {}, true)).rejects.toThrow(CannotMake);
});

test('a mesh file shows its corners, triangles and size', async () => {
  const { lines, data, picture } = await lookAtFile('wedge.ply', ply(wedge(), 'ascii'));
  expect(lines[0]).toBe('6 corners, 8 triangles, closed');
  expect(lines[1]).toBe('40 mm × 25 mm in plan, ground from 0 mm to 30 mm');
  expect(lines).toHaveLength(2);
  expect(data).toMatchObject({ kind: 'solid', sizeMm: [40, 25], lowMm: 0, highMm: 30 });
  expect(picture()).toContain('wedge.ply from above');
});

test('an open mesh shows where it is open: its rim, and the gap in words beside', async () => {
  const open = { ...wedge(), triangles: wedge().triangles.slice(0, -3) };
  const { lines, findings, picture } = await lookAtFile('wedge.glb', glb(gltfOf(open)));
  expect(lines[0]).toBe('6 corners, 8 triangles, open');
  const [{ code, where }] = findings;
  expect([code, where.atMm?.length]).toEqual(['source/open', 2]);
  const gap = /gap of ([\d.]+ mm)/.exec(findings[0].message)?.[1];
  const { paths, texts } = {
    paths: picture().match(/<path class="rim"/g),
    texts: picture().match(/<text[^>]*>[^<]*/g),
  };
  expect(paths).toHaveLength(2);
  expect(texts?.map((text) => text.replace(/.*>/, ''))).toEqual([`gap ${gap}`]);
});

test('where a wall is missing at the edge of the ground, the ring and the words are whole on the page', async () => {
  const open = { ...wedge(), triangles: wedge().triangles.slice(0, -3) };
  const { picture } = await lookAtFile('wedge.glb', glb(gltfOf(open)));
  const [left, top, width, height] = (/viewBox="([^"]+)"/.exec(picture())?.[1] ?? '').split(' ').map(Number);
  const [, ring] = [...picture().matchAll(/<path class="rim" d="([^"]+)"/g)].map(([, d]) => d.match(/-?[\d.]+/g) ?? []);
  const points = ring.map(Number);
  const [x, y, size] = [.../<text[^>]* x="([^"]+)" y="([^"]+)" font-size="([^"]+)"/.exec(picture())!]
    .slice(1)
    .map(Number);
  // Half the width of "gap 30 mm" and the like, in letters six tenths as wide as high.
  points.push(x - 2.7 * size, y - size, x + 2.7 * size, y);
  expect(points.length).toBeGreaterThan(50);
  for (let i = 0; i < points.length; i += 2) {
    expect(points[i]).toBeGreaterThan(left);
    expect(points[i]).toBeLessThan(left + width);
    expect(points[i + 1]).toBeGreaterThan(top);
    expect(points[i + 1]).toBeLessThan(top + height);
  }
});

test('a height grid shows its posts and size', async () => {
  const text = 'ncols 4\nnrows 3\nxllcorner 700\nyllcorner 90\ncellsize 20\n1 2 3 9\n4 5 6 7\n8 31 2 0.5\n';
  const { lines, data } = await lookAtFile('fells.ASC', new TextEncoder().encode(text));
  expect(lines).toEqual(['4 × 3 posts', '60 mm × 40 mm in plan, ground from 0.5 mm to 31 mm']);
  expect(data).toMatchObject({ kind: 'heightfield', lowMm: 0.5, highMm: 31 });
});

test('an image has no size and no heights until a job says them: shares of its range are told', async () => {
  const pixels = Uint8Array.from({ length: 20 }, (_, i) => 51 + 5 * i);
  const file = encode({ width: 5, height: 4, data: pixels, depth: 8, channels: 1 });
  const { lines, findings } = await lookAtFile('sea.png', file);
  expect(lines[0]).toBe('5 × 4 posts');
  // 51 of 255 is 20 %, 146 of 255 is 57.3 %.
  expect(lines[1]).toMatch(/^values 20\.0 to 57\.3 % of what the image can hold; /);
  expect(lines[1]).not.toContain('mm');
  expect(findings.filter(({ level }) => level === 'stop')).toEqual([]);
});

test.each(['hill', 'hill.jpg', 'hill.stl.gz', 'hill.constructor', 'stl', 'hill.', ''])(
  '%j: what it is cannot be told from its name, and the kinds that can are named',
  (file) => {
    const fault = refusal(() => landformJob(file));
    expect(fault.code).toBe('look/kind');
    expect(fault.fix).toMatch(/\.png.*\.asc.*\.stl/);
  },
);

test.each([
  'a.PNG',
  'b.asc',
  'c.txt',
  'd.stl',
  'deep/er/e.OBJ',
  'C:\\sets\\f: #1 "rock".ply',
  `${'long/'.repeat(40)}g.stl`,
])('%j makes a job that reads this file and no other', (file) => {
  expect(readJob(landformJob(file), file, builtin).sourceFiles).toEqual([file]);
});
