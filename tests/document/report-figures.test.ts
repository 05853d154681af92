/** The geometry behind the report's figures: the stack from an angle, sections, and names that keep clear. */
import { decode } from 'fast-png';
import { describe, expect, test } from 'vitest';
import { deviationFigure } from '../../src/document/report/deviation-figure.ts';
import { stretchFor, thinned } from '../../src/document/report/figure.ts';
import { type Label, letter, roomiest } from '../../src/document/report/labels.ts';
import { groundIn, runsInside, type Section, sectionsThroughTop } from '../../src/document/report/section.ts';
import { stackView } from '../../src/document/report/stack-view.ts';
import { turn } from '../../src/geometry/exact-math.ts';
import { type Box, boxOf, isInRegion, type Region, regionArea, ringArea, ringsOf } from '../../src/geometry/ring.ts';
import { heightfield } from '../../src/model/landform.ts';
import type { Layer } from '../../src/model/layer.ts';
import { rasterOf } from '../../src/model/raster.ts';
import { smallPlan } from '../help/small-plan.ts';
import { prism, together } from '../help/solids.ts';

const ring = (...points: number[]) => new Float64Array(points);
const boxOfShapes = (shapes: readonly { readonly rings: readonly Float64Array[] }[]) =>
  boxOf(shapes.flatMap(({ rings }) => [...rings]));

describe('the stack from an angle', () => {
  const { layers } = smallPlan().stack;
  const view = { turnDeg: 31, stretch: 3, leastMm: 0 };
  const shapes = stackView(layers, view);

  test('a top is seen foreshortened by the sine of 30 degrees, whatever the turn', () => {
    for (const turnDeg of [0, 31, 114, 270]) {
      const tops = stackView(layers, { ...view, turnDeg }).filter(({ look }) => look === 'top');
      expect(tops).toHaveLength(layers.length);
      for (const [i, { rings }] of tops.entries()) {
        const seen = Math.abs(regionArea(rings));
        const true_ = regionArea(ringsOf(layers[i].regions));
        expect(seen / true_).toBeCloseTo(0.5, 9);
      }
    }
  });

  test('a height is seen by the cosine of 30 degrees, times the stretch', () => {
    const one: Layer = { number: 1, bottomMm: 20, thicknessMm: 35, regions: [[ring(0, 0, 90, 10, 40, 70)]] };
    const [top] = stackView([one], view).filter(({ look }) => look === 'top');
    const [higher] = stackView([{ ...one, bottomMm: 27 }], view).filter(({ look }) => look === 'top');
    for (const [i, value] of top.rings[0].entries()) {
      const rise = i % 2 === 0 ? 0 : 7 * 3 * (Math.sqrt(3) / 2);
      expect(value - higher.rings[0][i]).toBeCloseTo(rise, 9);
    }
  });

  test('of an outline without dents, walls are shown once across its whole width, as tall as the layer', () => {
    const outline = ring(0, 0, 300, -40, 410, 90, 230, 260, 20, 170);
    const one: Layer = { number: 1, bottomMm: 0, thicknessMm: 48, regions: [[outline]] };
    for (const turnDeg of [0, 65, 200, 300]) {
      const made = stackView([one], { turnDeg, stretch: 1, leastMm: 0 });
      const walls = made.filter(({ look }) => look.startsWith('wall'));
      const area = walls.reduce((sum, { rings }) => sum + Math.abs(ringArea(rings[0])), 0);
      const [minX, , maxX] = boxOfShapes(made);
      expect(area).toBeCloseTo((maxX - minX) * 48 * turn(30).cos, 6);
    }
  });

  test('a taller stack takes the room of the lower one and more above it, nothing else', () => {
    const [minX, minY, maxX, maxY] = boxOfShapes(shapes);
    const top = layers[layers.length - 1];
    const more = { ...top, number: 3, bottomMm: top.bottomMm + top.thicknessMm };
    const taller = boxOfShapes(stackView([...layers, more], view));
    expect([taller[0], taller[2], taller[3]]).toEqual([minX, maxX, maxY]);
    expect(taller[1]).toBeLessThanOrEqual(minY);
  });

  test('far walls are painted before near ones, and a layer before the one on it', () => {
    const looks = shapes.map(({ look }) => look);
    expect(looks.filter((look) => !look.startsWith('wall'))).toEqual(['foot', 'top', 'foot', 'top']);
    const first = shapes.slice(0, looks.indexOf('foot')).map(({ rings }) => rings[0][1]);
    expect(first).toEqual([...first].sort((a, b) => a - b));
    expect(first.length).toBeGreaterThan(3);
  });

  test('thinning keeps a ring where it was, and never makes it vanish', () => {
    const [outline] = layers[0].regions[0];
    const thin = thinned(outline, 60);
    expect(thin.length).toBeLessThan(outline.length);
    const points = new Set(
      Array.from({ length: outline.length / 2 }, (_, i) => `${outline[2 * i]} ${outline[2 * i + 1]}`),
    );
    for (let i = 0; i < thin.length; i += 2) expect(points.has(`${thin[i]} ${thin[i + 1]}`)).toBe(true);
    expect(thinned(ring(0, 0, 1, 0, 0.5, 1), 60)).toEqual(ring(0, 0, 1, 0, 0.5, 1));
  });

  test('heights are stretched by whole numbers, as little as shows them, to five', () => {
    expect([stretchFor(700, 6000, 0.22), stretchFor(520, 900, 0.22), stretchFor(1, 6000, 0.22)]).toEqual([2, 1, 5]);
  });
});

