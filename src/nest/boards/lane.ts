import { type Random, stream } from '../../geometry/random.ts';
import type { Kind, Packing } from './packing.ts';
import { bestSpot, type Rule, spotInHole } from './place.ts';
import { type Posture, posture } from './posture.ts';
import { type Container, emptyRoom, type Room, reach, stand, type Tally } from './room.ts';
import type { Shape } from './shape.ts';

/** The work of one lane: plain data. */
export interface PackInput {
  readonly shapes: readonly Shape[];
  /** The shape of each item. Items come in the canonical order. */
  readonly items: readonly number[];
  readonly kinds: readonly Kind[];
  readonly offcuts: readonly Container[];
  readonly gapMm: number;
  /** Whether turns other than those to try may be taken. */
  readonly turnsFreely: boolean;
  readonly seed: number;
  readonly round: number;
  readonly lane: number;
  /** What to improve on; null to start from empty boards. */
  readonly from: Packing | null;
}

/** Positions that one lane looks at in an improving round, about, for each item; what a try counts at least. */
const QUOTA_PER_ITEM = 700;
export const LEAST_PER_TRY = 500;
export const quotaOf = ({ input }: Lane): number => QUOTA_PER_ITEM * input.items.length;

/** Lanes of a round. Their number never depends on how many workers there are. */
export const LANES = 4;

/** How each lane starts: what is placed first, and where things go. No order and no rule is best everywhere. */
const STARTS: readonly { readonly weight: (shape: Shape) => number; readonly rule: Rule }[] = [
  { weight: (s) => s.hullAreaMm2 * s.diameterMm, rule: { acrossWeight: 1, upWeight: 0.15 } },
  { weight: (s) => s.longMm, rule: { acrossWeight: 1, upWeight: 0.9 } },
  { weight: (s) => s.areaMm2, rule: { acrossWeight: 1, upWeight: 0.4 } },
  { weight: (s) => s.shortMm * s.shortMm * s.longMm, rule: { acrossWeight: 0.15, upWeight: 1 } },
];

/** The state of one lane. */
export interface Lane {
  readonly input: PackInput;
  readonly random: Random;
  readonly tally: Tally;
  readonly rule: Rule;
  /** In the turns to try. */
  posturesOf(item: number): readonly Posture[];
  /** In any turn, in hundredths of a degree. */
  postureAt(item: number, turnDeg: number): Posture;
  weightOf(item: number): number;
}

/** Begin a lane: its own random numbers, its own order and rule. */
export function laneOf(input: PackInput): Lane {
  const start = STARTS[input.lane % STARTS.length];
  const made = input.shapes.map(() => new Map<number, Posture>());
  const lists: (readonly Posture[] | undefined)[] = [];
  const postureAt = (item: number, turnDeg: number): Posture => {
    const number = input.items[item];
    const known = made[number].get(turnDeg);
    if (known) return known;
    const fresh = posture(input.shapes[number], turnDeg, input.gapMm);
    made[number].set(turnDeg, fresh);
    return fresh;
  };
  return {
    input,
    random: stream(input.seed, 'pack', input.round, input.lane),
    tally: { evaluations: 0 },
    rule: start.rule,
    weightOf: (item) => start.weight(input.shapes[input.items[item]]),
    posturesOf(item) {
      const number = input.items[item];
      lists[number] ??= input.shapes[number].turnsDeg.map((turnDeg) => postureAt(item, turnDeg));
      return lists[number];
    },
    postureAt,
  };
}

/** Find a place for an item: in a hole, on the boards in their order, on a new board. False when there is none. */
export function place(lane: Lane, rooms: Room[], item: number): boolean {
  const postures = lane.posturesOf(item);
  const inHole = (room: Room) => spotInHole(room, postures, lane.random, lane.tally);
  const onBoard = (room: Room) => bestSpot(room, postures, lane.rule, lane.random, lane.tally);
  // A share less than nothing, so that what fits exactly is not lost to rounding.
  const needed = postures[0].shape.areaMm2 * (1 - 1e-9);
  for (const find of [inHole, onBoard]) {
    for (const room of rooms) {
      const spot = room.freeMm2 >= needed ? find(room) : null;
      if (!spot) continue;
      stand(room, { item, ...spot });
      return true;
    }
  }
  for (const kind of kindsToBuy(lane.input, rooms)) {
    const room = emptyRoom(kind, lane.input.kinds[kind].container);
    const spot = onBoard(room);
    if (!spot) continue;
    stand(room, { item, ...spot });
    rooms.push(room);
    return true;
  }
  return false;
}

