/** Bytes of a value of each TIFF field type (TIFF 6.0, section 2; 13 and 16 to 18 of BigTIFF); 0 where a type is not known. */
const TYPE_BYTES = [0, 1, 1, 2, 4, 8, 1, 1, 2, 4, 8, 4, 8, 4, 0, 0, 8, 8, 8];

/**
 * Whether the values of every field of a TIFF's first directory lie in the file. Readers make room for as many values as a
 * field says it has, so a damaged count must be seen before. Classic and BigTIFF, either order of bytes.
 */
export function isDirectorySound(bytes: Uint8Array): boolean {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const isLittle = bytes[0] === 0x49;
  const isBig = view.getUint16(2, isLittle) === 43;
  const long = (at: number): number =>
    isBig
      ? view.getUint32(at + (isLittle ? 4 : 0), isLittle) * 4_294_967_296 +
        view.getUint32(at + (isLittle ? 0 : 4), isLittle)
      : view.getUint32(at, isLittle);
  const [start, entry, pointer] = isBig ? [8, 20, 8] : [4, 12, 4];
  if (bytes.length < start + pointer) return false;
  const at = long(start);
  const head = isBig ? 8 : 2;
  if (!(at >= 8 && at + head <= bytes.length)) return false;
  const fields = isBig ? long(at) : view.getUint16(at, isLittle);
  if (!(at + head + fields * entry <= bytes.length)) return false;
  for (let i = 0; i < fields; i++) {
    const field = at + head + i * entry;
    const size = (TYPE_BYTES[view.getUint16(field + 2, isLittle)] ?? 0) * long(field + 4);
    const values = field + 4 + pointer;
    if (size > pointer && !(long(values) + size <= bytes.length)) return false;
  }
  return true;
}
