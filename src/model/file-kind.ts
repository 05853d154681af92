/** First bytes by which a kind of file is known (each format's own specification), and what people call it. */
const KINDS: readonly { readonly starts: string; readonly kind: string }[] = [
  { starts: '89504e470d0a1a0a', kind: 'a PNG image' },
  { starts: 'ffd8ff', kind: 'a JPEG image' },
  { starts: '47494638', kind: 'a GIF image' },
  { starts: '49492a00', kind: 'a TIFF image' },
  { starts: '4d4d002a', kind: 'a TIFF image' },
  { starts: '424d', kind: 'a BMP image' },
  { starts: '52494646', kind: 'a WebP image or another RIFF file' },
  { starts: '25504446', kind: 'a PDF' },
  { starts: '504b0304', kind: 'a ZIP archive or an office document' },
  { starts: '1f8b', kind: 'a gzip archive' },
  { starts: '676c5446', kind: 'a GLB model' },
  { starts: 'fffe', kind: 'text in UTF-16' },
  { starts: 'feff', kind: 'text in UTF-16' },
];

/** How many bytes are looked at to tell text from the rest. */
const LOOKED_AT = 512;

/** What a file seems to be by its first bytes, in words that follow "it seems to be". */
export function fileKind(bytes: Uint8Array): string {
  const start = Array.from(bytes.subarray(0, 8), (byte) => byte.toString(16).padStart(2, '0')).join('');
  const known = KINDS.find(({ starts }) => start.startsWith(starts));
  if (known) return known.kind;
  const first = bytes.subarray(0, LOOKED_AT);
  if (first.some((byte) => byte < 9 || (byte > 13 && byte < 32))) return 'some other binary file';
  if (first.find((byte) => byte > 32) === 0x3c) return 'XML or a web page';
  return 'plain text';
}
