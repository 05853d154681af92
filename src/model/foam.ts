/** Kinds of foam as they are sold. `unknown` is an answer too, and has consequences: no wire goes through it. */
export const FOAMS = ['EPS', 'XPS', 'polyurethane', 'polyethylene', 'PVC', 'phenolic', 'unknown'] as const;
export type Foam = (typeof FOAMS)[number];

/** What the number in a grade's name means: the same number is a pressure in one system and a density in another. */
export const GRADE_SYSTEMS = ['EN 13163', 'EN 13164', 'ASTM C578', 'ASTM D6817', 'density'] as const;
export type GradeSystem = (typeof GRADE_SYSTEMS)[number];

export interface Grade {
  readonly name: string;
  /** Null when not said: then nobody knows what its number means. */
  readonly system: GradeSystem | null;
}

/** Only these may meet a hot wire: others give off poison. */
export const isPolystyrene = (foam: Foam): boolean => foam === 'EPS' || foam === 'XPS';

/** The kind of foam that a board's name tells: a word of it, in any case. Unknown when none does. */
export function foamNamed(name: string): Foam {
  const words: readonly string[] = name.toUpperCase().match(/[A-Z]+/g) ?? [];
  const has = (...wanted: readonly string[]) => wanted.some((word) => words.includes(word));
  if (has('PU', 'PUR', 'PIR', 'URETHANE', 'POLYURETHANE')) return 'polyurethane';
  if (has('XPS', 'EXTRUDED')) return 'XPS';
  return has('EPS', 'BEADBOARD') ? 'EPS' : 'unknown';
}

/** What foam of a kind usually weighs, kg/m³, where nothing tells more (from memory; common practice, no source). */
export const USUAL_DENSITY_KG_M3: Readonly<Record<Foam, number>> = {
  EPS: 15,
  XPS: 33,
  polyurethane: 35,
  polyethylene: 30,
  PVC: 60,
  phenolic: 40,
  unknown: 15,
};

interface GradeRow {
  readonly system: GradeSystem;
  readonly name: string;
  readonly densityKgM3: number;
  /** Stress at 10 % strain, or at yield where that comes sooner; null where the name tells a density only. */
  readonly kPa: number | null;
}

/**
 * ASTM D6817: least density, stress at 1 % and at 10 % strain, in the property table as two makers of geofoam print it
 * (geofoamusa.com/?p=9377; plymouthfoam.com). Rising.
 */
export const D6817 = [
  { name: 'EPS12', densityKgM3: 11.2, kPaAt1: 15, kPa: 40 },
  { name: 'EPS15', densityKgM3: 14.4, kPaAt1: 25, kPa: 70 },
  { name: 'EPS19', densityKgM3: 18.4, kPaAt1: 40, kPa: 110 },
  { name: 'EPS22', densityKgM3: 21.6, kPaAt1: 50, kPa: 135 },
  { name: 'EPS29', densityKgM3: 28.8, kPaAt1: 75, kPa: 200 },
  { name: 'EPS39', densityKgM3: 38.4, kPaAt1: 103, kPa: 276 },
] as const;

/**
 * Grades with the least density and the stress at 10 % strain. ASTM C578: a maker's technical bulletin of 2011
 * (foam_docs_ASTM_C578_Types.pdf). EN 13163 and EN 13164 declare pressures only (bachl.cz, ravago building solutions): their
 * densities are usual ones, from memory.
 */
export const GRADES: readonly GradeRow[] = [
  ...rows(
    'ASTM D6817',
    D6817.map(({ name, densityKgM3, kPa }) => [name, densityKgM3, kPa]),
  ),
  ...rows('ASTM C578', [
    ['XI', 12, 35],
    ['I', 15, 69],
    ['VIII', 18, 90],
    ['X', 21, 104],
    ['II', 22, 104],
    ['IV', 25, 173],
    ['IX', 29, 173],
    ['VI', 29, 276],
    ['VII', 35, 414],
    ['XIV', 38, 276],
    ['XV', 46, 414],
    ['V', 48, 690],
  ]),
  ...rows('EN 13163', [
    ['EPS 50', 11, 50],
    ['EPS 70', 15, 70],
    ['EPS 100', 19, 100],
    ['EPS 150', 25, 150],
    ['EPS 200', 30, 200],
  ]),
  ...rows('EN 13164', [
    ['XPS 300', 33, 300],
    ['XPS 500', 38, 500],
    ['XPS 700', 43, 700],
  ]),
];

function rows(system: GradeSystem, list: readonly (readonly [string, number, number])[]): GradeRow[] {
  return list.map(([name, densityKgM3, kPa]) => ({ system, name, densityKgM3, kPa }));
}

/** The row of a grade; null when its system is not said or its name is not in that system's table. */
export function gradeRow({ name, system }: Grade): GradeRow | null {
  if (system === null) return null;
  if (system === 'density') {
    const number = /\d+(\.\d+)?/.exec(name);
    return number ? { system, name, densityKgM3: Number(number[0]), kPa: null } : null;
  }
  const plain = (text: string) => text.toUpperCase().replace(/TYPE|\s|-/g, '');
  return GRADES.find((row) => row.system === system && plain(row.name) === plain(name)) ?? null;
}

/** What the number in a grade's name means, in words; and that nobody knows where its system is not said. */
export function gradeText(grade: Grade): string {
  const row = gradeRow(grade);
  const number = /\d+(\.\d+)?/.exec(grade.name)?.[0];
  if (grade.system === null) {
    return number
      ? `"${grade.name}" may mean ${number} kPa (EN 13163) or ${number} kg/m³ (by density): ask which`
      : `the naming system of "${grade.name}" is not said: ask the maker`;
  }
  if (!row) return `"${grade.name}" is not in the table of ${grade.system}: ask the maker for density and pressure`;
  if (grade.system === 'density') return `${grade.name}: ${row.densityKgM3} kg/m³ by its name`;
  const says = grade.system.startsWith('EN') ? 'pressure at 10 % strain' : 'type';
  return `${grade.system} ${row.name}: named by ${says}, ${row.kPa} kPa at 10 % strain, about ${row.densityKgM3} kg/m³`;
}
