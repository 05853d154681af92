import type { Facts } from './model/facts.ts';
import type { Landform } from './model/landform.ts';
import type { LayerStack } from './model/layer.ts';
import type { Layout } from './model/layout.ts';
import type { Blank, Wish } from './model/piece.ts';
import type { OutputFile, Plan } from './model/plan.ts';

/** Bytes of the files that a source's options name, by the name as written in the job. */
export type SourceFiles = ReadonlyMap<string, Uint8Array>;

/** The pipeline as a type: what each stage takes and makes. No stage needs to know its neighbours. */
export interface Stages {
  source: { takes: SourceFiles; makes: Landform };
  shape: { takes: Landform; makes: Landform };
  slice: { takes: Landform; makes: LayerStack };
  split: { takes: { readonly stack: LayerStack; readonly wishes: readonly Wish[] }; makes: readonly Blank[] };
  nest: { takes: readonly Blank[]; makes: Layout };
  document: { takes: Plan; makes: readonly OutputFile[] };
}

export type StageName = keyof Stages;

/** In the order in which they run. */
export const STAGES = ['source', 'shape', 'slice', 'split', 'nest', 'document'] as const satisfies readonly StageName[];

/**
 * The shared facts that each stage may read, and gets: results are remembered by input, options and those of them that the
 * plugin did read. A change of price runs nest only, save where slice chose boards by their prices; a change of thickness
 * runs from slice on.
 */
export const READS = {
  source: [],
  shape: ['cover'],
  slice: ['thicknessesMm', 'soldAs', 'boardPrices', 'zones'],
  split: ['boardSizes', 'tool', 'gapMm', 'cover', 'front', 'carry', 'way', 'zones'],
  nest: ['stock', 'tool', 'gapMm', 'pieces'],
  document: [],
} as const satisfies Record<StageName, readonly (keyof Facts)[]>;

export type FactsOf<S extends StageName> = Pick<Facts, (typeof READS)[S][number]>;
