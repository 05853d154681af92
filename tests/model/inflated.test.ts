import { deflateSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { CannotInflate, inflated, inflatedLength } from '../../src/model/inflated.ts';

// Node's own zlib packs.
const bytes = Uint8Array.from({ length: 200_003 }, (_, i) => (i * i * 7) % 251);
const packed = new Uint8Array(deflateSync(bytes));
const thrown = (work: () => unknown): unknown => {
  try {
    return work();
  } catch (error) {
    return error;
  }
};

describe('unpacking', () => {
  test('gives back what was packed, whole or in pieces', () => {
    expect(inflated([packed], bytes.length)).toEqual(bytes);
    const pieces = [packed.subarray(0, 1), packed.subarray(1, 700), packed.subarray(700)];
    expect(inflated(pieces, bytes.length)).toEqual(bytes);
    expect(inflatedLength(pieces, bytes.length)).toBe(bytes.length);
  });

  test('stops past the most that is wanted', () => {
    const bomb = new Uint8Array(deflateSync(new Uint8Array(64 << 20)));
    expect(bomb.length).toBeLessThan(70_000);
    const error = thrown(() => inflatedLength([bomb], 100_000));
    expect(error).toBeInstanceOf(CannotInflate);
    expect((error as CannotInflate).isTooLong).toBe(true);
  });

  test.each([
    ['cut off', packed.subarray(0, packed.length - 9)],
    ['a false checksum', packed.with(packed.length - 1, packed[packed.length - 1] ^ 1)],
    ['no packed data', Uint8Array.of(1, 2, 3, 4)],
    ['nothing', new Uint8Array(0)],
  ])('%s is damage', (_, given) => {
    const error = thrown(() => inflated([given], 1e6));
    expect(error).toBeInstanceOf(CannotInflate);
    expect((error as CannotInflate).isTooLong).toBe(false);
  });
});
