import { LETTERS } from './piece.ts';
import type { Plan } from './plan.ts';

/**
 * A short fingerprint of what is cut and where it goes: `K4R7W2`, a letter and a figure in turn, none that is misread. Two
 * printings of one plan carry the same, whatever paper they are on; a moved corner gives another, save in one of 8 million.
 */
export function revision({ name, pieces, boards, pins }: Pick<Plan, 'name' | 'pieces' | 'boards' | 'pins'>): string {
  const hash = new Hash();
  hash.text(name);
  for (const piece of pieces) {
    hash.text(piece.name);
    for (const value of [piece.bottomMm, piece.thicknessMm]) hash.length(value);
    for (const run of [...piece.region, ...piece.slits, ...piece.placing.flat(), ...piece.pins]) hash.lengths(run);
    for (const { label, line } of piece.joints) {
      hash.text(label);
      hash.lengths(line);
    }
  }
  for (const { at, lengthMm, fromLayer, toLayer } of pins) hash.lengths([...at, lengthMm, fromLayer, toLayer]);
  for (const { number, stock, sizeMm, placed } of boards) {
    hash.text(`${number} ${stock}`);
    hash.lengths(sizeMm);
    for (const { piece, xMm, yMm, turnDeg, mirrored } of placed) {
      hash.text(piece);
      hash.lengths([xMm, yMm, turnDeg, mirrored ? 1 : 0]);
    }
  }
  return hash.said();
}

const PRIME = 0x01000193;
const FIGURES = 10;

/** FNV-1a over 16 bits at a time (Fowler, Noll and Vo; draft-eastlake-fnv), finished as MurmurHash3 does. */
class Hash {
  private state = 0x811c9dc5 | 0;

  private add(bits: number) {
    this.state = Math.imul(this.state ^ (bits & 0xffff), PRIME);
  }

  text(text: string) {
    for (let i = 0; i < text.length; i++) this.add(text.charCodeAt(i));
    this.add(text.length);
  }

  /** Whole micrometres, the grid that pieces lie on. */
  length(mm: number) {
    const micrometres = Math.round(mm * 1000);
    this.add(micrometres);
    this.add(micrometres / 0x10000);
  }

  lengths(run: ArrayLike<number>) {
    for (let i = 0; i < run.length; i++) this.length(run[i]);
    this.add(run.length);
  }

  said(): string {
    let bits = this.state;
    bits = Math.imul(bits ^ (bits >>> 16), 0x85ebca6b);
    bits = Math.imul(bits ^ (bits >>> 13), 0xc2b2ae35);
    let left = (bits ^ (bits >>> 16)) >>> 0;
    let said = '';
    for (let i = 0; i < 3; i++) {
      said += LETTERS[left % LETTERS.length];
      left = Math.floor(left / LETTERS.length);
      said += left % FIGURES;
      left = Math.floor(left / FIGURES);
    }
    return said;
  }
}
