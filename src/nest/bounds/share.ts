import { offset, regionsFromRings } from '../../geometry/clip.ts';
import { type EdgeRuns, edgeRuns, overlap, turnedRuns } from '../../geometry/edge-runs.ts';
import { PI, turn } from '../../geometry/exact-math.ts';
import { convexHull, extents } from '../../geometry/hull.ts';
import { type Box, type Ring, reversed, ringsOf } from '../../geometry/ring.ts';
import type { BoundItem } from './terms.ts';

/** An outline is shrunk by one of these: the first in millimetres, and each after it so many times the one before. */
const LEAST_SHRINK_MM = 0.05;
const SHRINK_STEP = 1.5;
/** In hand for the grid of the clipping, and for what layouts may be off by (they are printed in thousandths). */
const HAND_MM = 0.01;
/** Of free turns, into how many intervals half a turn is cut at first. */
const HALF_TURN_PARTS = 8;

const RAD = PI / 180;

/** A place of two outlines in relation to each other that is still to be judged: turns, half their width, and moves of b against a. */
interface Cell {
  readonly aDeg: number;
  readonly bDeg: number;
  readonly halfDeg: number;
  readonly moves: Box;
}

/**
 * Whether two outlines can be proven to find no room side by side in a rectangle, in any of their turns. All positions of one
 * against the other are cut into cells; in one cell, an outline shrunk by as much as turning and moving within the cell can
 * carry its points lies in the outline wherever it stands, so that if the shrunk ones meet at the middle, the whole cell
 * overlaps. What is undecided is halved, along turns or moves, whichever carries further. One place where they do not meet
 * ends it: they can share. The same for listed turns (half width 0), for which it is the no-fit polygon's question without
 * the polygon: on outlines with 60 points and pockets the polygon costs 20 ms, this 0.2 to 5 ms.
 */
export class Sharing {
  readonly #outlines = new Map<number, Outline>();
  /** Overlaps asked so far. */
  asked = 0;

