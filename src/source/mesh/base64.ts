const DIGITS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';

/** Bytes of base64 text (RFC 4648) from a place in it on; null where it is none. */
export function fromBase64(text: string, from: number): Uint8Array | null {
  const values = new Int8Array(128).fill(-1);
  for (let i = 0; i < 64; i++) values[DIGITS.charCodeAt(i)] = i;
  let end = text.length;
  while (end > from && end > text.length - 2 && text[end - 1] === '=') end--;
  const count = end - from;
  if (count % 4 === 1) return null;
  const bytes = new Uint8Array(Math.floor((count * 3) / 4));
  let bits = 0;
  let held = 0;
  let at = 0;
  for (let i = from; i < end; i++) {
    const code = text.charCodeAt(i);
    const value = code < 128 ? values[code] : -1;
    if (value < 0) return null;
    held = ((held << 6) | value) & 0xffff;
    bits += 6;
    if (bits < 8) continue;
    bits -= 8;
    bytes[at++] = held >>> bits;
  }
  return bytes;
}
