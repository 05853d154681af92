import type { Point } from './geometry/ring.ts';

/** `stop`: do not build from this. `watch`: look before you cut. `note`: good to know. */
export type FindingLevel = 'stop' | 'watch' | 'note';

/** Where a finding is: any of a place in the job file, a layer, a piece, a board, a point in plan. */
export interface Where {
  readonly file?: string;
  readonly line?: number;
  readonly column?: number;
  /** Place in the job, as it would be written on the command line: `slice.layers.cut`. */
  readonly path?: string;
  readonly layer?: number;
  readonly piece?: string;
  readonly board?: number;
  /** Landform coordinates, millimetres. */
  readonly atMm?: Point;
}

/** Something told about a plan. The work goes on. `code` is `<stage or room>/<what>` and never changes its meaning. */
export interface Finding {
  readonly level: FindingLevel;
  readonly code: string;
  readonly message: string;
  /** The way out, as something to do. */
  readonly fix: string;
  readonly where: Where;
}

/** One thing that makes a job impossible. */
export type Fault = Omit<Finding, 'level'>;

/** The input or the job cannot give a result. Carries every fault that could be found at once. */
export class CannotMake extends Error {
  override readonly name = 'CannotMake';
  readonly faults: readonly Fault[];
  /** What was told before, in the order of telling: often the reason. */
  readonly told: readonly Finding[];

  constructor(faults: readonly Fault[], told: readonly Finding[] = []) {
    super(faults.map((fault) => faultText(fault)).join('\n'));
    this.faults = faults;
    this.told = told;
  }
}

/** Refuse with one fault. */
export function refuse(code: string, message: string, fix: string, where: Where = {}): never {
  throw new CannotMake([{ code, message, fix, where }]);
}

/** A fault or finding as one line for people: place, what, way out. */
export function faultText({ message, fix, where }: Fault): string {
  const place = placeText(where);
  return `${place ? `${place}: ` : ''}${message}${fix ? ` ${fix}` : ''}`;
}

/** `job.yaml:3:7`, `layer 2, piece 2A, board 1`, or nothing. */
export function placeText(where: Where): string {
  const line = where.line === undefined ? '' : `:${where.line}${where.column === undefined ? '' : `:${where.column}`}`;
  const places = [
    where.file === undefined ? '' : `${where.file}${line}`,
    where.path ?? '',
    where.layer === undefined ? '' : `layer ${where.layer}`,
    where.piece === undefined ? '' : `piece ${where.piece}`,
    where.board === undefined ? '' : `board ${where.board}`,
    where.atMm === undefined ? '' : `at ${Math.round(where.atMm[0])}, ${Math.round(where.atMm[1])} mm`,
  ];
  return places.filter((place) => place !== '').join(', ');
}
