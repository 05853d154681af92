import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';
import type { Line } from '../../src/drawing/page.ts';

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
}

export interface PdfFile {
  readonly pages: readonly PdfPage[];
  readonly info: Readonly<Record<string, unknown>>;
}

const MM_IN_PT = 25.4 / 72;

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
    const saved: { ctm: number[]; widthMm: number; dashed: boolean }[] = [];
    let state = { ctm: [1, 0, 0, 1, 0, 0], widthMm: 0, dashed: false };
    let fonts = 0;
    fnArray.forEach((operator, i) => {
      const args = argsArray[i];
      if (operator === OPS.save) saved.push(state);
      else if (operator === OPS.restore) state = saved.pop() ?? state;
      else if (operator === OPS.transform) state = { ...state, ctm: times(state.ctm, args as number[]) };
      else if (operator === OPS.setLineWidth) {
        state = { ...state, widthMm: args[0] * Math.abs(state.ctm[0]) * MM_IN_PT };
      } else if (operator === OPS.setDash) state = { ...state, dashed: args[0].length > 0 };
      else if (operator === OPS.setFont) fonts++;
      else if (operator === OPS.constructPath) {
        const lines = readPath(args[1][0], (x, y) => {
          const [a, b, c, d, e, f] = state.ctm;
          return [(a * x + c * y + e - left) * MM_IN_PT, (top - (b * x + d * y + f)) * MM_IN_PT];
        });
        paths.push({ widthMm: state.widthMm, dashed: state.dashed, lines });
      }
    });
    pages.push({ widthPt: right - left, heightPt: top - bottom, paths, fonts });
  }
  await task.destroy();
  return { pages, info: info as Record<string, unknown> };
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
