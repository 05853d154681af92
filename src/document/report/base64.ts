const ALPHABET = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';

/** Base64 of bytes (RFC 4648, section 4). The language has none of its own without a page or Node. */
export function toBase64(bytes: Uint8Array): string {
  const groups: string[] = [];
  for (let i = 0; i < bytes.length; i += 3) {
    const group = (bytes[i] << 16) | ((bytes[i + 1] ?? 0) << 8) | (bytes[i + 2] ?? 0);
    const left = bytes.length - i;
    groups.push(
      ALPHABET[group >> 18] +
        ALPHABET[(group >> 12) & 63] +
        (left > 1 ? ALPHABET[(group >> 6) & 63] : '=') +
        (left > 2 ? ALPHABET[group & 63] : '='),
    );
  }
  return groups.join('');
}
