import { expect, test } from 'vitest';
import { feather } from '../../src/checks/feather.ts';
import { type Region, rectangle } from '../../src/geometry/ring.ts';
import { heightfield } from '../../src/model/landform.ts';
import { layerOf, piecedPlan, pieceOf } from '../help/pieced.ts';

/** Ground that rises from the west to a level top, at 1 in so much, 900 deep; cut into one layer from where it starts. */
function slope(run: number, cut = 'proud') {
  const step = 10;
  const columns = 121;
  const heights = Float64Array.from({ length: columns * 2 }, (_, i) => Math.max(0, ((i % columns) * step - 200) / run));
  const whole: Region = [rectangle(200, 0, 1200, 900)];
  return piecedPlan([layerOf(1, whole)], [pieceOf('1A', whole)], {
    landform: heightfield(columns, 2, step, 900, heights),
    job: { slice: { layers: { cut } } },
  });
}

test('an edge where the ground rises at less than 10° is a feather, told with its length and place', () => {
  // 1 in 8: 5 mm of foam stand 40 mm from the edge.
  const [finding, ...more] = feather(slope(8));
  expect(more).toEqual([]);
  expect(finding).toMatchObject({ level: 'note', code: 'checks/feather', where: { layer: 1 } });
  expect(finding.where.atMm?.[0]).toBe(200);
  expect(finding.message).toContain('0.9 m of this layer');
});

test('at more than 10° it is none: 1 in 5 is 11.3°, and has 5 mm of foam within 25 mm', () => {
  expect(feather(slope(5))).toEqual([]);
});

test('layers that are cut shy or in the middle keep a face', () => {
  expect(feather(slope(8, 'shy'))).toEqual([]);
  expect(feather(slope(8, 'middle'))).toEqual([]);
});

test('a leaning wire makes a feather whatever the rule is called', () => {
  const { stack, ...plan } = slope(8, 'sloped');
  const layers = stack.layers.map((layer) => ({ ...layer, slope: { top: [], stations: [] } }));
  expect(feather({ ...plan, stack: { kind: 'flat', layers } })).toHaveLength(1);
});
