/** An object of a PDF file. It is written when it ends, with the stream it was given, if any. */
export interface Ref {
  end(stream?: string): void;
}

export type Value = string | number | Ref | readonly Value[] | { readonly [key: string]: Value };

/** What is asked of the writer of PDFs here; `drawing/pdf.ts` alone knows which one it is. */
export interface Writer {
  ref(dictionary: Readonly<Record<string, Value>>): Ref;
  addContent(operators: string): unknown;
  /** That was added last. */
  readonly page: { readonly xobjects: Record<string, Ref> };
}
