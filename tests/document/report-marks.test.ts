/** Findings that have a place are marked in the layers' figures by the number that the list gives them. */
import { describe, expect, test } from 'vitest';
import { layerFigure } from '../../src/document/report/layer-figure.ts';
import { listed } from '../../src/document/report/marks.ts';
import { findingsList } from '../../src/document/report/summary.ts';
import type { Finding, FindingLevel, Where } from '../../src/findings.ts';
import { boxOf, isInRegion, ringsOf } from '../../src/geometry/ring.ts';
import { smallPlan } from '../help/small-plan.ts';

const finding = (level: FindingLevel, message: string, where: Where): Finding => ({
  ...{ level, code: 'checks/test', message, fix: 'Mend it.', where },
});
const plan = smallPlan({
  findings: [
    finding('note', 'a note', { layer: 2, atMm: [700, 500] }),
    finding('watch', 'no place', { path: 'slice.layers' }),
    finding('watch', 'a piece', { piece: '1D' }),
    finding('stop', 'a layer without a point', { layer: 1 }),
    finding('stop', 'worst', { layer: 1, piece: '1A', atMm: [330, 410] }),
  ],
});

test('marks are numbered in the order of the list, the gravest first; what has no place has none', () => {
  const marks = listed(plan).map(({ finding: { message }, mark }) => [
    message,
    mark?.number ?? null,
    mark?.layer ?? null,
  ]);
  expect(marks).toEqual([
    ['a layer without a point', null, null],
    ['worst', 1, 1],
    ['no place', null, null],
    ['a piece', 2, 1],
    ['a note', 3, 2],
  ]);
});

test('a finding of a piece without a point is marked in the piece', () => {
  const mark = listed(plan)[3].mark;
  const piece = plan.pieces.find(({ name }) => name === '1D');
  expect(mark && piece && isInRegion(mark.atMm[0], mark.atMm[1], piece.region)).toBe(true);
});

test('the list says the numbers, and ribs, whose figures have other axes, have none', () => {
  const items = findingsList(plan).match(/<li.*?<\/li>/g) ?? [];
  expect(items.map((item) => /class="mark">(\d+)</.exec(item)?.[1])).toEqual([undefined, '1', undefined, '2', '3']);
  const upright = { ...plan, stack: { ...plan.stack, kind: 'upright' } } as const;
  expect(listed(upright).every(({ mark }) => mark === null)).toBe(true);
});

describe('in a layer’s figure', () => {
  const [low, high] = plan.stack.layers;
  const svg = layerFigure(plan, low, undefined, high).svg;
  const depth = boxOf(ringsOf([...low.regions, ...high.regions]))[3];
  const subpaths = (look: string) =>
    (new RegExp(`class="${look}" d="([^"]*)"`).exec(svg)?.[1] ?? '')
      .split('Z')
      .filter((d) => d !== '')
      .map((d) => boxOf([Float64Array.from(d.match(/-?[\d.]+/g) ?? [], Number)]));

  test('a ring stands round the place, south down', () => {
    const rings = subpaths('found');
    expect(rings).toHaveLength(2);
    const [minX, minY, maxX, maxY] = rings[0];
    expect((minX + maxX) / 2).toBeCloseTo(330, 0);
    expect((minY + maxY) / 2).toBeCloseTo(depth - 410, 0);
  });

  test('its number stands on a disc of its own, clear of the ring and of other numbers', () => {
    const numbers = [...svg.matchAll(/<text class="mark"[^>]*>(\d+)</g)].map((match) => match[1]);
    expect(numbers.sort()).toEqual(['1', '2']);
    const boxes = [...subpaths('disc'), ...subpaths('found')];
    expect(boxes).toHaveLength(4);
    for (const [i, a] of boxes.entries()) {
      for (const b of boxes.slice(i + 1)) {
        const middle = (box: readonly number[]) => [(box[0] + box[2]) / 2, (box[1] + box[3]) / 2];
        const [dx, dy] = [middle(a)[0] - middle(b)[0], middle(a)[1] - middle(b)[1]];
        expect(Math.sqrt(dx * dx + dy * dy)).toBeGreaterThan(0.95 * (a[2] - a[0] + b[2] - b[0]) * 0.5);
      }
    }
  });
});

test('a thin place that was told keeps its one ring and gets a number', () => {
  const [low, high] = plan.stack.layers;
  const atMm = [1590, 300] as const;
  const layer = { ...low, thin: [{ atMm, widthMm: 31, lengthMm: 40 }] };
  const thin = {
    ...plan,
    stack: { ...plan.stack, layers: [layer, high] },
    findings: [finding('watch', 'thin', { layer: 1, atMm })],
  };
  const { svg } = layerFigure(thin, layer, undefined, high);
  expect(svg).not.toContain('class="found"');
  expect(svg).toContain('class="thin"');
  expect(svg).toMatch(/class="mark"[^>]*>1</);
});
