import polylabel from 'polylabel';
import { turn } from '../../geometry/exact-math.ts';
import { type Box, boxOf, isInRegion, type Point, type Region, type Ring } from '../../geometry/ring.ts';
import { grown, type Words } from './figure.ts';

/** A name wanted on a figure. */
export interface Label {
  readonly text: string;
  /** What it names: the letters stand here if they can, else beside it with a line to it. */
  readonly at: Point;
  /** Letters that lie wholly in this may be as tall as `most`. */
  readonly region?: Region;
  readonly most: number;
  readonly least: number;
  readonly look: string;
  /** How dear it is to hide what is drawn, in letter heights a corner; 1 when not said. */
  readonly weight?: number;
  /** Its middle stands no nearer than this to what it names. */
  readonly clear?: number;
  /** Left out where it does not fit into its region. */
  readonly isOptional?: boolean;
}

export interface Lettering {
  readonly words: readonly Words[];
  /** Lines from names that stand beside what they name, open. */
  readonly leaders: readonly Ring[];
}

/** Width of a letter and height of a capital, in letter heights: bold sans-serif, on the wide side. */
const LETTER = 0.66;
const CAPITAL = 0.78;
/** Where else a name may stand: this many ways round, these many letter heights off. */
const WAYS = 16;
const STEPS = [1, 1.6, 2.3, 3.2, 4.3, 5.6];

/** The roomiest place of a region, for its name. */
export function roomiest(region: Region): Point {
  const rings = region.map((ring) =>
    Array.from({ length: ring.length / 2 }, (_, i) => [ring[2 * i], ring[2 * i + 1]] as const),
  );
  const [minX, minY, maxX, maxY] = boxOf(region);
  const [x, y] = polylabel(rings, Math.max(1, Math.min(maxX - minX, maxY - minY) / 50));
  return [x, y];
}

/**
 * Letter a figure so that no two names touch: first those that fit into what they name, as large as they do; then the
 * others, in order, at the nearest place that hides least of the drawing.
 * @param drawn regions that names had better not stand on.
 */
export function letter(labels: readonly Label[], drawn: readonly Region[], within: Box): Lettering {
  const ink = drawn.map((region) => ({ region, box: boxOf(region) }));
  const words: (Words | undefined)[] = labels.map(() => undefined);
  const taken: Box[] = [];
  const leaders: Ring[] = [];
  const put = (i: number, [x, y]: Point, size: number) => {
    const { text, look } = labels[i];
    words[i] = { x, y, text, size, look };
    taken.push(letterBox(text, x, y, size));
  };
  for (const [i, { text, at, region, most, least }] of labels.entries()) {
    if (!region) continue;
    for (let size = most; size >= least; size = size > least ? Math.max(least, size * 0.85) : 0) {
      if (!isInRegionWhole(letterBox(text, at[0], at[1], size), region)) continue;
      if (!taken.some((other) => meet(other, letterBox(text, at[0], at[1], size)))) put(i, at, size);
      break;
    }
  }
  for (const [i, { text, at, region, least, weight = 1, clear = 0, isOptional }] of labels.entries()) {
    if (words[i] || isOptional) continue;
    const own = region && boxOf(region);
    let best: { place: Point; cost: number } = { place: at, cost: Infinity };
    for (const place of placesAbout(at, least, text)) {
      const box = letterBox(text, place[0], place[1], least);
      if (!holds(within, box) || taken.some((other) => meet(other, box))) continue;
      const [dx, dy] = [place[0] - at[0], place[1] - at[1]];
      if (dx * dx + dy * dy < clear * clear) continue;
      // A piece smaller than its name would vanish under it.
      if (own && holds(grown(box, least / 2), own) && meet(box, own)) continue;
      const hidden = cornersOf(box).filter(([x, y]) =>
        ink.some((each) => isInBox(x, y, each.box) && isInRegion(x, y, each.region)),
      ).length;
      const cost = hidden * least * weight + Math.sqrt(dx * dx + dy * dy);
      if (cost < best.cost) best = { place, cost };
    }
    put(i, best.place, least);
    const leader = leaderTo(at, letterBox(text, best.place[0], best.place[1], least), least);
    if (leader) leaders.push(leader);
  }
  return { words: words.filter((each) => each !== undefined), leaders };
}

function* placesAbout(at: Point, size: number, text: string): Generator<Point> {
  yield at;
  const wide = (text.length * LETTER) / 2;
  for (const step of STEPS) {
    for (let way = 0; way < WAYS; way++) {
      const { cos, sin } = turn((360 * way) / WAYS);
      yield [at[0] + cos * size * (step + wide * 0.8), at[1] + sin * size * step];
    }
  }
}

/** From a point to the nearest of a name's box, when it stands clear of the point. */
function leaderTo([x, y]: Point, [minX, minY, maxX, maxY]: Box, size: number): Ring | null {
  const toX = Math.max(minX, Math.min(maxX, x));
  const toY = Math.max(minY, Math.min(maxY, y));
  const [dx, dy] = [toX - x, toY - y];
  return dx * dx + dy * dy > (size * size) / 9 ? new Float64Array([x, y, toX, toY]) : null;
}

const letterBox = (text: string, x: number, y: number, size: number): Box => {
  const [halfWide, halfTall] = [(text.length * LETTER * size) / 2, (CAPITAL * size) / 2];
  return [x - halfWide, y - halfTall, x + halfWide, y + halfTall];
};

const cornersOf = ([minX, minY, maxX, maxY]: Box): Point[] => [
  [minX, minY],
  [maxX, minY],
  [(minX + maxX) / 2, (minY + maxY) / 2],
  [minX, maxY],
  [maxX, maxY],
];

function isInRegionWhole(box: Box, region: Region): boolean {
  const [minX, minY, maxX, maxY] = box;
  const sides: Point[] = [];
  for (const share of [0.25, 0.5, 0.75]) {
    sides.push([minX + (maxX - minX) * share, minY], [minX + (maxX - minX) * share, maxY]);
  }
  return [...cornersOf(box), ...sides].every(([x, y]) => isInRegion(x, y, region));
}

const meet = (a: Box, b: Box): boolean => a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3];
const holds = (a: Box, b: Box): boolean => a[0] <= b[0] && a[1] <= b[1] && a[2] >= b[2] && a[3] >= b[3];
const isInBox = (x: number, y: number, [minX, minY, maxX, maxY]: Box): boolean =>
  x >= minX && x <= maxX && y >= minY && y <= maxY;
