import type { Page } from './page.ts';
import type { Pen } from './pen.ts';

/** A point is 1/72 in, and an inch 25.4 mm. */
const PT_IN_MM = 72 / 25.4;

/** Coordinates are whole hundredths of a millimetre: short to write, and a printer's dot is four times as large (600 dpi). */
const UNITS_IN_MM = 100;

/**
 * Write pages as one PDF at true size. Strokes only: no typeface is used, so none can be missing. The pages are taken one
 * at a time, so that a long document is never in memory twice. The writer is loaded when it is first needed.
 */
export async function pagesToPdf(title: string, subject: string, pages: Iterable<Page>): Promise<Uint8Array> {
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
  for (const page of pages) {
    pdf.addPage({ size: [page.widthMm * PT_IN_MM, page.heightMm * PT_IN_MM], margin: 0 });
    pdf.lineJoin('round').lineCap('round').addContent(strokes(page));
  }
  pdf.end();
  return bytes;
}

/**
 * The marks of a page as path operators (ISO 32000-2, 8.5), one string: a long document has tens of millions of numbers,
 * and a call of the writer for each would take most of the time.
 */
function strokes(page: Page): string {
  // The writer's own scaling keeps six decimals, which is 5 µm on a page.
  const scale = (PT_IN_MM / UNITS_IN_MM).toFixed(12);
  const operators: string[] = [`${scale} 0 0 ${scale} 0 0 cm`];
  let last: Pen | undefined;
  for (const { marks } of page.groups) {
    for (const { pen, lines } of marks) {
      if (lines.length === 0) continue;
      if (pen.widthMm !== last?.widthMm || pen.dashMm.join() !== last.dashMm.join()) {
        operators.push(`${units(pen.widthMm)} w`, `[${pen.dashMm.map(units).join(' ')}] 0 d`);
        last = pen;
      }
      for (const { points, closed } of lines) {
        operators.push(`${units(points[0])} ${units(points[1])} m`);
        for (let i = 2; i < points.length; i += 2) operators.push(`${units(points[i])} ${units(points[i + 1])} l`);
        if (closed) operators.push('h');
      }
      operators.push('S');
    }
  }
  return operators.join('\n');
}

const units = (valueMm: number): number => Math.round(valueMm * UNITS_IN_MM);

/** The writer puts the title into XML as it is; and half a surrogate pair has no bytes. */
const plain = (text: string): string =>
  text
    .replace(/[^\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu, ' ')
    .replace(/[<>&"']/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();
