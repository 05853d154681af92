import type { Finding } from '../findings.ts';
import { centroidOf } from '../geometry/support.ts';
import type { Piece } from '../model/piece.ts';
import type { PieceRest, Plan } from '../model/plan.ts';
import { lengthText, numberText } from '../units.ts';
import { restsOf } from './bearing/rests.ts';
import { type Course, coursesOf } from './courses.ts';
import { told } from './told.ts';

/** A piece that rests on less of itself than this is told of (our choice: a lap of 50 mm round a board of 2.4 × 1.2 m is an eighth). */
const LEAST_SHARE = 0.1;
/** What arithmetic may take from a lap. */
const ROUNDING_MM = 0.01;

/** A piece on the foam beneath it. */
interface Rest extends Omit<PieceRest, 'piece'> {
  readonly piece: Piece;
}

/** The narrowest lap of a piece on the layer beneath. */
interface Lap extends NonNullable<PieceRest['leastLap']> {
  /** Of the layer with the void. */
  readonly layer: number;
  readonly piece: string;
}

/**
 * Whether every piece, laid loose, rests steadily on the foam beneath (bearing/rests.ts): how much of it rests, its middle of mass
 * over what it rests on, and the least lap against what the job says.
 */
export function bearing(
  plan: Plan,
  courses: readonly Course[] = coursesOf(plan),
  known: readonly PieceRest[] = restsOf(plan, courses),
): Finding[] {
  const byName = new Map(plan.pieces.map((piece) => [piece.name, piece]));
  const rests = known.flatMap((rest): Rest[] => {
    const piece = byName.get(rest.piece);
    return piece ? [{ ...rest, piece }] : [];
  });
  const laps = leastOfLayers(rests);
  const tipping = rests.filter((rest) => !isSteady(rest) || rest.share < LEAST_SHARE);
  const short = laps.filter(({ mm, wantedMm }) => mm < wantedMm - ROUNDING_MM);
  return [
    ...told(short.sort(byLap), lapShort, ({ layer }) => `layer ${layer}`),
    ...told(tipping.sort(byShare), tips, ({ piece }) => piece.name),
    ...leastOf(rests, laps, plan),
  ];
}

const isSteady = ({ insideMm }: Pick<PieceRest, 'insideMm'>): boolean => insideMm >= 0;

/** The least lap on each layer. */
function leastOfLayers(rests: readonly Rest[]): Lap[] {
  const laps = new Map<number, Lap>();
  for (const { piece, leastLap } of rests) {
    const layer = piece.layer - 1;
    if (leastLap && leastLap.mm < (laps.get(layer)?.mm ?? Infinity))
      laps.set(layer, { ...leastLap, layer, piece: piece.name });
  }
  return [...laps.values()];
}

const byLap = (a: Lap, b: Lap): number => a.mm - a.wantedMm - (b.mm - b.wantedMm) || a.layer - b.layer;
const byShare = (a: Rest, b: Rest): number => a.share - b.share || (a.piece.name < b.piece.name ? -1 : 1);
const percent = (share: number): string => `${numberText(100 * share, share < 0.1 ? 1 : 0)} %`;

const tips = (rest: Rest): Finding => {
  const { piece, share } = rest;
  const [x, y] = centroidOf(piece.region);
  const what =
    share === 0
      ? 'has nothing under it'
      : isSteady(rest)
        ? `rests on no more than ${percent(share)} of itself`
        : `tips: its middle of mass is not over the ${percent(share)} of it that rest`;
  return {
    level: 'watch',
    code: 'checks/tips',
    message: `${piece.name}, laid loose, ${what}.`,
    fix: 'Block under it with a plug or an offcut until the glue has set, widen the lap, or split solid.',
    where: { layer: piece.layer, piece: piece.name, atMm: [x, y] },
  };
};

const lapShort = ({ mm, wantedMm, layer, piece, atMm }: Lap): Finding => ({
  level: 'stop',
  code: 'checks/lap-short',
  message: `${piece} laps this layer by ${numberText(mm, 1)} mm only; ${numberText(wantedMm)} mm are wanted.`,
  fix: 'Split again with a wider lap.',
  where: { layer, atMm },
});

/** What holds least, though it holds: where a crew looks first. Nothing where every piece rests on all of itself. */
function leastOf(rests: readonly Rest[], laps: readonly Lap[], { unit }: Plan): Finding[] {
  const holding = rests.filter((rest) => isSteady(rest) && rest.share >= LEAST_SHARE).sort(byShare);
  const [least] = holding;
  if (!least || least.share > 0.999) return [];
  const { piece, share, areaMm2 } = least;
  const [x, y] = centroidOf(piece.region);
  const [lap] = [...laps].sort((a, b) => a.mm - b.mm);
  const narrow = lap
    ? ` The least lap of all is ${lengthText(lap.mm, unit)}, on layer ${lap.layer}, under ${lap.piece}.`
    : '';
  return [
    {
      level: 'note',
      code: 'checks/least-bearing',
      message: `Of the pieces that rest steadily ${piece.name} has least under it: ${percent(share)} of it, ${numberText(areaMm2 / 1e6, 3)} m².${narrow}`,
      fix: 'Nothing need be done; set these with care.',
      where: { layer: piece.layer, piece: piece.name, atMm: [x, y] },
    },
  ];
}
