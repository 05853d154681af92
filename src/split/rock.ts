import { type Finding, refuse } from '../findings.ts';
import { intersect } from '../geometry/clip.ts';
import type { Region } from '../geometry/ring.ts';
import type { Layer } from '../model/layer.ts';
import type { Blank, Piece } from '../model/piece.ts';
import type { StandingRock } from '../model/rock.ts';
import { type Context, definePlugin, type Walk } from '../plugin.ts';
import { numberText } from '../units.ts';
import { partOn } from './pieces/glue.ts';
import { piecesOf } from './pieces/pieces.ts';
import { seamOptions } from './pieces/seam-options.ts';
import { glueWithin, stationsOf } from './rock/stations.ts';
import { SAND_KG_M3, type Tipping, tipping } from './rock/tipping.ts';
import { both, hollows, pocket } from './rock/voids.ts';

/** Somebody leans on it, or pushes a trolley against it (common practice, no source). */
const PUSH_N = 150;
/** Tilted by less it falls: a door mat under one side does it (common practice, no source). */
const LEAST_TILT_DEG = 10;
const STATIONS_MM = 150;

/**
 * A rock in pieces: solid unless it is asked for, with the carved surface's line and depths on each piece, glue kept back from what is
 * carved, and a pocket for ballast where it would tip. For looking at: nobody climbs on foam.
 */
export const rock = definePlugin({
  api: 1,
  stage: 'split',
  name: 'rock',
  summary: 'keeps a rock solid, marks what is carved off, leaves a pocket for ballast where it would tip',
  options: ({ z, length }) =>
    z.strictObject({
      wall: length({ least: 40 })
        .optional()
        .describe('foam that stays round a void, on all sides; not said, the rock has no voids'),
      push: z.number().min(0).max(2000).default(PUSH_N).describe('push at its top that it stands up to, in newtons'),
      stations: length({ least: 30 })
        .prefault(`${STATIONS_MM} mm`)
        .describe('from one carving depth to the next along the edge'),
      seams: seamOptions({ z, length }),
    }),
  *run(input, { wall, push, stations, seams }, context): Walk<readonly Blank[]> {
    const { layers, rock } = input.stack;
    if (!rock) return noRock();
    const { facts, tell } = context;
    const tip = tipping(rock, densityOf(layers[0], facts), push);
    const none = layers.map((): Region[] => []);
    const hollow = wall === undefined ? none : hollows(layers, wall);
    const held = tip.ballastKg > 0 && Number.isFinite(tip.ballastKg) ? ballast(layers, rock, tip) : null;
    const voids = held ? both(hollow, held.voids) : hollow;
    const numbers = new Map(layers.map(({ number }, k) => [number, voids[k]]));
    const blanks = yield* piecesOf(
      input,
      context,
      (_, { number }) => ({ voids: numbers.get(number) ?? [], kept: undefined }),
      seams,
    );
    tell(standsTold(rock, tip, push));
    tell(tipTold(tip, held, push));
    tell(carvingTold(rock));
    const glue = layers.map(({ finish }) => (finish ? glueWithin(finish.top) : []));
    return blanks.map((blank) => ({
      ...blank,
      pieces: blank.pieces.map((piece) => marked(piece, layers[piece.layer - 1], glue[piece.layer - 1], stations)),
    }));
  },
});

/**
 * A piece with its carved line, depths at stations, and glue inside that line.
 * @param within where glue may lie on its layer.
 */
function marked(piece: Piece, { regions, finish }: Layer, within: readonly Region[], stationsMm: number): Piece {
  if (!finish) return piece;
  const glue = piece.placing.length > 0 ? intersect(partOn([piece.region], within), piece.placing) : [];
  const carved = {
    top: partOn([piece.region], finish.top),
    stations: stationsOf(piece.region, regions, finish, stationsMm),
  };
  return { ...piece, glue, carved };
}

const densityOf = ({ thicknessMm }: Layer, { boardSizes }: Context<'split'>['facts']): number =>
  Math.min(...boardSizes.filter((each) => each.thicknessMm === thicknessMm).map(({ densityKgM3 }) => densityKgM3));

