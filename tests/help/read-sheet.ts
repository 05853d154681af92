import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';

const MM_IN_PT = 25.4 / 72;

/** A line of text as an independent reader finds it: millimetres from the top left corner, y down, base line. */
export interface ReadLine {
  readonly text: string;
  readonly xMm: number;
  readonly yMm: number;
  readonly widthMm: number;
  readonly sizePt: number;
}

export interface ReadSheet {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly lines: readonly ReadLine[];
  /** All words of the page in the order in which they were written. */
  readonly words: string;
}

/** Read back the set text of a PDF, page by page, with its title, language and bookmarks. */
export async function readSheets(bytes: Uint8Array) {
  const task = getDocument({ data: bytes.slice(), verbosity: 0 });
  const file = await task.promise;
  const { info } = await file.getMetadata();
  const pages: ReadSheet[] = [];
  for (let number = 1; number <= file.numPages; number++) {
    const page = await file.getPage(number);
    const [left, bottom, right, top] = page.view;
    const { items } = await page.getTextContent();
    const lines = items.flatMap((item): ReadLine[] => {
      if (!('str' in item) || item.str.trim() === '') return [];
      const [a, b, , , x, y] = item.transform;
      const at = { xMm: (x - left) * MM_IN_PT, yMm: (top - y) * MM_IN_PT };
      return [{ text: item.str, ...at, widthMm: item.width * MM_IN_PT, sizePt: Math.hypot(a, b) }];
    });
    const size = { widthMm: (right - left) * MM_IN_PT, heightMm: (top - bottom) * MM_IN_PT };
    pages.push({ ...size, lines, words: lines.map(({ text }) => text).join(' ') });
  }
  const outline = (await file.getOutline()) ?? [];
  await task.destroy();
  const { Title, Language } = info as { Title?: string; Language?: string };
  return { pages, title: Title, language: Language, bookmarks: outline.map(({ title }) => title) };
}
