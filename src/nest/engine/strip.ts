/**
 * Strip packing: a board of fixed width as short as can be found (the schedule: Gardeyn, Vanden Berghe, Wauters 2025, arXiv
 * 2509.13329). Exploring shortens the strip step by step and moves apart what overlaps then; when that fails the near miss is
 * kept, and the next try changes two large pieces in one of them for each other. Compressing goes on from the best by ever
 * smaller steps. Published is one phase of each, as shares of the time; here rounds of both take turns, so that the schedule
 * does not depend on when it ends.
 */
import { stream } from '../../geometry/random.ts';
import { snapped, snappedDown } from '../../geometry/snap.ts';
import type { Reply, Walk } from '../../plugin.ts';
import { addBoard, type Field, fieldOf, lift, noteAll, put } from './field.ts';
import { type Shortlist, shortlist } from './move.ts';
import { placeOn } from './place.ts';
import { inOrder, STARTS } from './preview.ts';
import type { Shape, Stood } from './problem.ts';
import { separate } from './separate.ts';
import { swapTwo } from './swap.ts';

/** What to pack into a strip. */
export interface StripProblem {
  readonly shapes: readonly Shape[];
  /** The shape of each item. */
  readonly items: readonly number[];
  /** Along y, from 0; the strip runs along x from 0. */
  readonly widthMm: number;
}

/** A strip in which nothing overlaps. */
export interface Strip {
  readonly lengthMm: number;
  readonly stood: readonly Stood[];
}

/** A strip on which things still overlap, and how badly. */
interface NearMiss extends Strip {
  readonly bad: number;
}

/** What a lane takes along from round to round. */
interface Memory {
  /** The share by which the next try is shorter. */
  readonly step: number;
  readonly pool: readonly NearMiss[];
}

/** The work of one lane in one round: plain data. */
export interface ShortenInput {
  readonly problem: StripProblem;
  /** null to begin. */
  readonly from: Strip | null;
  readonly memory: Memory;
  readonly seed: number;
  readonly round: number;
  readonly lane: number;
}

export interface Shortened {
  readonly strip: Strip;
  readonly evaluations: number;
  readonly memory: Memory;
}

const LANES = 2;
/** Positions that a lane looks at in a round, about; the first rounds are shorter. */
const QUOTA = 1_500_000;
const FIRST_QUOTA = 400_000;
/** A try goes on beyond the round's end, but no further than this: cut short it would count as failed, and steps get short too soon (swim, 20 s: 72.9 %). */
const MOST_PER_TRY = 3_000_000;
/** Of so many rounds the last compresses; the first rounds all explore. */
const PERIOD = 4;
const EXPLORE_FIRST = 8;
/** Steps of exploring: where one fails, the next is tried. */
const FIRST_STEP = 0.01;
const SHORTER_STEP = 0.4;
const LAST_STEP = 0.001;
/** Steps of compressing, from the first to the last. */
const COMPRESS_FIRST = 0.0005;
const COMPRESS_LAST = 0.00001;
const EXPLORE = { stall: 100, strikes: 2 };
const COMPRESS = { stall: 50, strikes: 3 };
const POOL = 10;

/** The shortest strip found: rounds of lanes (task `shorten`) until the effort is spent or the driver says enough. */
export function* stripOf(
  problem: StripProblem,
  { seed, effort }: { readonly seed: number; readonly effort: number },
): Walk<Omit<Shortened, 'memory'>> {
  const fresh: Memory = { step: FIRST_STEP, pool: [] };
  let best: Strip | null = null;
  let memories: Memory[] = Array.from({ length: LANES }, () => fresh);
  let evaluations = 0;
  for (let round = 0; ; round++) {
    const lanes = Array.from({ length: best === null ? STARTS.length : LANES }, (_, lane) => {
      const input: ShortenInput = { problem, from: best, memory: memories[lane % LANES], seed, round, lane };
      return { task: 'shorten', input };
    });
    const spent = Math.min(1, evaluations / effort);
    const reply: Reply = yield { lanes, upTo: (1 + spent) / 2 };
    const results = reply.results as readonly Shortened[];
    for (const result of results) {
      evaluations += result.evaluations;
      if (best === null || result.strip.lengthMm < best.lengthMm) best = result.strip;
    }
    const { lengthMm } = best as Strip;
    memories = results
      .slice(0, LANES)
      .map(({ strip, memory }) => (strip.lengthMm === lengthMm ? memory : { ...memory, pool: [] }));
    if (evaluations >= effort || reply.say === 'enough' || problem.items.length === 0) break;
  }
  return { strip: best as Strip, evaluations };
}

/** One lane of one round. The result is never longer than `from`. */
export function* shorten(input: ShortenInput): Generator<number, Shortened> {
  const { from, round } = input;
  if (from === null) return begin(input);
  const isCompressing = round > EXPLORE_FIRST && round % PERIOD === 0;
  return yield* isCompressing ? compress(input, from) : explore(input, from);
}

