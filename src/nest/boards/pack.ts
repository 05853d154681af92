import { type Random, stream } from '../../geometry/random.ts';
import type { Reply } from '../../plugin.ts';
import { compareRanks, type Kind, type Packing, packingOf, rankOf } from './packing.ts';
import { bestSpot, type Rule, type Spot, spotInHole } from './place.ts';
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
  readonly seed: number;
  readonly round: number;
  readonly lane: number;
  /** What to improve on; null to start from empty boards. */
  readonly from: Packing | null;
}

export interface PackResult {
  readonly packing: Packing;
  readonly evaluations: number;
}

/** Lanes of a round. Their number never depends on how many workers there are. */
export const LANES = 4;

/** Positions that one lane looks at in an improving round, about. */
const QUOTA = 50_000;

/** What one try counts at least. */
const LEAST_PER_TRY = 500;

/**
 * How each lane starts: what is placed first, and where things go. No order is best everywhere; hull area times diameter,
 * the first, is the best single one (measured on the published jigsaws and on contour rings).
 */
const STARTS: readonly { readonly weight: (shape: Shape) => number; readonly rule: Rule }[] = [
  { weight: (s) => s.hullAreaMm2 * s.diameterMm, rule: { acrossWeight: 1, upWeight: 0.15 } },
  { weight: (s) => s.longMm, rule: { acrossWeight: 1, upWeight: 0.9 } },
  { weight: (s) => s.areaMm2, rule: { acrossWeight: 1, upWeight: 0.4 } },
  { weight: (s) => s.shortMm * s.shortMm * s.longMm, rule: { acrossWeight: 0.15, upWeight: 1 } },
];

/** How much the order of one try is shaken: weights are multiplied by 1 ± this. */
const SHAKE = 0.35;

/** A lane's own work yields its progress, never lanes. */
type Lap<T> = Generator<number, T, Reply>;

/** The state of one lane. */
interface Lane {
  readonly input: PackInput;
  readonly random: Random;
  readonly tally: Tally;
  readonly rule: Rule;
  posturesOf(item: number): readonly Posture[];
  weightOf(item: number): number;
}

/** Pack items on boards: from empty boards in the lane's order, or by taking boards apart again and again. */
export function* pack(input: PackInput): Lap<PackResult> {
  const start = STARTS[input.lane % STARTS.length];
  const made = new Map<number, readonly Posture[]>();
  const lane: Lane = {
    input,
    random: stream(input.seed, 'pack', input.round, input.lane),
    tally: { evaluations: 0 },
    rule: start.rule,
    weightOf: (item) => start.weight(input.shapes[input.items[item]]),
    posturesOf(item) {
      const number = input.items[item];
      const shape = input.shapes[number];
      const postures = made.get(number) ?? shape.turnsDeg.map((turnDeg) => posture(shape, turnDeg, input.gapMm));
      made.set(number, postures);
      return postures;
    },
  };
  const packing = input.from ? yield* improve(lane, input.from) : yield* begin(lane);
  return { packing, evaluations: lane.tally.evaluations };
}

function* begin(lane: Lane): Lap<Packing> {
  const { kinds, offcuts, items } = lane.input;
  const rooms = offcuts.map((container, i) => emptyRoom(-1 - i, container));
  const order = inOrder(
    items.map((_, item) => item),
    lane.weightOf,
  );
  const left: number[] = [];
  for (const [done, item] of order.entries()) {
    if (!place(lane, rooms, item)) left.push(item);
    yield (done + 1) / order.length;
  }
  return packingOf(trimmed(lane, rooms), left, kinds);
}

/**
 * Take the board that is nearest to being saved, and one or two others, apart, and pack what was on them again in a
 * shaken order, the doomed board's room last. What is not worse is kept.
 */
