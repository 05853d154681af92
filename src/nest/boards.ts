/**
 * Blanks on as few boards as can be found. What counts, the weightiest first: money for the boards bought (where a price
 * is missing, their number), their number, their size, the area of the saved offcuts used. Four lanes each pack from empty
 * boards in an order of their own. While effort is left, three try to do without a board: its pieces go where they overlap
 * least on the others, and what overlaps is moved apart (Gardeyn, Vanden Berghe, Wauters 2025); the fourth takes boards
 * apart and packs them again. The lanes, their number and what each does follow from the input and the seed alone, and the
 * best of a round is chosen by a fixed rule: none, one or two workers give the same layout.
 *
 * Thin boards come before thick ones; of one thickness the saved offcuts come first, then the bought boards, the fullest
 * first. Pieces are never mirrored: most boards have a good face.
 */
import type { Finding } from '../findings.ts';
import type { LayoutBoard } from '../model/layout.ts';
import type { Wish } from '../model/piece.ts';
import type { Offcut } from '../model/stock.ts';
import { definePlugin, type Walk } from '../plugin.ts';
import { leastBoards } from './boards/bound.ts';
import { groupsOf } from './boards/group.ts';
import { boardsOf } from './boards/layout.ts';
import { pack } from './boards/pack.ts';
import { search } from './boards/search.ts';
import { checkFits, checkThickness, refuseLeft } from './boards/trouble.ts';
import { TURNS } from './boards/turns.ts';
import { wishesOf } from './boards/wishes.ts';

/** How far the work is when shapes are prepared, and when they are packed. The rest is measuring offcuts. */
const PREPARED = 0.15;
const PACKED = 0.9;

export const boards = definePlugin({
  api: 1,
  stage: 'nest',
  name: 'boards',
  summary: 'places pieces on as few boards as it finds: offcuts first, small pieces in voids of large ones',
  options: ({ z }) =>
    z.strictObject({
      turns: z.enum(TURNS).default('free').describe('how a piece may be turned on its board'),
      effort: z.int().min(1).default(1_000_000).describe('positions to look at: more takes longer and may save boards'),
    }),
  *run(blanks, { turns, effort }, { facts: { stock, tool, gapMm }, tell, random }) {
    const seed = Math.floor(random() * 4294967296);
    checkThickness(blanks, stock);
    const groups = yield* within(0, PREPARED, groupsOf(blanks, stock, gapMm, turns));
    for (const group of groups) checkFits(group, gapMm);
    const bounds = groups.map(({ shapes, items, kinds, offcuts }) =>
      leastBoards(
        items.map(({ shape }) => shapes[shape]),
        kinds,
        offcuts,
        gapMm,
      ),
    );
    const least = bounds.map((bound) => bound.boards);
    const { packings, evaluations } = yield* within(PREPARED, PACKED, search(groups, least, gapMm, seed, effort));
    const laid: LayoutBoard[] = [];
    const used = new Set<Offcut>();
    const wishes: Wish[] = [];
    for (const [i, group] of groups.entries()) {
      if (packings[i].left.length > 0) refuseLeft(group, packings[i], gapMm, seed);
      laid.push(...boardsOf(group, packings[i], laid.length + 1, tool.kerfMm));
      for (const { stock: n } of packings[i].boards) if (n < 0) used.add(group.offcuts[-1 - n].offcut);
      wishes.push(...wishesOf(group, packings[i], least[i]));
      yield PACKED + ((1 - PACKED) * (i + 1)) / groups.length;
    }
    if (wishes.length > 0) tell(nearlyEmpty(wishes));
    return {
      boards: laid,
      bound: {
        boards: least.reduce((sum, count) => sum + count, 0),
        why: bounds.every(({ byArea }) => byArea) ? 'total area' : 'pieces too large to share a board',
      },
      unusedOffcuts: stock.offcuts.filter((offcut) => !used.has(offcut)),
      evaluations,
      wishes,
    };
  },
  tasks: { pack },
});

function nearlyEmpty(wishes: readonly Wish[]): Finding {
  const names = wishes.map(({ piece }) => piece).join(', ');
  return {
    level: 'note',
    code: 'nest/nearly-empty-board',
    message: `A board is bought for ${names} and hardly anything else.`,
    fix: 'Divided otherwise they may find room on other boards; a smaller gap or an offcut may do as well.',
    where: { piece: wishes[0].piece },
  };
}

/** A part of the work: its progress 0…1 counts as from…to. */
function* within<T>(from: number, to: number, work: Walk<T>): Walk<T> {
  let step = work.next({ say: 'go', results: [] });
  while (!step.done) {
    const { value } = step;
    const share = (done: number) => from + (to - from) * done;
    step = work.next(yield typeof value === 'number' ? share(value) : { ...value, upTo: share(value.upTo ?? 1) });
  }
  return step.value;
}
