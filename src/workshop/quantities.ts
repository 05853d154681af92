import type { Finding } from '../findings.ts';
import { areaOf, lineLength, regionArea, ringLength } from '../geometry/ring.ts';
import type { Facts } from '../model/facts.ts';
import { groundOf } from '../model/ground.ts';
import type { Landform } from '../model/landform.ts';
import type { LayerStack } from '../model/layer.ts';
import type { Layout, LayoutBoard } from '../model/layout.ts';
import type { Blank, Piece } from '../model/piece.ts';
import type { PinThrough } from '../model/pin.ts';
import type { Deviation, Plan, Quantities } from '../model/plan.ts';
import { withSeamPoints } from '../model/seam.ts';
import type { Unit } from '../units.ts';
import { coverOf } from './materials.ts';
import { pinCounts, pinStock, pinsThrough } from './pins.ts';

export interface Built {
  readonly name: string;
  readonly unit: Unit;
  /** The job as it is written in plan.json. */
  readonly job: Plan['job'];
  readonly facts: Facts;
  readonly landform: Landform;
  readonly stack: LayerStack;
  readonly deviation: Deviation | null;
  readonly blanks: readonly Blank[];
  readonly layout: Layout;
  readonly findings: readonly Finding[];
}

const MM2 = 1e6;
const MM3 = 1e9;

/** Cubic metres, to the cubic millimetre: what two large sums differ by in their last digits is nothing. */
const wholeMm3 = (mm3: number): number => Math.round(mm3) / MM3;

/** Count, weigh and cost what was built: the plan, with its quantities. */
export function tally(built: Built): Plan {
  const { name, unit, job, facts, landform, deviation, blanks, layout, findings } = built;
  const { boards, bound, unusedOffcuts, evaluations } = layout;
  const pieces = blanks.flatMap((blank) => [...blank.pieces]);
  const stack = { ...built.stack, layers: withSeamPoints(built.stack.layers, pieces) };
  const pins = pinsThrough(pieces, stack, landform);
  const quantities = quantitiesOf(built, pieces, pins);
  const plan = {
    name,
    unit,
    job,
    facts,
    landform,
    stack,
    deviation,
    blanks,
    pieces,
    pins,
    rests: [],
    boards,
    bound,
    unusedOffcuts,
    evaluations,
  };
  return { ...plan, quantities, findings: [...findings, ...coverUnknown(facts, quantities)] };
}

/** The board that each piece is cut from, by the piece's name. */
export const boardOfPiece = (boards: readonly LayoutBoard[]): ReadonlyMap<string, LayoutBoard> =>
  new Map(boards.flatMap((board) => board.placed.map(({ piece }) => [piece, board])));

/** Mass of each piece by the density of the board it is cut from, kilograms, by the piece's name. */
export function pieceMasses(pieces: readonly Piece[], boards: readonly LayoutBoard[]): ReadonlyMap<string, number> {
  const byName = new Map(pieces.map((piece) => [piece.name, piece]));
  const masses = new Map<string, number>();
  for (const board of boards) {
    for (const { piece: name } of board.placed) {
      const piece = byName.get(name);
      if (piece) masses.set(name, (piece.areaMm2 * piece.thicknessMm * board.densityKgM3) / MM3);
    }
  }
  return masses;
}

function quantitiesOf(
  { facts, landform, stack, deviation, layout }: Built,
  pieces: readonly Piece[],
  pins: readonly PinThrough[],
): Quantities {
  const ground = groundOf(landform);
  const bought = layout.boards.filter((board) => board.rings === undefined);
  const coverVolumeM3 = facts.cover ? (ground.surfaceAreaMm2 * facts.cover.depthMm) / MM3 : null;
  const stepFillM3 = wholeMm3(deviation?.fillMm3 ?? 0);
  const { densityKgM3 } = coverOf(facts.cover);
  return {
    layers: stack.layers.length,
    pieces: pieces.length,
    boards: layout.boards.length,
    boardsBought: bought.length,
    price: priceOf(facts, bought),
    planAreaM2: ground.planAreaMm2 / MM2,
    surfaceAreaM2: ground.surfaceAreaMm2 / MM2,
    groundVolumeM3: ground.volumeMm3 / MM3,
    foamVolumeM3: sum(pieces, (piece) => piece.areaMm2 * piece.thicknessMm) / MM3,
    foamMassKg: sum([...pieceMasses(pieces, layout.boards).values()], (mass) => mass),
    coverVolumeM3,
    coverMassKg: coverVolumeM3 === null || densityKgM3 === null ? null : (coverVolumeM3 + stepFillM3) * densityKgM3,
    coveringM2: stack.covering ? (ground.surfaceAreaMm2 + stack.covering.sidesMm2) / MM2 : null,
    carveM3: wholeMm3(deviation?.carveMm3 ?? 0),
    stepFillM3,
    largestStepMm: deviation?.largestStep?.mm ?? null,
    cutLengthM: sum(pieces, cutLengthMm) / 1000,
    pins: pins.length,
    pinLengths: pinCounts(pins),
    pinStock: pinStock(pinCounts(pins), facts.work.pinLengthsMm.value),
    glueM2: sum(pieces, ({ glue = [] }) => areaOf(glue)) / MM2,
    joints: sum(pieces, (piece) => piece.joints.length) / 2,
    offcutAreaM2: sum(layout.boards, (board) => sum(board.offcuts, (offcut) => regionArea(offcut.rings))) / MM2,
  };
}

/** Length a cutter follows to free a piece: its outlines and slits. A seam is cut once from either side. */
export const cutLengthMm = (piece: Piece): number => sum(piece.region, ringLength) + sum(piece.slits, lineLength);

function priceOf({ stock }: Facts, bought: readonly LayoutBoard[]): number | null {
  const prices = bought.map((board) => stock.boards.find((each) => each.name === board.stock)?.price ?? null);
  if (prices.includes(null)) return null;
  // In hundredths, so that ten boards at 14.10 cost 141 and not 140.99999999999997.
  return Math.round(sum(prices as number[], (price) => price) * 100) / 100;
}

function coverUnknown({ cover }: Facts, { coverMassKg }: Quantities): Finding[] {
  if (!cover || coverMassKg !== null) return [];
  const message = `The weight of the cover is not worked out: "${cover.material}" is not in the table of densities.`;
  const fix = 'Say cover.density in kg/m³.';
  return [{ level: 'note', code: 'workshop/cover-density', message, fix, where: { path: 'cover.material' } }];
}

function sum<T>(items: readonly T[], of: (item: T) => number): number {
  let total = 0;
  for (const item of items) total += of(item);
  return total;
}