describe('sections', () => {
  test('run through the highest ground, both ways', () => {
    // Posts 0…3 by 0…2, a peak at (2, 1).
    const field = heightfield(4, 3, 150, 90, ring(1, 2, 3, 1, 4, 5, 60, 7, 2, 1, 3, 2));
    const [alongX, alongY] = sectionsThroughTop(rasterOf(field, 90));
    expect([alongX.along, alongY.along]).toEqual(['x', 'y']);
    expect(Math.abs(alongX.atMm - 90)).toBeLessThan(2.6);
    expect(Math.abs(alongY.atMm - 300)).toBeLessThan(2.6);
    const flat = rasterOf(field, 9);
    expect(sectionsThroughTop({ ...flat, heightsMm: flat.heightsMm.map(() => Number.NaN) })).toEqual([]);
  });

  test('meet a region where its edges are crossed', () => {
    const region: Region = [ring(0, 0, 100, 0, 100, 80, 0, 80), ring(30, 20, 30, 60, 70, 60, 50, 20)];
    const across: Section = { along: 'x', atMm: 40, line: 0 };
    // The hole's right edge leans: at 40 it is half way from 50 to 70.
    expect(runsInside(across, [region], 500)).toEqual([0, 30, 60, 100]);
    expect(runsInside({ along: 'y', atMm: 31, line: 0 }, [region], 500)).toEqual([0, 20, 60, 80]);
    expect(runsInside({ ...across, atMm: 90 }, [region], 500)).toEqual([]);
  });

  test('of a lumpy layer: between two ends foam and none by turns', () => {
    const { regions } = smallPlan().stack.layers[0];
    const section: Section = { along: 'x', atMm: 431.7, line: 0 };
    const runs = runsInside(section, regions, 1700);
    expect(runs.length).toBeGreaterThanOrEqual(6);
    for (let i = 1; i < runs.length; i++) {
      const middle = (runs[i - 1] + runs[i]) / 2;
      expect(regions.some((region) => isInRegion(middle, section.atMm, region))).toBe(i % 2 === 1);
    }
  });

  test('the ground of a leaning plane is a straight line of its heights', () => {
    const height = (x: number, y: number) => 20 + 0.11 * x + 0.07 * y;
    const posts = Float64Array.from({ length: 12 }, (_, i) => height((i % 4) * 150, Math.floor(i / 4) * 90));
    const field = heightfield(4, 3, 150, 90, posts);
    const raster = rasterOf(field, 60);
    for (const section of sectionsThroughTop(raster)) {
      const [line, ...others] = groundIn(section, field, raster);
      expect(others).toEqual([]);
      expect(line.length).toBe(2 * (section.along === 'x' ? raster.columns : raster.rows));
      for (let i = 0; i < line.length; i += 2) {
        const [x, y] = section.along === 'x' ? [line[i], section.atMm] : [section.atMm, line[i]];
        expect(line[i + 1]).toBeCloseTo(height(x, y), 4);
      }
    }
  });

  test('the ground of a solid closes: every end of a cut is met by one other, undersides too', () => {
    const outline = [
      [0, 0],
      [310, 40],
      [260, 205],
      [30, 180],
    ] as const;
    const shelf = outline.map(([x, y]) => [x + 120, y + 10] as const);
    const solid = together(prism(outline, 0, 60), prism(shelf, 90, 131));
    const raster = rasterOf(solid, 100);
    for (const section of sectionsThroughTop(raster)) {
      const lines = groundIn(section, solid, raster);
      const ends = new Map<string, number>();
      for (const line of lines) {
        for (const i of [0, 2]) {
          const key = `${line[i].toFixed(6)} ${line[i + 1].toFixed(6)}`;
          ends.set(key, (ends.get(key) ?? 0) + 1);
        }
      }
      expect([...new Set(ends.values())]).toEqual([2]);
      const heights = lines.flatMap((line) => [line[1], line[3]]);
      expect([Math.min(...heights), Math.max(...heights)]).toEqual([0, 131]);
    }
  });
});