function* improve(lane: Lane, from: Packing): Lap<Packing> {
  const { kinds } = lane.input;
  let rooms = from.boards.map(({ stock, stood }) => {
    const room = emptyRoom(stock, containerOf(lane.input, stock));
    for (const { item, turnDeg, x, y } of stood) {
      const found = lane.posturesOf(item).find((candidate) => candidate.turnDeg === turnDeg);
      if (found) stand(room, { item, posture: found, x, y });
    }
    return room;
  });
  let left = from.left;
  let rank = rankOf(rooms, left.length, kinds);
  while (lane.tally.evaluations < QUOTA && rooms.length > 0) {
    const before = lane.tally.evaluations;
    const apart = choose(rooms, lane.random);
    const items = inOrder([...apart.flatMap(({ standing }) => standing.map(({ item }) => item)), ...left], (item) => {
      return lane.weightOf(item) * (1 + SHAKE * (2 * lane.random() - 1));
    });
    const kept = rooms
      .filter((room) => !apart.includes(room))
      .map((room) => ({ ...room, standing: [...room.standing] }));
    const emptied = apart.map(({ stock, container }) => emptyRoom(stock, container));
    const [doomed, ...others] = emptied;
    const tried = [
      ...kept.filter(({ stock }) => stock < 0),
      ...others,
      ...kept.filter(({ stock }) => stock >= 0),
      doomed,
    ];
    const unplaced = items.filter((item) => !place(lane, tried, item));
    const now = trimmed(lane, tried);
    const nowRank = rankOf(now, unplaced.length, kinds);
    if (compareRanks(nowRank, rank) <= 0) {
      rooms = now;
      left = unplaced;
      rank = nowRank;
    }
    // A try that finds its places at once costs time all the same.
    lane.tally.evaluations = Math.max(lane.tally.evaluations, before + LEAST_PER_TRY);
    yield Math.min(1, lane.tally.evaluations / QUOTA);
  }
  return packingOf(rooms, left, kinds);
}

/** Rooms to take apart, the one to be saved first: mostly the emptiest bought board, and one or two at random. */
function choose(rooms: readonly Room[], random: Random): Room[] {
  const fill = ({ freeMm2, container }: Room) => 1 - freeMm2 / container.areaMm2;
  const bought = rooms.filter(({ stock }) => stock >= 0).sort((a, b) => fill(a) - fill(b));
  const among = bought.length > 0 ? bought : [...rooms];
  const chosen = [among[Math.floor(random() * random() * random() * among.length)]];
  const more = 1 + Math.floor(random() * 2);
  for (let i = 0; i < more; i++) {
    const other = rooms[Math.floor(random() * rooms.length)];
    if (!chosen.includes(other)) chosen.push(other);
  }
  return chosen;
}

/** Find a place for an item: in a hole, on the boards in their order, on a new board. False when there is none. */
function place(lane: Lane, rooms: Room[], item: number): boolean {
  const postures = lane.posturesOf(item);
  const put = (room: Room, { posture: chosen, x, y }: Spot) => stand(room, { item, posture: chosen, x, y });
  const { areaMm2 } = postures[0].shape;
  for (const room of rooms) {
    const spot = room.freeMm2 >= areaMm2 ? spotInHole(room, postures, lane.random, lane.tally) : null;
    if (spot) {
      put(room, spot);
      return true;
    }
  }
  for (const room of rooms) {
    const spot = room.freeMm2 >= areaMm2 ? bestSpot(room, postures, lane.rule, lane.random, lane.tally) : null;
    if (spot) {
      put(room, spot);
      return true;
    }
  }
  for (const kind of kindsToBuy(lane.input, rooms)) {
    const room = emptyRoom(kind, lane.input.kinds[kind].container);
    const spot = bestSpot(room, postures, lane.rule, lane.random, lane.tally);
    if (!spot) continue;
    rooms.push(room);
    put(room, spot);
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
function trimmed(lane: Lane, rooms: readonly Room[]): Room[] {
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
  for (const item of inOrder(
    room.standing.map(({ item }) => item),
    lane.weightOf,
  )) {
    const postures = lane.posturesOf(item);
    const spot =
      spotInHole(fresh, postures, lane.random, lane.tally) ??
      bestSpot(fresh, postures, lane.rule, lane.random, lane.tally);
    if (!spot) return null;
    stand(fresh, { item, posture: spot.posture, x: spot.x, y: spot.y });
  }
  return fresh;
}

const containerOf = ({ kinds, offcuts }: PackInput, stock: number): Container =>
  stock < 0 ? offcuts[-1 - stock] : kinds[stock].container;

/** Heaviest first; a tie goes to the item that comes first. Each weight is asked for once. */
function inOrder(items: readonly number[], weightOf: (item: number) => number): number[] {
  const weighed = items.map((item) => ({ item, weight: weightOf(item) }));
  return weighed.sort((a, b) => b.weight - a.weight || a.item - b.item).map(({ item }) => item);
}
