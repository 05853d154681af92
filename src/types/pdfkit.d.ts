// What drawing/pdf.ts uses of pdfkit 0.20.2. Its own types would bring Node's globals into the core.
declare module 'pdfkit' {
  interface Outline {
    addItem(title: string, options: { fit: true }): Outline;
  }
  export default class PDFDocument {
    constructor(options: {
      autoFirstPage: false;
      compress: boolean;
      pdfVersion: '1.4' | '1.5' | '1.6' | '1.7';
      lang: string;
      displayTitle: boolean;
      /** Empty: no typeface at all is loaded. */
      font: '';
      info: { Title: string; Subject: string; Producer: string; Creator: string; CreationDate: Date };
    });
    addPage(options: { size: [widthPt: number, heightPt: number]; margin: 0 }): this;
    lineCap(cap: 'round'): this;
    lineJoin(join: 'round'): this;
    /** Operators of a content stream, as they are. */
    addContent(operators: string): this;
    registerFont(name: string, file: Uint8Array): this;
    font(name: string): this;
    fontSize(sizePt: number): this;
    /** Points, y down. */
    text(
      text: string,
      x: number,
      y: number,
      options: { lineBreak: false; baseline: 'alphabetic'; features: Readonly<Record<string, boolean>> },
    ): this;
    ref(
      dictionary: Readonly<Record<string, import('../drawing/pdf/writer.ts').Value>>,
    ): import('../drawing/pdf/writer.ts').Ref;
    readonly page: {
      readonly height: number;
      readonly fonts: Record<string, import('../drawing/pdf/writer.ts').Ref>;
      readonly xobjects: Record<string, import('../drawing/pdf/writer.ts').Ref>;
    };
    /** The document's contents; entries lead to the page that was added last. */
    readonly outline: Outline;
    end(): void;
  }
}
declare module 'pdfkit/output' {
  import type PDFDocument from 'pdfkit';
  export function toBytes(document: PDFDocument): Promise<Uint8Array>;
}
