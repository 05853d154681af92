/**
 * Blanks on as few boards as can be found, by the engine in ./engine. What counts, the weightiest first: money for the boards
 * bought (where a price is missing, their number), their number, their size, the area of the saved offcuts used. The cutting
 * length does not decide: blanks are cut all round wherever they lie. The best of a round is chosen by a fixed rule: none, one
 * or two workers give the same layout.
 *
 * Thin boards come before thick ones; of one thickness the saved offcuts come first, then the bought boards, the fullest
 * first. Boards of which pieces are cut already keep their numbers. Pieces are turned over only where no foam has a face.
 */
import type { Finding } from '../findings.ts';
import { TURNS } from '../model/facts.ts';
import type { LayoutBoard } from '../model/layout.ts';
import type { Wish } from '../model/piece.ts';
import { definePlugin, type Walk } from '../plugin.ts';
import { groupsOf } from './boards/group.ts';
import { begunBoards } from './boards/held.ts';
import { boardsOf, type Laid, numbered } from './boards/layout.ts';
import { squeezed } from './boards/squeeze.ts';
import { together } from './boards/together.ts';
import { checkArea, checkFits, checkHeld, checkThickness, refuseLeft, strangers } from './boards/trouble.ts';
import { wishesOf } from './boards/wishes.ts';
import { allBounds, leastBoards, MOST_QUESTIONS } from './bounds/best.ts';
import { improve, searchBoards } from './engine/engine.ts';

/** How far the work is when shapes are prepared, and when they are packed. The rest is measuring offcuts and ways in. */
const PREPARED = 0.1;
const PACKED = 0.9;
/** Who looks at so many positions has the time for proofs of how many boards are needed and for squeezing what is left, too. */
const EFFORT_FOR_MORE = 50_000;

export const boards = definePlugin({
  api: 1,
  stage: 'nest',
  name: 'boards',
  summary: 'places pieces on as few boards as it finds: offcuts first, small pieces in voids of large ones',
  options: ({ z, length }) =>
    z.strictObject({
      turns: z.enum(TURNS).default('free').describe('how a piece may be turned on its board'),
      effort: z.int().min(1).default(1_000_000).describe('positions to look at: more takes longer and may save boards'),
      offcut: length({ above: 0 })
        .prefault('150 mm')
        .describe('side of the least square that a remainder must hold to be kept'),
    }),
  *run(blanks, { turns, effort, offcut }, { facts: { stock, tool, gapMm, pieces }, tell, random }) {
    const seed = Math.floor(random() * 4294967296);
    checkArea(blanks);
    checkThickness(blanks, stock);
    for (const finding of strangers(pieces, blanks)) tell(finding);
    const begun = begunBoards(blanks, pieces, stock);
    const said = { stock, tool, gapMm, turns, pieces, begun };
    const groups = yield* within(0, PREPARED, groupsOf(blanks, said));
    for (const group of groups) {
      checkFits(group);
      checkHeld(group);
    }
    const hasTime = effort >= EFFORT_FOR_MORE;
    const bounds = groups.map((group) => leastBoards(group.bounds, hasTime ? MOST_QUESTIONS : 0));
    // Each thickness has its share of the effort; a greater effort is a greater share for each.
    const shares = groups.map(({ items }) => (effort * items.length) / Math.max(1, blanks.length));
    const searches = groups.map(({ problem }, i) =>
      searchBoards(problem, { seed: seed + i, effort: shares[i], least: bounds[i].boards }),
    );
    const found = yield* within(PREPARED, PACKED, together(searches));
    const laid: Laid[] = [];
    const used = new Set<object>();
    const wishes: Wish[] = [];
    for (const [i, group] of groups.entries()) {
      if (found[i].packing.left.length > 0) refuseLeft(group, found[i].packing, seed);
      const packing = hasTime ? squeezed(group.problem, found[i].packing, seed) : found[i].packing;
      laid.push(...boardsOf(group, packing, { tool, gapMm, leastOffcutMm: offcut }));
      for (const { stock: n } of packing.boards) {
        if (n < 0 && 'offcut' in group.owned[-1 - n].of)
          used.add((group.owned[-1 - n].of as { offcut: object }).offcut);
      }
      wishes.push(...wishesOf(group, packing, bounds[i].boards));
      yield PACKED + ((1 - PACKED) * (i + 1)) / groups.length;
    }
    const made: LayoutBoard[] = numbered(laid);
    for (const finding of fenced(made)) tell(finding);
    if (wishes.length > 0) tell(nearlyEmpty(wishes));
    const already = begun.filter(({ of }) => 'board' in of).length;
    const least = allBounds(bounds);
    return {
      boards: made,
      bound: { ...least, boards: least.boards + already },
      unusedOffcuts: stock.offcuts.filter((each) => !used.has(each)),
      evaluations: found.reduce((sum, { evaluations }) => sum + evaluations, 0),
      wishes,
    };
  },
  tasks: { improve },
});
/** Blanks that no way of the cutter leads to: their own mouths are narrower than the cut, or they touch all round. */
function fenced(made: readonly LayoutBoard[]): Finding[] {
  return made.flatMap(({ number, placed, runIns }) => {
    const blanks = new Set(placed.map(({ blank }) => blank));
    for (const { blank } of runIns ?? []) blanks.delete(blank);
    const names = placed.filter(({ blank }) => runIns && blanks.has(blank)).map(({ piece }) => piece);
    if (names.length === 0) return [];
    return [
      {
        level: 'watch' as const,
        code: 'nest/no-run-in',
        message: `No gap on board ${number} is wide enough for the cutter to come to ${names.join(', ')}.`,
        fix: 'Say a gap wider than the kerf, or cut a neighbour free first.',
        where: { piece: names[0], board: number },
      },
    ];
  });
}

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
