import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Finding } from '../../src/findings.ts';
import { areaOf, boxOf, ringsOf } from '../../src/geometry/ring.ts';
import { heightOf } from '../../src/model/ground-height.ts';
import type { Heightfield } from '../../src/model/landform.ts';
import { sorted } from '../../src/source/contour-drawing/sort.ts';
import { contourDrawing } from '../../src/source/contour-drawing.ts';
import type { Unit } from '../../src/units.ts';
import { linesOf, plan, readPlan, utf8 } from '../help/drawn-plans.ts';
import { codes, refusal, runPlugin } from '../help/plugin-run.ts';

/** Run the source on a drawing, posts 10 mm apart unless said. */
const ground = (svg: string | Uint8Array, written: Record<string, unknown> = {}, unit: Unit = 'mm') =>
  runPlugin<Heightfield>(
    contourDrawing,
    new Map([['plan.svg', typeof svg === 'string' ? utf8(svg) : svg]]),
    { file: 'plan.svg', spacing: 10, ...written },
    { unit },
  );

const of = (findings: readonly Finding[], code: string) => findings.filter((each) => each.code === code);

const FRAME = '<rect id="footprint" x="40" y="30" width="310" height="230" rx="20"/>';
/** Two contours that run right across, and an outline. */
const SLOPE = `${FRAME}<path id="h20" d="M0 200L400 230"/><path id="h60" d="M0 80L400 100"/>`;
/** One line more, whose height is in question. */
const heightOfLine = (line: string, options: Parameters<typeof readPlan>[1] = {}) =>
  readPlan(plan(line), options).shapes.map(({ heightMm }) => heightMm);

