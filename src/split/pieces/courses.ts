import { subtract } from '../../geometry/clip.ts';
import type { Region } from '../../geometry/ring.ts';
import type { Layer } from '../../model/layer.ts';
import type { Context } from '../../plugin.ts';
import type { Wanted } from './cut-cost.ts';
import { type Division, dividedAgain, divisionsOf, overBetween, WAYS } from './divide.ts';
import { keyed } from './keys.ts';
import type { Room } from './room.ts';
import type { SeamOptions } from './seam-options.ts';
import { wantedOf } from './wanted.ts';

/** A layer on its way to being divided, with all that lies on it. */
export interface Laid {
  readonly layer: Layer;
  /** Left out of the layer's regions. */
  readonly voids: readonly Region[];
  /** Where no layer beneath has a void, as whoever hollows decided on the way down. */
  readonly kept: readonly Region[] | undefined;
  /** The layer less its voids. */
  readonly foam: readonly Region[];
  readonly pieces: readonly Region[];
  /** What lies on it; null on top. */
  readonly over: Laid | null;
}

/** What to leave out of a layer under one that has been divided, and where nothing may be left out of those beneath. */
export type Hollow = (above: Laid, below: Layer) => Pick<Laid, 'voids' | 'kept'>;

/** A layer divided in one of the ways that are kept in mind. */
export interface Choice extends Laid {
  readonly division: Division;
  readonly wanted: Wanted;
  readonly over: Choice | null;
  /** What it costs with all that lies on it. */
  readonly total: number;
}

/** Under so many of those, the best, a layer is divided anew; under the others as it was found. */
const SEARCHED = 1;
/** So many ways to divide a layer are kept in mind while those beneath are divided, */
const KEPT = 4;
/** fewer where a stack falls into more pieces than this, */
const MANY_PIECES = 1000;
const KEPT_OF_MANY = 2;
/** and where each asks for voids of its own beneath it: those take most of the time. Rounds make up for it. */
const KEPT_OF_HOLLOW = 1;
/** and so often the whole stack is gone through. */
const ROUNDS = 3;

/** The search for the seams of a whole stack. */
export class StackSeams {
  readonly #layers: readonly Layer[];
  readonly #wanted: readonly Wanted[];
  readonly #rooms: readonly Room[];
  readonly #hollow: Hollow;
  readonly #isKeyed: boolean;
  /**
   * Foam that lies under a division, by where nothing may be left out of it, and divisions that have been found of some foam;
   * kept from round to round, so that only what lies under a layer that was divided otherwise is hollowed and divided anew.
   */
  readonly #under = new Map<Division, Map<Laid['kept'], Pick<Laid, 'voids' | 'kept' | 'foam'>>>();
  readonly #found = new Map<readonly Region[], Map<string, Division>>();

