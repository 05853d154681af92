import { convexHull, smallestRectangle } from '../../geometry/hull.ts';
import { areaOf, placed, ringsOf } from '../../geometry/ring.ts';
import { snapped } from '../../geometry/snap.ts';
import { type Held, type PieceRule, type Turns, throatOf } from '../../model/facts.ts';
import type { Blank } from '../../model/piece.ts';
import type { Walk } from '../../plugin.ts';
import { boundBoard, boundItem, boundOwned } from '../bounds/inside.ts';
import type { BoundCase, BoundItem } from '../bounds/terms.ts';
import { type Fixed, type Problem, poseOf, type Shape, WHOLE_TURN } from '../engine/problem.ts';
import { prepareShape } from '../engine/shape.ts';
import type { Begun } from './held.ts';
import { ownOutline } from './own-outline.ts';
import { brokenDown, byText, isFaceless, type Kind, kindsOf, type Owned, ownedOf, type Said } from './places.ts';
import { turnsToTry } from './turns.ts';

/** A blank to be placed: its shape, the point of the landform that is the shape's origin, and where it lies if it is held. */
export interface Item {
  readonly blank: Blank;
  readonly shape: number;
  readonly referenceMm: readonly [number, number];
  readonly held: Held | null;
}

/** All that is of one thickness: a packing problem of its own, and what bounds read of it. */
export interface Group {
  readonly thicknessMm: number;
  readonly problem: Problem;
  readonly bounds: BoundCase;
  /** In the canonical order: by area, then turns and outline, then name. */
  readonly items: readonly Item[];
  readonly kinds: readonly Kind[];
  readonly owned: readonly Owned[];
}

/** Sort blanks by thickness and prepare their shapes, once for every outline that occurs. Yields 0…1. */
export function* groupsOf(blanks: readonly Blank[], said: Said): Walk<Group[]> {
  const thicknesses = [...new Set(blanks.map(({ pieces }) => pieces[0].thicknessMm))].sort((a, b) => a - b);
  const made: Group[] = [];
  let done = 0;
  for (const thicknessMm of thicknesses) {
    const kinds = kindsOf(said, thicknessMm);
    const owned = ownedOf(said, thicknessMm);
    const usableMm = [...kinds, ...owned].map(({ container: { box } }) => [box[2] - box[0], box[3] - box[1]] as const);
    const mayMirror = isFaceless(said.stock, thicknessMm);
    const shapes: Shape[] = [];
    const boundItems: BoundItem[] = [];
    const known = new Map<string, number>();
    const items: Item[] = [];
    for (const { blank, regions, referenceMm, turns, key } of canonical(blanks, thicknessMm, said)) {
      let shape = known.get(key);
      if (shape === undefined) {
        shape = shapes.length;
        known.set(key, shape);
        const hull = convexHull(ringsOf(regions));
        const turnsDeg = turnsToTry(turns, hull, smallestRectangle(hull).directionDeg, usableMm);
        const poses = turnsDeg.map((turnDeg) => poseOf(turnDeg));
        shapes.push(
          prepareShape(regions, {
            gapMm: said.gapMm,
            poses: mayMirror ? [...poses, ...poses.map((pose) => pose + WHOLE_TURN)] : poses,
            turnsFreely: turns === 'free',
            hasOddContainers: hasOdd(kinds, owned, said),
          }),
        );
        boundItems.push(boundItem(regions, said.gapMm, { shape, turns, mayMirror }, shapes[shape].inradiusMm));
      }
      items.push({ blank, shape, referenceMm, held: heldOf(blank, said.begun) });
      yield ++done / blanks.length;
    }
    const group = { thicknessMm, items, kinds: brokenDown(kinds, shapes, said), owned };
    made.push({
      ...group,
      problem: problemOf(group, shapes, said.gapMm),
      // Strips are our own doing: what is proven holds for whole boards.
      bounds: boundsOf({ ...group, kinds }, boundItems, said.gapMm),
    });
  }
  return made;
}

/** Blanks of a thickness in an order that neither names nor the order of the input decide, unless nothing else does. */
function canonical(blanks: readonly Blank[], thicknessMm: number, { turns: all, pieces }: Said) {
  return blanks
    .filter((blank) => blank.pieces[0].thicknessMm === thicknessMm)
    .map((blank) => {
      const { key, ...own } = ownOutline(blank);
      const turns = turnsOf(blank, all, pieces);
      return { blank, ...own, turns, key: `${turns} ${key}`, areaMm2: areaOf(own.regions) };
    })
    .sort(
      (a, b) => b.areaMm2 - a.areaMm2 || byText(a.key, b.key) || byText(a.blank.pieces[0].name, b.blank.pieces[0].name),
    );
}

const FREER: readonly Turns[] = ['fixed', 'half', 'quarter', 'free'];

/** The turns that every piece of a blank may take. */
function turnsOf({ pieces }: Blank, all: Turns, rules: readonly PieceRule[]): Turns {
  const said = pieces.map(({ name }) => rules.find(({ piece }) => piece === name)?.turns ?? all);
  return FREER[Math.min(...said.map((turns) => FREER.indexOf(turns)))];
}

/** Whether shapes may have to lie in an outline that is no rectangle: one that is there, or strips that a deep board is broken into. */
const hasOdd = (kinds: readonly Kind[], owned: readonly Owned[], { tool }: Said): boolean =>
  throatOf(tool) !== null || [...kinds, ...owned].some(({ container }) => container.outline !== null);

function problemOf(
  { items, kinds, owned }: Omit<Group, 'problem' | 'bounds'>,
  shapes: readonly Shape[],
  gapMm: number,
): Problem {
  const isPriced = kinds.every(({ board }) => board.price !== null);
  return {
    shapes,
    items: items.map(({ shape }) => shape),
    kinds: kinds.map(({ container, board: { price, count, sizeMm } }) => ({
      container,
      cost: isPriced ? (price as number) : 1,
      grossMm2: sizeMm[0] * sizeMm[1],
      count,
    })),
    owned: owned.map(({ container }) => container),
    fixed: items.flatMap(({ held, referenceMm }, item): Fixed[] => {
      if (!held) return [];
      const [x, y] = placed(Float64Array.from(referenceMm), held);
      const on = owned.findIndex(({ number }) => number === held.board);
      return [{ item, owned: on, pose: poseOf(held.turnDeg, held.mirrored), x: snapped(x), y: snapped(y) }];
    }),
    gapMm,
  };
}

function boundsOf(
  { items, kinds, owned }: Omit<Group, 'problem' | 'bounds'>,
  boundItems: readonly BoundItem[],
  gapMm: number,
): BoundCase {
  return {
    items: items.filter(({ held }) => held === null).map(({ shape }) => boundItems[shape]),
    boards: kinds.map(({ regions, board: { price, count } }) => boundBoard(regions, gapMm, { price, count })),
    owned: owned.map(({ regions, number }) => {
      const whole = boundOwned(regions, gapMm);
      const cut = items.filter(({ held }) => held !== null && held.board === number);
      const cutMm2 = cut.reduce((sum, { shape }) => sum + boundItems[shape].areaMm2, 0);
      return { ...whole, areaMm2: Math.max(0, whole.areaMm2 - cutMm2) };
    }),
  };
}

const heldOf = (blank: Blank, begun: readonly Begun[]): Held | null =>
  begun.flatMap(({ blanks }) => blanks).find((each) => each.blank === blank)?.held ?? null;
