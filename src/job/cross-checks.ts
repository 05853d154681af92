import type { Fault } from '../findings.ts';
import { isPolystyrene } from '../model/foam.ts';
import { MOST_OFF_SHARE } from '../model/stock.ts';
import type { Kit } from '../plugin.ts';
import { lengthText } from '../units.ts';
import { unsafe } from '../workshop/wire/limits.ts';
import { boardSchema, type CoreShape } from './core.ts';
import { faultAt } from './faults.ts';
import { foamOf } from './goods.ts';
import type { Path, Places } from './places.ts';
import { wireOf } from './wire.ts';
import { outlineProblem } from './zones.ts';

/**
 * What no single key shows: boards that vanish under their trim or measure quite another thickness, two boards of one name,
 * a gap narrower than the kerf, zones whose outline is none, no stock at all, a supply or a foam that no wire may meet. Works on whatever of the job can be read, so that these faults are told with all the others.
 */
export function crossChecks(
  job: Readonly<Record<string, unknown>>,
  { gap, tool, zones }: CoreShape,
  kit: Kit,
  places: Places,
): Fault[] {
  const told: Fault[] = [];
  const tell = (text: string, ...path: Path) => told.push(faultAt('job/bad-value', text, path, places));
  const mm = (value: number) => lengthText(value, kit.unit, 3);

  const [gapMm, kerfMm] = [gap.safeParse(job.gap).data, tool.safeParse(job.tool).data?.kerf];
  if (gapMm !== undefined && kerfMm !== undefined && gapMm < kerfMm) {
    const text = `The gap, ${mm(gapMm)}, is less than the kerf, ${mm(kerfMm)}: neighbours would lose foam.`;
    tell(`${text}\nWrite gap: ${mm(kerfMm)} or more.`, 'gap');
  }

  const used = tool.safeParse(job.tool).data;
  const isWire = used?.kind === 'hot wire';
  const supply = used && isWire ? wireOf(used).supply : null;
  const danger = supply && unsafe(supply, used?.damp === true);
  if (danger) told.push({ code: 'job/unsafe-supply', ...danger, where: places.where(['tool', 'supply'], 'value') });

  for (const [i, raw] of (Array.isArray(job.zones) ? job.zones : []).entries()) {
    const zone = zones.safeParse([raw]).data?.[0];
    const problem = zone && outlineProblem(zone.outline);
    if (problem) tell(problem, 'zones', i, 'outline');
  }

  const stock = typeof job.stock === 'object' && job.stock !== null ? (job.stock as Record<string, unknown>) : null;
  if (stock === null) return told;
  const [boards, offcuts] = [stock.boards ?? [], stock.offcuts ?? []].map((list) =>
    Array.isArray(list) ? list : [null],
  );
  if (boards.length + offcuts.length === 0)
    tell('There is no stock.\nName at least one board or offcut file.', 'stock');
  const schema = boardSchema(kit);
  const names = new Map<unknown, number>();
  for (const [i, raw] of boards.entries()) {
    const name: unknown = raw?.name;
    const twin = names.get(name);
    if (typeof name === 'string' && twin !== undefined) {
      const text = `Board ${i + 1} has the name of board ${twin + 1}.\nGive each kind of board a name of its own.`;
      tell(text, 'stock', 'boards', i, 'name');
    } else names.set(name, i);
    const board = schema.safeParse(raw).data;
    if (
      board?.measured !== undefined &&
      Math.abs(board.measured - board.thickness) > MOST_OFF_SHARE * board.thickness
    ) {
      const text = `A board sold as ${mm(board.thickness)} does not measure ${mm(board.measured)}.`;
      tell(`${text}\nMeasure again, or write what it is sold as under thickness.`, 'stock', 'boards', i, 'measured');
    }
    for (const [k, corners] of (board?.keepOut ?? []).entries()) {
      const problem = outlineProblem(corners, 'patch');
      if (problem) tell(problem, 'stock', 'boards', i, 'keepOut', k);
    }
    const foam = board && isWire ? foamOf(board) : null;
    if (foam && !isPolystyrene(foam.value) && !(foam.isAssumed && foam.value === 'unknown')) {
      const where = places.where(['stock', 'boards', i, foam.isAssumed ? 'name' : 'foam'], 'value');
      const message = `A hot wire must not meet ${foam.value === 'unknown' ? 'unknown foam' : foam.value}: its fumes poison.`;
      const fix = 'Cut it with a knife or saw (tool.kind), or use EPS or XPS.';
      told.push({ code: 'job/foam-under-wire', message, fix, where });
    }
    if (board && Math.min(...board.size) <= 2 * board.trim) {
      const [width, depth] = board.size.map(mm);
      const text = `A trim of ${mm(board.trim)} on each edge leaves nothing of a board of ${width} × ${depth}.`;
      tell(`${text}\nCheck trim and size.`, 'stock', 'boards', i, 'trim');
    }
  }
  return told;
}
