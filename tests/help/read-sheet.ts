import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { MM_IN_PT, type PdfText, textsOf } from './texts-of.ts';

export interface ReadSheet {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly lines: readonly PdfText[];
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
    const lines = await textsOf(page);
    const size = { widthMm: (right - left) * MM_IN_PT, heightMm: (top - bottom) * MM_IN_PT };
    pages.push({ ...size, lines, words: lines.map(({ text }) => text).join(' ') });
  }
  const outline = (await file.getOutline()) ?? [];
  await task.destroy();
  const { Title, Language } = info as { Title?: string; Language?: string };
  return { pages, title: Title, language: Language, bookmarks: outline.map(({ title }) => title) };
}
