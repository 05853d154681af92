import type { PDFPageProxy } from 'pdfjs-dist/legacy/build/pdf.mjs';

export const MM_IN_PT = 25.4 / 72;

/** A run of text as an independent reader finds it: millimetres from the top left corner, y down, start of the base line. */
export interface PdfText {
  readonly text: string;
  readonly xMm: number;
  readonly yMm: number;
  readonly widthMm: number;
  readonly sizePt: number;
}

/** The text of a page in the order in which it was written; blanks left out. */
export async function textsOf(page: PDFPageProxy): Promise<PdfText[]> {
  const [left, , , top] = page.view;
  const { items } = await page.getTextContent();
  return items.flatMap((item): PdfText[] => {
    if (!('str' in item) || item.str.trim() === '') return [];
    const [a, b, , , x, y] = item.transform;
    return [
      {
        text: item.str,
        xMm: (x - left) * MM_IN_PT,
        yMm: (top - y) * MM_IN_PT,
        widthMm: item.width * MM_IN_PT,
        sizePt: Math.hypot(a, b),
      },
    ];
  });
}
