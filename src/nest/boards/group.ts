import { offset, regionsFromRings } from '../../geometry/clip.ts';
import { edgeRuns } from '../../geometry/edge-runs.ts';
import { areaOf, type Box, boxOf, type Region, type Ring, ringsOf } from '../../geometry/ring.ts';
import { ARC_SAG_MM } from '../../geometry/tolerance.ts';
import type { Blank } from '../../model/piece.ts';
import type { Offcut, Stock } from '../../model/stock.ts';
import type { Walk } from '../../plugin.ts';
import type { OffcutRoom } from './bound.ts';
import type { Kind } from './packing.ts';
import type { Container } from './room.ts';
import { ownOutline, prepareShape, type Shape } from './shape.ts';
import { type Turns, turnsToTry } from './turns.ts';

/** A blank to be placed: its shape, and the point of the landform that is the shape's origin. */
export interface Item {
  readonly blank: Blank;
  readonly shape: number;
  readonly referenceMm: readonly [number, number];
}

/** A saved offcut as a place for shapes. */
export interface OffcutStock extends OffcutRoom {
  readonly offcut: Offcut;
  readonly regions: readonly Region[];
  readonly container: Container;
}

/** All that is of one thickness: a packing problem of its own. */
export interface Group {
  readonly thicknessMm: number;
  /** Whether pieces may take any turn. */
  readonly turnsFreely: boolean;
  readonly shapes: readonly Shape[];
  /** In the canonical order: by area, then outline, then name. */
  readonly items: readonly Item[];
  readonly kinds: readonly Kind[];
  /** The smallest first: what fits narrowly is used up before what could take more. */
  readonly offcuts: readonly OffcutStock[];
}

/** Sort blanks by thickness and prepare their shapes, once for every outline that occurs. Yields 0…1. */
export function* groupsOf(blanks: readonly Blank[], stock: Stock, gapMm: number, turns: Turns): Walk<Group[]> {
  const thicknesses = [...new Set(blanks.map(({ pieces }) => pieces[0].thicknessMm))].sort((a, b) => a - b);
  const made: Group[] = [];
  let done = 0;
  for (const thicknessMm of thicknesses) {
    const kinds = kindsOf(stock, thicknessMm);
    const usable = kinds.map(({ container: { box } }) => [box[2] - box[0], box[3] - box[1]] as const);
    const offcuts = offcutsOf(stock, thicknessMm, gapMm);
    const hasOdd = offcuts.some(({ container }) => container.outline !== null);
    const turnsFor = (hull: Ring, direction: number) => turnsToTry(turns, hull, direction, usable);
    const shapes: Shape[] = [];
    const known = new Map<string, number>();
    const items: Item[] = [];
    for (const { blank, regions, referenceMm, key } of canonical(blanks, thicknessMm)) {
      let shape = known.get(key);
      if (shape === undefined) {
        shape = shapes.length;
        known.set(key, shape);
        shapes.push(prepareShape(regions, gapMm, hasOdd, turnsFor));
      }
      items.push({ blank, shape, referenceMm });
      yield ++done / blanks.length;
    }
    made.push({ thicknessMm, turnsFreely: turns === 'free', shapes, items, kinds, offcuts });
  }
  return made;
}

/** Blanks of a thickness in an order that neither names nor the order of the input decide, unless nothing else does. */
function canonical(blanks: readonly Blank[], thicknessMm: number) {
  return blanks
    .filter(({ pieces }) => pieces[0].thicknessMm === thicknessMm)
    .map((blank) => {
      const own = ownOutline(blank);
      return {
        blank,
        ...own,
        key: own.regions.map((region) => region.join(' ')).join('|'),
        areaMm2: areaOf(own.regions),
      };
    })
    .sort(
      (a, b) => b.areaMm2 - a.areaMm2 || byText(a.key, b.key) || byText(a.blank.pieces[0].name, b.blank.pieces[0].name),
    );
}

function kindsOf({ boards }: Stock, thicknessMm: number): Kind[] {
  const fitting = boards.filter((board) => board.thicknessMm === thicknessMm);
  const isPriced = fitting.every(({ price }) => price !== null);
  return fitting.map((stock) => {
    const [width, height] = stock.sizeMm;
    const box: Box = [stock.trimMm, stock.trimMm, width - stock.trimMm, height - stock.trimMm];
    const areaMm2 = (box[2] - box[0]) * (box[3] - box[1]);
    return {
      stock,
      container: { box, outline: null, areaMm2 },
      cost: isPriced ? (stock.price as number) : 1,
      grossMm2: width * height,
    };
  });
}

function offcutsOf({ offcuts }: Stock, thicknessMm: number, gapMm: number): OffcutStock[] {
  return offcuts
    .filter((offcut) => offcut.thicknessMm === thicknessMm)
    .map((offcut) => {
      const regions = regionsFromRings(offcut.rings);
      const rings = ringsOf(regions);
      const box = boxOf(rings);
      const areaMm2 = areaOf(regions);
      const isBox = areaMm2 === (box[2] - box[0]) * (box[3] - box[1]);
      const mostGrownMm2 = areaOf(offset(regions, gapMm / 2 + 2.25 * ARC_SAG_MM));
      const container = { box, outline: isBox ? null : edgeRuns(rings), areaMm2 };
      return { offcut, regions, container, mostGrownMm2 };
    })
    .sort((a, b) => a.container.areaMm2 - b.container.areaMm2 || byText(a.offcut.name, b.offcut.name));
}

const byText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
