import { turn } from '../../geometry/exact-math.ts';
import { boxOf, type Placement, type Region, type Ring, rectangle } from '../../geometry/ring.ts';
import { snapped } from '../../geometry/snap.ts';
import { type Tool, throatOf } from '../../model/facts.ts';
import type { LayoutBoard } from '../../model/layout.ts';
import { letters } from '../../model/piece.ts';
import { isMirrored, type Packed, type Packing, type Stood, turnDegOf, usedMm2 } from '../engine/engine.ts';
import { breakDowns } from './break-downs.ts';
import type { Group, Item } from './group.ts';
import { type Lying, lying } from './lying.ts';
import { type Remainder, remainders } from './offcuts.ts';
import type { Kind, Owned } from './places.ts';
import { runIns } from './run-ins.ts';

/** What is asked of a layout beside where things lie. */
export interface Asked {
  readonly tool: Tool;
  readonly gapMm: number;
  /** Side of the least square that a kept remainder holds. */
  readonly leastOffcutMm: number;
}

/** A packing as boards with what is cut from them, not yet numbered; `held` is the number that a board begun keeps. */
export interface Laid {
  readonly held: number | null;
  readonly board: Omit<LayoutBoard, 'number' | 'offcuts'>;
  readonly offcuts: readonly Remainder[];
}

/** The boards of a packing: offcuts that are used up first, then boards begun and bought, the fullest first. */
export function boardsOf(group: Group, packing: Packing, asked: Asked): Laid[] {
  return inOrder(group, packing.boards).map(({ stock, stood }) => {
    const place = placeOf(group, stock);
    const { name, densityKgM3, sizeMm, trimMm, rings, keepOuts } = foamOf(place);
    const standing = [...stood].sort((a, b) => a.item - b.item);
    const placements = standing.map((one) => placementOf(group.items[one.item], one));
    const blanks = standing.map(({ item }, i) => lying(group.items[item].blank, placements[i], i + 1));
    const edges = rings ?? [rectangle(0, 0, sizeMm[0], sizeMm[1])];
    return {
      held: 'number' in place ? place.number : null,
      board: {
        stock: name,
        sizeMm,
        thicknessMm: group.thicknessMm,
        densityKgM3,
        trimMm,
        ...(rings ? { rings } : {}),
        ...(keepOuts ? { keepOuts } : {}),
        placed: standing.flatMap(({ item }, i) =>
          group.items[item].blank.pieces.map((piece) => ({ piece: piece.name, blank: i + 1, ...placements[i] })),
        ),
        ...ways(blanks, edges, asked),
      },
      offcuts: remainders(place.regions, outlines(blanks), asked),
    };
  });
}

/** How the cutter comes to the blanks: cutters that come in from an edge only. */
function ways(blanks: readonly Lying[], edges: readonly Ring[], { tool, gapMm }: Asked) {
  const { kind, kerfMm } = tool;
  const throatMm = throatOf(tool);
  // A gap narrower than the cut lets nothing in.
  if ((kind !== 'hot wire' && kind !== 'saw') || gapMm < kerfMm) return {};
  const cuts = throatMm !== null ? breakDowns(blanks, edges, throatMm, kerfMm) : [];
  return {
    ...(cuts.length > 0 ? { breakDowns: cuts } : {}),
    runIns: runIns(blanks, [...edges, ...cuts], gapMm, kerfMm),
  };
}

const outlines = (blanks: readonly Lying[]): Region[] =>
  blanks.flatMap(({ pieces }) => pieces.map(({ region }) => region));

const placeOf = ({ kinds, owned }: Group, stock: number): Kind | Owned =>
  stock < 0 ? owned[-1 - stock] : kinds[stock];

/** What is told of the foam itself. */
function foamOf(place: Kind | Owned) {
  const of = 'of' in place ? place.of : place;
  if ('board' in of) {
    const { name, densityKgM3, sizeMm, trimMm, keepOuts } = of.board;
    return { name, densityKgM3, sizeMm, trimMm, rings: undefined, keepOuts };
  }
  const { name, densityKgM3, rings, defects } = of.offcut;
  const [, , width, height] = boxOf(rings);
  return { name, densityKgM3, sizeMm: [width, height] as const, trimMm: 0, rings, keepOuts: defects };
}

/** The shape's own origin comes to (x, y), turned about the landform's: the printed move follows, on the grid of SNAP. */
function placementOf({ referenceMm: [refX, refY], held }: Item, { pose, x, y }: Stood): Placement {
  if (held) return { turnDeg: held.turnDeg, mirrored: held.mirrored, xMm: held.xMm, yMm: held.yMm };
  const turnDeg = turnDegOf(pose);
  const mirrored = isMirrored(pose);
  const { cos, sin } = turn(turnDeg);
  const flipped = mirrored ? -refX : refX;
  return {
    turnDeg,
    mirrored,
    // −0 would be read back as 0.
    xMm: snapped(x - (flipped * cos - refY * sin)) + 0,
    yMm: snapped(y - (flipped * sin + refY * cos)) + 0,
  };
}

function inOrder(group: Group, boards: readonly Packed[]): Packed[] {
  const { problem, owned } = group;
  const fill = ({ stock, stood }: Packed) => usedMm2(problem, stood) / placeOf(group, stock).container.areaMm2;
  const first = ({ stood }: Packed) => Math.min(...stood.map(({ item }) => item));
  const isBought = ({ stock }: Packed) => stock >= 0 || 'board' in owned[-1 - stock].of;
  return [...boards].sort(
    (a, b) => Number(isBought(a)) - Number(isBought(b)) || fill(b) - fill(a) || first(a) - first(b),
  );
}

/** Boards numbered from 1: those that are begun keep their numbers as far as there are so many boards, the others follow in turn. */
export function numbered(laid: readonly Laid[]): LayoutBoard[] {
  const kept = new Map<number, Laid>();
  for (const each of laid) {
    if (each.held !== null && each.held <= laid.length && !kept.has(each.held)) kept.set(each.held, each);
  }
  const others = laid.filter((each) => each.held === null || kept.get(each.held) !== each);
  return laid.map((_, i) => {
    const { board, offcuts } = kept.get(i + 1) ?? (others.shift() as Laid);
    const named = offcuts.map((each, k) => ({ name: `${board.stock}-${i + 1}-${letters(k)}`, ...each }));
    return { number: i + 1, ...board, offcuts: named };
  });
}
