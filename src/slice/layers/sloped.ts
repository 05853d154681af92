import { type Finding, refuse } from '../../findings.ts';
import { subtract, unite } from '../../geometry/clip.ts';
import { cos, PI, sin } from '../../geometry/exact-math.ts';
import { paceOf, stretchesOf } from '../../geometry/paces.ts';
import { areaOf, type Region, ringLength, ringsOf } from '../../geometry/ring.ts';
import { ruledVolume } from '../../geometry/ruled.ts';
import { share } from '../../geometry/share.ts';
import { match, type Round, settled, uprightAlong, type Walls, WHY, withinReach } from '../../geometry/stations.ts';
import { CLIP_UNITS, SNAP } from '../../geometry/tolerance.ts';
import { toWhole } from '../../geometry/whole.ts';
import { groundBetween } from '../../model/ground-between.ts';
import type { Landform } from '../../model/landform.ts';
import type { Layer } from '../../model/layer.ts';
import type { Walk } from '../../plugin.ts';
import { numberText } from '../../units.ts';
import { layerOutlines } from './outlines.ts';
import { findingsOf, type Seen } from './sloped/findings.ts';
import { overhangsOf } from './sloped/overhangs.ts';
import { wallsOf } from './sloped/walls.ts';

/** Stations are no further apart than this share of the thickness, nor in more than so many steps round a layer. */
const SPACING_SHARE = 1 / 3;
const MOST_STEPS = 900;
/** Length of edge over which the two paces are compared: what a caller counts between two marks (common practice, no source). */
const PACE_MM = 30;
/** Paces as the trade takes them (common practice, no source): beyond the first the wire pauses, beyond the second it cannot. */
const PAUSES = 2;
const TOO_FAST = 3;
/** Outlines that differ by less than this are one. */
const ONE_MM2 = 1;

export interface Lean {
  /** From upright. */
  readonly leanDeg: number;
  /** Length of the wire between its holders; as long as it takes when not said. */
  readonly reachMm: number | undefined;
  readonly simplifyUm: number;
}

/**
 * Give layers that are cut proud the slope of their edges. The top outline of a layer is the underside of the next one, so that
 * the bank goes on without a step; where ground lies flat at that level, what lies flat besides. A layer that overhangs
 * somewhere stays upright: its underside does not cover it.
 */
export function* sloped(
  landform: Landform,
  layers: readonly Layer[],
  lean: Lean,
  tell: (finding: Finding) => void,
): Walk<Layer[]> {
  const thickest = Math.max(...layers.map(({ thicknessMm }) => thicknessMm));
  if (lean.reachMm !== undefined && lean.reachMm < thickest) shortWire(lean.reachMm, thickest);
  const levels = Float64Array.from([...layers.map(({ bottomMm }) => bottomMm), topOf(layers[layers.length - 1])]);
  const shy = yield* share(layerOutlines(landform, levels, 'shy', lean.simplifyUm), 0, 0.4);
  const overhangs = landform.kind === 'solid' ? overhangsOf(landform, layers, lean.simplifyUm) : new Map();
  const walls = wallsOf(landform);
  const seen: Seen[] = [];
  const done: Layer[] = [];
  let foam = 0;
  for (const [k, layer] of layers.entries()) {
    const overhang = overhangs.get(layer.number);
    if (overhang) seen.push({ what: 'overhang', layer: layer.number, mm: 0, worst: 0, atMm: overhang });
    const next = overhangs.has(layer.number + 1) ? undefined : layers[k + 1];
    const stations = overhang ? null : stationsOf(layer, topOutline(shy[k], next), walls(layer), lean, seen);
    foam += stations
      ? ruledVolume(stations.slope.stations, layer.thicknessMm)
      : areaOf(layer.regions) * layer.thicknessMm;
    done.push(stations ? { ...layer, ...stations } : layer);
    yield 0.4 + (0.6 * (k + 1)) / layers.length;
  }
  const volumes = {
    foam,
    ground: groundBetween(landform, 0, levels[layers.length]),
    proud: layers.reduce((sum, { regions, thicknessMm }) => sum + areaOf(regions) * thicknessMm, 0),
    shy: layers.reduce((sum, { thicknessMm }, k) => sum + areaOf(shy[k]) * thicknessMm, 0),
  };
  for (const finding of findingsOf(seen, volumes, lean)) tell(finding);
  return done;
}

const topOf = ({ bottomMm, thicknessMm }: Layer): number => bottomMm + thicknessMm;

/** The ground's outline at a layer's top. */
function topOutline(shy: readonly Region[], next: Layer | undefined): readonly Region[] {
  if (!next) return shy;
  return areaOf(subtract(shy, next.regions)) < ONE_MM2 ? next.regions : unite([...next.regions, ...shy]);
}

