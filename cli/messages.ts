import type { Fault, Finding, OutputFile, Quantities, StageName } from '../src/index.ts';

/** What the command line asks of the worker that runs the core. */
export interface Request {
  readonly want: 'make' | 'look' | 'compare' | 'plugins' | 'schema';
  /** The job, or for `look` any file. As the user wrote it. */
  readonly file: string;
  readonly overrides: readonly { readonly path: string; readonly value: string }[];
  /** Modules of third-party plugins, from the command line only. */
  readonly plugins: readonly string[];
  /** Seconds after which the search is told "enough"; null for no limit. */
  readonly seconds: number | null;
  /** `look`: whether a picture is wanted. */
  readonly picture: boolean;
  /** `compare`: what a supplier takes for each piece that is cut there; null when not asked. */
  readonly piecePrice: number | null;
  /** `schema`: which one. */
  readonly schema: 'job' | 'plan';
}

/** One task of a built-in plugin, for a worker. */
export interface Lane {
  readonly stage: StageName;
  readonly plugin: string;
  readonly task: string;
  readonly input: unknown;
}

/** What is told of a made plan: everything the summary needs, nothing heavy. */
export interface Summary {
  readonly name: string;
  readonly folder: string;
  readonly quantities: Quantities;
  readonly bound: { readonly boards: number; readonly why: string };
  readonly cover: string | null;
  readonly pages: number;
  readonly tapingMinutes: number;
  readonly findings: readonly Finding[];
}

/** What the worker answers. One `done`, `cannot` or `bug` ends the work. */
export type Answer =
  | { readonly kind: 'progress'; readonly stage: StageName; readonly done: number }
  | { readonly kind: 'made'; readonly summary: Summary; readonly files: readonly OutputFile[] }
  | {
      readonly kind: 'looked';
      readonly lines: readonly string[];
      readonly data: unknown;
      readonly picture: string | null;
      readonly findings: readonly Finding[];
    }
  | { readonly kind: 'compared'; readonly lines: readonly string[]; readonly data: unknown; readonly html: string }
  | { readonly kind: 'told'; readonly text: string; readonly data: unknown }
  | { readonly kind: 'cannot'; readonly faults: readonly Fault[]; readonly told: readonly Finding[] }
  | { readonly kind: 'bug'; readonly stack: string };
