import type { Finding } from '../findings.ts';
import { fitsRectangle, flushRectangles } from '../geometry/enclosing.ts';
import { ringHull } from '../geometry/ring-hull.ts';
import { centroidOf } from '../geometry/support.ts';
import type { Piece } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { type BoxMm, boxesOf, type Hurdle, hurdlesOf, longestRoundCorner, smallestBox } from '../model/way.ts';
import { lengthText, numberText } from '../units.ts';
import { pieceMasses } from '../workshop/quantities.ts';
import { told } from './told.ts';

/** A piece with the boxes that stand square to one of its sides. */
interface Load {
  readonly piece: Piece;
  readonly boxes: readonly BoxMm[];
  readonly isInReach: boolean;
  readonly massKg: number;
  /** What stops it on the way. */
  readonly stoppedBy: readonly Hurdle[];
}

/** Something that not every piece passes, as it is told. */
interface Check {
  readonly code: string;
  readonly level: Finding['level'];
  readonly stops: (load: Load) => boolean;
  readonly what: (load: Load) => string;
  readonly fix: string;
}

/**
 * Whether every piece passes what the job says of the way in, by size and weight: one carrier, the narrowest door and stair,
 * the van. A piece counts as the smallest box with a side along one of its own; it is not tilted.
 */
export function carry(plan: Plan): Finding[] {
  const checks = checksOf(plan);
  if (checks.length === 0) return [];
  const masses = pieceMasses(plan.pieces, plan.boards);
  const said = plan.facts.carry.sizeMm;
  const loads = plan.pieces.map((piece): Load => {
    const hull = ringHull(piece.region[0]);
    const boxes = boxesOf(hull, piece.thicknessMm);
    const massKg = masses.get(piece.name) ?? 0;
    const isInReach = said === null || fitsRectangle(hull, flushRectangles(hull), said[0], said[1]);
    return { piece, boxes, isInReach, massKg, stoppedBy: hurdlesOf(boxes, massKg, plan.facts.way) };
  });
  return checks.flatMap(({ code, level, stops, what, fix }) => {
    const held = loads.filter(stops).sort((a, b) => b.massKg - a.massKg || (a.piece.name < b.piece.name ? -1 : 1));
    const finding = (load: Load): Finding => {
      const { name, layer, region } = load.piece;
      const [x, y] = centroidOf(region);
      const message = `${name} ${what(load)}`;
      return { level, code: `checks/${code}`, message, fix, where: { layer, piece: name, atMm: [x, y] } };
    };
    return told(held, finding, ({ piece }) => piece.name);
  });
}

function checksOf({ facts: { carry: one, way }, unit }: Plan): Check[] {
  const mm = (value: number) => lengthText(value, unit);
  const size = ({ boxes }: Load) => {
    const [long, short, thick] = smallestBox(boxes);
    return `${mm(long)} × ${mm(short)} × ${mm(thick)}`;
  };
  const smaller = 'Say a carry.size that passes, so that the layers are divided smaller.';
  const checks: Check[] = [];
  const stops = (hurdle: Hurdle) => ({ stops: ({ stoppedBy }: Load) => stoppedBy.includes(hurdle) });
  if (one.sizeMm !== null) {
    const [a, b] = one.sizeMm;
    checks.push({
      ...{ code: 'carry-size', level: 'watch', fix: 'Carry it with two, or divide the layers smaller.' },
      stops: ({ isInReach }) => !isInReach,
      what: (load) => `is larger than one carrier takes: ${size(load)} against ${mm(a)} × ${mm(b)}.`,
    });
  }
  const { massKg: mostKg } = one;
  if (mostKg !== null) {
    checks.push({
      ...{ code: 'carry-mass', level: 'watch', fix: 'Carry it with two, or say a smaller carry.size.' },
      stops: ({ massKg }) => massKg > mostKg,
      what: ({ massKg }) => `weighs ${kg(massKg)}, before any cover; one carrier takes ${kg(mostKg)}.`,
    });
  }
  const { door, stair, lift, van } = way;
  if (door !== null) {
    checks.push({
      ...{ code: 'door', level: 'stop', fix: smaller },
      ...stops('door'),
      what: (load) => `does not pass the door: ${size(load)} against ${mm(door.widthMm)} × ${mm(door.heightMm)}.`,
    });
  }
  if (stair !== null) {
    const longest = (thick: number) => mm(Math.max(0, longestRoundCorner(stair.widthMm, thick)));
    checks.push({
      ...{ code: 'stair', level: 'stop', fix: smaller },
      ...stops('stair'),
      what: (load) =>
        `does not pass the stair, carried on edge: ${size(load)}; ${stair.turns ? `round its corner, ${mm(stair.widthMm)} wide, go ${longest(load.piece.thicknessMm)} at most` : `it is ${mm(stair.widthMm)} wide`}${stair.heightMm === null ? '' : ` and ${mm(stair.heightMm)} high`}.`,
    });
  }
  if (lift !== null) {
    const room = [lift.widthMm, lift.lengthMm, lift.heightMm].map(mm).join(' × ');
    checks.push({
      ...{ code: 'lift', level: 'stop', fix: smaller },
      ...stops('lift'),
      what: (load) => `does not go into the lift: ${size(load)} against ${room}.`,
    });
  }
  if (van !== null) {
    checks.push({
      ...{ code: 'van', level: 'stop', fix: smaller },
      ...stops('van'),
      what: (load) =>
        `does not go into the van: ${size(load)} against ${mm(van.lengthMm)} × ${mm(van.widthMm)} × ${mm(van.heightMm)}.`,
    });
    const { payloadKg } = van;
    if (payloadKg !== null) {
      checks.push({
        ...{ code: 'payload', level: 'stop', fix: 'Divide it, or take a larger van.' },
        ...stops('payload'),
        what: ({ massKg }) => `alone weighs ${kg(massKg)}; the van takes ${kg(payloadKg)}.`,
      });
    }
  }
  return checks;
}

const kg = (mass: number): string => `${numberText(mass, mass < 10 ? 1 : 0)} kg`;
