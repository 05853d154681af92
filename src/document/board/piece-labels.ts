import { coarser, readableDeg, type Spot, segmentsOf, spotsIn } from '../../drawing/fit.ts';
import type { Mark } from '../../drawing/page.ts';
import { TEXT_HEIGHTS_MM } from '../../drawing/pen.ts';
import { intersect, regionsFromRings, subtract } from '../../geometry/clip.ts';
import { directionDeg } from '../../geometry/exact-math.ts';
import { boxOf, isInRegion, type Point, placed as put } from '../../geometry/ring.ts';
import type { Front } from '../../model/facts.ts';
import { FRONT_VECTORS } from '../../model/front.ts';
import { thicknessText, type Unit } from '../../units.ts';
import { arrowBlock, type LabelBlock, type Row, textBlock } from './label-blocks.ts';
import { COARSE_MM, labeller } from './labeller.ts';
import {
  DEPTH_MM,
  depthLines,
  inward,
  inwardAt,
  matchLines,
  nickLines,
  type PieceOnBoard,
  pinLines,
} from './on-board.ts';
import type { UprightLabels } from './upright-labels.ts';

/** What a label says beyond its piece. */
export interface LabelFacts {
  readonly unit: Unit;
  readonly gapMm: number;
  /** How many pieces its layer has. */
  readonly of: number;
  readonly front: Front;
  /** Only where the pieces stand: then an arrow shows which edge is up, and words where the front is. */
  readonly upright: UprightLabels | null;
  /** Of a rock that is glued on its side: which way its seat faces, in plan. The front says nothing then. */
  readonly seat: Point | null;
  /** Number of its board. */
  readonly board: number;
  /** Its place in the order of cutting, of how many cuts the board takes. */
  readonly cut: readonly [number, number];
  readonly isForTwo: boolean;
}

export interface PieceName {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly heightMm: number;
}

export interface PieceLabels {
  readonly marks: readonly Mark[];
  /** Where its name stands; null when it found no room: then it is the first of `outside`. */
  readonly name: PieceName | null;
  /** The roomiest point of the piece: a leader ends there. */
  readonly anchor: Point;
  /** What found no clear room inside and goes out on a leader. */
  readonly outside: readonly Row[];
  /** What found none and cannot go out. */
  readonly crowded: readonly string[];
}

/** A name from here up is put first into the part that the next layer covers. */
const LARGE_MM = 20;
/** A name from here up has the rows beneath it that say layer, count and side. */
const WITH_ROWS_MM = 10;
const LEAST_ROW_MM = 3.5;
const NAMES_MM = TEXT_HEIGHTS_MM.filter((height) => height >= 2.5);
const ROWS_MM = TEXT_HEIGHTS_MM.filter((height) => height <= 10 && height >= LEAST_ROW_MM);
const SMALL_MM = TEXT_HEIGHTS_MM.filter((height) => height <= 7 && height >= 2.5);
/** Places along a joint that its label tries, as shares of its length, and how far from the cut it may stand. */
const ALONG = [0.5, 0.36, 0.64, 0.22, 0.78, 0.1, 0.9];
const OFF_CUT_MM = [2, 5, 9, 14];
/** Lettering of a leader. */
const OUTSIDE_NAME_MM = 10;

/**
 * Letter a piece: its name as large as there is room, which piece of its layer it is, which side is up, which cut of which board
 * frees it, an arrow to the front, its joints with the neighbours' names, its pins with their lengths. What the next layer
 * covers is taken first: ink bleeds through paint, and lettering there is not seen in the end.
 */