describe('heights', () => {
  test.each([
    ['<path id="h150" d="M0 0L9 9"/>', 150],
    ['<path id="150" d="M0 0L9 9"/>', 150],
    ['<path id="150mm" d="M0 0L9 9"/>', 150],
    ['<path id="H1.5m" d="M0 0L9 9"/>', 1500],
    ['<path id="h-20" d="M0 0L9 9"/>', -20],
    ['<path id="h150-2" d="M0 0L9 9"/>', 150],
    ['<path id="h150-2-7" d="M0 0L9 9"/>', 150],
    ['<path id="h150_1_" d="M0 0L9 9"/>', 150],
    ['<path id="_150" d="M0 0L9 9"/>', 150],
    ['<path id="_x31_50" d="M0 0L9 9"/>', 150],
    ['<path id="h2_x2E_5_1_" d="M0 0L9 9"/>', 2.5],
    ['<path data-height="150" d="M0 0L9 9"/>', 150],
    ['<path data-height=" 1,5 m" d="M0 0L9 9"/>', 1500],
    ['<g id="h30"><g><path d="M0 0L9 9"/></g></g>', 30],
    ['<g id="h30"><path id="h45" d="M0 0L9 9"/></g>', 45],
    ['<g id="h30" data-height="31"><path d="M0 0L9 9"/></g>', 31],
    ['<g xmlns:d="urn:d" id="layer1" d:label="h75"><path d="M0 0L9 9"/></g>', 75],
    ['<g id="layer1" data-name="75"><path d="M0 0L9 9"/></g>', 75],
    ['<path id="h150x" stroke="red" d="M0 0L9 9"/>', null],
    ['<path id="path150" stroke="red" d="M0 0L9 9"/>', null],
  ])('%s', (line, wanted) => expect(heightOfLine(line)).toEqual([wanted]));

  test.each([
    ['stroke="#C00"'],
    ['stroke="#cc0000"'],
    ['stroke="rgb(204, 0, 0)"'],
    ['stroke="rgb(80%,0%,0%)"'],
    ['style="fill:none;stroke:#cc0000ff"'],
    ['class="a b"'],
    ['class="b" stroke="blue"'],
  ])('by the colour of the stroke: %s', (attribute) => {
    const svg = `<style>/* .b { stroke: red } */ @media print { .b { stroke: blue } } path.b, .c > .d { fill: none; stroke: #c00 }</style><g ${attribute.startsWith('class') ? 'stroke="green"' : ''}><path ${attribute} d="M0 0L9 9"/></g>`;
    expect(heightOfLine(svg, { legend: { '#cc0000': 55 } })).toEqual([55]);
    expect(heightOfLine(svg, { legend: { 'rgb(204 0 0)': 55 } })).toEqual([55]);
  });

  test('colours are inherited, named colours count as their numbers, and ids count before colours', () => {
    const svg =
      '<g stroke="firebrick"><path d="M0 0L9 9"/><path id="h7" d="M0 0L9 9"/><path id="brow" d="M0 0L9 9"/></g>';
    expect(heightOfLine(svg, { legend: { '#b22222': 55, brow: 80 } })).toEqual([55, 7, 80]);
    expect(heightOfLine(svg, { legend: { FireBrick: 55 } })).toEqual([55, 7, 55]);
  });

  test('an id’s weight beats a class, a class a tag, the style attribute all', () => {
    const style = '<style>#k{stroke:#111}.k{stroke:#222}path{stroke:#333}</style>';
    const legend = { '#111': 1, '#222': 2, '#333': 3, '#444': 4 };
    const line = (attributes: string) => `<path ${attributes} d="M0 0L9 9"/>`;
    const svg = `${style}${line('id="k" class="k"')}${line('class="k"')}${line('stroke="#444"')}${line('id="k" style="stroke:#444"')}`;
    expect(heightOfLine(svg, { legend })).toEqual([1, 2, 3, 4]);
  });

  test('plain numbers count in the job’s unit, or in the one that is said', () => {
    const svg = plan(`${FRAME}<path id="h0.2" d="M0 200L400 230"/><path id="60mm" d="M0 80L400 100"/>`);
    const at = (written: Record<string, unknown>, unit: Unit) => heightOf(ground(svg, written, unit).made, 0, 0);
    expect(at({ spacing: '10 mm', unit: 'm' }, 'mm')).toBeCloseTo(at({ spacing: '10 mm' }, 'm'), 9);
    expect(at({ spacing: '10 mm', unit: 'm' }, 'mm')).toBeGreaterThan(100);
  });

  test.each([
    ['<path data-height="high" d="M0 0L9 9"/>', 'source/bad-height'],
    ['<path data-kind="hill" d="M0 0L9 9"/>', 'source/bad-kind'],
    ['<path transform="rotate(12" d="M0 0L9 9"/>', 'source/bad-transform'],
    ['<path transform="rotate(12 4)" d="M0 0L9 9"/>', 'source/bad-transform'],
    ['<path style="transform: rotate(3deg)" d="M0 0L9 9"/>', 'source/bad-transform'],
    ['<polyline id="h5" points="1,2 3,x"/>', 'source/bad-shape'],
    ['<polyline id="h5" points="1,2 3"/>', 'source/bad-shape'],
    ['<rect id="h5" width="50%" height="7"/>', 'source/bad-shape'],
    ['<path id="h5" d="L1 2"/>', 'source/bad-shape'],
    ['<path id="h5" d="M1 2R3 4"/>', 'source/bad-shape'],
    ['<path id="h5" d="M0 0L1e300 5"/>', 'source/too-wide'],
    ['<path id="h5" d="M0 0L1e999 5"/>', 'source/too-wide'],
    ['<path id="h5" d="M0 0LNaN 5"/>', 'source/bad-shape'],
  ])('refused at its place: %s', (inside, code) => {
    const fault = refusal(() => readPlan(plan(`<g>\n   ${inside}</g>`)));
    expect(fault).toMatchObject({ code, where: { file: 'plan.svg', line: 3, column: 4 } });
    expect(fault.fix.length).toBeGreaterThan(10);
  });
});

