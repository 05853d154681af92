/**
 * Numbers pairs of whole numbers (0 … 2³² − 1) 0, 1, 2 … in the order in which they are first met: for edges between
 * vertices, and points on edges. Open addressing on typed arrays: a Map of joined keys ends at 16.7 million.
 */
export class Pairs {
  /** How many different pairs have been numbered. */
  size = 0;
  #first: Uint32Array;
  #second: Uint32Array;
  /** Number + 1 of the pair that sits in a slot; 0 when it is free. At least half of the slots are. */
  #slots: Uint32Array;

  constructor(expected = 16) {
    let slots = 32;
    while (slots < 2 * expected) slots *= 2;
    this.#slots = new Uint32Array(slots);
    this.#first = new Uint32Array(slots / 2);
    this.#second = new Uint32Array(slots / 2);
  }

  /** The number of a pair; a pair not met before gets the next one. */
  number(first: number, second: number): number {
    const slot = this.#slot(first, second);
    const found = this.#slots[slot];
    if (found > 0) return found - 1;
    if (this.size === this.#first.length) {
      this.#grow();
      return this.number(first, second);
    }
    this.#first[this.size] = first;
    this.#second[this.size] = second;
    this.#slots[slot] = ++this.size;
    return this.size - 1;
  }

  /** The number of a pair, or −1 when it was never numbered. */
  find(first: number, second: number): number {
    return this.#slots[this.#slot(first, second)] - 1;
  }

  firstOf(number: number): number {
    return this.#first[number];
  }

  secondOf(number: number): number {
    return this.#second[number];
  }

  #slot(first: number, second: number): number {
    const mask = this.#slots.length - 1;
    let hash = Math.imul(first, 0x9e3779b1) ^ Math.imul(second, 0x85ebca6b);
    hash ^= hash >>> 15;
    hash = Math.imul(hash, 0xc2b2ae35);
    let slot = (hash ^ (hash >>> 13)) & mask;
    for (let held = this.#slots[slot]; held > 0; held = this.#slots[slot]) {
      if (this.#first[held - 1] === first && this.#second[held - 1] === second) break;
      slot = (slot + 1) & mask;
    }
    return slot;
  }

  #grow(): void {
    const first = this.#first;
    const second = this.#second;
    this.#slots = new Uint32Array(this.#slots.length * 2);
    this.#first = new Uint32Array(first.length * 2);
    this.#second = new Uint32Array(second.length * 2);
    this.#first.set(first);
    this.#second.set(second);
    for (let i = 0; i < first.length; i++) this.#slots[this.#slot(first[i], second[i])] = i + 1;
  }
}