export function pieceLabels(lying: PieceOnBoard, facts: LabelFacts): PieceLabels {
  const { piece } = lying;
  const rings = lying.outline.map((ring) => coarser(ring, COARSE_MM));
  const placing = lying.placing.map((region) => region.map((ring) => coarser(ring, COARSE_MM)));
  const glue = lying.glue.flatMap((region) => region.map((ring) => coarser(ring, COARSE_MM)));
  const drawn = [
    ...matchLines(lying, facts.gapMm),
    ...nickLines(lying),
    ...depthLines(lying),
    ...lying.pins.flatMap(({ at }) => pinLines(at)),
  ].map(({ points }) => points);
  const carved = lying.carved.flatMap((region) => region.map((ring) => coarser(ring, COARSE_MM)));
  const lines = segmentsOf([...rings, ...placing.flat(), ...glue, ...carved], [...lying.slits, ...drawn]);
  const labels = labeller(lines);
  const crowded: string[] = [];
  const outside: Row[] = [];

  const open = spotsIn(rings, lines);
  const covered = intersect(
    regionsFromRings(rings),
    placing.flatMap((region) => regionsFromRings(region)),
  )
    .flatMap((region) => spotsIn(region, lines))
    .sort(roomiest);
  const [left, top, right, bottom] = boxOf(rings);
  const best = covered[0] ?? open[0] ?? { x: (left + right) / 2, y: (top + bottom) / 2 };

  const rows = rowsOf(lying, facts);
  const name = (heightMm: number): Row => ({ text: piece.name, heightMm, underlined: true });
  // The name keeps its height as long as smaller rows make room for it.
  const whole = (heightMm: number) =>
    ROWS_MM.filter((row) => row <= Math.max(LEAST_ROW_MM, heightMm / 4)).map((row) =>
      textBlock([name(heightMm), ...rows.map((text) => ({ text, heightMm: row }))]),
    );
  const large = NAMES_MM.filter((height) => height >= LARGE_MM).flatMap(whole);
  const less = NAMES_MM.filter((height) => height < LARGE_MM && height >= WITH_ROWS_MM).flatMap(whole);
  const alone = NAMES_MM.map((height) => textBlock([name(height)]));

  let named =
    labels.put(large, covered) ?? labels.put(large, open) ?? labels.put(less, covered) ?? labels.put(less, open);
  if (!named) {
    named = labels.put(alone.slice(0, WELL_READ), covered) ?? labels.put(alone, open);
    if (!named) outside.push(name(OUTSIDE_NAME_MM));
    for (const text of rows) {
      const blocks = SMALL_MM.map((heightMm) => textBlock([{ text, heightMm }]));
      if (!labels.put(blocks, covered) && !labels.put(blocks, open)) outside.push({ text, heightMm: LEAST_ROW_MM });
    }
    // Rows alone beside the piece would not say whose they are.
    if (named && outside.length > 0) outside.unshift(name(OUTSIDE_NAME_MM));
  }

  if (piece.doNotStep) {
    // Where it is seen in the end, not under the next layer.
    const seen = subtract(
      regionsFromRings(rings),
      placing.flatMap((region) => regionsFromRings(region)),
    )
      .flatMap((region) => spotsIn(region, lines))
      .sort(roomiest);
    const warnings = NAMES_MM.map((heightMm) => textBlock([{ text: 'DO NOT STEP', heightMm }]));
    if (!labels.put(warnings, seen) && !labels.put(warnings, open)) crowded.push('DO NOT STEP');
  }

  const putAlong = (texts: readonly string[], line: Float64Array): boolean =>
    texts.some((text) =>
      SMALL_MM.some((heightMm) => {
        const block = textBlock([{ text, heightMm }]);
        return labels.put([block], alongJoint(line, lying, block.halfHeight)) !== undefined;
      }),
    );
  for (const { label, neighbour, line } of lying.joints) {
    const text = `${label} to ${neighbour}`;
    if (!putAlong([text, neighbour], line)) outside.push({ text: `joint ${text}`, heightMm: LEAST_ROW_MM });
  }
  for (const { text, edge } of facts.upright?.slots ?? []) {
    if (!putAlong([text], edge)) crowded.push(`"${text}" at its slot`);
  }

  const word = facts.upright ? 'UP' : facts.seat ? 'SEAT' : facts.front.word;
  const deg = towardDeg(facts.upright ? UP : (facts.seat ?? FRONT_VECTORS[facts.front.side]), lying);
  const along = (spots: readonly Spot[]) => spots.map((spot) => ({ ...spot, turnsDeg: [readableDeg(deg)] }));
  // Half a turn apart: the word is read one way, the arrow points the other.
  const ahead = readableDeg(deg) === deg;
  const arrows = [10, 7, 5, 3.5, 2.5].map((heightMm) => arrowBlock(word, heightMm, ahead));
  if (!labels.put(arrows, along(covered)) && !labels.put(arrows, along(open))) {
    crowded.push(facts.upright ? 'its arrow up' : `its arrow to the ${facts.seat ? 'seat' : 'front'}`);
  }

  for (const { at, text } of lying.pins) {
    const blocks = PIN_TEXTS_MM.map((heightMm) => textBlock([{ text, heightMm }]));
    const isPut = text === '' || blocks.some((block) => labels.put([block], besidePin(at, block, lying)));
    if (!isPut && !outside.some((row) => row.text === `pin ${text}`)) {
      outside.push({ text: `pin ${text}`, heightMm: LEAST_ROW_MM });
    }
  }
  let unsaid = 0;
  for (const { at, text } of lying.depths) {
    const blocks = PIN_TEXTS_MM.map((heightMm) => textBlock([{ text, heightMm }]));
    if (!blocks.some((block) => labels.put([block], besideDepth(at, block, lying)))) unsaid++;
  }
  if (unsaid > 0) crowded.push(`${unsaid} of ${lying.depths.length} carving depths`);
  if (outside.length > 0 && outside[0].text !== piece.name) outside.unshift(name(OUTSIDE_NAME_MM));
  return {
    marks: labels.marks,
    name: named ? { text: piece.name, x: named.x, y: named.y, heightMm: named.block.heightMm } : null,
    anchor: [best.x, best.y],
    outside,
    crowded,
  };
}

