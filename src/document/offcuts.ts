import { boxOf, moved, type Ring } from '../geometry/ring.ts';
import { snapped } from '../geometry/snap.ts';
import { offcutsFile } from '../model/files.ts';
import type { LayoutBoard } from '../model/layout.ts';
import type { Plan } from '../model/plan.ts';
import type { Offcut } from '../model/stock.ts';
import { definePlugin } from '../plugin.ts';

/**
 * offcuts.json: what is on hand after the job, to be named as stock in the next one. Offcuts that were kept and not used
 * stay as they are; each new one comes with its own coordinates, its box from (0, 0).
 */
export const offcuts = definePlugin({
  api: 1,
  stage: 'document',
  name: 'offcuts',
  summary: 'what is left of the boards, to be stock of the next job',
  options: ({ z }) => z.strictObject({}),
  run: (plan) => {
    const file = offcutsFile(onHand(plan));
    const list = file.offcuts.map((offcut) => JSON.stringify(offcut)).join(',\n');
    const body = `{\n"lynchet": ${file.lynchet},\n"offcuts": [\n${list}\n]\n}\n`;
    return [{ path: 'offcuts.json', mediaType: 'application/json', body }];
  },
});

function onHand(plan: Plan): Offcut[] {
  const names = new Set(plan.unusedOffcuts.map(({ name }) => name));
  const left = plan.boards.flatMap((board) =>
    board.offcuts.map(({ name, rings }): Offcut => {
      const [minX, minY] = boxOf(rings.slice(0, 1));
      return {
        name: unique(name, names),
        material: materialOf(board, plan),
        thicknessMm: board.thicknessMm,
        densityKgM3: board.densityKgM3,
        rings: rings.map((ring) => tidied(moved(ring, -minX, -minY))),
        from: `${plan.name}, board ${board.number} (${board.stock})`,
      };
    }),
  );
  return [...plan.unusedOffcuts, ...left];
}

/** Remainders lie on the grid; moving them leaves noise in the last digits, which is dropped. */
const tidied = (ring: Ring): Ring => ring.map(snapped);

/** The name, with a number when something on hand has it already. The set takes it in. */
function unique(name: string, names: Set<string>): string {
  let result = name;
  for (let n = 2; names.has(result); n++) result = `${name} ${n}`;
  names.add(result);
  return result;
}

/** An offcut of a saved offcut is of the same material; a bought board's name says what it is. */
const materialOf = ({ rings, stock }: LayoutBoard, { facts }: Plan): string =>
  (rings && facts.stock.offcuts.find(({ name }) => name === stock)?.material) ?? stock;
