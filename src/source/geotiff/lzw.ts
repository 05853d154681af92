const [CLEAR, END, FIRST] = [256, 257, 258];
const [LEAST_BITS, MOST_BITS] = [9, 12];

/**
 * Decode LZW as TIFF has it (TIFF 6.0, section 13: codes of 9 to 12 bits, the highest bit first, one bit longer a code early).
 * Stops at the end code, at the end of the input or at `most` bytes: what a block holds. Throws on a code that cannot be.
 *
 * Its own, since the decoder of the library follows a damaged table round and round until memory ends (met on one file in
 * sixteen with flipped bits).
 */
export function decodeLzw(input: Uint8Array, most: number): Uint8Array {
  const output = new Uint8Array(most);
  // A code from FIRST on is the code `before` it and one byte more; the bytes of each stand somewhere in the output.
  const starts = new Uint32Array(1 << MOST_BITS);
  const lengths = new Uint32Array(1 << MOST_BITS);
  let next = FIRST;
  let bits = LEAST_BITS;
  let before = -1;
  let beforeAt = 0;
  let beforeLength = 0;
  let at = 0;
  for (let position = 0; position + bits <= 8 * input.length && at < most; ) {
    const byte = position >> 3;
    const three = (input[byte] << 16) | ((input[byte + 1] ?? 0) << 8) | (input[byte + 2] ?? 0);
    const code = (three >> (24 - bits - (position & 7))) & ((1 << bits) - 1);
    position += bits;
    if (code === END) break;
    if (code === CLEAR) {
      next = FIRST;
      bits = LEAST_BITS;
      before = -1;
      continue;
    }
    if (code > next || (code >= FIRST && before < 0) || (code === next && before < 0))
      throw new Error('its LZW codes are damaged');
    const here = at;
    if (code < CLEAR) output[at++] = code;
    else {
      // A code that is only now being made is the one before and that one's first byte: it overlaps itself, byte by byte.
      const [from, length] = code === next ? [beforeAt, beforeLength + 1] : [starts[code], lengths[code]];
      for (let i = 0; i < length && at < most; i++) output[at++] = output[from + i];
    }
    if (before >= 0 && next < 1 << MOST_BITS) {
      starts[next] = beforeAt;
      lengths[next] = beforeLength + 1;
      next++;
    }
    before = code;
    beforeAt = here;
    beforeLength = at - here;
    if (next >= (1 << bits) - 1 && bits < MOST_BITS) bits++;
  }
  return output.subarray(0, at);
}