describe('what lines are', () => {
  const kindsOf = (inside: string, legend = {}) => readPlan(plan(inside), { legend }).shapes.map(({ kind }) => kind);

  test('by data-kind, id, layer or legend, in one or many, never for what is nothing', () => {
    const svg = `<path id="ridge" d="M0 0L9 9"/><g id="streams-2"><path d="M0 0L9 9"/></g><path data-kind="cliff" d="M0 0L9 9"/>
      <path stroke="red" d="M0 0L9 9"/><g id="nothing"><path id="h9" d="M0 0L9 9"/></g><g id="edge"><path d="M0 0L9 9"/></g>`;
    expect(kindsOf(svg, { red: 'ridge', edge: 'footprint' })).toEqual([
      'ridge',
      'stream',
      'cliff',
      'ridge',
      'footprint',
    ]);
  });

  test('a break line with a height is a contour too', () => {
    const read = readPlan(plan('<g id="h90"><path id="ridge" d="M10 10L90 90"/></g><path id="cliff" d="M0 9L9 9"/>'));
    const { contours, creases, tears, withoutHeight } = sorted(read, [400, 300], 'mm');
    expect([contours.length, creases.length, tears.length, withoutHeight.length]).toEqual([1, 1, 1, 0]);
  });

  test('along a ridge the ground may be sharp, across a cliff it may tear', () => {
    const sides = '<path id="h20" d="M0 60H400"/><path id="h20-2" d="M0 240H400"/>';
    const up = (kind: string) => `${FRAME}${sides}<path id="${kind}" data-height="90" d="M0 150H400"/>`;
    const bend = ({ made }: { made: Heightfield }) => {
      const [low, middle, high] = [100, 110, 120].map((y) => heightOf(made, 150, y));
      return low + high - 2 * middle;
    };
    // The footprint's y begins at 260 mm down: the ridge is at 110.
    expect(bend(ground(plan(up('ridge'))))).toBeLessThan(2 * bend(ground(plan(up('contour')))));
    const steps = `${FRAME}<path id="h20" d="M0 200H400M0 240H400"/><path id="h90" d="M0 100H400M0 60H400"/>`;
    const fall = (svg: string) => {
      const { made } = ground(plan(svg));
      return heightOf(made, 150, 120) - heightOf(made, 150, 100);
    };
    expect(fall(`${steps}<path id="cliff" d="M0 150H400"/>`)).toBeGreaterThan(2 * fall(steps));
  });
});

describe('spots', () => {
  const spotsOf = (inside: string) => {
    const { spots, labels, withoutHeight } = sorted(readPlan(plan(inside)), [400, 300], 'mm');
    const places = [...spots, ...labels].map(({ x, y, zMm }) => [x, y, zMm]);
    return { places, labels: labels.length, withoutHeight: withoutHeight.length };
  };

  test('small circles by their height, large ones are contours; a spot of any shape by its kind', () => {
    expect(
      spotsOf('<circle id="h70" cx="33" cy="44" r="3.9"/><circle id="h71" cx="90" cy="90" r="4.1"/>').places,
    ).toEqual([[33, -44, 70]]);
    expect(spotsOf('<g id="spots"><path data-height="12" d="M10 20h6v8h-6z"/></g>').places).toEqual([[13, -24, 12]]);
    expect(spotsOf('<circle data-kind="contour" id="h70" cx="33" cy="44" r="2"/>').places).toEqual([]);
  });

  test('a number stands for the circle beside it, the nearest to the nearest; alone, for its anchor point', () => {
    const text = (x: number, y: number, word: string) => `<text font-size="5" x="${x}" y="${y}">${word}</text>`;
    const circle = (x: number, y: number) => `<circle cx="${x}" cy="${y}" r="1"/>`;
    expect(spotsOf(circle(100, 90) + circle(109, 90) + text(102, 90, '31') + text(111, 90, '32')).places).toEqual([
      [100, -90, 31],
      [109, -90, 32],
    ]);
    expect(spotsOf(circle(100, 90) + text(130, 90, ' 3,5 m ')).places).toEqual([[130, -90, 3500]]);
    expect(spotsOf(text(130, 90, '1:50') + text(10, 20, 'N')).places).toEqual([]);
    expect(spotsOf('<text><tspan x="7" y="8">4</tspan>5</text>').places).toEqual([[7, -8, 45]]);
    expect(spotsOf('<g transform="translate(5 6)scale(2)"><text x="7" y="8">45</text></g>').places).toEqual([
      [19, -22, 45],
    ]);
  });

  test('a number by a line of its height is that line’s label, by another it is a spot', () => {
    const lines = `${SLOPE}<text x="200" y="92" font-size="6">60</text>`;
    const { made, findings } = ground(plan(lines));
    expect(of(findings, 'source/drawing-read')[0].message).toContain(
      '0 spots, 0 break lines, 1 number taken for the label',
    );
    const { findings: other } = ground(plan(`${SLOPE}<text x="200" y="150" font-size="6">43.5</text>`));
    expect(of(other, 'source/drawing-read')[0].message).toContain('1 spot, 0 break lines;');
    expect(made.heightsMm.length).toBe(32 * 24);
  });

  test('in a layer with a height, numbers are labels', () => {
    expect(spotsOf('<g id="h60"><text x="7" y="8">60</text><path d="M0 0L9 9"/></g>').places).toEqual([]);
  });
});

