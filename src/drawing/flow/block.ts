import type { Page } from '../page.ts';

/**
 * What a sheet is made of, in the order of reading. Written once, it flows over pages of paper (`flowPdf`) and into the
 * report (`flowHtml`).
 */
export type Block =
  | { readonly kind: 'heading'; readonly level: 1 | 2 | 3; readonly text: string }
  | { readonly kind: 'text'; readonly text: string; readonly strong?: boolean }
  /** `ticks`: an empty box before each; `numbered`: 1, 2, 3 … */
  | {
      readonly kind: 'list';
      readonly items: readonly string[];
      readonly ticks?: boolean;
      readonly numbered?: boolean;
    }
  /** `right`: columns that are set to the right, from 0; `ticks`: an empty box before each row. */
  | {
      readonly kind: 'table';
      readonly head: readonly string[];
      readonly rows: readonly (readonly string[])[];
      readonly right?: readonly number[];
      readonly ticks?: boolean;
      readonly note?: string;
    }
  /** What was reckoned with. `assumed`: nobody said it; printed as assumed, with an empty box for what is so here. */
  | { readonly kind: 'values'; readonly rows: readonly Value[] }
  /** Drawn at its size where there is room, smaller where there is not. */
  | { readonly kind: 'figure'; readonly drawing: Page; readonly caption: string }
  | { readonly kind: 'caution'; readonly text: string }
  /** What follows starts on a page of its own. */
  | { readonly kind: 'page' };

export interface Value {
  readonly label: string;
  readonly value: string;
  readonly assumed?: boolean;
  /** Where the value comes from, in words. */
  readonly source?: string;
}
