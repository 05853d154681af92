/**
 * Where lines lie: against what resvg draws (an independent renderer), against svgpath's reading of path data, and against
 * closed forms.
 */
import { Resvg } from '@resvg/resvg-js';
import fc from 'fast-check';
import svgpath from 'svgpath';
import { describe, expect, test } from 'vitest';
import { CannotMake } from '../../src/findings.ts';
import { distanceFrom, linesOf, plan, readPlan } from '../help/drawn-plans.ts';

/** Lines that are drawn in red, on a page of 200 × 150 mm, by the reader and by resvg at six pixels a millimetre. */
function bothWays(svg: string, pageMm: readonly [number, number]) {
  const lines = linesOf(readPlan(svg));
  const perMm = 6;
  const image = new Resvg(svg, { fitTo: { mode: 'width', value: pageMm[0] * perMm } }).render();
  // Asked for each time, the pixels are copied each time.
  const { pixels } = image;
  const isDrawn = (column: number, row: number) => pixels[4 * (row * image.width + column) + 3] > 100;
  return { lines, image, perMm, isDrawn };
}

const SHAPES: Record<string, string> = {
  line: '<line x1="12" y1="140" x2="171.5" y2="33"/>',
  polyline: '<polyline points="10,20 50 25,90-5 95 80.5"/>',
  polygon: '<polygon points="20,30 120,40 90,130 35,95"/>',
  rect: '<rect x="15" y="22" width="130" height="71"/>',
  'rect, round': '<rect x="15" y="22" width="130" height="71" rx="31" ry="12"/>',
  'rect, one radius, too large': '<rect x="15" y="22" width="130" height="71" ry="90"/>',
  circle: '<circle cx="88" cy="71" r="52"/>',
  ellipse: '<ellipse cx="88" cy="71" rx="81" ry="33"/>',
  'lengths with units': '<rect x="2cm" y="0.4in" width="90pt" height="11pc"/>',
  cubic: '<path d="M10 120C30-60 150 250 170 20"/>',
  'smooth cubic': '<path d="M10 70C20 20 50 20 60 70S110 130 120 60s30-40 60 10"/>',
  'smooth cubic after a line': '<path d="M10 70L60 90S110 130 120 60"/>',
  quadratic: '<path d="M10 120Q80-60 150 100T190 90t-40-50"/>',
  'arcs of all four kinds':
    '<path d="M60 60A40 25 20 0 0 110 80M60 60A40 25 20 0 1 110 80M60 60A40 25 20 1 0 110 80M60 60a40 25 20 1 1 50 20"/>',
  'an arc too small for its ends': '<path d="M30 90A12 7 33 0 1 150 60"/>',
  'an arc without a radius': '<path d="M30 90A0 7 33 0 1 150 60"/>',
  'relative, closed, gone on': '<path d="m20 30h40v30h-40z l30 60 v15 H150 V20 z m5 5 l10 60z"/>',
  'numbers without spaces': '<path d="M20.5.5L80,10.5.5 100zM1e1,1E+2l.5e2-90"/>',
  'arc flags without spaces': '<path d="M40 60a30 20 0 01 50 10a30,20,0,1150,10"/>',
};

const TRANSFORMS: Record<string, string> = {
  translate: 'translate(17.5,-9)',
  'translate one': 'translate(17.5)',
  scale: 'scale(0.7 1.2)',
  'scale one': 'scale(.8)',
  mirrored: 'translate(200) scale(-1 1)',
  rotate: 'rotate(-17)',
  'rotate about': 'rotate(140 95 70)',
  skewX: 'skewX(20)',
  skewY: 'skewY(-12.5)',
  matrix: 'matrix(.8 .15 -.3 .9 40 -6)',
  several: ' translate(30,10) , rotate(12)scale(.7,.9)\n skewX( -8 ) ',
};

