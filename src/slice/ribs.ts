import { type Ring, rectangle, ringLength, ringsOf } from '../geometry/ring.ts';
import { oneThickness } from '../model/board-thickness.ts';
import { groundOf, groundRange } from '../model/ground.ts';
import { extent, type Landform } from '../model/landform.ts';
import type { LayerStack } from '../model/layer.ts';
import { definePlugin, type Walk } from '../plugin.ts';
import { builtOn } from './ribs/built-on.ts';
import { boardsOver } from './ribs/covering.ts';
import { type Bare, crossed } from './ribs/crossings.ts';
import { gridOver } from './ribs/grid.ts';
import { cutOut } from './ribs/outlines.ts';
import { profiles } from './ribs/profiles.ts';
import { crossFallMm, type Standing, stretchesUnder } from './ribs/stretches.ts';
import * as told from './ribs/told.ts';

/** From rib to rib where the job does not say: what thin board bridges without a sag (common practice, no source). */
const SPACING_MM = 500;
/** More than rough foam takes to slide by its neighbour; each slot is wider by this (common practice, no source). */
const CLEARANCE_MM = 1;
/** A lower rib leaves less than half of this over a slot, and breaks in the hand (common practice, no source). */
const LEAST_MM = 40;
/** Foam over or under a slot, as a share of the least height. */
const WEB_SHARE = 0.25;
/** The outermost ribs stand so many thicknesses inside the edge of the ground. */
const EDGE = 2;
/** Foam beside a slot, in thicknesses; and from slot to slot. */
const BESIDE = 1;
const BETWEEN = 2;
/** Air under the ground that is told of: a hand's width square. */
const AIR_MM2 = 10_000;

const BOARDS = {
  path: 'slice.ribs.thickness',
  each: 'rib',
  fix: 'Say which the ribs are cut from: slice: { ribs: { thickness: … } }.',
};

/**
 * An egg-crate framework for large gentle ground: ribs that stand upright along two sets of lines, half-lapped into one
 * another. The middle of a rib's upper edge lies under the ground, straight down by the covering's thickness, exactly as a
 * heightfield's four triangles a cell give it, or as a solid is cut. Slots are as wide as a board measures and the clearance;
 * the two of a crossing meet half way up.
 */
export const ribs = definePlugin({
  api: 1,
  stage: 'slice',
  name: 'ribs',
  summary: 'stands upright ribs in two directions under large gentle ground, slotted into one another',
  options: ({ z, length, size }) =>
    z.strictObject({
      spacing: z
        .union([length({ above: 0 }), size()])
        .prefault(`${SPACING_MM} mm`)
        .describe('furthest from the middle of a rib to the next: one length, or [west to east, south to north]'),
      thickness: length({ above: 0 })
        .optional()
        .describe('of the boards that ribs are cut from; must be said when there are several'),
      covering: z
        .strictObject({
          material: z.string().min(1).max(60).default('scrim').describe('scrim, cloth, thin board …'),
          thickness: length({ least: 0 }).prefault('0 mm').describe('taken off the ground, straight down'),
          size: size().optional().describe('of its boards, which are then counted with their joints on ribs'),
        })
        .prefault({})
        .describe('what is laid over the ribs and carries the cover'),
      clearance: length({ least: 0 })
        .prefault(`${CLEARANCE_MM} mm`)
        .describe('how much wider a slot is than the board that goes through it'),
      least: length({ least: 10 }).prefault(`${LEAST_MM} mm`).describe('a rib ends where it would be lower'),
      edge: length({ above: 0 })
        .optional()
        .describe('from the edge of the ground to the middle of the outermost ribs; not said, two thicknesses'),
    }),
  *run(landform, options, { facts, tell }): Walk<LayerStack> {
    const { covering, clearance, least } = options;
    const { lowMm, highMm } = groundRange(landform);
    if (lowMm < 0) told.belowZero(lowMm);
    const thicknessMm = oneThickness(options.thickness, facts, BOARDS);
    const slotMm = thicknessMm + clearance;
    const besideMm = BESIDE * thicknessMm;
    const leastEdgeMm = slotMm / 2 + besideMm;
    const { box } = extent(landform);
    const keep = builtOn(landform, facts.zones);
    const grid = gridOver(box, {
      spacingMm: typeof options.spacing === 'number' ? [options.spacing, options.spacing] : options.spacing,
      edgeMm: options.edge ?? Math.max(EDGE * thicknessMm, leastEdgeMm),
      leastEdgeMm,
      leastApartMm: slotMm + BETWEEN * thicknessMm,
    });

    const ground = yield* profiles(landform, grid.lines, keep);
    const standing = ground.map(({ lines }) => stretchesUnder(lines, covering.thickness, least, besideMm));
    const bare = grid.lines.map(({ atMm }, i): Bare => ({ atMm, stretches: standing[i].stretches }));
    const across = grid.lines.filter(({ along }) => along === 'x').length;
    const slots = { widthMm: slotMm, besideMm, webMm: WEB_SHARE * least };
    const { firsts, seconds, found, cut, loose } = crossed(bare.slice(0, across), bare.slice(across), slots);
    const layers = cutOut(grid.lines, [...firsts, ...seconds], across, found, { thicknessMm, slotMm });
    if (layers.length === 0) told.nothing(highMm, least);

    const fallMm = found.reduce((most, pass) => Math.max(most, crossFallMm(firsts, seconds, pass, thicknessMm)), 0);
    const count = layers.filter(({ rib }) => rib?.frame.along[0] === 1).length;
    tell(told.gridTold([count, layers.length - count], grid.apartMm, fallMm));
    const names = (lines: readonly number[]) => lines.map((line) => grid.lines[line].name);
    const low = grid.lines.map((_, line) => line).filter((line) => standing[line].isCut);
    if (low.length > 0) tell(told.lowGround(least, names(low)));
    if (cut > 0) tell(told.endsAgainst(cut));
    if (loose.length > 0) tell(told.loose(names(loose)));
    const over = facts.zones.filter(({ kind }) => kind === 'solid' || kind === 'lean');
    if (over.length > 0) tell(told.zonesOver(over));
    const airy = ground.reduce((most, { airMm2 }, i) => (airMm2 > ground[most].airMm2 ? i : most), 0);
    if (ground[airy].airMm2 > AIR_MM2) tell(told.overhang(grid.lines[airy].name, ground[airy].airMm2));
    const boards = covering.size && boardsOver(grid, box, covering.size, steepness(landform));
    if (boards === null) tell(told.coveringShort(covering.size ?? [0, 0], grid.apartMm));
    return {
      kind: 'upright',
      layers,
      covering: {
        ...(covering.size && boards ? { boards: { sizeMm: covering.size, count: boards } } : {}),
        material: covering.material,
        thicknessMm: covering.thickness,
        sidesMm2: sidesMm2(standing, ringsOf(keep ?? landform.footprint ?? [[rectangle(...box)]])),
      },
    };
  },
});

/** The ground's surface for each unit of its plan. */
function steepness(landform: Landform): number {
  const { surfaceAreaMm2, planAreaMm2 } = groundOf(landform);
  return surfaceAreaMm2 / planAreaMm2;
}

/** About what hangs down round the ground: its edge's length by the mean height at the ends of the grid's lines. */
function sidesMm2(standing: readonly Standing[], edge: readonly Ring[]): number {
  const endsMm = standing.flatMap(({ endsMm }) => endsMm);
  const mean = endsMm.reduce((sum, end) => sum + Math.max(0, end), 0) / Math.max(1, endsMm.length);
  return mean * edge.reduce((sum, ring) => sum + ringLength(ring), 0);
}
