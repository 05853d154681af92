import { Inflate } from 'pako';

/** Bytes that are unpacked at a time. */
const CHUNK = 1 << 16;

/** Thrown by inflated. */
export class CannotInflate extends Error {
  /** Whether the data went on past what was wanted, rather than being damaged. */
  readonly isTooLong: boolean;

  constructor(isTooLong: boolean) {
    super(isTooLong ? 'its data unpack to more than its size says' : 'its packed data are damaged');
    this.isTooLong = isTooLong;
  }
}

/**
 * Unpack a zlib stream (RFC 1950) that comes in pieces, its checksum verified. Throws as soon as it goes past `most` bytes,
 * with no more than that and a chunk in memory: 1 packed byte may stand for 1,032.
 */
export function inflated(pieces: readonly Uint8Array[], most: number): Uint8Array {
  const chunks: Uint8Array[] = [];
  const all = new Uint8Array(inflate(pieces, most, (chunk) => void chunks.push(chunk)));
  let at = 0;
  for (const chunk of chunks) {
    all.set(chunk, at);
    at += chunk.length;
  }
  return all;
}

/** Unpack in the same way and keep nothing. Returns how many bytes there are. */
export const inflatedLength = (pieces: readonly Uint8Array[], most: number): number => inflate(pieces, most, () => {});

function inflate(pieces: readonly Uint8Array[], most: number, take: (chunk: Uint8Array) => void): number {
  let length = 0;
  const stream = new Inflate({ chunkSize: CHUNK });
  stream.onData = (chunk) => {
    length += chunk.length;
    if (length > most) throw new CannotInflate(true);
    take(chunk);
  };
  for (const [i, piece] of pieces.entries()) {
    stream.push(piece, i === pieces.length - 1);
    if (stream.ended) break;
  }
  if (stream.err !== 0 || !stream.ended) throw new CannotInflate(false);
  return length;
}
