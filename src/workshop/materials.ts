import type { Facts } from '../model/facts.ts';

/**
 * Bulk densities of cover materials, kg/m³, as laid. Sources: [D] EngineeringToolbox, "Dirt and Mud – Densities";
 * [E] EN 1991-1-1:2002 Annex A, tables A.6 and A.7 (as transcribed, kN/m³ × 1000 / 9.81); [R] round figure in common
 * practice, no source. Wet weights are for lifting and floors: rain, watering and spilled water count.
 */
const DENSITIES: readonly { readonly words: readonly string[]; readonly dryKgM3: number; readonly wetKgM3: number }[] =
  [
    { words: ['sand'], dryKgM3: 1555, wetKgM3: 1905 }, // D
    { words: ['gravel', 'shingle'], dryKgM3: 1680, wetKgM3: 2000 }, // D
    { words: ['topsoil', 'loam', 'soil', 'earth'], dryKgM3: 1280, wetKgM3: 1730 }, // D: loam; flowing mud as the wet limit
    { words: ['clay'], dryKgM3: 1600, wetKgM3: 1760 }, // D
    { words: ['plaster', 'gypsum'], dryKgM3: 1600, wetKgM3: 1835 }, // E A.1: set gypsum mortar 12–18 kN/m³ (from memory)
    { words: ['cement', 'mortar', 'render'], dryKgM3: 2100, wetKgM3: 2345 }, // E A.1: 19–23 kN/m³ (from memory)
    { words: ['vermiculite'], dryKgM3: 102, wetKgM3: 400 }, // E A.7 dry; wet R
  ];

/** The row of a material by a word of its name, and whether the name says that it is wet. */
function rowOf(material: string) {
  const words = material.toLowerCase().split(/[^a-z]+/);
  const row = DENSITIES.find((each) => each.words.some((word) => words.includes(word)));
  return { row, isWet: words.includes('wet') || words.includes('damp') };
}

/** Bulk density of a cover by its name (`dry sand`, `wet topsoil`), or null when it is not in the table. */
export function coverDensity(material: string): number | null {
  const { row, isWet } = rowOf(material);
  return row ? (isWet ? row.wetKgM3 : row.dryKgM3) : null;
}

/** How many times its weight as laid a cover has when it is wet; 1 where nothing is known of it. */
export function wetTimes(material: string): number {
  const { row, isWet } = rowOf(material);
  return row && !isWet ? row.wetKgM3 / row.dryKgM3 : 1;
}

/** What a cover weighs as the job or the table says, null where neither does, and how many times that when wet. None weighs nothing. */
export const coverOf = (cover: Facts['cover']): { readonly densityKgM3: number | null; readonly wetTimes: number } =>
  cover
    ? { densityKgM3: cover.densityKgM3 ?? coverDensity(cover.material), wetTimes: wetTimes(cover.material) }
    : { densityKgM3: 0, wetTimes: 1 };