interface Ballast {
  readonly voids: Region[][];
  readonly holdsKg: number;
}

/** What the pocket takes out of the foam it must hold besides: a few per cent, which the sand's density is short by anyway. */
function ballast(layers: readonly Layer[], rock: StandingRock, { ballastKg }: Tipping): Ballast {
  const { voids, volumeMm3 } = pocket(layers, rock, (ballastKg / SAND_KG_M3) * 1e9);
  return { voids, holdsKg: (volumeMm3 * SAND_KG_M3) / 1e9 };
}

function standsTold(rock: StandingRock, { tiltDeg }: Tipping, push: number): Finding {
  const buriedMm = rock.buried * rock.heightMm;
  const isSteady = tiltDeg >= LEAST_TILT_DEG;
  return {
    level: isSteady ? 'note' : 'watch',
    code: 'split/rock-stands',
    message: `The rock stands ${numberText(rock.heightMm, 0)} mm high, ${numberText(buriedMm, 0)} mm of it in the ground, and would fall over when tilted by ${numberText(tiltDeg, 0)}° (foam alone, nothing held by the ground). It is for looking at, not for climbing or sitting on.`,
    fix: isSteady
      ? `Keep people off it. What it must stand up to is asked of whoever runs the place; a push of ${numberText(push, 0)} N at its top is reckoned here.`
      : 'Widen its seat, bury more of it, put ballast low in it, or fix it to something that stands.',
    where: { path: 'split.rock' },
  };
}

function tipTold(tip: Tipping, held: Ballast | null, push: number): Finding {
  const where = { path: 'split.rock.push' };
  const says = `The foam alone, ${numberText(tip.foamKg, 1)} kg, tips at a push of ${numberText(tip.tipsAtN, 0)} N at its top`;
  if (tip.ballastKg === 0) {
    const message = `${says}: more than the ${numberText(push, 0)} N reckoned with.`;
    return {
      level: 'note',
      code: 'split/rock-tips',
      message,
      fix: 'Wind, children and trolleys may push harder: judge it where it stands.',
      where,
    };
  }
  if (held && held.holdsKg >= tip.ballastKg) {
    return {
      level: 'note',
      code: 'split/rock-tips',
      message: `${says}; ${numberText(tip.ballastKg, 1)} kg of dry sand in bags low in it make that ${numberText(push, 0)} N, and a pocket for ${numberText(held.holdsKg, 1)} kg is left.`,
      fix: 'Lay the bags in before the last layer over the pocket is glued. Then it is carried by several people, or filled where it stands.',
      where,
    };
  }
  return {
    level: 'watch',
    code: 'split/rock-tips',
    message: `${says}, not at the ${numberText(push, 0)} N reckoned with: it would need ${Number.isFinite(tip.ballastKg) ? `${numberText(tip.ballastKg, 1)} kg of ballast` : 'a wider seat'}${held ? `, and has room for ${numberText(held.holdsKg, 1)} kg` : ''}.`,
    fix: 'Widen its seat, bury more of it, say a smaller push if nobody comes near it, or fix it to something that stands.',
    where,
  };
}

const carvingTold = ({ allowanceMm, coatMm }: StandingRock): Finding => ({
  level: 'note',
  code: 'split/rock-carving',
  message: `Each layer is cut rough before it is glued, since a wire will not pass glue. Over the carved line stand ${numberText(allowanceMm, 0)} mm${coatMm > 0 ? `; the coat of ${numberText(coatMm, 1)} mm comes on that line` : ''}. Numbers along the edges are carving depths at the top face and at the underside.`,
  fix: 'Cut skewers to the lesser of the two numbers, push them in flush at the stations, and stop carving where their ends show. Keep glue off what is carved.',
  where: { path: 'split.rock' },
});

const noRock = (): never =>
  refuse(
    'split/no-rock',
    'The stack is not that of a rock.',
    'Say slice: rock, with rock last in shape; or split: solid.',
    {
      path: 'split',
    },
  );
