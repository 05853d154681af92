import { describe, expect, test } from 'vitest';
import { legendRows } from '../../src/document/board/legend.ts';
import { projection, tapedCorners } from '../../src/document/throw/solve.ts';
import { throwPage } from '../../src/document/throw-page.ts';
import type { Finding } from '../../src/findings.ts';
import type { OutputFile } from '../../src/model/plan.ts';
import { walkNow } from '../../src/walk.ts';
import { smallPlan } from '../help/small-plan.ts';

const CORNERS = [
  [131, 92],
  [2290, 77],
  [2236, 1105],
  [118, 1071],
] as const;
const PAIRS = [
  [0, 1],
  [1, 2],
  [2, 3],
  [3, 0],
  [0, 2],
  [1, 3],
];
const measured = PAIRS.map(([p, q]) => Math.hypot(CORNERS[p][0] - CORNERS[q][0], CORNERS[p][1] - CORNERS[q][1]));

describe('the taped crosses', () => {
  test('are found again from exact measurements, with nothing left over', () => {
    const taped = tapedCorners(measured, CORNERS[0], CORNERS[1][1]);
    for (const [i, [x, y]] of (taped?.corners ?? []).entries()) {
      expect(x).toBeCloseTo(CORNERS[i][0], 6);
      expect(y).toBeCloseTo(CORNERS[i][1], 6);
    }
    expect(Math.max(...(taped?.residualsMm ?? [9]).map(Math.abs))).toBeLessThan(1e-6);
  });

  test('a misread distance shows, and no other figure fits the six better', () => {
    const off = measured.map((mm, k) => (k === 4 ? mm + 12 : mm));
    const taped = tapedCorners(off, CORNERS[0], CORNERS[1][1]);
    const residuals = taped?.residualsMm ?? [];
    const sum = (values: readonly number[]) => values.reduce((total, mm) => total + mm * mm, 0);
    expect(Math.max(...residuals.map(Math.abs))).toBeGreaterThan(1.5);
    for (let i = 0; i < 4; i++) {
      for (const [dx, dy] of [
        [0.3, 0],
        [-0.3, 0],
        [0, 0.3],
        [0, -0.3],
      ]) {
        const moved = taped?.corners.map(([x, y], k) => (k === i ? [x + dx, y + dy] : [x, y])) ?? [];
        const there = PAIRS.map(
          ([p, q], k) => Math.hypot(moved[p][0] - moved[q][0], moved[p][1] - moved[q][1]) - off[k],
        );
        expect(sum(there)).toBeGreaterThan(sum(residuals));
      }
    }
  });

  test('distances that no figure has are refused', () => {
    expect(tapedCorners([100, 100, 100, 100, 500, 141], [0, 0], 0)).toBeNull();
    expect(tapedCorners([100, 0, 100, 100, 141, 141], [0, 0], 0)).toBeNull();
    expect(tapedCorners(measured, [0, 0], 99999)).toBeNull();
  });
});

test('the projection takes the crosses to the screen, lines to lines, and says when it cannot', () => {
  const screen = [
    [80, 900],
    [1500, 980],
    [1320, 120],
    [210, 60],
  ] as const;
  const map = projection(CORNERS, screen) as number[];
  const at = (x: number, y: number) => {
    const w = map[6] * x + map[7] * y + map[8];
    return [(map[0] * x + map[1] * y + map[2]) / w, (map[3] * x + map[4] * y + map[5]) / w];
  };
  for (const [i, [x, y]] of CORNERS.entries()) {
    expect(at(x, y)[0]).toBeCloseTo(screen[i][0], 6);
    expect(at(x, y)[1]).toBeCloseTo(screen[i][1], 6);
  }
  const [a, b, c] = [at(200, 300), at(800, 500), at(2000, 900)];
  expect((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])).toBeCloseTo(0, 4);
  expect(
    projection(
      [
        [0, 0],
        [1, 1],
        [2, 2],
        [3, 3],
      ],
      screen,
    ),
  ).toBeNull();
});

test('the page holds the boards, asks no network, and no name ends its script', () => {
  const plan = smallPlan({ name: '</script><img src=x>' });
  const context = { facts: {}, tell: () => {}, random: () => 0.5 };
  const [file] = walkNow(throwPage.run(plan, { scale: 1 }, context) as Generator<number, readonly OutputFile[], never>);
  const html = file.body as string;
  expect(file.path).toBe('throw.html');
  expect(html.match(/<\/script>/g)).toHaveLength(1);
  expect(html).not.toMatch(/https?:|<img/);
  expect(html).toContain("default-src 'none'");
  expect(html).toContain('board 2 of 2');
});

test('the bar says what every line on a board means, in the unit of the job, and what found no room is told', () => {
  const plan = smallPlan({ name: '山の丘', unit: 'in' });
  const told: Finding[] = [];
  const context = { facts: {}, tell: (finding: Finding) => void told.push(finding), random: () => 0.5 };
  const [file] = walkNow(throwPage.run(plan, { scale: 1 }, context) as Generator<number, readonly OutputFile[], never>);
  const html = file.body as string;
  expect(html).toContain('<strong>crossed circle</strong> pin through the layers, its length in in beside it');
  expect(html).not.toContain('its length in mm');
  for (const { text } of legendRows('in')) expect(html).toContain(text);
  expect(told.map(({ code }) => code)).toContain('document/letters');
});
