import { leastBoards } from '../../../src/nest/bounds/best.ts';
import { type Problem, searchBoards, stripOf } from '../../../src/nest/engine/engine.ts';
import { walk } from '../../../src/walk.ts';
import { TASKS, type Timed } from './drive.ts';
import { type Instance, type Prepared, prepared } from './instance.ts';
import { type WrittenLayout, written } from './layout.ts';

/** What a run of one instance comes to. */
export interface Outcome {
  readonly name: string;
  readonly seconds: number;
  readonly evaluations: number;
  /** In per cent of the strip's area; for strips. */
  readonly density?: number;
  readonly length?: number;
  readonly boards?: number;
  /** Boards that are needed at least; or the least length of the strip, by area. */
  readonly bound: number;
  readonly layout: WrittenLayout;
}

/** Pack an instance for as long as the driver says. */
export async function runOne(instance: Instance, seed: number, areTurnsFree: boolean, driver: Timed): Promise<Outcome> {
  const made = prepared(instance, areTurnsFree);
  const { shapes, items, perUnit, area } = made;
  const effort = Number.MAX_SAFE_INTEGER;
  if (instance.stripWidth !== null) {
    const problem = { shapes, items, widthMm: instance.stripWidth * perUnit };
    const { strip, evaluations } = await walk(stripOf(problem, { seed, effort }), driver, TASKS);
    const length = strip.lengthMm / perUnit;
    return {
      name: instance.name,
      seconds: round(driver.seconds(), 100),
      evaluations,
      density: round((100 * area) / (instance.stripWidth * length), 1e4),
      length,
      bound: area / instance.stripWidth,
      layout: written(instance, made, [strip.stood]),
    };
  }
  const [width, height] = instance.board as readonly [number, number];
  const box = [0, 0, width * perUnit, height * perUnit] as const;
  const areaMm2 = box[2] * box[3];
  const kind = { container: { box, outline: null, areaMm2 }, cost: 1, grossMm2: areaMm2, count: null };
  const problem: Problem = { shapes, items, kinds: [kind], owned: [], fixed: [], gapMm: 0 };
  const bound = boundOf(instance, made, areTurnsFree);
  const { packing, evaluations } = await walk(searchBoards(problem, { seed, effort, least: bound }), driver, TASKS);
  if (packing.left.length > 0) throw new Error(`${packing.left.length} pieces fit no board of ${width} × ${height}`);
  return {
    name: instance.name,
    seconds: round(driver.seconds(), 100),
    evaluations,
    boards: packing.boards.length,
    bound,
    layout: written(
      instance,
      made,
      packing.boards.map(({ stood }) => stood),
    ),
  };
}

/** Boards that are proven to be needed, by the best of the product's bounds. */
function boundOf({ board, pieces }: Instance, { shapes, items, perUnit }: Prepared, areTurnsFree: boolean): number {
  const [widthMm, heightMm] = (board as readonly [number, number]).map((side) => side * perUnit);
  const given = items.map((shape) => {
    const { areaMm2, inradiusMm, outline } = shapes[shape];
    const { turnsDeg } = pieces[shape];
    const isHalf = turnsDeg?.every((turnDeg) => turnDeg % 180 === 0);
    const turns = areTurnsFree || !turnsDeg ? 'free' : turnsDeg.length === 1 ? 'fixed' : isHalf ? 'half' : 'quarter';
    return { shape, areaMm2, holes: [], inradiusMm, inner: outline, turns, mayMirror: false } as const;
  });
  const boards = [{ widthMm, heightMm, areaMm2: widthMm * heightMm, price: null, count: null }];
  return leastBoards({ items: given, boards, owned: [] }, QUESTIONS).boards;
}

/** Questions of outlines that the proof by pairs may ask: a second or two. */
const QUESTIONS = 4000;

const round = (v: number, per: number): number => Math.round(v * per) / per;
