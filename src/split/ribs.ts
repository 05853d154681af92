import { refuse } from '../findings.ts';
import { boxOf, type Region, regionArea } from '../geometry/ring.ts';
import type { Layer } from '../model/layer.ts';
import { type Blank, letters, type Piece } from '../model/piece.ts';
import { isWestEast } from '../model/rib.ts';
import { definePlugin, type Walk } from '../plugin.ts';
import { numberText } from '../units.ts';
import { jointsOf } from './pieces/joints.ts';
import { roomFor } from './pieces/room.ts';
import { type Lapped, lapped } from './ribs/laps.ts';

/** Length of a lap where the job says none, in thicknesses: glued over that the foam beside it breaks first (common practice, no source). */
const LAP = 3;

/**
 * Ribs in pieces that fit a board: those longer than one are joined with a lap half as high as the rib, which keeps both sides in
 * the rib's own plane. Laps lie between crossings, clear of slots; not in the bay in which the rib beside has one, and where the
 * rib is tall, if that costs no piece. A rib higher than a board is wide has its pieces stood across the board, shorter than that;
 * where bays leave no place for so many laps it is refused, for a seam along a rib would lie where it bends most. A piece that the
 * layout wishes otherwise is lapped once more within itself, where that can be.
 */
export const ribs = definePlugin({
  api: 1,
  stage: 'split',
  name: 'ribs',
  summary: 'joins ribs longer than a board with laps between their slots',
  options: ({ z, length }) =>
    z.strictObject({
      lap: length({ above: 0 })
        .optional()
        .describe('length of a lap; not said, three thicknesses or as much as there is room for'),
    }),
  *run({ stack, wishes }, { lap }, { facts, tell }): Walk<readonly Blank[]> {
    const { layers } = stack;
    if (stack.kind !== 'upright') lying();
    const blanks: Blank[] = [];
    const long: string[] = [];
    const isWished = new Set(wishes.map(({ piece }) => piece));
    let taken: ReadonlyMap<number, number> = new Map();
    for (const [i, layer] of layers.entries()) {
      const { rib, thicknessMm, number } = layer;
      const before = layers[i - 1]?.rib;
      if (!rib) return noRib(number);
      if (before && isWestEast(before.frame) !== isWestEast(rib.frame)) taken = new Map();
      const wanted = {
        room: roomFor(layer, facts),
        lapMm: lap ?? LAP * thicknessMm,
        mayShrink: lap === undefined,
        taken,
        apart: [],
      };
      let made = layer.regions.map((region) => lapped(region, layer, rib, wanted) ?? whole(region));
      const apart = inOrder(made).filter((_, k) => isWished.has(`${number}${letters(k)}`));
      if (apart.length > 0) {
        const again = { ...wanted, apart: apart.map(spanOf) };
        made = layer.regions.map((region, k) => lapped(region, layer, rib, again) ?? made[k]);
      }
      taken = new Map(made.flatMap(({ laps }) => laps.map(({ from, fromMm }) => [from, fromMm] as const)));
      const regions = inOrder(made);
      if (regions.length > layer.regions.length) long.push(rib.gridLine);
      const names = regions.map((_, k) => `${number}${letters(k)}`);
      const joints = jointsOf(regions, names, number, { side: 'south', word: '' }, Infinity);
      for (const [k, region] of regions.entries()) blanks.push(blankOf(layer, names[k], region, joints[k]));
      yield (i + 1) / layers.length;
    }
    if (long.length > 0) tell(laps(long));
    return blanks;
  },
});

const whole = (region: Region): Lapped => ({ regions: [region], laps: [] });

/** The pieces of all stretches of a rib, from left to right. */
const inOrder = (made: readonly Lapped[]): Region[] =>
  made.flatMap(({ regions }) => [...regions]).sort((a, b) => boxOf(a)[0] - boxOf(b)[0]);

const spanOf = (region: Region): [number, number] => {
  const [from, , to] = boxOf(region);
  return [from, to];
};

function blankOf(
  { number, bottomMm, thicknessMm }: Layer,
  name: string,
  region: Piece['region'],
  joints: Piece['joints'],
): Blank {
  const piece: Piece = {
    name,
    layer: number,
    bottomMm,
    thicknessMm,
    region,
    areaMm2: regionArea(region),
    joints,
    pins: [],
    slits: [],
    placing: [],
  };
  return { pieces: [piece], sharedCuts: [] };
}

const laps = (lines: readonly string[]) => ({
  level: 'note' as const,
  code: 'split/laps',
  message: `${lines.length === 1 ? 'A rib is' : `${numberText(lines.length)} ribs are`} longer than a board and joined with laps: ${lines.slice(0, 6).join(', ')}${lines.length > 6 ? ' …' : ''}.`,
  fix: 'Glue them on a flat floor, each lap with two pins straight down through it where it is high enough and a scrap of board glued across it on one side, clear of the slots; stand them up when the glue has set.',
  where: { path: 'split.ribs' },
});

const lying = (): never =>
  refuse(
    'split/lying',
    'This splitter joins ribs that stand; the stack is of layers that lie.',
    'Say split: hollow or split: solid for layers, or slice: ribs for ribs.',
    { path: 'split' },
  );

const noRib = (layer: number): never =>
  refuse('split/no-rib', 'The slicer does not say where this rib stands.', 'Use slice: ribs.', { layer });
