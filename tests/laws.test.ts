/**
 * What must always hold (DEVELOPERS.md), on every sample and on random landforms. `npm run laws` runs 500 of them. The
 * seed is in the title: `lynchet` on tests/help/random-job.ts (or random-ribs.ts) of that seed repeats it.
 */
import { describe, expect, test } from 'vitest';
import { layout as layoutFaults } from '../src/checks/layout.ts';
import { intersect, offset, regionsWherePositive, subtract, unite } from '../src/geometry/clip.ts';
import {
  areaOf,
  distanceToRings,
  placed as put,
  type Region,
  ringArea,
  ringLength,
  ringsOf,
} from '../src/geometry/ring.ts';
import { ringAt } from '../src/geometry/ruled.ts';
import { CannotMake, type Plan, run } from '../src/index.ts';
import { groundOf } from '../src/model/ground.ts';
import type { Heightfield } from '../src/model/landform.ts';
import { LETTERS } from '../src/model/piece.ts';
import { zoneRegions } from '../src/model/zone.ts';
import { type LoadedJob, loadSample, sampleNames } from './help/jobs.ts';
import { holdOnBoards, holdPins, holdSlits, holdWidths } from './help/piece-laws.ts';
import { randomJob } from './help/random-job.ts';
import { randomRibs } from './help/random-ribs.ts';
import { unreachedMm2 } from './help/reach.ts';
import { holdRibs } from './help/rib-laws.ts';
import { crossingOf } from './help/wire-laws.ts';

const RANDOM = Number(process.env.LAWS ?? 60);
/** Area that snapping to a thousandth may move, per millimetre of outline. */
const SNAP_AREA = 0.001;
/** What checks tell of a plan that was made wrongly, whatever the ground. */
const BROKEN = ['not-closed', 'left-out', 'label', 'neighbour', 'joint-line', 'laying', 'pin-astray', 'lap-short'].map(
  (what) => `checks/${what}`,
);

/** The plan, or null when the boards are too small for the job, which is told and no fault of the laws. */
async function planOf({ job, files }: LoadedJob): Promise<Plan | null> {
  try {
    return (await run({ ...job, documents: [] }, files)).plan;
  } catch (error) {
    if (error instanceof CannotMake) return null;
    throw error;
  }
}

/** Every point of some regions, as text. */
const pointsOf = (regions: readonly Region[]) =>
  ringsOf(regions).flatMap((ring) =>
    Array.from({ length: ring.length / 2 }, (_, i) => `${ring[2 * i]},${ring[2 * i + 1]}`),
  );

const length = (regions: readonly Region[]) =>
  regions.flatMap((region) => [...region]).reduce((sum, ring) => sum + ring.length, 0) * 10;

interface Hollow {
  readonly lap?: number;
  readonly spacing?: number;
  readonly prop?: number;
}

/** What a lid spans: between props as the job says them, or 12 thicknesses and 300 mm at least (src/split/hollow.ts). */
const spannedMm = ({ spacing, prop }: Hollow, thicknessMm: number): number =>
  spacing === undefined
    ? Math.max(300, 12 * thicknessMm)
    : (spacing - (prop ?? Math.max(100, 3 * thicknessMm))) * Math.SQRT2;

