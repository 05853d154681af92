import { readable, type SetText, setLines, setWidthMm, type Weight, wordsOf } from '../face.ts';
import { frame, type Mark, openLine } from '../page.ts';
import { PENS, WIDE_MM } from '../pen.ts';
import type { Block } from './block.ts';
import { baseMm, groupsOf, linesAt, paragraph, pitchMm, type Sizes, type Strip } from './strip.ts';

type Table = Extract<Block, { kind: 'table' }>;

/** Between the rule over a row and its first line, and between two columns. */
const PAD_MM = 0.9;
const GUTTER_MM = 3;
/** Side of a box to tick, and the column it stands in. */
const TICK_MM = 4;
const TICK_COLUMN_MM = TICK_MM + 2.5;

/** A table as strips of a row each, below its head, which each page repeats. */
export function tableStrips(table: Table, widthMm: number, bodyMm: number, { tablePt, smallPt }: Sizes): Strip[] {
  const leftMm = table.ticks ? TICK_COLUMN_MM : 0;
  const columns = columnsOf(table, widthMm - leftMm, tablePt);
  const most = Math.max(1, Math.floor((0.6 * bodyMm) / pitchMm(tablePt)));
  const right = new Set(table.right);
  const tableMm = leftMm + columns.reduce((sum, width) => sum + width + GUTTER_MM, -GUTTER_MM);

  const row = (cells: readonly (readonly string[])[], weight: Weight, marks: readonly Mark[]): Strip => {
    const texts: SetText[] = [];
    let x = leftMm;
    for (let i = 0; i < columns.length; i++) {
      for (const line of linesAt(cells[i], tablePt, weight, x, PAD_MM)) {
        const indent = right.has(i) ? columns[i] - setWidthMm(line.text, tablePt, weight) : 0;
        texts.push({ ...line, xMm: x + indent });
      }
      x += columns[i] + GUTTER_MM;
    }
    const lines = Math.max(1, ...cells.map(({ length }) => length));
    const heightMm = Math.max(table.ticks ? TICK_MM + 2 : 0, lines * pitchMm(tablePt) + 2 * PAD_MM);
    return { heightMm, beforeMm: 0, keep: false, texts, marks: [...marks, rule(heightMm, tableMm, weight)] };
  };
  const set = (cells: readonly string[], weight: Weight) =>
    columns.map((column, i) => setLines(cells[i] ?? '', tablePt, weight, column));

  const head: Strip = { ...row(set(table.head, 'bold'), 'bold', []), beforeMm: 2, keep: true };
  const rows = table.rows.flatMap((cells) => {
    // A row taller than most of a page goes on in a second row.
    const groups = set(cells, 'regular').map((lines) => groupsOf(lines, most));
    const count = Math.max(...groups.map(({ length }) => length));
    return Array.from({ length: count }, (_, i) =>
      row(
        groups.map((group) => group[i] ?? []),
        'regular',
        i === 0 && table.ticks ? [tickBox(0, PAD_MM + baseMm(tablePt) - TICK_MM + 0.4)] : [],
      ),
    );
  });
  const note = table.note === undefined ? [] : paragraph(table.note, smallPt, 'regular', 0, widthMm);
  const body = rows.map((strip, i) => ({ ...strip, head, keep: i === rows.length - 1 && note.length > 0 }));
  return [head, ...body, ...note];
}

/** An empty box to tick. */
export const tickBox = (xMm: number, yMm: number, sideMm = TICK_MM): Mark => ({
  pen: PENS.thin,
  lines: [frame(xMm + 0.3, yMm, xMm + 0.3 + sideMm, yMm + sideMm)],
  title: 'to tick',
});

const rule = (yMm: number, widthMm: number, weight: Weight): Mark => ({
  pen: { widthMm: weight === 'bold' ? WIDE_MM : 0.13, dashMm: [] },
  lines: [openLine(0, yMm, widthMm, yMm)],
});

/**
 * How wide each column is set: as its longest cell asks where all have room; else each as its longest word asks, and the
 * rest shared out by what each lacks.
 */
function columnsOf({ head, rows }: Table, widthMm: number, sizePt: number): number[] {
  const room = widthMm - GUTTER_MM * (head.length - 1);
  const wanted = head.map((title, i) => {
    const cells = [...rows.map((row) => [row[i] ?? '', 'regular'] as const), [title, 'bold'] as const];
    let [whole, word] = [0, 0];
    for (const [text, weight] of cells) {
      const said = readable(text);
      whole = Math.max(whole, setWidthMm(said, sizePt, weight));
      for (const each of wordsOf(said)) word = Math.max(word, setWidthMm(each, sizePt, weight));
    }
    // Rounded up: a sum of widths must not fall short by its last digit.
    return { whole: whole + 0.01, word: word + 0.01 };
  });
  const sum = (of: (each: { whole: number; word: number }) => number) =>
    wanted.reduce((total, each) => total + of(each), 0);
  const whole = sum((each) => each.whole);
  if (whole <= room) return wanted.map((each) => each.whole);
  const words = sum((each) => each.word);
  if (words >= room) return wanted.map((each) => (each.word * room) / words);
  return wanted.map((each) => each.word + ((each.whole - each.word) * (room - words)) / (whole - words));
}
