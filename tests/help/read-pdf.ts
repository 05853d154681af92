import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';
import type { Line } from '../../src/drawing/page.ts';
import type { Box } from '../../src/geometry/ring.ts';
import { clipLine } from './clip-line.ts';
import { MM_IN_PT, type PdfText, textsOf } from './texts-of.ts';

export interface PdfPath {
  readonly widthMm: number;
  readonly dashed: boolean;
  readonly lines: readonly Line[];
}

export interface PdfPage {
  readonly widthPt: number;
  readonly heightPt: number;
  /** Stroked paths in page space: millimetres from the top left corner, y down. */
  readonly paths: readonly PdfPath[];
  readonly fonts: number;
  /** Also what a window cuts off. */
  readonly texts: readonly PdfText[];
}

export interface PdfFile {
  readonly pages: readonly PdfPage[];
  readonly info: Readonly<Record<string, unknown>>;
  /** Bookmarks, each with the number of its page, from 1. */
  readonly bookmarks: readonly { readonly title: string; readonly page: number }[];
}

/** Read a PDF back: sizes of its pages and where every stroke lies on them. */
export async function readPdf(bytes: Uint8Array): Promise<PdfFile> {
  const task = getDocument({ data: bytes.slice(), verbosity: 0 });
  const file = await task.promise;
  const { info } = await file.getMetadata();
  const pages: PdfPage[] = [];
  for (let number = 1; number <= file.numPages; number++) {
    const page = await file.getPage(number);
    const [left, bottom, right, top] = page.view;
    const { fnArray, argsArray } = await page.getOperatorList();
    const paths: PdfPath[] = [];
    const saved: State[] = [];
    let state: State = { ctm: [1, 0, 0, 1, 0, 0], widthMm: 0, dashed: false, clip: EVERYWHERE };
    let fonts = 0;
    let isClipping = false;
    const toMm = (x: number, y: number): [number, number] => {
      const [a, b, c, d, e, f] = state.ctm;
      return [(a * x + c * y + e - left) * MM_IN_PT, (top - (b * x + d * y + f)) * MM_IN_PT];
    };
    fnArray.forEach((operator, i) => {
      const args = argsArray[i];
      if (operator === OPS.save) saved.push(state);
      else if (operator === OPS.restore || operator === OPS.paintFormXObjectEnd) state = saved.pop() ?? state;
      else if (operator === OPS.paintFormXObjectBegin) {
        saved.push(state);
        if (args[0]) state = { ...state, ctm: times(state.ctm, args[0]) };
        const [x, y, u, v] = args[1];
        state = { ...state, clip: shared(state.clip, boxOf([toMm(x, y), toMm(u, y), toMm(u, v), toMm(x, v)])) };
      } else if (operator === OPS.transform) state = { ...state, ctm: times(state.ctm, args as number[]) };
      else if (operator === OPS.setLineWidth) {
        const [a, b] = state.ctm;
        state = { ...state, widthMm: args[0] * Math.hypot(a, b) * MM_IN_PT };
      } else if (operator === OPS.setDash) state = { ...state, dashed: args[0].length > 0 };
      else if (operator === OPS.setFont) fonts++;
      else if (operator === OPS.clip) isClipping = true;
      else if (operator === OPS.constructPath) {
        const lines = readPath(args[1][0], toMm);
        if (isClipping) {
          const corners = lines.flatMap(({ points }) =>
            [...points].flatMap((x, k) => (k % 2 ? [] : [[x, points[k + 1]]])),
          );
          state = { ...state, clip: shared(state.clip, boxOf(corners)) };
          isClipping = false;
        } else if (args[0] !== OPS.endPath) {
          // Half the pen shows inside when a line runs along the edge: a touch counts.
          const { widthMm, dashed, clip } = state;
          const seen = lines.flatMap((line) => clipLine(line, clip));
          if (seen.length > 0) paths.push({ widthMm, dashed, lines: seen });
        }
      }
    });
    pages.push({ widthPt: right - left, heightPt: top - bottom, paths, fonts, texts: await textsOf(page) });
  }
  const bookmarks: { title: string; page: number }[] = [];
  for (const { title, dest } of (await file.getOutline()) ?? []) {
    bookmarks.push({ title, page: (await file.getPageIndex((dest as [{ num: number; gen: number }])[0])) + 1 });
  }
  await task.destroy();
  return { pages, info: info as Record<string, unknown>, bookmarks };
}

interface State {
  readonly ctm: number[];
  readonly widthMm: number;
  readonly dashed: boolean;
  readonly clip: Box;
}

const EVERYWHERE: Box = [-Infinity, -Infinity, Infinity, Infinity];

const shared = (a: Box, b: Box): Box => [
  Math.max(a[0], b[0]),
  Math.max(a[1], b[1]),
  Math.min(a[2], b[2]),
  Math.min(a[3], b[3]),
];

function boxOf(corners: readonly number[][]): Box {
  const [xs, ys] = [corners.map(([x]) => x), corners.map(([, y]) => y)];
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
}

/** Path data of the reader: 0 x y moves, 1 x y draws, 4 closes. Curves are not ours: it fails on them. */
function readPath(data: ArrayLike<number>, toMm: (x: number, y: number) => [number, number]): Line[] {
  const lines: { points: number[]; closed: boolean }[] = [];
  for (let i = 0; i < data.length; ) {
    const operator = data[i];
    if (operator === 4) {
      lines[lines.length - 1].closed = true;
      i += 1;
    } else if (operator === 0 || operator === 1) {
      if (operator === 0) lines.push({ points: [], closed: false });
      lines[lines.length - 1].points.push(...toMm(data[i + 1], data[i + 2]));
      i += 3;
    } else throw new Error(`a path operator that is not ours: ${operator}`);
  }
  return lines.map(({ points, closed }) => ({ points: new Float64Array(points), closed }));
}

/** The matrix that applies `b` first, then `a`, as PDF writes them. */
const times = ([a, b, c, d, e, f]: number[], [g, h, i, j, k, l]: number[]): number[] => [
  a * g + c * h,
  b * g + d * h,
  a * i + c * j,
  b * i + d * j,
  a * k + c * l + e,
  b * k + d * l + f,
];