describe('the size of the page', () => {
  const square = '<path id="h9" d="M10 10H110V60z"/>';
  const boxIn = (head: string, options = {}) => {
    const [minX, minY, maxX, maxY] = boxOf(linesOf(readPlan(plan(square, head), options)));
    return [maxX - minX, maxY - minY].map((mm) => Math.round(mm * 1e6) / 1e6);
  };
  test.each([
    ['width="400mm" height="300mm" viewBox="0 0 400 300"', {}, [100, 50]],
    ['width="40cm" height="30cm" viewBox="0 0 400 300"', {}, [100, 50]],
    ['width="10in" height="10in" viewBox="0 0 254 254"', {}, [100, 50]],
    ['width="72pt" height="144pt" viewBox="0 0 100 200"', {}, [25.4, 12.7]],
    ['width="96px" height="960px" viewBox="0 0 100 1000"', {}, [25.4, 12.7]],
    ['width="96" height="96"', {}, [26.458333, 13.229167]],
    ['width="200mm" viewBox="0 0 400 300"', {}, [50, 25]],
    ['height="600mm" viewBox="0 0 400 300"', {}, [200, 100]],
    // A page of other proportions: as large as fits, or stretched.
    ['width="800mm" height="300mm" viewBox="0 0 400 300"', {}, [100, 50]],
    ['width="800mm" height="300mm" viewBox="0 0 400 300" preserveAspectRatio="none"', {}, [200, 50]],
    ['width="400mm" height="300mm" viewBox="0 0 400 300"', { scale: 25 }, [2500, 1250]],
    ['width="400mm" height="300mm" viewBox="0 0 400 300"', { size: [4000, 6000] }, [1000, 1000]],
    ['viewBox="0 0 400 300"', { size: [1200, 900] }, [300, 150]],
    ['viewBox="0 0 400 300"', { scale: 7 }, [700, 350]],
    ['', { scale: 7 }, [700, 350]],
  ])('%s %j', (head, options, wanted) => expect(boxIn(head, options)).toEqual(wanted));

  test.each([
    ['viewBox="0 0 400 300"', {}, 'source/no-size'],
    ['width="100%" height="100%" viewBox="0 0 400 300"', {}, 'source/no-size'],
    ['', { size: [400, 300] }, 'source/no-size'],
    ['width="4mm" height="3mm" viewBox="0 0 400"', {}, 'source/damaged-file'],
    ['width="4mm" height="3mm" viewBox="0 0 400 0"', {}, 'source/damaged-file'],
  ])('refused: %s %j', (head, options, code) => {
    expect(refusal(() => boxIn(head, options))).toMatchObject({
      code,
      where: { file: 'plan.svg', line: 1, column: 1 },
    });
  });

  test('pixels and a stretched page are told', () => {
    const { findings } = ground(plan(SLOPE, 'width="400" height="300"'), { spacing: 5 });
    expect(of(findings, 'source/size-in-pixels')[0].message).toContain('105.8 mm × 79.4 mm');
    expect(of(ground(plan(SLOPE), { size: [800, 400] }).findings, 'source/stretched')).toHaveLength(1);
    expect(codes(ground(plan(SLOPE), { size: [800, 600] }))).not.toContain('source/stretched');
  });
});

