import { describe, expect, test } from 'vitest';
import { offcuts } from '../../src/document/offcuts.ts';
import { boxOf, rectangle, regionArea, reversed } from '../../src/geometry/ring.ts';
import { readOffcuts } from '../../src/model/files.ts';
import type { OutputFile, Plan } from '../../src/model/plan.ts';
import { smallPlan } from '../help/small-plan.ts';

const made = (plan: Plan): OutputFile => (offcuts.run(plan, {}, {} as never) as OutputFile[])[0];
const back = (plan: Plan) => readOffcuts(new TextEncoder().encode(made(plan).body as string), 'offcuts.json');

const kept = {
  name: 'K1',
  material: 'XPS',
  thicknessMm: 30,
  densityKgM3: 32,
  rings: [rectangle(0, 0, 700, 210)],
  from: 'Moor bank, board 4',
};

describe('offcuts.json', () => {
  test('reads back as stock: unused ones as they were, new ones with a box from (0, 0)', () => {
    const plan = smallPlan({ unusedOffcuts: [kept] });
    const [first, second, ...others] = back(plan);
    expect(first).toEqual(kept);
    expect(others).toEqual([]);
    expect(boxOf(second.rings)).toEqual([0, 0, 560, 130]);
    expect(regionArea(second.rings)).toBeCloseTo(regionArea(plan.boards[0].offcuts[0].rings), 6);
    expect({ ...second, rings: [] }).toEqual({
      name: 'K7',
      material: 'EPS 70',
      thicknessMm: 50,
      densityKgM3: 15,
      rings: [],
      from: 'Gull ledge, board 1 (EPS 70)',
    });
  });

  test('keeps holes in place, and the material of a saved offcut that was cut again', () => {
    const plan = smallPlan();
    const rings = [rectangle(40.123, 51.009, 300.5, 222.25), reversed(rectangle(80.1, 90.2, 120.3, 160.4))];
    const boards = plan.boards.map((board) => (board.rings ? { ...board, offcuts: [{ name: 'K9', rings }] } : board));
    const stock = { boards: [], offcuts: [{ ...kept, name: 'kept K3' }] };
    const found = back({ ...plan, boards, facts: { ...plan.facts, stock } })[1];
    expect(found.material).toBe('XPS');
    expect([...found.rings[0]]).toEqual([0, 0, 260.377, 0, 260.377, 171.241, 0, 171.241]);
    expect(boxOf(found.rings.slice(1))).toEqual([39.977, 39.191, 80.177, 109.391]);
  });

  test('gives every offcut a name of its own', () => {
    const plan = smallPlan({
      unusedOffcuts: [
        { ...kept, name: 'K7' },
        { ...kept, name: 'K7 2' },
      ],
    });
    expect(back(plan).map(({ name }) => name)).toEqual(['K7', 'K7 2', 'K7 3']);
  });

  test('is an empty list when nothing is left', () => {
    expect(back(smallPlan({ boards: [] }))).toEqual([]);
  });
});
