import type { Finding, Where } from '../findings.ts';
import { fitsRectangle, flushRectangles } from '../geometry/enclosing.ts';
import { boxOf, distanceToRings, type Point, placed, type Ring, rectangle } from '../geometry/ring.ts';
import { ringHull } from '../geometry/ring-hull.ts';
import { type Tool, throatOf } from '../model/facts.ts';
import type { Layer } from '../model/layer.ts';
import type { LayoutBoard } from '../model/layout.ts';
import type { Piece } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { lengthText, thicknessText, type Unit } from '../units.ts';
import { told } from './told.ts';

/** Wire or blade beyond the two faces, so that neither holder nor tip touches foam (our choice). */
const SPARE_MM = 20;

/** A cut that the tool does not reach, and by how much. */
interface Beyond {
  readonly name: string;
  readonly byMm: number;
  readonly finding: Finding;
}

/** Whether the tool that the job describes reaches every cut: throat, wire or blade, and table. What is not said is not checked. */
export function reach(plan: Plan): Finding[] {
  const { facts, unit, pieces, boards, stack } = plan;
  const { tool } = facts;
  const throatMm = throatOf(tool);
  const longMm = tool.kind === 'hot wire' ? tool.wireMm : tool.bladeMm;
  return [
    ...(longMm === null || stack.kind !== 'flat'
      ? []
      : worst(
          stack.layers.flatMap((layer) => tooThick(layer, longMm, tool, unit)),
          1,
        )),
    ...(throatMm === null ? [] : worst(pieces.flatMap((piece) => deepInside(piece, throatMm, unit)))),
    ...(throatMm === null ? [] : worst(boards.flatMap((board) => deepIn(board, plan, throatMm)))),
    ...(tool.tableMm === null ? [] : overTable(plan, tool.tableMm)),
  ];
}

const worst = (beyond: readonly Beyond[], most?: number): Finding[] =>
  told(
    [...beyond].sort((a, b) => b.byMm - a.byMm || (a.name < b.name ? -1 : 1)),
    ({ finding }) => finding,
    ({ name }) => name,
    most,
  );

/** A layer through which wire or blade does not go, where it leans most. */
function tooThick(layer: Layer, longMm: number, { kind }: Tool, unit: Unit): Beyond[] {
  const { number, thicknessMm, slope } = layer;
  let [leanMm, atMm]: [number, Point | undefined] = [0, undefined];
  for (const stations of slope?.stations ?? []) {
    for (let i = 0; i < stations.length; i += 4) {
      const [dx, dy] = [stations[i + 2] - stations[i], stations[i + 3] - stations[i + 1]];
      const lean = Math.sqrt(dx * dx + dy * dy);
      if (lean > leanMm) [leanMm, atMm] = [lean, [stations[i], stations[i + 1]]];
    }
  }
  const needMm = Math.sqrt(thicknessMm * thicknessMm + leanMm * leanMm) + SPARE_MM;
  if (needMm <= longMm) return [];
  const what = kind === 'hot wire' ? 'wire' : 'blade';
  const through = `${leanMm > 0 ? 'Leaning through' : 'Through'} this layer the ${what} needs`;
  return [
    {
      name: `layer ${number}`,
      byMm: needMm - longMm,
      finding: {
        level: 'stop',
        code: `checks/${what}-short`,
        message: `${through} ${lengthText(needMm, unit)}, ${lengthText(SPARE_MM, unit, 1)} of it to spare; it is ${lengthText(longMm, unit)} long.`,
        fix: `Take a longer ${what} or thinner boards${leanMm > 0 ? ', or say a lesser slice.layers.lean' : ''}.`,
        where: { layer: number, ...(atMm ? { atMm } : {}) },
      },
    },
  ];
}

/** An inner outline that a bow does not reach from any edge of the piece, even when the piece is all that is left of its board. */
function deepInside({ name, layer, region }: Piece, throatMm: number, unit: Unit): Beyond[] {
  const [outer, ...holes] = region;
  if (holes.length === 0 || isShallow(boxOf([outer]), throatMm)) return [];
  const far = farthest(holes, [outer]);
  if (far.mm <= throatMm) return [];
  return [
    {
      name,
      byMm: far.mm - throatMm,
      finding: {
        level: 'stop',
        code: 'checks/throat-inside',
        message: `An inner outline of ${name} lies ${lengthText(far.mm, unit)} from the nearest edge; the bow's throat is ${lengthText(throatMm, unit)}.`,
        fix: 'Divide the piece with a smaller carry.size, cut this outline with a knife or saw, or take a deeper bow.',
        where: { layer, piece: name, atMm: far.at },
      },
    },
  ];
}