/** A name smaller than this many of the heights stands better large where it is seen than small where it is covered. */
const WELL_READ = NAMES_MM.filter((height) => height >= 7).length;

function rowsOf({ piece, placement }: PieceOnBoard, facts: LabelFacts): string[] {
  const count = facts.of === 1 ? 'the only piece' : `one of ${facts.of}`;
  const top = `top at ${thicknessText(piece.bottomMm + piece.thicknessMm, facts.unit)}`;
  const cut = `board ${facts.board}, cut ${facts.cut[0]} of ${facts.cut[1]}`;
  const rows = facts.upright
    ? [`rib ${piece.layer}, ${facts.upright.rows[0]}, ${count}`, facts.upright.rows[1], cut]
    : [
        `layer ${piece.layer}, ${count}`,
        placement.mirrored ? `underside up: turn over, ${top}` : `this side up, ${top}`,
        cut,
      ];
  return facts.isForTwo ? [...rows, 'TWO PEOPLE CARRY'] : rows;
}

const PIN_TEXTS_MM = [5, 3.5, 2.5];

/** Places in the piece beside a pin: right, left, over, under, and at its corners. */
const besidePin = ([x, y]: Point, { halfWidth, halfHeight }: LabelBlock, { outline }: PieceOnBoard): Spot[] =>
  [
    [1, 0],
    [-1, 0],
    [0, -1],
    [0, 1],
    [1, -1],
    [-1, -1],
    [1, 1],
    [-1, 1],
  ]
    .map(([right, down]) => ({
      x: x + right * (halfWidth + PIN_REACH_MM),
      y: y + down * (halfHeight + PIN_REACH_MM),
      turnsDeg: [0],
      clearance: Infinity,
    }))
    .filter((spot) => isInRegion(spot.x, spot.y, outline));

/** Places inside the edge beside the mark of a carving depth: at its end, to either side of it, further in. */
function besideDepth([x, y]: Point, { halfWidth, halfHeight }: LabelBlock, { outline }: PieceOnBoard): Spot[] {
  const [nx, ny] = inwardAt(x, y, outline);
  // From the end of the mark until the box of the lettering is clear of it.
  const half = Math.abs(nx) * halfWidth + Math.abs(ny) * halfHeight;
  const beside = Math.abs(ny) * halfWidth + Math.abs(nx) * halfHeight + DEPTH_MM / 2;
  return [
    [DEPTH_MM + half + 2, 0],
    [half + 2, beside],
    [half + 2, -beside],
    [DEPTH_MM + half + 6, 0],
    [DEPTH_MM + half + 12, 0],
    [DEPTH_MM + half + 25, 0],
  ].map(([inMm, alongMm]) => ({
    x: x + nx * inMm - ny * alongMm,
    y: y + ny * inMm + nx * alongMm,
    turnsDeg: [0],
    clearance: Infinity,
  }));
}

/** The cross of a pin, and the air that the labeller keeps. */
const PIN_REACH_MM = 8;

const roomiest = (a: Spot, b: Spot) => b.clearance - a.clearance || a.x - b.x || a.y - b.y;

/** Of a rib's own plane. */
const UP: Point = [0, 1];

/** Which way a direction runs on a piece as it stands on its board, counter-clockwise as seen, −180 < d ≤ 180. */
function towardDeg(direction: Point, { placement }: PieceOnBoard): number {
  const [x, y] = put(new Float64Array(direction), { ...placement, xMm: 0, yMm: 0 });
  const deg = directionDeg(x, y);
  return deg > 180 ? deg - 360 : deg;
}

/** Places beside a joint, inside the piece, for lettering that runs along it. */
function alongJoint(line: Float64Array, { outline }: PieceOnBoard, halfHeight: number): Spot[] {
  let total = 0;
  const steps: number[] = [];
  for (let i = 2; i < line.length; i += 2) {
    const dx = line[i] - line[i - 2];
    const dy = line[i + 1] - line[i - 1];
    steps.push(Math.sqrt(dx * dx + dy * dy));
    total += steps[steps.length - 1];
  }
  return ALONG.flatMap((share) => {
    let left = share * total;
    let i = 0;
    while (i < steps.length - 1 && left > steps[i]) left -= steps[i++];
    if (!(steps[i] > 0)) return [];
    const dx = (line[2 * i + 2] - line[2 * i]) / steps[i];
    const dy = (line[2 * i + 3] - line[2 * i + 1]) / steps[i];
    const x = line[2 * i] + dx * left;
    const y = line[2 * i + 1] + dy * left;
    const [nx, ny] = inward(x, y, line, outline);
    const turnsDeg = [readableDeg(directionDeg(dx, -dy))];
    return OFF_CUT_MM.map((off) => {
      const away = halfHeight + off;
      return { x: x + nx * away, y: y + ny * away, turnsDeg, clearance: Infinity };
    });
  });
}