function hold(plan: Plan): void {
  const { stack, landform, pieces, boards, facts, quantities } = plan;
  if (stack.kind === 'upright') {
    // Ribs have laws of their own, and lie on boards like everything else.
    const depthMm = stack.covering?.thicknessMm ?? 0;
    holdRibs({ layers: stack.layers, pieces, ground: landform as Heightfield, depthMm });
    holdOnBoards(plan);
    expect(layoutFaults(plan)).toEqual([]);
    return;
  }
  // A rock is larger than its form by what is carved off.
  const cut = (plan.job.slice as { layers?: { cut: string } }).layers?.cut ?? 'proud';

  // Slice: a heightfield's volume lies between its shy and its proud stack.
  const volume = groundOf(landform).volumeMm3;
  const foam = stack.layers.reduce((sum, layer) => sum + areaOf(layer.regions) * layer.thicknessMm, 0);
  if (cut === 'proud' || cut === 'sloped') expect(foam).toBeGreaterThanOrEqual(volume * (1 - 1e-6));
  if (cut === 'shy') expect(foam).toBeLessThanOrEqual(volume * (1 + 1e-6));

  for (const [i, layer] of stack.layers.entries()) {
    expect(layer.number).toBe(i + 1);
    expect(layer.regions.length).toBeGreaterThan(0);
    // A leaning wire goes round each ring, its lines never cross, and the next layer lies on what it leaves.
    if (cut === 'sloped' && layer.slope) {
      const { stations } = layer.slope;
      expect(stations.length).toBe(ringsOf(layer.regions).length);
      expect(crossingOf(stations.map((each) => each.map((value) => Math.round(value * 1000))))).toBeNull();
      const top = regionsWherePositive(stations.map((each) => ringAt(each, 1)));
      expect(areaOf(subtract(stack.layers[i + 1]?.regions ?? [], top))).toBeLessThan(SNAP_AREA * length(layer.regions));
    }
    for (const [outer, ...holes] of layer.regions) {
      expect(ringArea(outer)).toBeGreaterThan(0);
      for (const hole of holes) expect(ringArea(hole)).toBeLessThan(0);
    }
    // A heightfield's layers never stick out over the one beneath.
    if (i > 0 && landform.kind === 'heightfield') {
      expect(areaOf(subtract(layer.regions, stack.layers[i - 1].regions))).toBeLessThan(
        SNAP_AREA * length(layer.regions),
      );
    }

    // Split: the pieces of a layer do not overlap, lie in it, and leave out only voids under the next layer.
    const mine = pieces.filter((piece) => piece.layer === layer.number);
    const all = unite(mine.map((piece) => piece.region));
    const sum = mine.reduce((area, piece) => area + piece.areaMm2, 0);
    expect(Math.abs(areaOf(all) - sum)).toBeLessThan(SNAP_AREA * length(mine.map(({ region }) => region)));
    // No foam where a deck by others stands.
    const decks = zoneRegions(facts.zones, 'people');
    const round = (regions: readonly Region[]) => (decks.length > 0 ? subtract(regions, decks) : regions);
    expect(areaOf(subtract(all, round(layer.regions)))).toBeLessThan(SNAP_AREA * length(layer.regions));
    const left = subtract(round(layer.regions), all);
    const next = round(stack.layers[i + 1]?.regions ?? []);
    const split = plan.job.split as { hollow?: Hollow; rings?: { lap: number }; rock?: object };
    // A void under rings is what comes out of their middle, a lap inside the next layer's outline.
    if (split.rings) expect(areaOf(subtract(left, offset(next, -split.rings.lap + 0.05)))).toBeLessThan(1);
    // A pocket for ballast is covered.
    else if (split.rock) expect(areaOf(subtract(left, next))).toBeLessThan(SNAP_AREA * length(left) + 1e-6);
    else if (!split.hollow) expect(areaOf(left)).toBeLessThan(SNAP_AREA * length(layer.regions));
    else if (areaOf(left) > 1) {
      const room = offset(next, -(split.hollow.lap ?? 40) + 0.01);
      expect(areaOf(subtract(left, room))).toBeLessThan(SNAP_AREA * length(layer.regions));
      expect(areaOf(intersect(left, zoneRegions(facts.zones, 'solid')))).toBeLessThan(SNAP_AREA * length(left));
      // No point of the next layer above a void is farther from foam than half of what it spans.
      const lid = unite(pieces.filter((piece) => piece.layer === layer.number + 1).map((piece) => piece.region));
      const reach = spannedMm(split.hollow, stack.layers[i + 1]?.thicknessMm) / 2;
      expect(unreachedMm2(lid, all, left, reach + 0.5)).toBeLessThan(SNAP_AREA * length(left) + 1);
    }
    // Where a seam meets a layer's ring, the ring holds that point too.
    const known = new Set(pointsOf(layer.regions));
    const onRim = (x: number, y: number) => distanceToRings(x, y, ringsOf(layer.regions)) < 0.001;
    for (const piece of mine) {
      for (const { line } of piece.joints) {
        for (const k of [0, line.length - 2]) {
          if (onRim(line[k], line[k + 1])) expect(known).toContain(`${line[k]},${line[k + 1]}`);
        }
      }
      expect(piece.thicknessMm).toBe(layer.thicknessMm);
      expect(piece.name).toMatch(new RegExp(`^${layer.number}[${LETTERS}]+$`));
    }
  }
  expect(new Set(pieces.map(({ name }) => name)).size).toBe(pieces.length);

  // Joints: each label on two pieces, which share the line's points exactly and name each other.
  const joints = pieces.flatMap((piece) => piece.joints.map((joint) => ({ piece, joint })));
  for (const { piece, joint } of joints) {
    const other = joints.filter((each) => each.joint.label === joint.label && each.piece !== piece);
    expect(other.map((each) => each.piece.name)).toEqual([joint.neighbour]);
    expect(other[0].joint.neighbour).toBe(piece.name);
    for (const side of [piece, other[0].piece]) {
      const points = new Set(pointsOf([side.region]));
      for (let k = 0; k < joint.line.length; k += 2) expect(points).toContain(`${joint.line[k]},${joint.line[k + 1]}`);
    }
  }

  holdPins(plan);
  holdSlits(plan);
  holdWidths(plan);

  // No check finds a piece too much, too little, astray or out of its turn.
  expect(plan.findings.filter(({ code }) => BROKEN.includes(code))).toEqual([]);

  // Nest: by the project's verifier, and again by clipping: inside the board, each once, none closer than the gap.
  holdOnBoards(plan);
  expect(layoutFaults(plan)).toEqual([]);
  expect(boards.flatMap((board) => board.placed.map(({ piece }) => piece)).sort()).toEqual(
    pieces.map(({ name }) => name).sort(),
  );
  const byName = new Map(pieces.map((piece) => [piece.name, piece]));
  for (const board of boards) {
    const blanks = [...new Set(board.placed.map(({ blank }) => blank))];
    const grown = blanks.map((blank) => {
      const standing = board.placed.filter((place) => place.blank === blank);
      const regions = standing.map((place) => byName.get(place.piece)?.region.map((ring) => put(ring, place)) ?? []);
      // Pieces of one blank touch along cuts that they share; they do not overlap. Turned, their corners lie off the grid.
      const rim = ringsOf(regions).reduce((sum, ring) => sum + ringLength(ring), 0);
      expect(Math.abs(areaOf(unite(regions)) - areaOf(regions))).toBeLessThan(SNAP_AREA * rim);
      return offset(unite(regions), facts.gapMm / 2 - 0.05);
    });
    for (let a = 0; a < grown.length; a++) {
      for (let b = a + 1; b < grown.length; b++) expect(areaOf(intersect(grown[a], grown[b]))).toBe(0);
    }
  }
  expect(quantities.boardsBought).toBeGreaterThanOrEqual(plan.bound.boards);
}

