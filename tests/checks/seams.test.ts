import { expect, test } from 'vitest';
import { seams } from '../../src/checks/seams.ts';
import type { Joint, Piece } from '../../src/model/piece.ts';
import { smallPlan } from '../help/small-plan.ts';

const THICKNESS = 40;
const layers = [1, 2, 3].map((number) => ({
  number,
  bottomMm: (number - 1) * 40,
  thicknessMm: THICKNESS,
  regions: [],
}));

/** A piece that has nothing but joints. */
const jointed = (layer: number, ...lines: number[][]): Piece => {
  const joints = lines.map(
    (line, i): Joint => ({ label: `${layer}/${i}`, neighbour: 'x', line: Float64Array.from(line), matches: [] }),
  );
  return {
    name: `${layer}A`,
    layer,
    bottomMm: 0,
    thicknessMm: THICKNESS,
    region: [],
    areaMm2: 0,
    joints,
    pins: [],
    slits: [],
    placing: [],
  };
};
const tell = (...pieces: Piece[]) => seams({ ...smallPlan(), stack: { kind: 'flat', layers }, pieces });

test('a joint beside a joint of the layer below, nearer than the stagger, is told with its place', () => {
  const [finding, ...others] = tell(jointed(1, [100, 50, 100, 950]), jointed(2, [210, 300, 215, 810]));
  expect(others).toEqual([]);
  expect(finding).toMatchObject({ level: 'watch', code: 'checks/seam-over-seam', where: { layer: 2 } });
  expect(finding.message).toContain('510 mm');
  expect(finding.where.atMm?.[0]).toBeCloseTo(212.5, 6);
  expect(finding.where.atMm?.[1]).toBeCloseTo(555, 6);
});

test('one beyond the stagger, one across, and one two layers up are nothing to tell', () => {
  const below = jointed(1, [100, 50, 100, 950]);
  expect(tell(below, jointed(2, [251, 300, 256, 810]))).toEqual([]);
  expect(tell(below, jointed(2, [20, 400, 610, 440]))).toEqual([]);
  expect(tell(below, jointed(3, [100, 300, 100, 810]))).toEqual([]);
});

test('the worst of several is the place', () => {
  const below = jointed(1, [100, 50, 100, 950], [400, 20, 1330, 60]);
  const [finding] = tell(below, jointed(2, [130, 100, 130, 270], [500, 90, 1290, 110]));
  expect(finding.message).toMatch(/^2 joints run .* 790 mm/);
});