  /** @param rooms what the pieces of each layer may measure. */
  constructor(
    layers: readonly Layer[],
    rooms: readonly Room[],
    hollow: Hollow,
    seams: SeamOptions,
    facts: Context<'split'>['facts'],
  ) {
    this.#layers = layers;
    this.#rooms = rooms;
    this.#hollow = hollow;
    this.#isKeyed = seams.style === 'key';
    this.#wanted = layers.map(
      (layer, i): Wanted => ({
        ...wantedOf(layer, rooms[i], seams, facts),
        covered: layers[i + 1]?.regions ?? [],
      }),
    );
  }

  /**
   * The division of each layer that makes the whole stack cost least, from the ground up.
   *
   * Each layer has several divisions (divide.ts); what two neighbours cost one another is the length for which their seams run
   * together (cut-cost.ts). So the best of the stack is a shortest way through the layers (dynamic programming, Bellman 1957),
   * kept to the few best at each layer (a beam), since the voids under a layer, and with them what there is to divide next,
   * depend on its division. From the top down, for the same reason. Where seams still run together, the stack is gone through
   * again: each layer is then divided also with the seams that lay beneath it in mind, and what it had is kept among the
   * choices; until a round is no better than the one before.
   */
  *best(): Generator<number, readonly Choice[]> {
    let best = yield* this.#down(null, 0, 1 / ROUNDS);
    for (let round = 1; round < ROUNDS && best.some((_, i) => runsTogether(best, i)); round++) {
      const next = yield* this.#down(best, round / ROUNDS, (round + 1) / ROUNDS);
      if (next[0].total >= best[0].total) break;
      best = next;
    }
    return best;
  }

  /** The choice for a layer when what lies on it was changed after all. */
  under(over: Choice, i: number, choices: readonly Choice[]): Choice {
    const { voids, kept, foam } = this.#below(i, over);
    const before = choices[i];
    if (voids.length === 0 && before.voids.length === 0) return { ...before, over };
    const seamsNear = [...over.division.seams, ...(choices[i - 1]?.division.seams ?? [])];
    const wanted = { ...this.#wanted[i], seamsNear };
    const [division] = divisionsOf(foam, wanted, before.layer.number, WAYS);
    return { ...before, voids, kept, foam, over, wanted, division, pieces: this.#styled(division.pieces, i) };
  }

  /** A choice with some of its pieces, by number, divided once more where that is possible. */
  again(choice: Choice, some: readonly number[], i: number): Choice {
    const division = dividedAgain(choice.division, some, choice.wanted);
    return { ...choice, division, pieces: this.#styled(division.pieces, i) };
  }

  #styled(pieces: readonly Region[], i: number): readonly Region[] {
    return this.#isKeyed ? keyed(pieces, this.#wanted[i].leastWidthMm, this.#rooms[i]) : pieces;
  }

  /** The best choice of each layer, from the ground up. */
  *#down(before: readonly Choice[] | null, from: number, to: number): Generator<number, readonly Choice[]> {
    let choices: readonly (Choice | null)[] = [null];
    for (let i = this.#layers.length - 1; i >= 0; i--) {
      choices = this.#choicesOf(i, choices, before);
      yield from + ((to - from) * (this.#layers.length - i)) / this.#layers.length;
    }
    const chosen: Choice[] = [];
    for (let choice = choices[0]; choice; choice = choice.over) chosen.push(choice);
    return chosen;
  }

  /** The best ways to divide a layer under those that have been chosen above it, the best first. */
  #choicesOf(i: number, parents: readonly (Choice | null)[], before: readonly Choice[] | null): readonly Choice[] {
    const best = new Map<string, Choice>();
    for (const [rank, over] of parents.entries()) {
      const { voids, kept, foam } = this.#below(i, over);
      const seamsNear = [...(over?.division.seams ?? []), ...(before?.[i - 1]?.division.seams ?? [])];
      const wanted = { ...this.#wanted[i], seamsNear };
      const isSettled = rank >= SEARCHED || (before !== null && !runsTogether(before, i));
      for (const [key, division] of this.#divisionsOf(i, foam, wanted, isSettled)) {
        const together = over ? overBetween(division, over.division.seams, wanted) : 0;
        const total = (over?.total ?? 0) + division.cost + together;
        const place = foam === this.#layers[i].regions ? key : `${rank} ${key}`;
        const other = best.get(place);
        if (other && other.total <= total) continue;
        const pieces = this.#styled(division.pieces, i);
        best.set(place, { layer: this.#layers[i], voids, kept, foam, pieces, over, division, wanted, total });
      }
    }
    const sorted = [...best.values()].sort((a, b) => a.total - b.total);
    const [{ division, voids }] = sorted;
    if (voids.length > 0) return sorted.slice(0, KEPT_OF_HOLLOW);
    return sorted.slice(0, division.pieces.length > MANY_PIECES ? KEPT_OF_MANY : KEPT);
  }

  #below(i: number, over: Choice | null): Pick<Laid, 'voids' | 'kept' | 'foam'> {
    const layer = this.#layers[i];
    if (!over) return { voids: [], kept: undefined, foam: layer.regions };
    const under = this.#under.get(over.division) ?? new Map<Laid['kept'], Pick<Laid, 'voids' | 'kept' | 'foam'>>();
    this.#under.set(over.division, under);
    let known = under.get(over.kept);
    if (!known) {
      const { voids, kept } = this.#hollow(over, layer);
      known = { voids, kept, foam: voids.length > 0 ? subtract(layer.regions, voids) : layer.regions };
      under.set(over.kept, known);
    }
    return known;
  }

  /** The divisions of some foam that have been found so far; where there are none, or more are wanted, with those that keep clear of the seams near now. */
  #divisionsOf(i: number, foam: readonly Region[], wanted: Wanted, isSettled: boolean): Map<string, Division> {
    const found = this.#found.get(foam) ?? new Map<string, Division>();
    if (isSettled && found.size > 0) return found;
    this.#found.set(foam, found);
    for (const division of divisionsOf(foam, wanted, this.#layers[i].number, WAYS)) {
      const key = division.seams.join(' ');
      if (!found.has(key)) found.set(key, division);
    }
    return found;
  }
}

/** Whether seams of a layer run along those of the next, above or beneath. */
const runsTogether = (choices: readonly Choice[], i: number): boolean =>
  [choices[i], choices[i - 1]].some(
    (choice) => choice?.over && overBetween(choice.division, choice.over.division.seams, choice.wanted) > 0,
  );