describe('the ground', () => {
  test('stands on the outline’s box, y up, holes and round corners kept', () => {
    const svg = plan(`${SLOPE}<circle data-kind="footprint" cx="150" cy="150" r="40"/>`);
    const { made } = ground(svg);
    expect(boxOf(ringsOf(made.footprint))).toEqual([0, 0, 310, 230]);
    // Square corners of 20 mm less their quarter circles, and the hole.
    const wanted = 310 * 230 - (4 - Math.PI) * 400 - Math.PI * 1600;
    expect(Math.abs(areaOf(made.footprint) - wanted)).toBeLessThan(10);
    // North is up on the page: the upper line is the higher one.
    expect(heightOf(made, 100, 200)).toBeGreaterThan(heightOf(made, 100, 30) + 30);
  });

  test('without an outline it is the box round all heights, and that is told', () => {
    const { made, findings } = ground(
      plan('<path id="h5" d="M30 40L190 60"/><circle id="h20" cx="120" cy="170" r="2"/>'),
    );
    expect(boxOf(ringsOf(made.footprint))).toEqual([0, 0, 160, 130]);
    expect(of(findings, 'source/no-footprint')).toHaveLength(1);
  });

  test('passes through every line and spot to 0.1 mm', () => {
    const file = new Uint8Array(readFileSync(new URL('../../samples/dune-garden/plan.svg', import.meta.url)));
    const { made, findings } = ground(file, { scale: 4, spacing: 4, legend: { '#c02020': 'ridge' } });
    expect(of(findings, 'source/posts-too-wide')).toEqual([]);
    const read = readPlan(new TextDecoder().decode(file), { scale: 4, legend: { '#c02020': 'ridge' } });
    const { contours, spots } = sorted(read, [1040, 720], 'mm');
    let seen = 0;
    const check = (x: number, y: number, zMm: number) => {
      // The outline's corner lies at (10, 170) on paper.
      const [east, north] = [x - 40, y + 680];
      if (east < 0 || north < 0 || east > 960 || north > 640) return;
      seen++;
      if (Math.abs(heightOf(made, east, north) - zMm) > 0.1)
        expect.fail(`at ${east}, ${north}: ${heightOf(made, east, north)}`);
    };
    for (const { points, zMm } of contours) {
      for (let i = 0; i + 3 < points.length; i += 2) {
        for (const t of [0, 0.3, 0.8])
          check(points[i] + t * (points[i + 2] - points[i]), points[i + 1] + t * (points[i + 3] - points[i + 1]), zMm);
      }
    }
    for (const { x, y, zMm } of spots) check(x, y, zMm);
    expect(seen).toBeGreaterThan(1000);
  });
});

