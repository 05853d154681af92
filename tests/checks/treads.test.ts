import { describe, expect, it, test } from 'vitest';
import { treadMm, treads } from '../../src/checks/treads.ts';
import { cos, PI, sin } from '../../src/geometry/exact-math.ts';
import { slopesOf } from '../../src/model/ground-slope.ts';
import { heightfield, type Landform } from '../../src/model/landform.ts';
import { planeGround, roughGround, wedge } from '../help/grounds.ts';
import { smallPlan } from '../help/small-plan.ts';

const rise = (deg: number) => sin((deg * PI) / 180) / cos((deg * PI) / 180);

// Step geometry: tread t ÷ tan θ for t = 50 mm. Reckoned apart in double precision, from plain trigonometry.
test.each([
  [10, 283.6],
  [20, 137.4],
  [30, 86.6],
  [34, 74.1],
  [45, 50.0],
  [60, 28.9],
])('at %i° boards of 50 mm step %f mm', (deg, tread) => {
  expect(treadMm(50, rise(deg))).toBeCloseTo(tread, 1);
});

describe('slopes', () => {
  it('of a plane are one; a level field has none', () => {
    const { steepest, usual } = slopesOf(planeGround(9, 7));
    // 3 mm in 20 and 1.5 in 35: 0.156, 8.9°.
    expect(steepest).toBeCloseTo(Math.sqrt(0.15 * 0.15 + (1.5 / 35) * (1.5 / 35)), 12);
    expect(Math.abs(usual - steepest)).toBeLessThan(0.006);
    expect(slopesOf({ ...planeGround(9, 7), heightsMm: new Float64Array(63).fill(7) })).toEqual({
      steepest: 0,
      usual: 0,
    });
  });

  it('the usual one is that which half of the sloping ground exceeds: level ground does not count', () => {
    // Twenty strips level, five of 20°, four of 40°.
    const heights = [...Array(20).fill(0)];
    for (let i = 1; i <= 5; i++) heights.push(10 * i * rise(20));
    for (let i = 1; i <= 4; i++) heights.push(50 * rise(20) + 10 * i * rise(40));
    const field = heightfield(29, 2, 10, 10, Float64Array.from([...heights, ...heights]));
    const { steepest, usual } = slopesOf(field);
    expect(steepest).toBeCloseTo(rise(40), 9);
    expect(usual).toBeGreaterThan(rise(19.5));
    expect(usual).toBeLessThan(rise(20.5));
  });

  it('of a solid are those of its upper faces, walls aside', () => {
    expect(slopesOf(wedge()).steepest).toBeCloseTo(0.75, 12);
    expect(slopesOf(roughGround(3)).steepest).toBeGreaterThan(1);
  });
});

describe('advice', () => {
  const told = (landform: Landform, over: object = {}) => {
    const plan = smallPlan();
    const layers = [1, 2, 3].map((number) => ({ number, bottomMm: (number - 1) * 50, thicknessMm: 50, regions: [] }));
    return treads({ ...plan, landform, stack: { kind: 'flat', layers }, ...over } as typeof plan);
  };
  const bank = heightfield(
    9,
    2,
    100,
    100,
    Float64Array.from({ length: 18 }, (_, i) => (i % 9) * 100 * rise(14)),
  );
  const facts = { ...smallPlan().facts, thicknessesMm: [20, 25, 50, 100] };

  it('says tread, true height of a layer at a scale, and what the next thinner boards on sale make of it', () => {
    const job = { shape: [{ crop: {} }, { fit: { scale: 1000 } }, { fit: { vertical: 0.5 } }] };
    const [finding, ...others] = told(bank, { job, facts });
    expect(others).toEqual([]);
    expect(finding).toMatchObject({ level: 'note', code: 'checks/treads' });
    expect(finding.message).toContain(
      'With boards of 50 mm a layer is 25 m of the real ground (1 : 500), and the steps are',
    );
    expect(finding.message).toMatch(/steps are (19\d|20\d) mm wide on the usual slope of 14°/);
    expect(finding.message).toContain('201 mm on the steepest of 14°');
    expect(finding.fix).toContain(
      'The boards on sale of 25 mm would make the steps 50 % as high and wide, in about 6 layers instead of 3',
    );
  });

  it('without a scale says nothing of real ground; without thinner boards, what halves would make', () => {
    const [finding] = told(bank, {
      job: { shape: [{ fit: { height: 300, scale: 5 } }] },
      facts: { ...facts, thicknessesMm: [50] },
    });
    expect(finding.message).not.toContain('real');
    expect(finding.fix).toContain('Boards of 25 mm');
  });

  it('says nothing of level ground', () => {
    expect(told(heightfield(3, 3, 9, 9, new Float64Array(9).fill(80)))).toEqual([]);
  });
});