/** Furthest that the two ends of the wire may stand apart in plan. */
function mostApartMm({ leanDeg, reachMm }: Lean, thicknessMm: number): number {
  const radians = (leanDeg * PI) / 180;
  const byLean = (thicknessMm * sin(radians)) / cos(radians);
  return reachMm === undefined
    ? byLean
    : Math.min(byLean, Math.sqrt(Math.max(0, reachMm * reachMm - thicknessMm * thicknessMm)));
}

function stationsOf(
  { number, regions, thicknessMm }: Layer,
  top: readonly Region[],
  walls: Walls,
  lean: Lean,
  seen: Seen[],
): Required<Pick<Layer, 'slope'>> {
  const length = ringsOf(regions).reduce((sum, ring) => sum + ringLength(ring), 0);
  const spacing = CLIP_UNITS * Math.max(thicknessMm * SPACING_SHARE, length / MOST_STEPS);
  const matched = match(whole(regions), whole(top), spacing, walls);
  for (const { x, y, length: across } of matched.bridges) {
    seen.push({ what: 'bridge', layer: number, mm: across * SNAP, worst: across, atMm: [x * SNAP, y * SNAP] });
  }
  for (const { x, y, length: along } of matched.walls) {
    seen.push({ what: 'wall', layer: number, mm: along * SNAP, worst: along, atMm: [x * SNAP, y * SNAP] });
  }
  for (const [x, y] of matched.pits) {
    seen.push({ what: 'pit', layer: number, mm: 0, worst: 0, atMm: [x * SNAP, y * SNAP] });
  }
  const most = CLIP_UNITS * mostApartMm(lean, thicknessMm);
  const stations = matched.rounds.map((round) => {
    noteLean(round, most, thicknessMm, number, seen);
    const held = withinReach(round, most);
    const fast = notePaces(held, number, seen);
    const sound = settled(uprightAlong(held, fast));
    noteUpright(sound, number, seen);
    return sound.stations.map((value) => value / CLIP_UNITS);
  });
  return { slope: { top, stations } };
}

const whole = (regions: readonly Region[]): Region[] => regions.map((region) => toWhole(region));

/** Note where the ground leans further than the wire may. */
function noteLean(round: Round, most: number, thicknessMm: number, layer: number, seen: Seen[]): void {
  const { stations: s, why } = round;
  for (let k = 0; k + 1 < why.length; k++) {
    const apart = SNAP * distance(s, 4 * k, 4 * k + 2);
    if (apart <= SNAP * most) continue;
    const mm = why[k + 1] === WHY.leans ? SNAP * distance(s, 4 * k, 4 * k + 4) : 0;
    seen.push({ what: 'lean', layer, mm, worst: apart / thicknessMm, atMm: [s[4 * k] * SNAP, s[4 * k + 1] * SNAP] });
  }
}

/** Note where one end must hurry; the stretches where it would have to too much. */
function notePaces(round: Round, layer: number, seen: Seen[]): [number, number][] {
  const fast: [number, number][] = [];
  for (const stretch of stretchesOf(round, PACE_MM * CLIP_UNITS)) {
    const longer = Math.max(stretch.foot, stretch.top) * SNAP;
    const pace = paceOf(stretch);
    if (pace <= PAUSES || longer < PACE_MM) continue;
    const what = pace > TOO_FAST ? 'too-fast' : 'pause';
    if (pace > TOO_FAST) {
      if (fast.at(-1)?.[1] === stretch.from) fast[fast.length - 1][1] = stretch.to;
      else fast.push([stretch.from, stretch.to]);
    }
    seen.push({ what, layer, mm: longer, worst: pace, atMm: [stretch.at[0] * SNAP, stretch.at[1] * SNAP] });
  }
  return fast;
}

function noteUpright({ stations: s, why }: Round, layer: number, seen: Seen[]): void {
  for (let k = 0; k < why.length; k++) {
    if (why[k] !== WHY.noTop) continue;
    const mm = SNAP * distance(s, 4 * k, (4 * k + 4) % s.length);
    seen.push({ what: 'no-top', layer, mm, worst: mm, atMm: [s[4 * k] * SNAP, s[4 * k + 1] * SNAP] });
  }
}

function distance(s: Float64Array, a: number, b: number): number {
  return Math.sqrt((s[a] - s[b]) * (s[a] - s[b]) + (s[a + 1] - s[b + 1]) * (s[a + 1] - s[b + 1]));
}

const shortWire = (reachMm: number, thicknessMm: number): never =>
  refuse(
    'slice/short-wire',
    `A wire of ${numberText(reachMm, 1)} mm does not reach through a layer of ${numberText(thicknessMm, 1)} mm.`,
    'Say the length between its holders, or use thinner boards.',
    { path: 'slice.layers.reach' },
  );