/** Kinds that can still be had, the best buy by area first; lanes after the second start with the cheapest board. */
function kindsToBuy({ kinds, lane }: PackInput, rooms: readonly Room[]): number[] {
  const worth = (kind: number) => kinds[kind].cost / (lane < LANES / 2 ? kinds[kind].container.areaMm2 : 1);
  return kinds
    .map((_, kind) => kind)
    .filter((kind) => {
      const { count } = kinds[kind].stock;
      return count === null || rooms.filter(({ stock }) => stock === kind).length < count;
    })
    .sort((a, b) => worth(a) - worth(b) || a - b);
}

/** The rooms that hold something, each on the cheapest board that takes what is on it. */
export function trimmed(lane: Lane, rooms: readonly Room[]): Room[] {
  const { kinds } = lane.input;
  const used = rooms.filter(({ standing }) => standing.length > 0);
  for (const [i, room] of used.entries()) {
    if (room.stock < 0) continue;
    const own = kinds[room.stock];
    const cheaper = kindsToBuy(lane.input, used)
      .filter(
        (kind) => kinds[kind].cost < own.cost || (kinds[kind].cost === own.cost && kinds[kind].grossMm2 < own.grossMm2),
      )
      .sort((a, b) => kinds[a].cost - kinds[b].cost || kinds[a].grossMm2 - kinds[b].grossMm2 || a - b);
    for (const kind of cheaper) {
      const moved = repacked(lane, room, kind);
      if (!moved) continue;
      used[i] = moved;
      break;
    }
  }
  return used;
}

/** What stands in a room on a board of another kind: as it stands if that fits, else packed anew; null when neither does. */
function repacked(lane: Lane, room: Room, kind: number): Room | null {
  const { container } = lane.input.kinds[kind];
  if (container.areaMm2 < room.container.areaMm2 - room.freeMm2) return null;
  const fresh = emptyRoom(kind, container);
  const fits = room.standing.every(({ posture: p, x, y }) => {
    const within = reach(container, p);
    return within && x >= within[0] && y >= within[1] && x <= within[2] && y <= within[3];
  });
  if (fits && container.outline === null) {
    for (const standing of room.standing) stand(fresh, standing);
    return fresh;
  }
  const items = room.standing.map(({ item }) => item);
  for (const item of inOrder(items, lane.weightOf)) {
    const postures = lane.posturesOf(item);
    const spot =
      spotInHole(fresh, postures, lane.random, lane.tally) ??
      bestSpot(fresh, postures, lane.rule, lane.random, lane.tally);
    if (!spot) return null;
    stand(fresh, { item, ...spot });
  }
  return fresh;
}

/** The rooms of a packing. */
export const restored = (lane: Lane, { boards }: Packing): Room[] =>
  boards.map(({ stock, stood }) => {
    const room = emptyRoom(stock, containerOf(lane.input, stock));
    for (const { item, turnDeg, x, y } of stood) {
      stand(room, { item, posture: lane.postureAt(item, turnDeg), x, y });
    }
    return room;
  });

const containerOf = ({ kinds, offcuts }: PackInput, stock: number): Container =>
  stock < 0 ? offcuts[-1 - stock] : kinds[stock].container;

/** Heaviest first; a tie goes to the item that comes first. Each weight is asked for once. */
export function inOrder(items: readonly number[], weightOf: (item: number) => number): number[] {
  const weighed = items.map((item) => ({ item, weight: weightOf(item) }));
  return weighed.sort((a, b) => b.weight - a.weight || a.item - b.item).map(({ item }) => item);
}
