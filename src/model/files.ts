import type { Offcut } from './stock.ts';

/** Read a file of saved offcuts. Refuses what is not one. */
export function readOffcuts(_bytes: Uint8Array | undefined, _file: string): Offcut[] {
  throw new Error('not written yet');
}
