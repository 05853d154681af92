import { turn } from '../../geometry/exact-math.ts';
import { boxOf, type Placement, placed, type Region } from '../../geometry/ring.ts';
import type { LayoutBoard } from '../../model/layout.ts';
import type { Group, Item } from './group.ts';
import { remainders, usableOf } from './offcuts.ts';
import type { Packed, Packing, Stood } from './packing.ts';
import { onGrid } from './room.ts';

/** A packing as boards with what is cut from them: offcuts that are used up first, then bought boards, the fullest first. */
export function boardsOf(group: Group, packing: Packing, firstNumber: number, kerfMm: number): LayoutBoard[] {
  return inOrder(group, packing.boards).map(({ stock, stood }, i) => {
    const number = firstNumber + i;
    const offcut = stock < 0 ? group.offcuts[-1 - stock] : undefined;
    const of = offcut ? offcut.offcut : group.kinds[stock].stock;
    const box = offcut ? boxOf(offcut.offcut.rings) : undefined;
    const sizeMm: readonly [number, number] = box ? [box[2], box[3]] : group.kinds[stock].stock.sizeMm;
    const trimMm = offcut ? 0 : group.kinds[stock].stock.trimMm;
    const standing = [...stood].sort((a, b) => a.item - b.item);
    const placements = standing.map((one) => placementOf(group.items[one.item], one));
    const outlines = standing.flatMap(({ item }, blank) =>
      group.items[item].blank.pieces.map(
        (piece) => piece.region.map((ring) => placed(ring, placements[blank])) as Region,
      ),
    );
    return {
      number,
      stock: of.name,
      sizeMm,
      thicknessMm: group.thicknessMm,
      densityKgM3: of.densityKgM3,
      trimMm,
      ...(offcut ? { rings: offcut.offcut.rings } : {}),
      placed: standing.flatMap(({ item }, blank) =>
        group.items[item].blank.pieces.map(({ name }) => ({ piece: name, blank: blank + 1, ...placements[blank] })),
      ),
      offcuts: remainders(offcut?.regions ?? usableOf(sizeMm, trimMm), outlines, kerfMm, `${of.name}-${number}`),
    };
  });
}

/** The shape's own origin comes to (x, y), turned about the landform's: the printed move follows, on the grid of SNAP. */
function placementOf({ referenceMm: [refX, refY] }: Item, { turnDeg, x, y }: Stood): Placement {
  const { cos, sin } = turn(turnDeg);
  return {
    turnDeg,
    mirrored: false,
    // −0 would be read back as 0.
    xMm: onGrid(x - (refX * cos - refY * sin)) + 0,
    yMm: onGrid(y - (refX * sin + refY * cos)) + 0,
  };
}

function inOrder(group: Group, boards: readonly Packed[]): Packed[] {
  const fill = ({ stock, stood }: Packed) => {
    const { areaMm2 } = stock < 0 ? group.offcuts[-1 - stock].container : group.kinds[stock].container;
    return stood.reduce((sum, { item }) => sum + group.shapes[group.items[item].shape].areaMm2, 0) / areaMm2;
  };
  const first = ({ stood }: Packed) => Math.min(...stood.map(({ item }) => item));
  return [...boards].sort(
    (a, b) => Number(a.stock >= 0) - Number(b.stock >= 0) || fill(b) - fill(a) || first(a) - first(b),
  );
}
