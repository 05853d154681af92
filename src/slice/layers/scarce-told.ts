import type { Finding } from '../../findings.ts';
import { numberText } from '../../units.ts';
import { areaOfKind, type Question, type Standing } from './best.ts';
import { USED_SHARE, type Within } from './scarce.ts';
import { mm, runsText } from './stack-text.ts';

const m2 = (mm2: number): string => `${numberText(mm2 / 1e6, 2)} m²`;

/** `12.4 m² of 50 mm, where the boards on hand make about 8 m²`, for each kind that is short. */
function shortText(free: Standing, { kinds }: Question, onHandMm2: readonly number[]): string {
  const short = kinds.flatMap((kind, k) => {
    const wanted = areaOfKind(free, kind);
    const there = USED_SHARE * onHandMm2[k];
    return wanted > there
      ? [`${m2(wanted)} of ${mm(kind.thicknessMm)}, where the boards on hand make about ${m2(there)}`]
      : [];
  });
  return short.join('; ');
}

export const heldBack = (
  { chosen, heldBack: kinds }: Within,
  free: Standing,
  question: Question,
  onHandMm2: readonly number[],
): Finding => ({
  level: 'note',
  code: 'slice/boards-held-back',
  message: `With as many boards as it likes the best stack is ${runsText(free.thicknessesMm)}: it takes ${shortText(free, question, onHandMm2)}. So ${kinds.map((k) => mm(question.kinds[k].thicknessMm)).join(' and ')} ${kinds.length === 1 ? 'is' : 'are'} kept for where ${kinds.length === 1 ? 'it does' : 'they do'} most: ${runsText(chosen.thicknessesMm)}.`,
  fix: `Get more boards and raise their count, or leave it so. Counted with ${numberText(100 * USED_SHARE)} % of a board used, before hollowing.`,
  where: { path: 'stock.boards' },
});

export const tooFewBoards = (free: Standing, question: Question, onHandMm2: readonly number[]): Finding => ({
  level: 'watch',
  code: 'slice/too-few-boards',
  message: `The boards on hand hardly make any stack of this ground: the best takes ${shortText(free, question, onHandMm2)}.`,
  fix: `Get more boards, hollow the layers, or make the ground smaller. Counted with ${numberText(100 * USED_SHARE)} % of a board used, before hollowing.`,
  where: { path: 'stock.boards' },
});