describe('what is told', () => {
  test.each([
    [
      'lines that cross',
      '<path id="h40" d="M100 250L160 40"/>',
      'source/lines-cross',
      // Where the drawn lines meet, by hand: on h20 and on h60.
      [
        [111.9, 208.4],
        [146.5, 87.3],
      ],
    ],
    [
      'a spot on a line of another height',
      '<circle id="h33" cx="200" cy="215" r="2"/>',
      'source/heights-contradict',
      [[200, 215]],
    ],
    [
      'two spots in one place',
      '<circle id="h33" cx="200" cy="150" r="2"/><circle id="h35" cx="200" cy="151" r="2"/>',
      'source/heights-contradict',
      [[200, 151]],
    ],
    [
      'a circle and its number',
      '<circle id="h33" cx="200" cy="150" r="2"/><text x="204" y="150">35</text>',
      'source/heights-contradict',
      [[200, 150]],
    ],
    [
      'open ends that should meet',
      '<path id="h40" d="M0 140L150 150"/><path id="h40-2" d="M170 152L400 160"/>',
      'source/open-ends',
      [[160, 151]],
    ],
    ['a ring that does not close', '<path id="h70" d="M150 60A15 15 0 1 1 150 50"/>', 'source/open-ends', [[150, 55]]],
    ['an end within the ground', '<path id="h40" d="M0 140L150 150"/>', 'source/contour-ends-inside', [[150, 150]]],
    [
      'a line without a height',
      '<path stroke="red" d="M60 150L150 150L160 155"/>',
      'source/line-without-height',
      [[150, 150]],
    ],
    [
      'an outline that is open',
      '<path data-kind="footprint" d="M100 100V130H140V100"/>',
      'source/open-footprint',
      [[120, 100]],
    ],
  ])('%s', (_, inside, code, places) => {
    const told = of(ground(plan(`${SLOPE}\n${inside}`)).findings, code);
    expect(told).toHaveLength(places.length);
    for (const [i, [x, y]] of places.entries()) {
      const at = told[i].where.atMm as readonly [number, number];
      expect(at[0]).toBeCloseTo(x - 40, 0);
      expect(at[1]).toBeCloseTo(260 - y, 0);
      expect(told[i].where.file).toBe('plan.svg');
      expect([2, 3]).toContain(told[i].where.line);
    }
  });

  test.each([
    [
      'ends beyond the outline, on a cliff, on a line of their height',
      '<path id="h40" d="M0 150L200 150"/><path id="cliff" d="M200 120V180"/>',
    ],
    ['one place twice alike', '<circle id="h33" cx="200" cy="150" r="2"/><circle id="h33-2" cx="200" cy="150" r="2"/>'],
    ['one height that crosses itself', '<path id="h40" d="M0 140L400 170"/><path id="h40-2" d="M0 170L400 140"/>'],
    ['ends that meet', '<path id="h40" d="M0 140L150 150"/><path id="h40-2" d="M150 150L400 160"/>'],
  ])('nothing of %s', (_, inside) => {
    const told = codes(ground(plan(`${SLOPE}${inside}`)));
    expect(told.filter((code) => code !== 'source/below-zero')).toEqual(['source/drawing-read']);
  });

  test('hidden layers, shapes without a stroke, pictures, copies and unused keys of the legend', () => {
    const { findings } = ground(
      plan(`<g id="old" style="display:none"><path id="h50" d="M0 150L400 150"/></g><g visibility="hidden" id="older"><path id="h50-2" d="M0 150L400 150"/></g>
      <rect width="400" height="300" fill="white"/><image href="x.png"/>${SLOPE}
      <defs><path id="h55" d="M0 150L400 150"/></defs><g id="again"><use href="#again"/></g>`),
      { legend: { '#123456': 70, brow: 'ridge' } },
    );
    expect(findings.map(({ code, level }) => `${level} ${code}`)).toEqual([
      'note source/drawing-read',
      'note source/hidden',
      'note source/left-out',
      'watch source/copy-by-reference',
      'watch source/legend-unused',
      'watch source/legend-unused',
    ]);
    expect(findings[0].message).toContain('2 contours at 2 heights');
    expect(findings[1].message).toContain('g "old", g "older"');
    expect(findings[2].message).toContain('1 shape without a line or a height and 1 picture');
    expect(findings[3].where).toMatchObject({ line: 4 });
    expect(findings[4].where.path).toBe('source.contour-drawing.legend.#123456');
  });

  test('more than ten of a kind are told in eleven', () => {
    const lines = Array.from({ length: 40 }, (_, i) => `<path stroke="red" d="M60 ${100 + i}L90 ${100 + i}"/>`).join(
      '',
    );
    const told = of(ground(plan(SLOPE + lines)).findings, 'source/line-without-height');
    expect(told).toHaveLength(11);
    expect(told[10].message).toContain('And so at 29 more places.');
  });

  test('posts too wide for lines that lie close: the spacing that is said holds them', () => {
    const close = `${FRAME}<path id="h20" d="M0 150C100 140 200 160 400 150"/><path id="h60" d="M0 146C100 136 200 156 400 146"/>`;
    const [told] = of(ground(plan(close)).findings, 'source/posts-too-wide');
    expect(told.where.atMm?.[1]).toBeGreaterThan(80);
    expect(told.where.atMm?.[1]).toBeLessThan(150);
    const spacing = Number(/spacing: ([\d.]+) mm/.exec(told.fix)?.[1]);
    expect(spacing).toBeLessThan(4);
    expect(of(ground(plan(close), { spacing }).findings, 'source/posts-too-wide')).toEqual([]);
  });

  test('where no spacing is said, posts stand twice as close when lines need it, and only then', () => {
    const strip = '<rect id="footprint" x="40" y="120" width="310" height="40"/>';
    // A bank of 2 : 1 that runs straight, or turns sharply.
    const bank = (turn: number) =>
      [0, 1, 2, 3].map(
        (k) =>
          `<path id="h${100 + 120 * k}" d="M0 ${150 + turn - 12 * k}L190 ${150 - 12 * k}L400 ${150 + turn - 12 * k}"/>`,
      );
    const laid = (turn: number) => ground(plan(strip + bank(turn).join('')), { spacing: undefined, scale: 5 });
    expect(laid(0).made.columns).toBe(301);
    const { made, findings } = laid(80);
    expect(made.columns).toBe(601);
    expect(of(findings, 'source/posts-too-wide')).toEqual([]);
  });

  test('ground below 0', () => {
    const { findings } = ground(plan(SLOPE.replace('h20', 'h-20')));
    expect(of(findings, 'source/below-zero')).toHaveLength(1);
  });
});

