import { setLines, setWidthMm } from '../face.ts';
import { frame, type Mark, shifted, smaller } from '../page.ts';
import { letteringPen, PENS } from '../pen.ts';
import type { Block, Value } from './block.ts';
import { baseMm, groupsOf, linesAt, paragraph, pitchMm, type Sizes, type Strip } from './strip.ts';
import { tableStrips, tickBox } from './table.ts';

/** The room a sheet has between its edges, millimetres. */
export interface Body {
  readonly widthMm: number;
  readonly heightMm: number;
}

type Of<K extends Block['kind']> = Extract<Block, { kind: K }>;

/** A block as strips, from the top down. */
export function stripsOf(block: Block, body: Body, sizes: Sizes): Strip[] {
  switch (block.kind) {
    case 'heading':
      return heading(block, body, sizes);
    case 'text':
      return paragraph(block.text, sizes.textPt, block.strong ? 'bold' : 'regular', 0, body.widthMm);
    case 'list':
      return list(block, body, sizes);
    case 'table':
      return tableStrips(block, body.widthMm, body.heightMm, sizes);
    case 'values':
      return block.rows.map((row) => valueStrip(row, body, sizes));
    case 'figure':
      return [figure(block, body, sizes)];
    case 'caution':
      return caution(block, body, sizes);
    case 'page':
      return [{ heightMm: 0, beforeMm: 0, keep: true, texts: [], marks: [], starts: true }];
  }
}

function heading({ level, text }: Of<'heading'>, { widthMm }: Body, { headingPt }: Sizes): Strip[] {
  const sizePt = headingPt[level - 1];
  const lines = setLines(text, sizePt, 'bold', widthMm);
  return lines.map((line, i) => ({
    heightMm: pitchMm(sizePt),
    beforeMm: i === 0 ? 0.9 * pitchMm(sizePt) : 0,
    keep: true,
    texts: linesAt([line], sizePt, 'bold', 0, 0),
    marks: [],
    ...(i === 0 ? { bookmark: { level, title: text } } : {}),
  }));
}

/** Each item's first line has the box, the number or the dash; its lines stand in line behind that. */
function list({ items, ticks, numbered }: Of<'list'>, { widthMm }: Body, { textPt }: Sizes): Strip[] {
  const sideMm = 0.75 * pitchMm(textPt);
  const sign = (i: number) => (numbered ? `${i + 1}.` : '–');
  const indentMm = ticks ? sideMm + 3 : setWidthMm(sign(items.length - 1), textPt, 'bold') + 2.5;
  return items.flatMap((item, i) =>
    paragraph(item, textPt, 'regular', indentMm, widthMm).map((strip, line) => {
      if (line > 0) return strip;
      if (ticks) return { ...strip, marks: [tickBox(0, baseMm(textPt) - sideMm + 0.6, sideMm)] };
      return { ...strip, texts: [...linesAt([sign(i)], textPt, 'bold', 0, 0), ...strip.texts] };
    }),
  );
}

/** What stands in the empty box of an assumed value, and how large the box is. */
const OURS = 'assumed; ours:';
const OURS_BOX_MM = 26;

/** A value: its label and source on the left, itself on the right, and where nobody said it a box for what is so here. */
function valueStrip({ label, value, assumed, source }: Value, { widthMm }: Body, sizes: Sizes): Strip {
  const { textPt, smallPt } = sizes;
  const oursMm = assumed ? setWidthMm(OURS, smallPt, 'regular') + OURS_BOX_MM + 5 : 0;
  const valueAt = 0.42 * widthMm;
  const labels = setLines(label, textPt, 'regular', valueAt - 3);
  const sources = source === undefined ? [] : setLines(source, smallPt, 'regular', valueAt - 3);
  const said = setLines(value, textPt, 'bold', widthMm - valueAt - oursMm);
  const boxMm = 1.15 * pitchMm(textPt);
  const heightMm =
    2 +
    Math.max(
      labels.length * pitchMm(textPt) + sources.length * pitchMm(smallPt),
      said.length * pitchMm(textPt),
      assumed ? boxMm : 0,
    );
  const texts = [
    ...linesAt(labels, textPt, 'regular', 0, 1),
    ...linesAt(sources, smallPt, 'regular', 0, 1 + labels.length * pitchMm(textPt)),
    ...linesAt(said, textPt, 'bold', valueAt, 1),
  ];
  if (!assumed) return { heightMm, beforeMm: 0, keep: false, texts, marks: [] };
  const words = { text: OURS, sizePt: smallPt, weight: 'regular' as const };
  const right = widthMm - 0.3;
  return {
    heightMm,
    beforeMm: 0,
    keep: false,
    texts: [...texts, { ...words, xMm: widthMm - oursMm + 3, yMm: 1 + baseMm(textPt) }],
    marks: [{ pen: PENS.thin, lines: [frame(right - OURS_BOX_MM, 1, right, 1 + boxMm)], title: 'to fill in' }],
  };
}

function figure({ drawing, caption }: Of<'figure'>, body: Body, { smallPt, textPt }: Sizes): Strip {
  const captionPt = Math.max(smallPt, 0.8 * textPt);
  const lines = setLines(caption, captionPt, 'regular', body.widthMm);
  const wordsMm = lines.length * pitchMm(captionPt) + 1.5;
  const scale = Math.min(1, body.widthMm / drawing.widthMm, (body.heightMm - wordsMm) / drawing.heightMm);
  const shownMm = drawing.heightMm * scale;
  const left = (body.widthMm - drawing.widthMm * scale) / 2;
  return {
    heightMm: shownMm + wordsMm,
    beforeMm: 3,
    keep: false,
    texts: linesAt(lines, captionPt, 'regular', 0, shownMm + 1),
    marks: shifted(
      drawing.groups.flatMap(({ marks }) => marks.map((mark) => atScale(mark, scale))),
      left,
      0,
    ),
  };
}

/** A mark drawn smaller about the origin. Pens keep their widths, save that of lettering: a smaller drawing is not a paler one. */
function atScale(mark: Mark, scale: number): Mark {
  if (scale === 1) return mark;
  const lines = smaller(mark.lines, scale);
  if (!mark.text) return { ...mark, lines };
  const { heightMm, xMm, yMm } = mark.text;
  const text = { ...mark.text, heightMm: heightMm * scale, xMm: xMm * scale, yMm: yMm * scale };
  return { ...mark, pen: letteringPen(text.heightMm), lines, text };
}

/** Words in a frame, which is broken only where it is taller than most of a page. */
function caution({ text }: Of<'caution'>, { widthMm, heightMm }: Body, { textPt }: Sizes): Strip[] {
  const padMm = 3;
  const lines = setLines(text, textPt, 'bold', widthMm - 2 * padMm - 1);
  return groupsOf(lines, Math.max(1, Math.floor((0.7 * heightMm) / pitchMm(textPt)))).map((group) => {
    const tallMm = group.length * pitchMm(textPt) + 2 * padMm;
    return {
      heightMm: tallMm,
      beforeMm: 3,
      keep: false,
      texts: linesAt(group, textPt, 'bold', padMm, padMm),
      marks: [{ pen: PENS.cut, lines: [frame(0.4, 0, widthMm - 0.4, tallMm)], title: 'caution' }],
    };
  });
}
