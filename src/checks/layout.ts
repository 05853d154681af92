/**
 * Whether a layout can be cut as it is printed: every piece once, on a board of its thickness, inside what is usable of it,
 * no two blanks nearer than the gap, and no two pieces of a blank over one another, though they touch along cuts that they
 * share. It shares no code with the search: outlines are placed in doubles from the printed
 * numbers, distances are measured edge by edge, and crossings are judged on whole micrometres, where they are exact.
 */
import type { Finding } from '../findings.ts';
import {
  type Box,
  boxOf,
  isInRegion,
  type Point,
  placed,
  type Region,
  reversed,
  ringArea,
  ringsOf,
} from '../geometry/ring.ts';
import type { LayoutBoard, Placed } from '../model/layout.ts';
import type { Plan } from '../model/plan.ts';
import { numberText } from '../units.ts';
import { Edges, type Near, nearPairs } from './layout/edges.ts';

/** What doubles lose when an outline is placed some metres off; nothing that can be cut or measured. */
const NOISE_MM = 1e-6;
/** How far inside its edge a piece is asked whether another covers it. */
const INSIDE_MM = 0.005;

/** A blank as it lies on its board. */
interface Laid {
  readonly blank: number;
  readonly names: string;
  readonly regions: readonly Region[];
  readonly box: Box;
}

/** Check every board of a plan. Level stop, each: such a layout must not be cut. */
export function layout(plan: Plan): Finding[] {
  const findings = [...everyPieceOnce(plan)];
  for (const board of plan.boards) {
    const blanks = blanksOn(board);
    const laid = laidAs(blanks, plan);
    findings.push(
      ...thickness(board, plan),
      ...insideUsable(board, laid),
      ...keptOut(board, laid),
      ...turnedOver(board, plan),
      ...gaps(board, laid, plan.facts.gapMm),
    );
    for (const blank of blanks) {
      const single = blank.map((each, i) => [{ ...each, blank: i }]);
      if (single.length > 1) findings.push(...gaps(board, laidAs(single, plan), 0));
    }
  }
  return [...findings, ...boughtAsOffered(plan), ...heldMoved(plan)];
}

function everyPieceOnce({ boards, pieces }: Plan): Finding[] {
  const times = new Map(pieces.map(({ name }) => [name, 0]));
  const findings: Finding[] = [];
  for (const { number, placed: standing } of boards) {
    for (const { piece } of standing) {
      const before = times.get(piece);
      if (before === undefined)
        findings.push(stop('unknown-piece', `Board ${number} holds ${piece}, which is no piece.`, { board: number }));
      else times.set(piece, before + 1);
    }
  }
  for (const [piece, count] of times) {
    if (count === 0) findings.push(stop('piece-missing', `Piece ${piece} is on no board.`, { piece }));
    if (count > 1) findings.push(stop('piece-twice', `Piece ${piece} is placed ${count} times.`, { piece }));
  }
  return findings;
}

function thickness({ number, thicknessMm, placed: standing }: LayoutBoard, { pieces }: Plan): Finding[] {
  return standing.flatMap(({ piece }) => {
    const found = pieces.find(({ name }) => name === piece);
    if (!found || found.thicknessMm === thicknessMm) return [];
    const message = `Piece ${piece} is ${mm(found.thicknessMm)} thick and lies on board ${number} of ${mm(thicknessMm)}.`;
    return [stop('board-thickness', message, { piece, board: number })];
  });
}

function insideUsable(board: LayoutBoard, laid: readonly Laid[]): Finding[] {
  const { number, sizeMm, trimMm, rings } = board;
  const outside = (names: string) =>
    stop('outside-board', `${names} reaches beyond what is usable of board ${number}.`, { board: number });
  if (!rings) {
    return laid
      .filter(
        ({ box }) =>
          box[0] < trimMm - NOISE_MM ||
          box[1] < trimMm - NOISE_MM ||
          box[2] > sizeMm[0] - trimMm + NOISE_MM ||
          box[3] > sizeMm[1] - trimMm + NOISE_MM,
      )
      .map(({ names }) => outside(names));
  }
  const edges = new Edges();
  edges.add(0, rings);
  for (const { blank, regions } of laid) edges.add(blank, ringsOf(regions));
  const crossing = new Set(
    nearPairs(edges, 0)
      .filter(({ a, crosses }) => a === 0 && crosses)
      .map(({ b }) => b),
  );
  return laid
    .filter(({ blank, regions }) => {
      const first = regions[0][0];
      // A hole of the offcut that lies wholly in the blank crosses no edge.
      const holdsHole = rings.slice(1).some((hole) => regions.some((region) => isInRegion(hole[0], hole[1], region)));
      return crossing.has(blank) || holdsHole || !isInRegion(first[0], first[1], rings);
    })
    .map(({ names }) => outside(names));
}

/** What is cut from a patch that the board is to be kept out of. Its outline may be touched. */
function keptOut({ number, keepOuts = [] }: LayoutBoard, laid: readonly Laid[]): Finding[] {
  return keepOuts.flatMap((said) => {
    const patch = ringArea(said) < 0 ? reversed(said) : said;
    const edges = new Edges();
    edges.add(0, [patch]);
    for (const { blank, regions } of laid) edges.add(blank, ringsOf(regions));
    const crossing = new Set(nearPairs(edges, 0).flatMap(({ a, b, crosses }) => (a === 0 && crosses ? [b] : [])));
    const asLaid: Laid = { blank: 0, names: '', regions: [[patch]], box: boxOf([patch]) };
    return laid
      .filter((one) => crossing.has(one.blank) || holds(asLaid, one) || holds(one, asLaid))
      .map(({ names }) =>
        stop('kept-out', `${names} lies on a patch of board ${number} that is to be kept out of.`, { board: number }),
      );
  });
}

