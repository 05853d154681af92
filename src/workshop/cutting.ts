import { bendLength } from '../geometry/bends.ts';
import { length } from '../geometry/exact-math.ts';
import type { LayoutBoard } from '../model/layout.ts';
import type { Blank, Piece } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import type { Work } from '../model/work.ts';
import { handsOf } from './hands.ts';
import { cutLengthMm, pieceMasses } from './quantities.ts';

/** What there is to cut of a board, and how long it takes one bow or saw. */
export interface BoardCut {
  readonly board: LayoutBoard;
  /** In the order of cutting: the largest first, while the board is stiff. */
  readonly pieces: readonly Piece[];
  /** Straight cuts across the board before anything else, where the bow would not reach. */
  readonly breakDowns: number;
  readonly wireMm: number;
  readonly bendMm: number;
  readonly runInMm: number;
  readonly insides: number;
  /** With handling and breaks. */
  readonly minutes: number;
  /** Of people: what two must hold counts twice. */
  readonly personMinutes: number;
  readonly isForTwo: boolean;
}

export interface Cutting {
  readonly boards: readonly BoardCut[];
  readonly wireMm: number;
  readonly bendMm: number;
  /** Of one bow or saw after the other. */
  readonly minutes: number;
  readonly personMinutes: number;
}

/** What a crew of a skill takes in place of one that does it every week. */
export function skillTimes({ crew, rules }: Work): number {
  if (crew.skill.value === 'practised') return 1;
  return (crew.skill.value === 'first time' ? rules.firstTimes : rules.someTimes).value;
}

/** Boards in the order of cutting: the one with the lowest layer first, so that the dry build can begin. */
export function cuttingOf(plan: Plan): Cutting {
  const masses = pieceMasses(plan.pieces, plan.boards);
  const forTwo = new Set(plan.pieces.filter((piece) => handsOf(piece, masses.get(piece.name) ?? 0, plan.facts) === 2));
  const byName = new Map(plan.pieces.map((piece) => [piece.name, piece]));
  const blankOf = new Map(plan.blanks.flatMap((blank) => blank.pieces.map(({ name }) => [name, blank] as const)));
  const boards = plan.boards
    .map((board) => {
      const pieces = board.placed.flatMap(({ piece }) => byName.get(piece) ?? []);
      const blanks = new Set(pieces.flatMap(({ name }) => blankOf.get(name) ?? []));
      return cutOf(board, pieces, blanks, forTwo, plan);
    })
    .sort((a, b) => lowest(a) - lowest(b) || a.board.number - b.board.number);
  const sum = (of: (cut: BoardCut) => number) => boards.reduce((total, cut) => total + of(cut), 0);
  return {
    boards,
    wireMm: sum(({ wireMm }) => wireMm),
    bendMm: sum(({ bendMm }) => bendMm),
    minutes: sum(({ minutes }) => minutes),
    personMinutes: sum(({ personMinutes }) => personMinutes),
  };
}

const lowest = ({ pieces }: BoardCut): number => pieces.reduce((least, { layer }) => Math.min(least, layer), Infinity);

function cutOf(
  board: LayoutBoard,
  pieces: readonly Piece[],
  blanks: ReadonlySet<Blank>,
  forTwo: ReadonlySet<Piece>,
  plan: Plan,
): BoardCut {
  const { facts } = plan;
  const { rules } = facts.work;
  const sharedMm = [...blanks].reduce((sum, { sharedCuts }) => sum + total(sharedCuts), 0);
  const outlinesMm = Math.max(0, pieces.reduce((sum, piece) => sum + cutLengthMm(piece), 0) - sharedMm);
  const bendMm = Math.min(
    outlinesMm,
    pieces.reduce(
      (sum, { region }) => sum + region.reduce((s, ring) => s + bendLength(ring, rules.bendRadiusMm.value), 0),
      0,
    ),
  );
  const runInMm = runInsMm(board, blanks.size, rules.runInMm.value);
  const breakDowns = breakDownsOf(board, facts.tool.throatMm);
  const straightMm = outlinesMm - bendMm + runInMm + breakDowns.mm;
  const insides = pieces.reduce((sum, { region }) => sum + region.length - 1, 0);
  const atWork = (straightMm * rules.secondsAMetre.value + bendMm * rules.bendSecondsAMetre.value) / 60_000;
  const handled =
    rules.minutesABoard.value + pieces.length * rules.minutesAPiece.value + insides * rules.minutesAnInside.value;
  const factor = skillTimes(facts.work) * (60 / (60 - rules.breakMinutesAnHour.value));
  const held = pieces.filter((piece) => forTwo.has(piece)).length;
  const twice = pieces.length === 0 ? 0 : held / pieces.length;
  const minutes = (atWork + handled) * factor;
  return {
    board,
    pieces: [...pieces].sort((a, b) => b.areaMm2 - a.areaMm2 || (a.name < b.name ? -1 : 1)),
    breakDowns: breakDowns.count,
    wireMm: outlinesMm + runInMm + breakDowns.mm,
    bendMm,
    runInMm,
    insides,
    minutes,
    personMinutes: minutes * (1 + twice),
    isForTwo: held > 0,
  };
}

/** As the layout says, else so much for each blank. */
const runInsMm = ({ runIns }: LayoutBoard, blanks: number, eachMm: number): number =>
  runIns ? total(runIns.map(({ line }) => line)) : blanks * eachMm;

/** Not said: a board deeper than the bow reaches from both sides is halved across. */
function breakDownsOf(board: LayoutBoard, throatMm: number | null): { readonly count: number; readonly mm: number } {
  const said = board.breakDowns;
  if (said) return { count: said.length, mm: total(said) };
  const [shorter, longer] = [Math.min(...board.sizeMm), Math.max(...board.sizeMm)];
  if (throatMm === null || shorter <= 2 * throatMm) return { count: 0, mm: 0 };
  const count = Math.ceil(shorter / (2 * throatMm)) - 1;
  return { count, mm: count * longer };
}

function total(lines: readonly Float64Array[]): number {
  let sum = 0;
  for (const line of lines) {
    for (let i = 2; i < line.length; i += 2) sum += length(line[i] - line[i - 2], line[i + 1] - line[i - 1]);
  }
  return sum;
}