const PLACES: Record<string, string> = {
  ...Object.fromEntries(Object.entries(SHAPES).map(([name, shape]) => [name, shape])),
  ...Object.fromEntries(
    Object.entries(TRANSFORMS).map(([name, transform]) => [
      `transform: ${name}`,
      `<g transform="${transform}">${SHAPES['rect, round']}${SHAPES.cubic}${SHAPES['arcs of all four kinds']}</g>`,
    ]),
  ),
  'groups in groups': `<g transform="translate(40 5)"><g transform="rotate(15)"><g><path transform="scale(.6)" d="M20 30C90 10 120 90 60 140Z"/></g></g></g>`,
  'a drawing in the drawing': `<svg x="30" y="20" width="120" height="60" viewBox="10 10 50 50" overflow="visible">${'<circle cx="30" cy="30" r="19"/>'}</svg>`,
  'a drawing in the drawing, to the right': `<svg x="30" y="20" width="120" height="60" viewBox="10 10 50 50" preserveAspectRatio="xMaxYMin slice" overflow="visible"><circle cx="30" cy="30" r="9"/></svg>`,
};

describe.each(Object.entries(PLACES))('%s', (_, inside) => {
  test('lies where resvg draws it, and all of it is there', () => {
    const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="150mm" viewBox="0 0 200 150"><g fill="none" stroke="red" stroke-width=".25">${inside}</g></svg>`;
    const { lines, image, perMm, isDrawn } = bothWays(svg, [200, 150]);
    expect(lines.length).toBeGreaterThan(0);
    // Each point of a line, and places between, is drawn (or next to what is drawn).
    let seen = 0;
    for (const line of lines) {
      for (let i = 0; i + 3 < line.length; i += 2) {
        for (const t of [0, 0.37, 0.71]) {
          const column = Math.floor((line[i] + t * (line[i + 2] - line[i])) * perMm);
          const row = Math.floor(-(line[i + 1] + t * (line[i + 3] - line[i + 1])) * perMm);
          if (column < 2 || row < 2 || column >= image.width - 2 || row >= image.height - 2) continue;
          seen++;
          const around = [-1, 0, 1].some((dx) => [-1, 0, 1].some((dy) => isDrawn(column + dx, row + dy)));
          if (!around) expect.fail(`nothing drawn at ${column}, ${row}`);
        }
      }
    }
    expect(seen).toBeGreaterThan(2);
    // What is drawn lies on a line: looked at on some rows.
    let drawn = 0;
    for (let row = 1; row < image.height; row += 3) {
      for (let column = 0; column < image.width; column++) {
        if (!isDrawn(column, row)) continue;
        drawn++;
        // Mitred corners reach two strokes' widths out.
        expect(distanceFrom(lines, (column + 0.5) / perMm, -(row + 0.5) / perMm)).toBeLessThan(0.75);
      }
    }
    expect(drawn).toBeGreaterThan(10);
  });
});

describe('closed forms', () => {
  test('a circle’s points lie on it, its chords within 0.02 mm of it, and it closes', () => {
    const { shapes } = readPlan(plan('<circle id="h9" cx="140" cy="120" r="90"/>'));
    const [{ points, isClosed }] = shapes[0].lines;
    expect(isClosed).toBe(true);
    expect([...points.slice(-2)]).toEqual([...points.slice(0, 2)]);
    for (let i = 0; i + 3 < points.length; i += 2) {
      expect(Math.hypot(points[i] - 140, points[i + 1] + 120)).toBeCloseTo(90, 9);
      const [x, y] = [(points[i] + points[i + 2]) / 2, (points[i + 1] + points[i + 3]) / 2];
      expect(Math.hypot(x - 140, y + 120)).toBeGreaterThan(90 - 0.02);
    }
  });

  test('a quarter turn is exact, however it is written', () => {
    const { shapes } = readPlan(plan('<path id="h5" transform="rotate(90 100 50)" d="M100 50L130 50"/>'));
    expect([...shapes[0].lines[0].points]).toEqual([100, -50, 100, -80]);
  });

  test('a scaled drawing’s curves are divided for the ground, not for the paper', () => {
    const svg = plan('<path id="h9" d="M20 150C90 20 250 280 370 90"/>');
    for (const scale of [0.5, 1, 40]) {
      const [line] = linesOf(readPlan(svg, { scale }));
      let worst = 0;
      for (let t = 0; t <= 1; t += 0.0007) {
        const at = (a: number, b: number, c: number, d: number) =>
          scale * ((1 - t) ** 3 * a + 3 * (1 - t) ** 2 * t * b + 3 * (1 - t) * t * t * c + t ** 3 * d);
        worst = Math.max(worst, distanceFrom([line], at(20, 90, 250, 370), -at(150, 20, 280, 90)));
      }
      expect(worst).toBeLessThan(0.02);
    }
  });
});

/** Path data of any commands, as people and programs write them. */
const pathData = fc
  .array(
    fc.tuple(
      fc.constantFrom(...'MmLlHhVvCcSsQqTtAaZz'),
      fc.array(fc.integer({ min: -900, max: 900 }), { minLength: 14, maxLength: 14 }),
      fc.constantFrom(1, 1, 2),
    ),
    { minLength: 1, maxLength: 12 },
  )
  .map((parts) => {
    const takes: Record<string, number> = { m: 2, l: 2, h: 1, v: 1, c: 6, s: 4, q: 4, t: 2, a: 7, z: 0 };
    const text = parts.map(([letter, numbers, times]) => {
      const many = takes[letter.toLowerCase()];
      const written = numbers.slice(0, many * (letter.toLowerCase() === 'z' ? 0 : times)).map((n, i) => {
        if (letter.toLowerCase() !== 'a') return String(n / 10);
        const k = i % 7;
        return k < 2 ? String(Math.abs(n) / 10 + 1) : k === 3 || k === 4 ? String(Math.abs(n) % 2) : String(n / 10);
      });
      return letter + written.join(' ');
    });
    return `M3 4${text.join('')}`;
  });

interface Parsed {
  segments: (string | number)[][];
  err: string;
}

/** Points along what svgpath reads: absolute, without short forms and arcs. */
function sampled(data: string): [number, number][] {
  const { segments, err } = svgpath(data).abs().unshort().unarc() as unknown as Parsed;
  if (err !== '') throw new Error(err);
  const points: [number, number][] = [];
  let [x, y, startX, startY] = [0, 0, 0, 0];
  for (const [letter, ...numbers] of segments as [string, ...number[]][]) {
    const [a, b, c, d, e, f] = numbers;
    const to = { H: [a, y], V: [x, b ?? a], Z: [startX, startY], C: [e, f], Q: [c, d] }[letter] ?? [a, b];
    if (letter === 'M') [startX, startY] = to;
    else {
      for (const t of [0, 0.13, 0.42, 0.78, 1]) {
        const s = 1 - t;
        if (letter === 'C') {
          const at = (p: number, q: number, r: number, w: number) =>
            s ** 3 * p + 3 * s * s * t * q + 3 * s * t * t * r + t ** 3 * w;
          points.push([at(x, a, c, e), at(y, b, d, f)]);
        } else if (letter === 'Q') {
          points.push([s * s * x + 2 * s * t * a + t * t * c, s * s * y + 2 * s * t * b + t * t * d]);
          // A line of no length is none.
        } else if (to[0] !== x || to[1] !== y) points.push([s * x + t * to[0], s * y + t * to[1]]);
      }
    }
    [x, y] = to;
  }
  return points;
}

test('path data reads as svgpath reads it', () => {
  fc.assert(
    fc.property(pathData, (data) => {
      const lines = linesOf(readPlan(plan(`<path id="h1" d="${data}"/>`)));
      // Its arcs are Bézier curves: within 3 in 10,000 of the radius, which may have grown to reach the ends.
      for (const [x, y] of sampled(data)) if (lines.length > 0) expect(distanceFrom(lines, x, -y)).toBeLessThan(0.3);
    }),
    { numRuns: 150, seed: 7 },
  );
});

test('a path that breaks off is refused with its line, its column and the place in it', () => {
  const svg = plan('<g>\n  <path id="h5" d="M10 20L30 40C50 60 70"/></g>');
  try {
    readPlan(svg);
    expect.unreachable();
  } catch (error) {
    const [fault] = (error as CannotMake).faults;
    expect(error).toBeInstanceOf(CannotMake);
    expect(fault).toMatchObject({ code: 'source/bad-shape', where: { file: 'plan.svg', line: 3, column: 3 } });
    expect(fault.message).toContain('where a number should be, at character 22 of its path, the path ends');
  }
});
