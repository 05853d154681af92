import { expect, test } from 'vitest';
import { slivers } from '../../src/checks/slivers.ts';
import { type Region, rectangle, reversed } from '../../src/geometry/ring.ts';
import { jointOf, layerOf, piecedPlan, pieceOf } from '../help/pieced.ts';

const wide: Region = [rectangle(0, 0, 700, 400)];
const narrow = (width: number): Region => [rectangle(700, 0, 700 + width, 400)];
const seam = jointOf('1/A', '1C', 700, 0, 700, 400);

/** A board divided so that a strip of some width is left. */
const divided = (width: number) => {
  const layer = layerOf(1, [rectangle(0, 0, 700 + width, 400)]);
  return piecedPlan(
    [layer],
    [pieceOf('1A', wide, { joints: [seam] }), pieceOf('1C', narrow(width), { joints: [seam] })],
  );
};

test('a strip that a seam leaves, narrower than two thicknesses, is told with its middle', () => {
  const [finding, ...more] = slivers(divided(90));
  expect(more).toEqual([]);
  expect(finding).toMatchObject({
    level: 'watch',
    code: 'checks/sliver',
    where: { layer: 1, piece: '1C', atMm: [745, 200] },
  });
  expect(finding.message).toContain('90 mm wide; less than 100 mm');
});

test('one that is wide enough, and a small thing that no seam touches, are not', () => {
  expect(slivers(divided(110))).toEqual([]);
  const island: Region = [rectangle(0, 0, 90, 140)];
  expect(slivers(piecedPlan([layerOf(1, island)], [pieceOf('1A', island)]))).toEqual([]);
});

/** A ring of foam round a void that leaves so much of it at the east side. */
const ring = (web: number): Region => [rectangle(0, 0, 900, 600), reversed(rectangle(120, 130, 900 - web, 470))];

test('a neck that a void leaves, narrower than the thickness, is told where it is', () => {
  const plan = piecedPlan([layerOf(1, [rectangle(0, 0, 900, 600)])], [pieceOf('1A', ring(42))]);
  const [finding, ...more] = slivers(plan);
  expect(more).toEqual([]);
  expect(finding).toMatchObject({ level: 'watch', code: 'checks/neck', where: { layer: 1, piece: '1A' } });
  expect(finding.message).toContain('a neck of 42 mm');
  expect(finding.where.atMm?.[0]).toBeCloseTo(879, 6);
  expect(slivers(piecedPlan([layerOf(1, [rectangle(0, 0, 900, 600)])], [pieceOf('1A', ring(55))]))).toEqual([]);
});

test('what was told when the ground was sliced is not told again', () => {
  const hourglass: Region = [
    new Float64Array([
      ...[0, 0, 800, 0, 800, 250, 420, 300, 800, 350],
      ...[800, 600, 0, 600, 0, 350, 390, 300, 0, 250],
    ]),
  ];
  const thin = [{ atMm: [405, 300], widthMm: 30, lengthMm: 40 }] as const;
  const layer = layerOf(1, hourglass);
  expect(slivers(piecedPlan([layer], [pieceOf('1A', hourglass)]))).toMatchObject([{ code: 'checks/neck' }]);
  expect(slivers(piecedPlan([{ ...layer, thin }], [pieceOf('1A', hourglass)]))).toEqual([]);
});
