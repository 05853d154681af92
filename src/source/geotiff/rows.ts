import type { Tiff } from './read.ts';

/** The rows of a file that begins in the south, from the north. */
export function turnedOver({ values, columns, rows }: Tiff): Float64Array {
  const result = new Float64Array(values.length);
  for (let i = 0; i < values.length; i++)
    result[(rows - 1 - Math.floor(i / columns)) * columns + (i % columns)] = values[i];
  return result;
}

/** Blocks that a file leaves out have no heights, whatever the library fills in. */
export function withoutBlocks<T extends { known: Uint8Array; missing: number }>(
  posts: T,
  { leftOut, columns, rows }: Tiff,
  isFromSouth: boolean,
): T {
  let { missing } = posts;
  for (const [fromX, fromY, toX, toY] of leftOut) {
    for (let y = fromY; y < toY; y++) {
      const row = isFromSouth ? y : rows - 1 - y;
      for (let x = fromX; x < toX; x++) {
        missing += posts.known[row * columns + x];
        posts.known[row * columns + x] = 0;
      }
    }
  }
  return { ...posts, missing };
}

/** Whether any of the values is this one. */
export function includes(values: ArrayLike<number>, value: number): boolean {
  for (let i = 0; i < values.length; i++) if (values[i] === value) return true;
  return false;
}