/** Pieces of a board whose outlines a bow does not reach from its edges, nor from the straight cuts that are made first. */
function deepIn(
  { number, placed: standing, sizeMm, rings, breakDowns = [] }: LayoutBoard,
  plan: Plan,
  throatMm: number,
): Beyond[] {
  const edges = [...(rings ?? [rectangle(0, 0, sizeMm[0], sizeMm[1])]), ...breakDowns];
  if (isShallow(boxOf(edges), throatMm)) return [];
  return standing.flatMap((place) => {
    const piece = plan.pieces.find(({ name }) => name === place.piece);
    if (!piece) return [];
    const lying = piece.region.map((ring) => placed(ring, place));
    const far = farthest(lying, edges);
    if (far.mm <= throatMm) return [];
    const where: Where = {
      layer: piece.layer,
      piece: piece.name,
      board: number,
      atMm: pointOf(piece, far, place.mirrored),
    };
    const [deep, throat] = [far.mm, throatMm].map((mm) => lengthText(mm, plan.unit));
    const message = `${piece.name} is cut as deep as ${deep} from the nearest edge of its board${breakDowns.length > 0 ? ' or straight cut' : ''}; the bow's throat is ${throat}.`;
    const fix =
      breakDowns.length > 0
        ? 'Cut its neighbours free first, or take a deeper bow.'
        : 'Divide the board first, with a straight cut between its pieces, or take a deeper bow.';
    return [
      {
        name: piece.name,
        byMm: far.mm - throatMm,
        finding: { level: 'watch', code: 'checks/throat', message, fix, where },
      },
    ];
  });
}

/** Whether nothing in a box is farther from its sides than so much. */
const isShallow = ([minX, minY, maxX, maxY]: readonly number[], mm: number): boolean =>
  Math.min(maxX - minX, maxY - minY) / 2 <= mm;

interface Far {
  readonly mm: number;
  readonly at: Point;
  /** Which ring and which of its coordinates. */
  readonly ring: number;
  readonly i: number;
}

/** The corner of some rings that is farthest from the nearest of some edges. */
function farthest(rings: readonly Ring[], edges: readonly Ring[]): Far {
  let far: Far = { mm: 0, at: [0, 0], ring: 0, i: 0 };
  for (const [ring, points] of rings.entries()) {
    for (let i = 0; i < points.length; i += 2) {
      const mm = distanceToRings(points[i], points[i + 1], edges);
      if (mm > far.mm) far = { mm, at: [points[i], points[i + 1]], ring, i };
    }
  }
  return far;
}

/** The same corner in the landform: a mirrored ring runs backwards. */
function pointOf({ region }: Piece, { ring, i }: Far, mirrored: boolean): Point {
  const at = mirrored ? region[ring].length - 2 - i : i;
  return [region[ring][at], region[ring][at + 1]];
}

/** Boards that hang over the table; of a router, pieces that its bed does not hold. */
function overTable(
  { boards, pieces, facts: { tool }, unit }: Plan,
  [width, depth]: readonly [number, number],
): Finding[] {
  const [most, least] = [Math.max(width, depth), Math.min(width, depth)];
  const table = `${lengthText(width, unit)} × ${lengthText(depth, unit)}`;
  if (tool.kind === 'router') {
    const beyond = pieces.filter(({ region: [outer] }) => {
      const hull = ringHull(outer);
      return !fitsRectangle(hull, flushRectangles(hull), width, depth);
    });
    return worst(
      beyond.map(({ name, layer, region: [outer], areaMm2 }) => ({
        name,
        byMm: areaMm2,
        finding: {
          level: 'stop',
          code: 'checks/table',
          message: `${name} is larger than the router's table of ${table}.`,
          fix: 'Say a carry.size no larger than the table, or cut it with another tool.',
          where: { layer, piece: name, atMm: [outer[0], outer[1]] },
        },
      })),
    );
  }
  const over = boards.filter(({ sizeMm: [a, b] }) => Math.max(a, b) > most || Math.min(a, b) > least);
  if (over.length === 0) return [];
  const [{ number, sizeMm, thicknessMm }] = over;
  const board = `${lengthText(sizeMm[0], unit)} × ${lengthText(sizeMm[1], unit)} × ${thicknessText(thicknessMm, unit)}`;
  return [
    {
      level: 'note',
      code: 'checks/table',
      message: `${over.length === 1 ? `Board ${number}` : `${over.length} boards`} of ${board} ${over.length === 1 ? 'hangs' : 'hang'} over the table of ${table}.`,
      fix: 'Stand trestles level with the table, or divide the board first.',
      where: { board: number },
    },
  ];
}