describe('names on a figure', () => {
  const within: Box = [0, 0, 1000, 700];
  const field: Region = [ring(50, 50, 620, 50, 620, 410, 50, 410)];
  const strip: Region = [ring(700, 60, 726, 60, 726, 600, 700, 600)];
  const chip: Region = [ring(300, 520, 309, 520, 309, 531, 300, 531)];
  const name = (text: string, region: Region): Label => {
    return { text, at: roomiest(region), region, most: 60, least: 24, look: 'name' };
  };
  const boxesOf = ({ words }: ReturnType<typeof letter>) =>
    words.map(({ x, y, text, size }) => {
      const half = 0.3 * text.length * size;
      return { text, size, box: [x - half, y - 0.36 * size, x + half, y + 0.36 * size] as const };
    });

  test('one that has room stands inside, as large as it may; one that has none beside, with a line to it', () => {
    const made = letter([name('3A', field), name('3C', strip), name('3D', chip)], [field, strip, chip], within);
    const [big, narrow, tiny] = boxesOf(made);
    expect([big.size, narrow.size, tiny.size]).toEqual([60, 24, 24]);
    for (const [x, y] of [big.box.slice(0, 2), big.box.slice(2)]) expect(isInRegion(x, y, field)).toBe(true);
    // The chip is not hidden by its own name.
    const hidden = tiny.box[0] < 309 && tiny.box[2] > 300 && tiny.box[1] < 531 && tiny.box[3] > 520;
    expect(hidden).toBe(false);
    expect(made.leaders.length).toBeGreaterThan(0);
    const [x, y, toX, toY] = made.leaders[made.leaders.length - 1];
    expect(isInRegion(x, y, chip)).toBe(true);
    expect(Math.abs(toX - made.words[2].x)).toBeLessThan(24);
    expect(Math.abs(toY - made.words[2].y)).toBeLessThan(24);
  });

  test('a crowd about one point spreads without touching, inside the figure', () => {
    const crowd = Array.from({ length: 14 }, (_, i): Label => {
      return { text: `7/${'ACDEFGHJKLMNPR'[i]}`, at: [980, 350 + i], most: 20, least: 20, look: 'joint' };
    });
    const boxes = boxesOf(letter(crowd, [field, strip], within)).map(({ box }) => box);
    expect(boxes).toHaveLength(14);
    for (const [i, a] of boxes.entries()) {
      expect([a[0] >= 0, a[1] >= 0, a[2] <= 1000, a[3] <= 700]).toEqual([true, true, true, true]);
      for (const b of boxes.slice(i + 1)) {
        expect(a[0] >= b[2] || b[0] >= a[2] || a[1] >= b[3] || b[1] >= a[3]).toBe(true);
      }
    }
  });

  test('one that may be left out is, where it does not fit', () => {
    const optional = { isOptional: true };
    const made = letter(
      [
        { ...name('K1', chip), ...optional },
        { ...name('K2', field), ...optional },
      ],
      [],
      within,
    );
    expect(made.words.map(({ text }) => text)).toEqual(['K2']);
    expect(made.leaders).toEqual([]);
  });
});

describe('the deviation map', () => {
  test('tells how deep is carved and filled, and shades what it tells', () => {
    const plan = smallPlan();
    const { svg, caption } = deviationFigure(plan);
    expect(caption).toMatch(/grey: foam to carve, at most \d+ mm deep/);
    const picture = decode(Buffer.from(/base64,([^"]+)"/.exec(svg)?.[1] ?? '', 'base64'));
    expect([picture.channels, Math.max(picture.width, picture.height)]).toEqual([2, 640]);
    const { data } = picture;
    const greys = new Set(Array.from({ length: data.length / 2 }, (_, i) => data[2 * i]));
    expect(greys.has(255)).toBe(true);
    expect(Math.min(...greys)).toBe(50);
  });
});