/** Pieces that lie upside down on foam with a face. Of offcuts the board that they are of says whether it has one. */
function turnedOver({ number, stock, rings, placed: standing }: LayoutBoard, { facts }: Plan): Finding[] {
  const material = rings ? facts.stock.offcuts.find(({ name }) => name === stock)?.material : stock;
  const isFaced = facts.stock.boards.find(({ name }) => name === material)?.faced ?? true;
  return standing
    .filter(({ mirrored }) => mirrored && isFaced)
    .map(({ piece }) =>
      stop('turned-over', `Piece ${piece} lies upside down on board ${number}, which has a face.`, {
        piece,
        board: number,
      }),
    );
}

/** Pieces that are cut already and do not lie where they were cut. */
const heldMoved = ({ boards, facts }: Plan): Finding[] =>
  facts.pieces.flatMap(({ piece, held }) => {
    const lies = boards.flatMap(({ placed: standing }) => standing).find((each) => each.piece === piece);
    if (!held || !lies) return [];
    const isThere =
      lies.xMm === held.xMm &&
      lies.yMm === held.yMm &&
      lies.turnDeg === held.turnDeg &&
      lies.mirrored === held.mirrored;
    return isThere ? [] : [stop('held-moved', `Piece ${piece} is held, and does not lie where it was cut.`, { piece })];
  });

function gaps({ number }: LayoutBoard, laid: readonly Laid[], gapMm: number): Finding[] {
  const edges = new Edges();
  for (const { blank, regions } of laid) edges.add(blank, ringsOf(regions));
  const near = new Map<string, Near>();
  for (const pair of nearPairs(edges, gapMm)) near.set(`${pair.a}/${pair.b}`, pair);
  const findings: Finding[] = [];
  for (const [i, one] of laid.entries()) {
    for (const other of laid.slice(i + 1)) {
      const pair = near.get(`${one.blank}/${other.blank}`);
      const names = `${one.names} and ${other.names}`;
      if (pair?.crosses || holds(one, other) || holds(other, one)) {
        findings.push(stop('pieces-overlap', `${names} overlap on board ${number}.`, { board: number }));
      } else if (pair && pair.distance < gapMm - NOISE_MM) {
        const message = `${names} are ${mm(pair.distance)} apart on board ${number}; the gap is ${mm(gapMm)}.`;
        findings.push(stop('gap', message, { board: number }));
      }
    }
  }
  return findings;
}

/** Whether the material of one holds a point of the other's: where no edges cross, whether the other lies in it. */
function holds(one: Laid, other: Laid): boolean {
  const boxesMeet =
    one.box[0] <= other.box[2] &&
    other.box[0] <= one.box[2] &&
    one.box[1] <= other.box[3] &&
    other.box[1] <= one.box[3];
  return boxesMeet && innerPoints(other).some(([x, y]) => one.regions.some((region) => isInRegion(x, y, region)));
}

/** A point just inside the middle of each outer edge: not on the edge of a neighbour that touches. */
const innerPoints = ({ regions }: Laid): Point[] =>
  regions.flatMap(([outer]) => {
    const points: Point[] = [];
    for (let i = 0, j = outer.length - 2; i < outer.length; j = i, i += 2) {
      const dx = outer[i] - outer[j];
      const dy = outer[i + 1] - outer[j + 1];
      const inward = INSIDE_MM / Math.sqrt(dx * dx + dy * dy);
      points.push([(outer[i] + outer[j]) / 2 - dy * inward, (outer[i + 1] + outer[j + 1]) / 2 + dx * inward]);
    }
    return points;
  });

function boughtAsOffered({ boards, facts: { stock } }: Plan): Finding[] {
  const bought = boards.filter(({ rings }) => !rings);
  const unknown = bought
    .filter(({ stock: name }) => !stock.boards.some((offered) => offered.name === name))
    .map(({ number, stock: name }) =>
      stop('unknown-board', `Board ${number} is of ${name}, which is not in the stock.`, { board: number }),
    );
  const tooMany = stock.boards.flatMap(({ name, count, thicknessMm, sizeMm }) => {
    const used = bought.filter(
      (b) => b.stock === name && b.thicknessMm === thicknessMm && b.sizeMm[0] === sizeMm[0],
    ).length;
    return count !== null && used > count
      ? [stop('too-many-boards', `${used} boards of ${name} are used; ${count} can be had.`, {})]
      : [];
  });
  return [...unknown, ...tooMany];
}

/** What stands on a board, blank by blank. */
function blanksOn({ placed: standing }: LayoutBoard): (readonly Placed[])[] {
  const numbers = [...new Set(standing.map(({ blank }) => blank))].sort((a, b) => a - b);
  return numbers.map((number) => standing.filter(({ blank }) => blank === number));
}

/** What has one number as it lies on its board. */
function laidAs(groups: readonly (readonly Placed[])[], { pieces }: Plan): Laid[] {
  return groups.flatMap((standing) => {
    const regions = standing.flatMap((each) => {
      const piece = pieces.find(({ name }) => name === each.piece);
      return piece ? [piece.region.map((ring) => placed(ring, each))] : [];
    });
    if (regions.length === 0) return [];
    const names = `${standing.length > 1 ? 'Pieces' : 'Piece'} ${standing.map(({ piece }) => piece).join(', ')}`;
    return [{ blank: standing[0].blank, names, regions, box: boxOf(ringsOf(regions)) }];
  });
}

const stop = (what: string, message: string, where: Finding['where']): Finding => ({
  level: 'stop',
  code: `checks/${what}`,
  message,
  fix: 'Do not cut from this layout. Nest again with another seed; if it comes back, report it with the job file.',
  where,
});

const mm = (value: number): string => `${numberText(value, 3)} mm`;