function begin({ problem, seed, lane, memory }: ShortenInput): Shortened {
  const { shapes, items, widthMm } = problem;
  const f = fieldOf(shapes, items);
  const random = stream(seed, 'strip', 0, lane);
  const long = items.reduce((sum, shape) => sum + shapes[shape].diameterMm, 1);
  addBoard(f, 0, { box: [0, 0, long, widthMm], outline: null, areaMm2: long * widthMm });
  const { rule } = STARTS[lane];
  for (const item of inOrder(f, lane)) {
    if (!placeOn(f, item, 0, { across: 1, up: Math.min(0.5, rule.up) }, random)) {
      throw new Error('a shape is wider than the strip');
    }
  }
  return { strip: { lengthMm: usedOf(f), stood: stoodOf(f) }, evaluations: f.evaluations, memory };
}

function* explore(input: ShortenInput, from: Strip): Generator<number, Shortened> {
  const { problem, seed, round, lane } = input;
  const random = stream(seed, 'strip', round, lane);
  const quota = quotaOf(round);
  const list = shortlist();
  let { step } = input.memory;
  let pool = [...input.memory.pool];
  let best = from;
  const f = fieldFrom(problem, best);
  while (f.evaluations < quota) {
    const lengthMm = snapped(best.lengthMm * (1 - step));
    const missed = pool.length > 0 ? pool[Math.floor(random() * random() * pool.length)] : null;
    stand(f, missed ?? best);
    if (missed !== null) swapTwo(f, random);
    cutTo(f, lengthMm, Infinity);
    const bad = yield* counted(separate(f, random, list, EXPLORE, MOST_PER_TRY), f, quota);
    if (bad === 0) {
      best = { lengthMm: usedOf(f), stood: stoodOf(f) };
      pool = [];
    } else if (step > LAST_STEP) {
      step = Math.max(LAST_STEP, step * SHORTER_STEP);
      pool = [];
    } else {
      pool = [...pool, { lengthMm, stood: stoodOf(f), bad }].sort((a, b) => a.bad - b.bad).slice(0, POOL);
    }
  }
  return { strip: best, evaluations: f.evaluations, memory: { step, pool } };
}

function* compress(input: ShortenInput, from: Strip): Generator<number, Shortened> {
  const { problem, seed, round, lane, memory } = input;
  const random = stream(seed, 'strip', round, lane);
  const quota = quotaOf(round);
  const list: Shortlist = shortlist();
  let best = from;
  const f = fieldFrom(problem, best);
  while (f.evaluations < quota) {
    const share = f.evaluations / quota;
    const step = COMPRESS_FIRST + (COMPRESS_LAST - COMPRESS_FIRST) * share;
    stand(f, best);
    cutTo(f, snapped(best.lengthMm * (1 - step)), random() * best.lengthMm);
    const bad = yield* counted(separate(f, random, list, COMPRESS, quota - f.evaluations), f, quota);
    if (bad === 0) best = { lengthMm: usedOf(f), stood: stoodOf(f) };
  }
  return { strip: best, evaluations: f.evaluations, memory: best === from ? memory : { ...memory, pool: [] } };
}

const quotaOf = (round: number): number => Math.min(QUOTA, FIRST_QUOTA * round);

/** The same work, telling how much of the quota is spent. */
function* counted<T>(work: Generator<number, T>, f: Field, quota: number): Generator<number, T> {
  for (let step = work.next(); ; step = work.next()) {
    if (step.done) return step.value;
    yield Math.min(1, f.evaluations / quota);
  }
}

function fieldFrom({ shapes, items, widthMm }: StripProblem, { lengthMm }: Strip): Field {
  const f = fieldOf(shapes, items);
  addBoard(f, 0, { box: [0, 0, lengthMm, widthMm], outline: null, areaMm2: lengthMm * widthMm });
  return f;
}

/** Stand all as on a strip; nothing is noted yet. */
function stand(f: Field, { lengthMm, stood }: Strip): void {
  f.boards[0].maxX = lengthMm;
  for (const { item } of stood) if (f.on[item] >= 0) lift(f, item);
  for (const { item, pose, x, y } of stood) put(f, item, 0, pose, x, y);
}

/** Make the strip so long: what lies beyond a cut moves by what it loses, what still sticks out as far as it must. */
function cutTo(f: Field, lengthMm: number, cutMm: number): void {
  const by = f.boards[0].maxX - lengthMm;
  f.boards[0].maxX = lengthMm;
  for (let item = 0; item < f.items.length; item++) {
    const p = f.postures[item];
    const x = f.x[item];
    const y = f.y[item];
    const isBeyond = x + (p.left + p.right) / 2 > cutMm;
    const most = snappedDown(lengthMm - p.right);
    const to = Math.max(-p.left, Math.min(most, isBeyond ? snapped(x - by) : x));
    if (to === x) continue;
    lift(f, item);
    put(f, item, 0, p.pose, to, y);
  }
  noteAll(f);
}

const usedOf = (f: Field): number => Math.max(0, ...f.items.map((_, item) => f.x[item] + f.postures[item].right));

const stoodOf = (f: Field): Stood[] =>
  f.items.map((_, item) => ({ item, pose: f.postures[item].pose, x: f.x[item], y: f.y[item] }));
