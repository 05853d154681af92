import { isClear, type Segments, type Spot, spotsIn, type TurnedBox } from '../../drawing/fit.ts';
import { type Mark, openLine } from '../../drawing/page.ts';
import { PENS } from '../../drawing/pen.ts';
import { length, turn } from '../../geometry/exact-math.ts';
import { type Box, type Point, type Region, rectangle } from '../../geometry/ring.ts';
import { type LabelBlock, textBlock } from '../board/label-blocks.ts';
import { labeller } from '../board/labeller.ts';
import { roomiest } from '../report/labels.ts';

/** A name for a region or for a line, page space. */
export interface Wanted {
  readonly text: string;
  readonly region?: Region;
  readonly line?: Float64Array;
}

/** Heights of a piece's name that are tried, and that of a joint's label: no name is smaller. */
const NAME_MM = [7, 6, 5, 4.2, 3.5, 3] as const;
const JOINT_MM = 3;
/** Shares of a joint's line beside which its label is tried, the middle first, and how far off. */
const SHARES = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9];
const BESIDE_MM = [0.3, 1.2, 2.4];
/** Where else a name is tried: rings so far apart, up to so far off, so many ways round. */
const RING_MM = 3;
const REACH_MM = 90;
const WAYS = 24;

/**
 * Names in the roomiest places of their pieces, joints' labels beside their lines; what has no room there stands off with a line
 * to it. No lettering touches a line or other lettering as long as the page has room. `boxes`: what it stands on.
 */
export function layerLabels(
  wanted: readonly Wanted[],
  lines: Segments,
  within: Box,
): { readonly marks: readonly Mark[]; readonly boxes: readonly Region[] } {
  const put = labeller(lines);
  const boxes: TurnedBox[] = [];
  const leaders: number[] = [];
  const led: Mark[] = [];
  const took = (block: LabelBlock, [x, y]: Point) => {
    boxes.push({ x, y, halfWidth: block.halfWidth + 0.6, halfHeight: block.halfHeight + 0.6, turnDeg: 0 });
  };
  const homeless: { readonly text: string; readonly block: LabelBlock; readonly at: Point }[] = [];
  // Names first: where they have room in their piece nothing else may take it.
  for (const { text, region, line } of [...wanted].sort((a, b) => Number(!a.region) - Number(!b.region))) {
    const blocks = region
      ? NAME_MM.map((heightMm) => textBlock([{ text, heightMm, underlined: true }]))
      : [textBlock([{ text, heightMm: JOINT_MM }])];
    const least = blocks[blocks.length - 1];
    const spots = region ? spotsIn(region, lines).map(upright) : line ? spotsBeside(line, least) : [];
    const done = put.put(
      blocks,
      spots.filter(({ x, y }) => x > within[0] && x < within[2] && y > within[1] && y < within[3]),
    );
    if (done) took(done.block, [done.x, done.y]);
    else homeless.push({ text, block: least, at: region ? roomiest(region) : line ? along(line, 0.5).at : [0, 0] });
  }
  for (const { text, block, at } of homeless) {
    const place = placesRound(at, block, within).find((spot) => {
      const leader = leaderTo(at, spot, block);
      const box = { ...block, ...spot, turnDeg: 0 };
      if (!isClear(box, new Float64Array(leaders))) return false;
      if (!boxes.every((other) => isClear(other, leader))) return false;
      if (!put.put([block], [spot])) return false;
      leaders.push(...leader);
      led.push({ pen: PENS.thin, title: `leader to ${text}`, lines: [openLine(...fourOf(leader))] });
      return true;
    });
    if (!place) put.force(block, at[0], at[1]);
    took(block, place ? [place.x, place.y] : at);
  }
  const regions = boxes.map(({ x, y, halfWidth: w, halfHeight: h }): Region => [rectangle(x - w, y - h, x + w, y + h)]);
  return { marks: [...led, ...put.marks], boxes: regions };
}

const upright = (spot: Spot): Spot => ({ ...spot, turnsDeg: [0] });

/** Both sides of a line, near its middle first; a place is tried even if a line is near: the block decides. */
function spotsBeside(line: Float64Array, { halfWidth, halfHeight }: LabelBlock): Spot[] {
  const spots: Spot[] = [];
  for (const besideMm of BESIDE_MM) {
    for (const share of SHARES) {
      const { at, way } = along(line, share);
      // As far off as half the box reaches across the line, and the labeller's air.
      const off = Math.abs(way[1]) * halfWidth + Math.abs(way[0]) * halfHeight + 1.8 + besideMm;
      for (const side of [1, -1]) {
        const [x, y] = [at[0] - side * way[1] * off, at[1] + side * way[0] * off];
        spots.push({ x, y, turnsDeg: [0], clearance: Infinity });
      }
    }
  }
  return spots;
}

/** The point of a line at a share of its length, and its way there. */
function along(line: Float64Array, share: number): { readonly at: Point; readonly way: Point } {
  const steps: number[] = [];
  for (let i = 2; i < line.length; i += 2) steps.push(length(line[i] - line[i - 2], line[i + 1] - line[i - 1]));
  let left = share * steps.reduce((sum, step) => sum + step, 0);
  let k = 0;
  while (k < steps.length - 1 && left > steps[k]) left -= steps[k++];
  const step = steps[k] || 1;
  const [dx, dy] = [(line[2 * k + 2] - line[2 * k]) / step, (line[2 * k + 3] - line[2 * k + 1]) / step];
  return { at: [line[2 * k] + dx * left, line[2 * k + 1] + dy * left], way: [dx, dy] };
}

function placesRound(at: Point, { halfWidth, halfHeight }: LabelBlock, [minX, minY, maxX, maxY]: Box): Spot[] {
  const spots: Spot[] = [];
  for (let off = RING_MM; off <= REACH_MM; off += RING_MM) {
    for (let way = 0; way < WAYS; way++) {
      const { cos, sin } = turn((360 * way) / WAYS);
      const [x, y] = [at[0] + cos * (off + halfWidth), at[1] + sin * (off + halfHeight)];
      if (x - halfWidth < minX || x + halfWidth > maxX || y - halfHeight < minY || y + halfHeight > maxY) continue;
      spots.push({ x, y, turnsDeg: [0], clearance: Infinity });
    }
  }
  return spots;
}

/** From a point to the nearest of a block's box and short of it, as one segment. */
function leaderTo([x, y]: Point, spot: Spot, { halfWidth, halfHeight }: LabelBlock): Segments {
  const [w, h] = [halfWidth + 0.9, halfHeight + 0.9];
  const toX = Math.max(spot.x - w, Math.min(spot.x + w, x));
  const toY = Math.max(spot.y - h, Math.min(spot.y + h, y));
  return new Float64Array([x, y, toX, toY]);
}

const fourOf = ([a, b, c, d]: Segments): [number, number, number, number] => [a, b, c, d];