describe('hostile files', () => {
  const groups = (n: number) => `${'<g>'.repeat(n)}${'</g>'.repeat(n)}`;
  const bomb = `<!DOCTYPE svg [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;">]>`;
  test.each<[string, string | Uint8Array, string, object]>([
    ['empty', '', 'source/empty-file', {}],
    ['only a mark of its bytes', new Uint8Array([0xef, 0xbb, 0xbf]), 'source/not-svg', {}],
    ['plain text', 'contours', 'source/not-svg', {}],
    ['a picture', new Uint8Array([0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10]), 'source/not-svg', {}],
    ['binary', new Uint8Array(999).map((_, i) => i * 7), 'source/not-svg', {}],
    ['UTF-16', new Uint8Array([0xff, 0xfe, 60, 0, 115, 0]), 'source/not-svg', {}],
    ['packed', new Uint8Array([0x1f, 0x8b, 8, 0, 0, 0, 0, 0]), 'source/not-svg', {}],
    ['a web page', '<html><body/></html>', 'source/not-svg', { line: 1, column: 1 }],
    ['another SVG', '<svg xmlns="urn:else"/>', 'source/not-svg', { line: 1, column: 1 }],
    ['cut off', plan(SLOPE).slice(0, -20), 'source/damaged-file', { line: 2 }],
    ['a tag not closed', plan('<g>\n<path d="M0 0L1 1">\n</g>'), 'source/damaged-file', { line: 4, column: 5 }],
    ['a bare ampersand', plan('<g id="a&b"/>'), 'source/damaged-file', {}],
    ['an entity', `${bomb}\n${plan('<text>&b;</text>')}`, 'source/damaged-file', { line: 3 }],
    ['an unbound prefix', plan('<x:g/>'), 'source/damaged-file', { line: 2 }],
    ['groups 100,000 deep', plan(groups(100_000)), 'source/too-deep', { line: 2 }],
    ['nothing with a height', plan('<path stroke="red" d="M0 0L9 9"/>'), 'source/no-heights', {}],
    ['nothing at all', plan(''), 'source/no-heights', {}],
    ['all in one line', plan('<path id="h5" d="M0 5H90"/>'), 'source/no-area', {}],
    [
      'an outline without area',
      plan(`${SLOPE.replace(FRAME, '')}<path id="footprint" d="M0 5H90z"/>`),
      'source/no-area',
      { line: 2 },
    ],
  ])('%s', (_, svg, code, where) => {
    const fault = refusal(() => ground(svg));
    expect(fault).toMatchObject({ code, where: { file: 'plan.svg', ...where } });
    expect(fault.fix.length).toBeGreaterThan(5);
  });

  test('too many posts', () => {
    expect(refusal(() => ground(plan(SLOPE), { spacing: 0.01 })).code).toBe('source/too-many-posts');
  });

  test('many points in one path, and in one run of numbers, are read', () => {
    for (const join of [' ', 'L']) {
      const numbers = Array.from({ length: 400_000 }, (_, i) => `${i % 399} ${(i * 7) % 211}`).join(join);
      expect(linesOf(readPlan(plan(`<path id="h5" d="M${numbers}"/>`)))[0].length).toBe(800_000);
    }
  });

  test('more points than can be worked with are refused', () => {
    const arc = 'a9e7 9e7 0 1 1 1 1 ';
    expect(refusal(() => readPlan(plan(`<path id="h5" d="M0 0${arc.repeat(500)}"/>`))).code).toBe('source/too-large');
  });

  test('lines that pass the ground again and again are refused', () => {
    const hatched = plan(`${SLOPE}<path id="h5" d="M9 9${'L380 290L9 9'.repeat(8000)}"/>`);
    expect(refusal(() => ground(hatched, { spacing: 1 })).code).toBe('source/too-large');
  });

  test('long names, heights, transforms and runs of spaces take no longer than they are', () => {
    const long = '1'.repeat(300_000);
    expect(heightOfLine(`<path id="h1${'-1'.repeat(150_000)}x" stroke="red" d="M0 0L9 9"/>`)).toEqual([null]);
    expect(heightOfLine(`<path stroke="rgb(${long}" d="M0 0L9 9"/>`)).toEqual([null]);
    const code = (inside: string) => refusal(() => readPlan(plan(inside))).code;
    expect(code(`<g data-height="${long}x"/>`)).toBe('source/bad-height');
    expect(code(`<g transform="scale(${long}x)"/>`)).toBe('source/bad-transform');
    expect(code(`<polyline id="h5" points="1 2${' '.repeat(300_000)}x"/>`)).toBe('source/bad-shape');
  });

  test('names that every object has are ids like others', () => {
    const svg = plan(
      '<path id="constructor" class="toString" stroke="valueOf" d="M0 0L9 9"/><path id="__proto__" d="M1 1L4 4" stroke="red"/>',
    );
    expect(readPlan(svg).shapes.map(({ kind, heightMm }) => [kind, heightMm])).toEqual([
      [null, null],
      [null, null],
    ]);
  });
});
