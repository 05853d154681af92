import { refuse } from '../../findings.ts';
import { fileKind } from '../../model/file-kind.ts';
import { MOST_POSTS } from '../../model/landform.ts';

/** What a PNG says of itself (PNG specification, third edition, clause 11.2.1). */
export interface Header {
  readonly width: number;
  readonly height: number;
  /** Bits a sample. */
  readonly depth: number;
  readonly colour: 'grey' | 'colour' | 'palette' | 'grey with alpha' | 'colour with alpha';
  readonly channels: number;
}

const COLOURS: Readonly<Record<number, Pick<Header, 'colour' | 'channels'> & { depths: readonly number[] }>> = {
  0: { colour: 'grey', channels: 1, depths: [1, 2, 4, 8, 16] },
  2: { colour: 'colour', channels: 3, depths: [8, 16] },
  3: { colour: 'palette', channels: 1, depths: [1, 2, 4, 8] },
  4: { colour: 'grey with alpha', channels: 2, depths: [8, 16] },
  6: { colour: 'colour with alpha', channels: 4, depths: [8, 16] },
};

/** No deflate stream shrinks by more (zlib's technical notes: the limit is 1032 : 1). */
const MOST_SHRUNK = 1032;
const AGAIN = 'Save the image again as a PNG from the program that made it, or fetch the file again.';

/**
 * Read and check what stands before the pixels, so that nothing is unpacked that cannot be ground. Walks the file's chunks
 * to its end: refuses what is not a PNG, is too large or too small, is cut off, or claims more pixels than its bytes can hold.
 */
export function readHeader(bytes: Uint8Array | undefined, file: string): Header {
  if (!bytes || bytes.length === 0) {
    return refuse('source/empty-file', `The file is empty or was not given.`, 'Name an image that holds the ground.', {
      file,
    });
  }
  if (fileKind(bytes) !== 'a PNG image') notPng(file, `is not a PNG image; it seems to be ${fileKind(bytes)}`);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < 33 || chunkName(bytes, 12) !== 'IHDR' || view.getUint32(8) !== 13) cutOff(file);
  const width = view.getUint32(16);
  const height = view.getUint32(20);
  const depth = bytes[24];
  const kind = COLOURS[bytes[25]];
  if (!kind?.depths.includes(depth) || bytes[26] !== 0 || bytes[27] !== 0 || bytes[28] > 1) {
    notPng(file, 'names a kind of pixel that no PNG has');
  }
  const header: Header = { width, height, depth, colour: kind.colour, channels: kind.channels };
  if (width < 2 || height < 2) tooSmall(file, width, height);
  if (width * height > MOST_POSTS) tooLarge(file, width, height);
  const { dataBytes, names } = walkChunks(bytes, view, file);
  const wanted = height * (1 + Math.ceil((width * depth * kind.channels) / 8));
  if (dataBytes * MOST_SHRUNK < wanted) cutOff(file);
  if (names.has('acTL')) animated(file);
  if (names.has('tRNS')) seeThrough(file);
  // The reader unpacks interlaced pixels of less than a byte wrongly.
  if (bytes[28] === 1 && depth < 8) interlaced(file, depth);
  return header;
}

/** Refuse an image whose pixels let something show through: there is no height for that. */
export const seeThrough = (file: string): never =>
  refuse(
    'source/see-through',
    `The image has pixels that are seen through in part: whether they have a height cannot be told.`,
    'Make every pixel solid, or wholly clear where there is no ground.',
    { file },
  );

/** Refuse a file that ends early or whose bytes do not add up. */
export const cutOff = (file: string): never =>
  refuse('source/broken-image', `The image is cut off or damaged: its pixels cannot be read.`, AGAIN, { file });

/** Refuse an image whose pixels unpack to more than its width and height say. */
export const swollen = (file: string): never =>
  refuse('source/broken-image', 'The image unpacks to more pixels than its width and height say.', AGAIN, { file });

function walkChunks(bytes: Uint8Array, view: DataView, file: string) {
  const names = new Set<string>();
  let dataBytes = 0;
  for (let at = 8; ; ) {
    if (at + 12 > bytes.length) cutOff(file);
    const length = view.getUint32(at);
    const name = chunkName(bytes, at + 4);
    names.add(name);
    if (name === 'IDAT') dataBytes += length;
    at += 12 + length;
    if (name === 'IEND') break;
  }
  return { dataBytes, names };
}

const chunkName = (bytes: Uint8Array, at: number): string => String.fromCharCode(...bytes.subarray(at, at + 4));

const notPng = (file: string, what: string): never =>
  refuse('source/not-png', `The file ${what}.`, 'Save the heights as a grey PNG with 8 or 16 bits a pixel.', { file });

const tooSmall = (file: string, width: number, height: number): never =>
  refuse(
    'source/too-few-posts',
    `The image is ${width} × ${height} pixels: ground needs at least 2 × 2.`,
    'Name an image that holds the ground.',
    { file },
  );

const tooLarge = (file: string, width: number, height: number): never =>
  refuse(
    'source/too-many-posts',
    `The image is ${width} × ${height} pixels: more than the ${MOST_POSTS} posts that are taken in.`,
    'Scale the image down; a post every few millimetres of the finished ground is plenty.',
    { file },
  );

const animated = (file: string): never =>
  refuse('source/animated', `The image is an animated image.`, 'Save the one frame that holds the ground.', { file });

const interlaced = (file: string, depth: number): never =>
  refuse('source/interlaced', `The image is interlaced with ${depth} bits a pixel.`, 'Save it without interlacing.', {
    file,
  });
