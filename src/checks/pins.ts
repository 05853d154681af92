import type { Finding } from '../findings.ts';
import { isInRegion, type Point } from '../geometry/ring.ts';
import { centroidOf } from '../geometry/support.ts';
import type { Piece } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { type Course, coursesOf } from './courses.ts';
import { told } from './told.ts';

/** Pins into the layer beneath that hold a piece, so that it neither slides nor turns. */
const FEWEST = 2;

/**
 * Whether every piece is held: by two pins into the layer beneath, or by one where it is joined to a piece that has two (a
 * small one against its neighbour); and whether every pin lies in the foam that it enters. Pieces of the lowest layer stand on
 * the floor and are told nothing of.
 */
export function pins(plan: Plan, courses: readonly Course[] = coursesOf(plan)): Finding[] {
  const loose: { piece: Piece; count: number }[] = [];
  const astray: { piece: Piece; at: Point }[] = [];
  for (const [i, { pieces }] of courses.entries()) {
    const beneath = new Set((courses[i - 1]?.pieces ?? []).flatMap((piece) => piece.pins.map(keyOf)));
    const counts = new Map(
      pieces.map(({ name, pins: own }) => [name, own.filter((at) => beneath.has(keyOf(at))).length]),
    );
    for (const piece of pieces) {
      const at = piece.pins.find(([x, y]) => !isInRegion(x, y, piece.region));
      if (at) astray.push({ piece, at });
      const count = counts.get(piece.name) ?? 0;
      const isHeldBeside = piece.joints.some(({ neighbour }) => (counts.get(neighbour) ?? 0) >= FEWEST);
      if (i > 0 && count < FEWEST && !(count > 0 && isHeldBeside)) loose.push({ piece, count });
    }
  }
  loose.sort(
    (a, b) => a.count - b.count || b.piece.areaMm2 - a.piece.areaMm2 || (a.piece.name < b.piece.name ? -1 : 1),
  );
  return [...told(astray, pinAstray, ({ piece }) => piece.name), ...told(loose, notHeld, ({ piece }) => piece.name)];
}

const keyOf = ([x, y]: Point): string => `${x},${y}`;

const pinAstray = ({ piece: { name, layer }, at }: { piece: Piece; at: Point }): Finding => ({
  level: 'stop',
  code: 'checks/pin-astray',
  message: `A pin that ${name} is said to hold lies outside of it.`,
  fix: 'Do not pin from this plan. Split again; if it comes back, report it with the job file.',
  where: { layer, piece: name, atMm: at },
});

const notHeld = ({ piece: { name, layer, region }, count }: { piece: Piece; count: number }): Finding => {
  const [x, y] = centroidOf(region);
  return {
    level: 'watch',
    code: 'checks/not-held',
    message: `${name} is held by ${count === 0 ? 'no pin' : 'one pin'} into the layer beneath, and by no neighbour that has two.`,
    fix: 'Glue it with care and hold it until the glue has set, or widen the lap so that pins find room.',
    where: { layer, piece: name, atMm: [x, y] },
  };
};
