import type { Block } from '../../drawing/flow/block.ts';
import { bodyOf, flowPdf, type Sheet, tallMm } from '../../drawing/flow/flow-pdf.ts';
import type { Body } from '../../drawing/flow/strips.ts';
import type { Finding } from '../../findings.ts';
import type { OutputFile, Plan } from '../../model/plan.ts';
import { revision } from '../../model/revision.ts';
import { CAUTIONS } from '../../workshop/cautions.ts';
import { type Paper, sidesOf } from '../pages/papers.ts';

/** What is read standing at a bench, and what is read at arm's length beside the work: points. */
export const BENCH_PT = 11;
export const ARMS_LENGTH_PT = 14;

export interface SheetChoice {
  readonly path: string;
  readonly title: string;
  readonly paper: Paper;
  readonly textPt?: number;
  /** Whether the paper lies on its long side. */
  readonly lying?: boolean;
}

/** What a page has between its edges, and what blocks would take of its height. */
export interface Room extends Body {
  tallMm(blocks: readonly Block[]): number;
}

/** A document of blocks as a PDF file; the blocks may be drawn for the room that a page has. */
export async function sheetFile(
  plan: Plan,
  { path, title, paper, textPt = BENCH_PT, lying = false }: SheetChoice,
  blocks: readonly Block[] | ((room: Room) => readonly Block[]),
  tell: (finding: Finding) => void,
): Promise<OutputFile> {
  const [short, long] = sidesOf(paper);
  const [widthMm, heightMm] = lying ? [long, short] : [short, long];
  const stamp = revision(plan);
  const sheet: Sheet = { title, job: plan.name, revision: stamp, caution: CAUTIONS[0], widthMm, heightMm, textPt };
  const { bytes, pages, missing } = await flowPdf(
    typeof blocks === 'function' ? blocks({ ...bodyOf(sheet), tallMm: (each) => tallMm(each, sheet) }) : blocks,
    sheet,
  );
  if (missing > 0) tell(boxesForLetters(path, missing, stamp));
  return { path, mediaType: 'application/pdf', body: bytes, pages };
}

const boxesForLetters = (path: string, count: number, stamp: string): Finding => ({
  level: 'note',
  code: 'document/letters',
  message: `${path} has ${count} open boxes for characters that its lettering lacks: it has Latin letters only.`,
  fix: `Say names in Latin letters; until then the sheets are known by their revision, ${stamp}.`,
  where: {},
});