  /** Whether they surely conflict in a rectangle. False also when so many questions do not settle it. */
  conflict(a: BoundItem, b: BoundItem, width: number, height: number, most: number): boolean {
    const [one, other] = [this.#outline(a, false), this.#outline(b, false)];
    const pairs: [Outline, Outline][] = [[one, other]];
    // Both mirrored is the same as neither, seen in a mirror.
    if (a.mayMirror || b.mayMirror) pairs.push([one, this.#outline(b, true)]);
    const until = this.asked + most;
    // Half a turn of the whole board changes nothing: where both turn freely, one of them turns half way.
    const aTurns = turnsOf(a, b.turns === 'free' ? 1 : 2);
    return pairs.every(([p, q]) => this.#neverShare(p, q, aTurns, turnsOf(b, 2), [width, height], until));
  }

  #outline(item: BoundItem, isMirrored: boolean): Outline {
    const key = 2 * item.shape + Number(isMirrored);
    const known = this.#outlines.get(key);
    if (known) return known;
    const made = new Outline(isMirrored ? item.inner.map(mirrored) : item.inner);
    this.#outlines.set(key, made);
    return made;
  }

  #neverShare(
    a: Outline,
    b: Outline,
    aTurns: Turning,
    bTurns: Turning,
    board: readonly [number, number],
    until: number,
  ): boolean {
    const open: Cell[] = [];
    for (const aDeg of aTurns.atDeg) {
      for (const bDeg of bTurns.atDeg) {
        // Where only one turns freely the other is judged as if it did: a proof that covers more is a proof.
        const halfDeg = Math.max(aTurns.halfDeg, bTurns.halfDeg);
        const moves = movesIn(a, b, { aDeg, bDeg, halfDeg }, board);
        if (!moves) continue;
        if (this.#canStand(a, b, { aDeg, bDeg }, board)) return false;
        open.push({ aDeg, bDeg, halfDeg, moves });
      }
    }
    for (let cell = open.pop(); cell; cell = open.pop()) {
      if (this.asked >= until) return false;
      const { aDeg, bDeg, halfDeg, moves } = cell;
      const [x, y] = [(moves[0] + moves[2]) / 2, (moves[1] + moves[3]) / 2];
      const [dx, dy] = [(moves[2] - moves[0]) / 2, (moves[3] - moves[1]) / 2];
      const carried = Math.sqrt(dx * dx + dy * dy) / 2;
      const [aTurned, bTurned] = [a.reach * halfDeg * RAD, b.reach * halfDeg * RAD];
      this.asked++;
      const inner = a.shrunk(aTurned + carried, aDeg);
      const outer = b.shrunk(bTurned + carried, bDeg);
      if (inner && outer && overlap(inner, outer, x, y)) continue;
      const exact = movesIn(a, b, { aDeg, bDeg, halfDeg: 0 }, board);
      if (exact && x >= exact[0] && x <= exact[2] && y >= exact[1] && y <= exact[3]) {
        this.asked++;
        if (!overlap(a.turned(aDeg), b.turned(bDeg), x, y)) return false;
      }
      // Finer than what can be cut: let them share.
      if (aTurned + bTurned + carried < LEAST_SHRINK_MM) return false;
      open.push(...(aTurned + bTurned > carried ? halvedTurns(a, b, cell, board) : halvedMoves(cell, dx > dy)));
    }
    return true;
  }

  /** Whether they stand side by side in opposite corners, at exactly these turns. */
  #canStand(a: Outline, b: Outline, at: Turned, board: readonly [number, number]): boolean {
    const moves = movesIn(a, b, { ...at, halfDeg: 0 }, board);
    if (!moves) return false;
    const [one, other] = [a.turned(at.aDeg), b.turned(at.bDeg)];
    return [
      [moves[0], moves[1]],
      [moves[2], moves[1]],
      [moves[0], moves[3]],
      [moves[2], moves[3]],
    ].some(([x, y]) => {
      this.asked++;
      return !overlap(one, other, x, y);
    });
  }
}

interface Turned {
  readonly aDeg: number;
  readonly bDeg: number;
}

interface Turning {
  readonly atDeg: readonly number[];
  readonly halfDeg: number;
}

/** The turns of an item, or the middles of intervals that cover them in so many half turns. */
function turnsOf({ turns }: BoundItem, halfTurns: number): Turning {
  if (turns === 'fixed') return { atDeg: [0], halfDeg: 0 };
  if (turns === 'half') return { atDeg: [0, 180], halfDeg: 0 };
  if (turns === 'quarter') return { atDeg: [0, 90, 180, 270], halfDeg: 0 };
  const stepDeg = 180 / HALF_TURN_PARTS;
  return { atDeg: Array.from({ length: halfTurns * HALF_TURN_PARTS }, (_, i) => i * stepDeg), halfDeg: stepDeg / 2 };
}

/** Moves of b against a at which both may lie in the board, at any turn within half a width; null when there is none. */
function movesIn(
  a: Outline,
  b: Outline,
  { aDeg, bDeg, halfDeg }: Omit<Cell, 'moves'>,
  board: readonly [number, number],
): Box | null {
  const [p, q] = [a.box(aDeg, halfDeg), b.box(bDeg, halfDeg)];
  const [width, height] = board;
  if (p[2] - p[0] > width || p[3] - p[1] > height || q[2] - q[0] > width || q[3] - q[1] > height) return null;
  return [p[2] - q[0] - width, p[3] - q[1] - height, p[0] - q[2] + width, p[1] - q[3] + height];
}

function halvedMoves({ moves, ...turned }: Cell, isAcross: boolean): Cell[] {
  const [minX, minY, maxX, maxY] = moves;
  const [x, y] = [(minX + maxX) / 2, (minY + maxY) / 2];
  return isAcross
    ? [
        { ...turned, moves: [minX, minY, x, maxY] },
        { ...turned, moves: [x, minY, maxX, maxY] },
      ]
    : [
        { ...turned, moves: [minX, minY, maxX, y] },
        { ...turned, moves: [minX, y, maxX, maxY] },
      ];
}

function halvedTurns(
  a: Outline,
  b: Outline,
  { aDeg, bDeg, halfDeg, moves }: Cell,
  board: readonly [number, number],
): Cell[] {
  const quarter = halfDeg / 2;
  return [-quarter, quarter].flatMap((da) =>
    [-quarter, quarter].flatMap((db) => {
      const turned = { aDeg: aDeg + da, bDeg: bDeg + db, halfDeg: quarter };
      const within = movesIn(a, b, turned, board);
      if (!within) return [];
      const left: Box = [
        Math.max(moves[0], within[0]),
        Math.max(moves[1], within[1]),
        Math.min(moves[2], within[2]),
        Math.min(moves[3], within[3]),
      ];
      return left[0] <= left[2] && left[1] <= left[3] ? [{ ...turned, moves: left }] : [];
    }),
  );
}

/** An outline about the middle of its box, with what was made of it. */
class Outline {
  /** Of its farthest point from the middle: what turning carries furthest. */
  readonly reach: number;
  readonly #rings: readonly Ring[];
  readonly #hull: Ring;
  readonly #shrunk: (readonly Ring[])[] = [];
  readonly #turned = new Map<string, EdgeRuns | null>();

  constructor(rings: readonly Ring[]) {
    const hull = convexHull(rings);
    const [minX, maxX, minY, maxY] = extents(hull, 1, 0);
    const centred = (ring: Ring) => ring.map((v, i) => v - (i % 2 === 0 ? (minX + maxX) / 2 : (minY + maxY) / 2));
    this.#rings = rings.map(centred);
    this.#hull = centred(hull);
    let squared = 0;
    for (let i = 0; i < hull.length; i += 2) {
      squared = Math.max(squared, this.#hull[i] * this.#hull[i] + this.#hull[i + 1] * this.#hull[i + 1]);
    }
    this.reach = Math.sqrt(squared);
  }

  /** A box that lies within the outline's at any turn within half a width. */
  box(turnDeg: number, halfDeg: number): Box {
    const { cos, sin } = turn(-turnDeg);
    const [least, most, low, high] = extents(this.#hull, cos, sin);
    const by = this.reach * halfDeg * RAD;
    return [least + by, low + by, most - by, high - by];
  }

  turned(turnDeg: number): EdgeRuns {
    return this.#at('', turnDeg, () => this.#rings) as EdgeRuns;
  }

  /** Shrunk by at least so much, and turned; null when nothing is left. */
  shrunk(by: number, turnDeg: number): EdgeRuns | null {
    let level = 0;
    for (let mm = LEAST_SHRINK_MM; mm < by + HAND_MM; mm *= SHRINK_STEP) level++;
    return this.#at(`${level}/`, turnDeg, () => {
      let mm = LEAST_SHRINK_MM;
      for (let i = 0; i < level; i++) mm *= SHRINK_STEP;
      this.#shrunk[level] ??= ringsOf(offset(regionsFromRings(this.#rings), -mm, { joins: 'miter' }));
      return this.#shrunk[level];
    });
  }

  #at(prefix: string, turnDeg: number, ringsFor: () => readonly Ring[]): EdgeRuns | null {
    const key = `${prefix}${turnDeg}`;
    const known = this.#turned.get(key);
    if (known !== undefined) return known;
    const rings = ringsFor();
    const made = rings.length === 0 ? null : turnedRuns(edgeRuns(rings), turnDeg);
    this.#turned.set(key, made);
    return made;
  }
}

const mirrored = (ring: Ring): Ring => reversed(ring.map((v, i) => (i % 2 === 0 ? -v : v)));