describe('every sample', () => {
  test.each(sampleNames)('%s', async (name) => {
    const plan = await planOf(loadSample(name));
    expect(plan).not.toBeNull();
    hold(plan as Plan);
  });
});

describe('random landforms', () => {
  let made = 0;
  test.each(Array.from({ length: RANDOM }, (_, i) => i + 1))('seed %i', async (seed) => {
    const plan = await planOf(randomJob(seed));
    if (!plan) return;
    made++;
    hold(plan);
  });
  test('most of them can be made', () => expect(made).toBeGreaterThan(RANDOM * 0.8));
});

describe('random ribs', () => {
  let made = 0;
  const count = Math.ceil(RANDOM / 5);
  test.each(Array.from({ length: count }, (_, i) => i + 1))('seed %i', async (seed) => {
    const plan = await planOf(randomRibs(seed));
    if (!plan) return;
    made++;
    hold(plan);
  });
  test('most of them can be made', () => expect(made).toBeGreaterThan(count * 0.8));
});

describe('the same bytes', () => {
  test('a job run twice gives the same files, and a changed price changes no piece', async () => {
    const first = await run(loadSample(sampleNames[0]).job, loadSample(sampleNames[0]).files);
    const second = await run(loadSample(sampleNames[0]).job, loadSample(sampleNames[0]).files);
    expect(second.files).toEqual(first.files);
  });
});
