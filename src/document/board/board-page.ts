import { type Mark, type Page, shifted } from '../../drawing/page.ts';
import type { Plan } from '../../model/plan.ts';
import { CAUTIONS } from '../../workshop/cautions.ts';
import { type Block, type BoardWords, checkBar, PRINT_TRUE, standing, titleBlock } from './blocks.ts';
import type { BoardDrawing } from './draw-board.ts';
import { textBlock } from './label-blocks.ts';
import { wasteOf } from './leaders.ts';
import { legend } from './legend.ts';

/** Air around what is put into the waste. */
const BLOCK_AIR_MM = 4;

/** What the pages of a plan's drawings say of it. */
export interface PlanWords {
  /** As it was made, whatever the drawing is made smaller by. */
  readonly plan: Plan;
  readonly revision: string;
  /** 10 for 1:10. */
  readonly scale: number;
}

/**
 * A board on a page of its own size, with title block, check bars both ways and legend in the waste, as far as there is room: what
 * finds none is shortened, then left to the other papers.
 */
export function boardPage(drawing: BoardDrawing, words: PlanWords): Page {
  const { widthMm, heightMm, groups, cuts } = drawing;
  const { plan, revision, scale } = words;
  const board = plan.boards.find(({ number }) => number === drawing.board.number) ?? drawing.board;
  const said: BoardWords = { plan, board, cuts, revision, scale };
  const name = `board ${board.number} of ${plan.boards.length}`;
  const blocks = blocksInWaste(drawing, said, `${name}, revision ${revision}`);
  return {
    widthMm,
    heightMm,
    title: `${plan.name}: ${name}`,
    description: `Lynchet, revision ${revision}. ${board.stock}, ${board.thicknessMm} mm thick. ${PRINT_TRUE} ${CAUTIONS[0]}`,
    groups: groups.map((group) => (group.id === 'guide' ? { ...group, marks: [...group.marks, ...blocks] } : group)),
  };
}

function blocksInWaste(drawing: BoardDrawing, words: BoardWords, name: string): Mark[] {
  const { widthMm, heightMm, board, lying, groups } = drawing;
  // What pieces carry lies in them.
  const drawn = groups.flatMap(({ id, marks }) =>
    id === 'guide' || id === 'label' || id === 'slit' ? [...marks] : [],
  );
  const room = wasteOf({ widthMm, heightMm, board, lying, drawn });
  const marks: Mark[] = [];
  const put = (block: Block): boolean =>
    [block, standing(block)].some(({ widthMm, heightMm, marks: drawn }) => {
      const at = room.find(widthMm + 2 * BLOCK_AIR_MM, heightMm + 2 * BLOCK_AIR_MM);
      if (!at) return false;
      const [x, y] = [at[0] + BLOCK_AIR_MM, at[1] + BLOCK_AIR_MM];
      room.takeBox([x, y, x + widthMm, y + heightMm]);
      marks.push(...shifted(drawn, x, y));
      return true;
    });
  put(titleBlock(words)) || put(titleBlock(words, { short: true })) || put(lineBlock(name));
  put(legend(words.plan.unit));
  const bar = checkBar(words.plan.unit);
  for (const { widthMm, heightMm, marks: drawn } of [bar, standing(bar)]) {
    const at = room.find(widthMm + 2, heightMm + 2);
    if (!at) continue;
    room.takeBox([at[0], at[1], at[0] + widthMm + 2, at[1] + heightMm + 2]);
    marks.push(...shifted(drawn, at[0] + 1, at[1] + 1));
  }
  return marks;
}

/** The least that a board says: which one it is, of which plan. */
function lineBlock(text: string): Block {
  const block = textBlock([{ text, heightMm: 5 }]);
  const [widthMm, heightMm] = [2 * block.halfWidth, 2 * block.halfHeight];
  return { widthMm, heightMm, marks: block.draw(widthMm / 2, heightMm / 2, 0) };
}
