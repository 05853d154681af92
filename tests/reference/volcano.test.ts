/**
 * A real elevation grid through the whole pipeline: Maunga Whau, 87 × 61 posts 10 m apart, 94 to 195 m high (digitised by Ross
 * Ihaka; vega-datasets 3.2.1, data/volcano.json, test use only). At 1 : 500 it is 1720 × 1200 mm, and 1 m is 2 mm. Its heights
 * are whole metres, so that many posts, and flat ground between them, lie exactly at the level of a board.
 */
import Ajv from 'ajv/dist/2020';
import { parse } from 'csv-parse/sync';
import { contours } from 'd3-contour';
import { beforeAll, describe, expect, test } from 'vitest';
import { areaOf, ringLength, ringsOf } from '../../src/geometry/ring.ts';
import { type Made, planSchema, readOffcuts, run } from '../../src/index.ts';
import { inlineJob } from '../help/jobs.ts';
import { readPdf } from '../help/read-pdf.ts';
import { readSvg } from '../help/read-svg.ts';
import { volcano } from '../help/volcano.ts';

const { columns, rows, heightsM } = volcano();
const LOW_M = 94;
const STEP_MM = 20;
const MM_IN_M = 2;
const LIFT_MM = 11;
const THICKNESS_MM = 15;
const DENSITY_KG_M3 = 17;
/** Heights as the shapers leave them; the order of rows does not matter for areas. */
const heightsMm = heightsM.map((height) => (height - LOW_M) * MM_IN_M + LIFT_MM);
const SIZE_MM = [(columns - 1) * STEP_MM, (rows - 1) * STEP_MM];

const GRID = [
  `ncols ${columns}`,
  `nrows ${rows}`,
  'xllcorner 2667400',
  'yllcorner 6478700',
  'cellsize 10',
  ...Array.from({ length: rows }, (_, row) => heightsM.slice(row * columns, (row + 1) * columns).join(' ')),
].join('\n');

type Cut = 'proud' | 'shy' | 'middle';

function make(cut: Cut, documents: string[] = []): Promise<Made> {
  const job = {
    name: 'Maunga Whau',
    source: { 'height-grid': { file: 'volcano.asc', unit: 'm' } },
    shape: [{ fit: { scale: 500 } }, { base: { cut: 'lowest', lift: LIFT_MM } }],
    stock: {
      boards: [
        { name: 'EPS 70', size: [1250, 610], thickness: THICKNESS_MM, density: DENSITY_KG_M3, price: 7.4, trim: 4 },
      ],
    },
    slice: { layers: { cut, simplify: 0 } },
    nest: { boards: { effort: 500 } },
    documents,
  };
  const { job: read, files } = inlineJob(JSON.stringify(job), { 'volcano.asc': new TextEncoder().encode(GRID) });
  return run(read, files);
}

const ALL = ['board-svg', 'pages-pdf', 'cut-list', 'offcuts', 'report'];
let made: Record<Cut, Made>;
beforeAll(async () => {
  made = { proud: await make('proud', ALL), shy: await make('shy'), middle: await make('middle') };
});

/**
 * The area of the ground over a level: in closed form, corner heights in order, for each of the four triangles that meet at
 * the mean of a cell's posts. Flat ground at the level counts for `shy` (≥) and not for `proud` (>).
 */
function areaOver(levelMm: number, countsFlat: boolean): number {
  let cells = 0;
  for (let row = 0; row + 1 < rows; row++) {
    for (let column = 0; column + 1 < columns; column++) {
      const at = row * columns + column;
      const posts = [at, at + 1, at + columns + 1, at + columns].map((post) => heightsMm[post]);
      const mean = posts.reduce((sum, height) => sum + height) / 4;
      for (const [i, height] of posts.entries()) {
        cells += shareOver(levelMm, countsFlat, [height, posts[(i + 1) % 4], mean]) / 4;
      }
    }
  }
  return cells * STEP_MM * STEP_MM;
}

/** The share of a plane triangle's plan in which it stands over a level. */
function shareOver(level: number, countsFlat: boolean, corners: number[]): number {
  const [low, mid, high] = corners.sort((a, b) => a - b);
  if (low === high && level === low) return countsFlat ? 1 : 0;
  if (level <= low) return 1;
  if (level >= high) return 0;
  return level <= mid
    ? 1 - (level - low) ** 2 / ((mid - low) * (high - low))
    : (high - level) ** 2 / ((high - mid) * (high - low));
}

/** Corners snapped to the micrometre move an edge by at most half of one each way. */
const snapped = (lengthMm: number) => 0.001 * lengthMm + 0.01;

