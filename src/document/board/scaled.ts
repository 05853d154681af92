import type { LayoutBoard } from '../../model/layout.ts';
import type { Joint, Piece } from '../../model/piece.ts';
import type { Plan } from '../../model/plan.ts';
import type { Rib } from '../../model/rib.ts';

/**
 * A plan with everything that is drawn in plan made smaller: pieces and boards as of card, with the names, heights and
 * thicknesses of the real ones, which is what their lettering says.
 * @param scale 10 for 1:10
 */
export function scaledPlan(plan: Plan, scale: number): Plan {
  if (scale === 1) return plan;
  const run = <T extends readonly number[] | Float64Array>(points: T): T =>
    points.map((mm) => mm / scale) as unknown as T;
  const runs = <T extends readonly number[] | Float64Array>(all: readonly T[]): T[] => all.map(run);
  const joint = (joint: Joint): Joint => ({
    ...joint,
    line: run(joint.line),
    matches: runs(joint.matches),
    ...(joint.tongues && { tongues: runs(joint.tongues) }),
  });
  const piece = (piece: Piece): Piece => ({
    ...piece,
    region: runs(piece.region),
    joints: piece.joints.map(joint),
    pins: runs(piece.pins),
    slits: runs(piece.slits),
    placing: piece.placing.map(runs),
    ...(piece.glue && { glue: piece.glue.map(runs) }),
    ...(piece.carved && {
      carved: {
        top: piece.carved.top.map(runs),
        stations: piece.carved.stations.map((station) => ({ ...station, at: run(station.at) })),
      },
    }),
    ...(piece.nicks && { nicks: piece.nicks.map((nick) => ({ ...nick, at: run(nick.at) })) }),
  });
  const board = (board: LayoutBoard): LayoutBoard => ({
    ...board,
    sizeMm: run(board.sizeMm),
    trimMm: board.trimMm / scale,
    placed: board.placed.map((placed) => ({ ...placed, xMm: placed.xMm / scale, yMm: placed.yMm / scale })),
    offcuts: board.offcuts.map(({ name, rings }) => ({ name, rings: runs(rings) })),
    ...(board.rings && { rings: runs(board.rings) }),
    ...(board.keepOuts && { keepOuts: runs(board.keepOuts) }),
    ...(board.breakDowns && { breakDowns: runs(board.breakDowns) }),
    ...(board.runIns && { runIns: board.runIns.map((runIn) => ({ ...runIn, line: run(runIn.line) })) }),
  });
  const rib = (rib: Rib): Rib => ({
    ...rib,
    crossings: rib.crossings.map((each) => ({
      ...each,
      atMm: each.atMm / scale,
      widthMm: each.widthMm / scale,
      meetMm: each.meetMm / scale,
    })),
  });
  return {
    ...plan,
    facts: { ...plan.facts, gapMm: plan.facts.gapMm / scale },
    stack: {
      ...plan.stack,
      layers: plan.stack.layers.map((each) => (each.rib ? { ...each, rib: rib(each.rib) } : each)),
    },
    pieces: plan.pieces.map(piece),
    pins: plan.pins.map((pin) => ({ ...pin, at: run(pin.at) })),
    boards: plan.boards.map(board),
  };
}
