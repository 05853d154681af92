import { fromBase64 } from './face/from-base64.ts';
import { BOX_WIDTH, CAPITAL, MM_IN_PT, runsOf, type SetText, type Weight } from './face.ts';
import { marksOf, type Page } from './page.ts';
import { decimal, operatorsOf, UNITS_IN_MM } from './pdf/operators.ts';
import { type Pane, SharedForms } from './pdf/shared.ts';
import { strokeFace } from './pdf/stroke-face.ts';
import type { Ref } from './pdf/writer.ts';

/** A page of a PDF: strokes, and beside them what only a PDF has. */
export interface PrintedPage extends Page {
  /** Drawn before the groups. */
  readonly panes?: readonly Pane[];
  /** Text that is set in the embedded face. */
  readonly texts?: readonly SetText[];
  /** Entries of the document's contents that lead to this page, the outermost level 1. */
  readonly bookmarks?: readonly Bookmark[];
  /**
   * What a millimetre of the page is in the file, across and down, where a printer's error is put right: then paper is smaller or
   * larger in the page's millimetres, which are those of the print. Strokes only.
   */
  readonly trueMm?: readonly [number, number];
}

export interface Bookmark {
  readonly level: number;
  readonly title: string;
}

/** A point is 1/72 in, and an inch 25.4 mm. */
const PT_IN_MM = 1 / MM_IN_PT;

/**
 * Write pages as one PDF at true size. What is set is set in a face that is embedded, so none can be missing. The pages are
 * taken one at a time, so that a long document is never in memory twice. Writer and face are loaded when they are first needed.
 */
export async function pagesToPdf(title: string, subject: string, pages: Iterable<PrintedPage>): Promise<Uint8Array> {
  const { default: PDFDocument } = await import('pdfkit');
  const { toBytes } = await import('pdfkit/output');
  const pdf = new PDFDocument({
    autoFirstPage: false,
    // Compressed bytes would hang on the version of a library.
    compress: false,
    pdfVersion: '1.7',
    lang: 'en',
    displayTitle: true,
    font: '',
    info: {
      Title: plain(title),
      Subject: plain(subject),
      Producer: 'lynchet',
      Creator: 'lynchet',
      // Always the same day: there is no clock here, and the same job gives the same bytes.
      CreationDate: new Date(0),
    },
  });
  const bytes = toBytes(pdf);
  const contents: Entry[] = [pdf.outline];
  let hasFace = false;
  let strokes: Ref | undefined;
  const face = () => {
    strokes ??= strokeFace(pdf);
    return strokes;
  };
  const forms = new SharedForms(pdf, face);
  for (const page of pages) {
    const [across, down] = page.trueMm ?? [1, 1];
    pdf.addPage({ size: [page.widthMm * across * PT_IN_MM, page.heightMm * down * PT_IN_MM], margin: 0 });
    drawStrokes(pdf, page, forms, face);
    if (page.texts?.length) {
      if (!hasFace) await bringFace(pdf);
      hasFace = true;
      setTexts(pdf, page.texts);
    }
    for (const { level, title } of page.bookmarks ?? []) {
      contents.length = Math.min(level, contents.length);
      contents.push(contents[contents.length - 1].addItem(plain(title), { fit: true }));
    }
  }
  pdf.end();
  return bytes;
}

type Pdf = InstanceType<Awaited<typeof import('pdfkit')>['default']>;
type Entry = Pdf['outline'];

/** Windows and marks of a page: from its own space, y down already, to the units that marks are written in. */
function drawStrokes(pdf: Pdf, page: PrintedPage, forms: SharedForms, face: () => Ref) {
  const { groups, panes = [], trueMm = [1, 1] } = page;
  // The writer's own scaling keeps six decimals, which is 5 µm on a page.
  const [across, down] = trueMm.map((mm) => decimal((PT_IN_MM / UNITS_IN_MM) * mm));
  pdf.lineJoin('round').lineCap('round').addContent(`q ${across} 0 0 ${down} 0 0 cm`);
  for (const pane of panes) forms.show(pane);
  const marks = marksOf(groups);
  if (marks.some(({ text }) => text)) pdf.page.fonts.L = face();
  pdf.addContent(operatorsOf(marks)).addContent('Q');
}

/** The files of the face, by weight and run; only those that are used come into the document. */
async function bringFace(pdf: Pdf) {
  for (const [weight, load] of Object.entries(FACE_FILES)) {
    const { LATIN_WOFF, LATIN_MORE_WOFF } = await load();
    pdf
      .registerFont(`${weight}-latin`, fromBase64(LATIN_WOFF))
      .registerFont(`${weight}-more`, fromBase64(LATIN_MORE_WOFF));
  }
}

const FACE_FILES = {
  regular: () => import('./face/regular.ts'),
  bold: () => import('./face/bold.ts'),
} satisfies Record<Weight, unknown>;

/** Letters as they are, each as wide as `face.ts` counts it: drawn together or closer, a text would end elsewhere. */
const AS_COUNTED = { kern: false, liga: false, clig: false, calt: false };

function setTexts(pdf: Pdf, texts: readonly SetText[]) {
  for (const set of texts) {
    for (const { from, text, atMm } of runsOf(set)) {
      const x = (set.xMm + atMm) * PT_IN_MM;
      const y = set.yMm * PT_IN_MM;
      if (from === 'box') pdf.addContent(boxes(text, x, y, set.sizePt));
      else {
        pdf
          .font(`${set.weight}-${from}`)
          .fontSize(set.sizePt)
          .text(text, x, y, { lineBreak: false, baseline: 'alphabetic', features: AS_COUNTED });
      }
    }
  }
}

/** Open boxes for characters that the face lacks, as path operators; points, y down. */
function boxes(text: string, x: number, y: number, sizePt: number): string {
  const [width, height] = [0.44 * sizePt, CAPITAL * sizePt];
  const places = [...text].map((_, i) => {
    const left = x + (BOX_WIDTH * i + 0.08) * sizePt;
    return `${left.toFixed(2)} ${(y - height).toFixed(2)} ${width.toFixed(2)} ${height.toFixed(2)} re`;
  });
  return `q ${(sizePt / 16).toFixed(2)} w ${places.join(' ')} S Q`;
}

/** The writer puts the title into XML as it is; and half a surrogate pair has no bytes. */
const plain = (text: string): string =>
  text
    .replace(/[^\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu, ' ')
    .replace(/[<>&"']/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();