describe('layers of a real hill', () => {
  test.each<[cut: Cut, levelIn: number, countsFlat: boolean]>([
    ['proud', 0, false],
    ['shy', 1, true],
    ['middle', 0.5, true],
  ])('cut %s have the areas of its triangles', (cut, levelIn, countsFlat) => {
    const { layers } = made[cut].plan.stack;
    const highMm = Math.max(...heightsMm);
    expect(layers.length).toBe({ proud: Math.ceil, shy: Math.floor, middle: Math.round }[cut](highMm / THICKNESS_MM));
    for (const { number, regions } of layers) {
      const wanted = areaOver((number - 1 + levelIn) * THICKNESS_MM, countsFlat);
      const lengthMm = ringsOf(regions).reduce((sum, ring) => sum + ringLength(ring), 0);
      expect(Math.abs(areaOf(regions) - wanted), `layer ${number}`).toBeLessThan(snapped(lengthMm));
    }
    expect(areaOver(0, true)).toBeCloseTo(SIZE_MM[0] * SIZE_MM[1], 6);
  });

  test('look as a library for contours draws them, where they keep clear of the rim', () => {
    // d3-contour runs straight across a cell where four triangles bend once or twice, and closes its lines past the rim.
    const rim = heightsMm.filter((_, i) => i < columns || i >= (rows - 1) * columns || (i + 1) % columns < 2);
    const clear = made.proud.plan.stack.layers.filter(({ bottomMm }) => bottomMm > Math.max(...rim));
    expect(clear.length).toBeGreaterThan(3);
    for (const { bottomMm, regions, number } of clear) {
      const { coordinates } = contours().size([columns, rows]).smooth(true).contour(heightsMm, bottomMm);
      const area = coordinates.flat().reduce((sum, ring) => sum + Math.abs(shoelace(ring)), 0) * STEP_MM * STEP_MM;
      const holes = coordinates.flatMap(([, ...others]) => others);
      const holesArea = 2 * holes.reduce((sum, ring) => sum + Math.abs(shoelace(ring)), 0) * STEP_MM * STEP_MM;
      const lengthMm = ringsOf(regions).reduce((sum, ring) => sum + ringLength(ring), 0);
      // All told, the outlines stand apart by less than a hundredth of the way from post to post.
      const apartMm = (areaOf(regions) - area + holesArea) / lengthMm;
      expect(Math.abs(apartMm), `layer ${number}`).toBeLessThan(STEP_MM / 100);
    }
  });

  test('hold the ground between them: shy, ground, proud; and middle between', () => {
    // By the posts alone: a cell is the mean of its posts times its area.
    let volume = 0;
    for (let row = 0; row + 1 < rows; row++) {
      for (let column = 0; column + 1 < columns; column++) {
        const at = row * columns + column;
        volume += heightsMm[at] + heightsMm[at + 1] + heightsMm[at + columns] + heightsMm[at + columns + 1];
      }
    }
    volume *= (STEP_MM * STEP_MM) / 4;
    const { groundVolumeM3 } = made.proud.plan.quantities;
    expect(groundVolumeM3 / (volume / 1e9)).toBeCloseTo(1, 9);
    const stackOf = (cut: Cut) =>
      made[cut].plan.stack.layers.reduce((sum, { regions }) => sum + areaOf(regions) * THICKNESS_MM, 0);
    expect(stackOf('shy')).toBeLessThan(volume);
    expect(stackOf('proud')).toBeGreaterThan(volume);
    expect(stackOf('middle')).toBeGreaterThan(stackOf('shy'));
    expect(stackOf('middle')).toBeLessThan(stackOf('proud'));
    // Half boards miss the ground by less than a hundredth.
    expect(stackOf('middle') / volume).toBeCloseTo(1, 2);
  });
});

describe('the documents of a real hill', () => {
  const body = (path: string) => {
    const file = made.proud.files.find((each) => each.path === path);
    if (!file) throw new Error(`${path} is not there`);
    return file.body;
  };

  test('are there, each readable, and of one plan', async () => {
    const { plan, files } = made.proud;
    const svgs = files.filter(({ path }) => path.endsWith('.svg'));
    expect(svgs.map(({ path }) => path)).toEqual(plan.boards.map((_, i) => `board-${`${i + 1}`.padStart(2, '0')}.svg`));
    const drawn = svgs.flatMap((svg) => readSvg(svg.body as string).paths.filter(({ group }) => group === 'cut'));
    expect(drawn.map(({ id }) => id).sort()).toEqual(plan.pieces.map(({ name }) => `cut-${name}`).sort());
    const list: Record<string, string>[] = parse(body('cut-list.csv') as string, { bom: true, columns: true });
    expect(list.map(({ piece }) => piece)).toEqual(plan.pieces.map(({ name }) => name));
    const { pages } = await readPdf(body('pages.pdf') as Uint8Array);
    expect(pages.length).toBe(files.find(({ path }) => path === 'pages.pdf')?.pages);
    const left = readOffcuts(new TextEncoder().encode(body('offcuts.json') as string), 'offcuts.json');
    expect(left.length).toBe(plan.boards.reduce((sum, { offcuts }) => sum + offcuts.length, 0));
    for (const { name } of plan.pieces) expect(body('report.html')).toContain(name);
  });

  test('plan.json is what its schema says, and its masses are those of its rings', () => {
    const plan = JSON.parse(body('plan.json') as string);
    const validate = new Ajv({ strict: false }).compile(planSchema());
    validate(plan);
    expect(validate.errors).toBeNull();
    let massKg = 0;
    for (const { rings, massKg: said } of plan.pieces) {
      const areaMm2 = rings.reduce((sum: number, ring: number[]) => sum + shoelace(pairs(ring)), 0);
      expect(said).toBeCloseTo((areaMm2 * THICKNESS_MM * DENSITY_KG_M3) / 1e9, 6);
      massKg += said;
    }
    expect(plan.quantities.foamMassKg).toBeCloseTo(massKg, 6);
    expect(plan.findings.filter(({ level }: { level: string }) => level === 'stop')).toEqual([]);
  });
});

/** Area of a ring of points, positive counter-clockwise. */
function shoelace(ring: readonly (readonly number[])[]): number {
  return ring.reduce((sum, [x, y], i) => {
    const [nextX, nextY] = ring[(i + 1) % ring.length];
    return sum + (x * nextY - nextX * y) / 2;
  }, 0);
}

const pairs = (flat: readonly number[]) =>
  Array.from({ length: flat.length / 2 }, (_, i) => [flat[2 * i], flat[2 * i + 1]]);
