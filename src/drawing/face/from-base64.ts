const ALPHABET = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';

/** Bytes of base64 without line breaks (RFC 4648, section 4). The language has none of its own without a page or Node. */
export function fromBase64(text: string): Uint8Array {
  const count = text.replace(/=+$/, '').length;
  const bytes = new Uint8Array(Math.floor((count * 3) / 4));
  let group = 0;
  let at = 0;
  for (let i = 0; i < count; i++) {
    group = ((group << 6) | ALPHABET.indexOf(text[i])) & 0xffffff;
    if (i % 4 > 0) bytes[at++] = (group >> (6 - 2 * (i % 4))) & 255;
  }
  return bytes;
}
