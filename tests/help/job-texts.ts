import { CannotMake, type Fault } from '../../src/findings.ts';
import { type Override, readJob } from '../../src/job.ts';
import { testPlugins } from './test-plugins.ts';

/** A job that says nearly everything, in a unit that is not the default. */
export const GOOD = `name: Heron ford
unit: cm
source:
  slope:
    size: [430, 8 ft]
    rise: 1.2 m
    features:
      - mound: { at: [120, 35 mm], height: 2 in }
shape:
  - cover
  - fit: { height: 61.5 }
stock:
  boards:
    - { name: "EPS 70 · 5,0 cm", size: [240, 120], thickness: 5, price: 14.5, count: 9, trim: 0.5 }
    - { name: EPS 100, size: [125, 60], thickness: 3, density: 20, faced: false }
  offcuts: [ kept/offcuts.json ]
cover: { material: dry sand, depth: 2 }
tool: { kind: knife, kerf: 0.3 mm, throat: 130 }
gap: 1.1
slice: { layers: { cut: shy, thickness: 5 } }
split: { hollow: { lap: 6.5 } }
front: { side: west, word: AUDIENCE }
seed: 11
documents: [ board-svg, pages-pdf: { paper: A3 } ]
carry: { size: [180, 90], mass: 12.5 }
zones:
  - { kind: solid, name: path, outline: [[0, 0], [90, 3], [41, 77]] }
crew: { people: 3 }
`;

/** A job that says as little as can be. */
export const LEAST = `name: Heron ford
source: { slope: { size: [4300, 2700] } }
stock: { boards: [ { name: EPS 70, size: [2400, 1200], thickness: 50 } ] }
documents: [ board-svg ]
`;

export const read = (text: string, overrides: readonly Override[] = []) =>
  readJob(text, 'job.yaml', testPlugins, overrides);

/** Every fault of a job; none when it can be read. */
export function faultsOf(text: string, overrides: readonly Override[] = []): readonly Fault[] {
  try {
    read(text, overrides);
  } catch (error) {
    if (error instanceof CannotMake) return error.faults;
    throw error;
  }
  return [];
}

/** Line and column of a fault, its path and its text. */
export const told = ({ where, message, fix }: Fault) =>
  `${where.line}:${where.column} ${where.path ?? ''} ${message} ${fix}`;

/** The good job with one text replaced, which must be there. */
export function spoilt(from: string, to: string): string {
  if (!GOOD.includes(from)) throw new Error(`the good job does not hold ${from}`);
  return GOOD.replace(from, () => to);
}
