import type { Block } from '../../drawing/flow/block.ts';
import { lettered } from '../../drawing/lettering.ts';
import { type Mark, openLine, type Page } from '../../drawing/page.ts';
import { PENS } from '../../drawing/pen.ts';
import { length } from '../../geometry/exact-math.ts';
import { type Box, boxOf, type Point } from '../../geometry/ring.ts';
import type { Piece } from '../../model/piece.ts';
import type { Plan } from '../../model/plan.ts';
import { MM_IN } from '../../units.ts';
import type { Measures } from '../sheets/measures.ts';
import { closed, frontMarks, type PlanView, planView, turnedRing } from './plan-view.ts';

/** Two diagonals may differ by this much, and by a thousandth of their length where that is more (common practice, no source). */
const DIAGONAL_MM = 3;

/** The rectangle round the lowest layer as seen from the front: A front left, B front right, C back right, D back left. */
export interface SettingOut {
  readonly wideMm: number;
  readonly deepMm: number;
  readonly diagonalMm: number;
  readonly diagonalOffMm: number;
  /** Sides along and away from the base line of a triangle with sides 3 : 4 : 5, and its longest; the largest in whole steps that fits. */
  readonly triangleMm: readonly [number, number, number];
  /** From A along the base line and away from it: the points of each piece that are nearest the base line and the left side. */
  readonly points: readonly { readonly piece: string; readonly nearest: Point; readonly leftmost: Point }[];
}

export function settingOut({ facts: { front } }: Plan, pieces: readonly Piece[], stepMm: number): SettingOut {
  const seen = pieces.map((piece) => ({ name: piece.name, ring: turnedRing(piece.region[0], front.side) }));
  const [left, low, right, high] = boxOf(seen.map(({ ring }) => ring));
  const [wideMm, deepMm] = [right - left, high - low];
  const diagonalMm = length(wideMm, deepMm);
  const isWide = wideMm >= deepMm;
  const times = Math.max(
    stepMm / 100,
    Math.floor(Math.min(...(isWide ? [wideMm / 4, deepMm / 3] : [wideMm / 3, deepMm / 4])) / stepMm) * stepMm,
  );
  return {
    wideMm,
    deepMm,
    diagonalMm,
    diagonalOffMm: Math.max(DIAGONAL_MM, diagonalMm / 1000),
    triangleMm: [(isWide ? 4 : 3) * times, (isWide ? 3 : 4) * times, 5 * times],
    points: seen.map(({ name, ring }) => {
      let [nearest, leftmost] = [0, 0];
      for (let i = 2; i < ring.length; i += 2) {
        if (ring[i + 1] < ring[nearest + 1]) nearest = i;
        if (ring[i] < ring[leftmost]) leftmost = i;
      }
      const at = (i: number): Point => [ring[i] - left, ring[i + 1] - low];
      return { piece: name, nearest: at(nearest), leftmost: at(leftmost) };
    }),
  };
}

/** The page by which the lowest layer comes to its place: base line, square corners, diagonals, and where its pieces touch. */
export function settingOutBlocks(
  plan: Plan,
  pieces: readonly Piece[],
  measures: Measures,
  bodyWidthMm: number,
): Block[] {
  const stepMm = measures.unit === 'mm' ? 100 : MM_IN.ft;
  const out = settingOut(plan, pieces, stepMm);
  const say = (mm: number) => `${measures.text(mm)} ${measures.unit}`;
  const box = boxOf(pieces.flatMap(({ region }) => [region[0]]));
  const view = planView(box, plan.facts.front, { widthMm: bodyWidthMm, heightMm: 110 });
  const [along, away, across] = out.triangleMm;
  return [
    { kind: 'heading', level: 1, text: 'Setting out the base' },
    {
      kind: 'figure',
      drawing: drawing(plan, pieces, box, view, out, measures),
      caption: 'The lowest layer from above, the front at the bottom.',
    },
    {
      kind: 'list',
      numbered: true,
      items: [
        `Strike the base line A to B on the floor, ${say(out.wideMm)} long, where the front edge comes.`,
        `Square up at A: ${say(along)} along the base line and ${say(away)} away from it, ${say(across)} from one to the other.`,
        `D is ${say(out.deepMm)} from A, C as far from B; C to D is ${say(out.wideMm)} again.`,
        `Check both diagonals, A to C and B to D: ${say(out.diagonalMm)} each.`,
      ],
    },
    {
      kind: 'caution',
      text: `Stop if the diagonals differ by more than ${say(out.diagonalOffMm)}, or the floor is not level and clean where the stack stands.`,
    },
    {
      kind: 'table',
      head: [
        'piece',
        `nearest the base line: along, away (${measures.unit})`,
        `nearest side A-D: along, away (${measures.unit})`,
      ],
      right: [1, 2],
      rows: out.points.map(({ piece, nearest, leftmost }) => [
        piece,
        pairText(nearest, measures),
        pairText(leftmost, measures),
      ]),
      note: 'From A: along the base line, and square off it.',
    },
  ];
}

const pairText = ([along, away]: Point, { text }: Measures): string => `${text(along)}, ${text(away)}`;

function drawing(
  plan: Plan,
  pieces: readonly Piece[],
  box: Box,
  view: PlanView,
  out: SettingOut,
  measures: Measures,
): Page {
  const { front } = plan.facts;
  const corners = view.ring(new Float64Array([box[0], box[1], box[2], box[1], box[2], box[3], box[0], box[3]]));
  const [left, top, right, bottom] = boxOf([corners]);
  const words = (text: string, xMm: number, yMm: number, turnDeg = 0): Mark =>
    lettered(text, { heightMm: 3.5, xMm, yMm, turnDeg, align: 'middle' });
  const corner = (text: string, xMm: number, yMm: number): Mark =>
    lettered(text, { heightMm: 5, xMm, yMm, align: 'middle' });
  const say = (mm: number) => `${measures.text(mm)} ${measures.unit}`;
  const marks: Mark[] = [
    ...pieces.map(
      ({ name, region }): Mark => ({ pen: PENS.thin, title: `piece ${name}`, lines: closed(view.region(region)) }),
    ),
    {
      pen: PENS.edge,
      title: 'diagonals',
      lines: [openLine(left, bottom, right, top), openLine(right, bottom, left, top)],
    },
    {
      pen: PENS.placing,
      title: 'the rectangle round it',
      lines: [openLine(left, bottom, left, top, right, top, right, bottom)],
    },
    { pen: PENS.base, title: 'base line', lines: [openLine(left, bottom, right, bottom)] },
    words(`base line ${say(out.wideMm)}`, left + 0.28 * (right - left), bottom - 1.5),
    words(say(out.deepMm), left - 1.5, (top + bottom) / 2, 90),
    words(`diagonal ${say(out.diagonalMm)}`, (left + right) / 2, (top + bottom) / 2 - 2),
    corner('A', left - 3, bottom + 5),
    corner('B', right + 3, bottom + 5),
    corner('C', right + 3, top - 1),
    corner('D', left - 3, top - 1),
  ];
  const title = 'setting out the base: rectangle, base line and diagonals';
  const groups = [{ id: 'base', marks: [...marks, ...frontMarks(view, front)] }];
  return { widthMm: view.widthMm, heightMm: view.heightMm, title, description: title, groups };
}
