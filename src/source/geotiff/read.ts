import type { BlockSizes } from 'geotiff';
import { CannotMake } from '../../findings.ts';
import { inflated } from '../../model/inflated.ts';
import { MOST_POSTS } from '../../model/landform.ts';
import { isDirectorySound } from './directory.ts';
import { colours, damaged, noBand, noTiff, otherPacking, otherSamples, tooFew, tooMany, turned } from './faults.ts';
import { decodeLzw } from './lzw.ts';

/** What of a GeoTIFF the ground is made from. Rows run from the north unless the matrix says otherwise. */
export interface Tiff {
  readonly columns: number;
  readonly rows: number;
  readonly values: ArrayLike<number>;
  /** The number that stands for no data, where the file names one. */
  readonly noData: number | null;
  /** GeoKeys by their names in the standard. */
  readonly keys: Readonly<Record<string, unknown>>;
  /** ModelPixelScale, ModelTiepoint and ModelTransformation, as many numbers as there are. */
  readonly scale: readonly number[];
  readonly tie: readonly number[];
  readonly matrix: readonly number[];
  /** Blocks that the file leaves out, where it names no number for that: x and y of their posts, from and to. */
  readonly leftOut: readonly (readonly [number, number, number, number])[];
}

/** Posts of one tile or strip, at most: what a block of a sound file ever has. */
const MOST_IN_BLOCK = 1 << 26;
const MOST_BANDS = 4096;
/** PhotometricInterpretation of TIFF 6.0: 0 white is zero, 1 black is zero. */
const GREYS = [0, 1];

/** Compression of TIFF 6.0 and its technical note 2. Others are refused: what they unpack to cannot be bounded beforehand. */
const [NOT_PACKED, LZW, PACK_BITS] = [1, 5, 32_773];
const DEFLATES = [8, 32_946];

const BEGINS = ['II*\u0000', 'MM\u0000*', 'II+\u0000', 'MM\u0000+'];

/**
 * Read the first image of a GeoTIFF (OGC 19-008r4, GeoTIFF 1.1; TIFF 6.0; BigTIFF): strips or tiles, whole numbers of 8, 16
 * or 32 bits with or without sign, 32- or 64-bit floats, plain or packed by LZW, deflate or PackBits. Sizes are checked
 * before room is made, and no block unpacks to more than its size. Refuses what is no grid of heights.
 */
export async function readTiff(bytes: Uint8Array | undefined, band: number, file: string): Promise<Tiff> {
  if (!bytes || bytes.length < 8 || !BEGINS.includes(String.fromCharCode(...bytes.subarray(0, 4)))) noTiff(file);
  try {
    if (!isDirectorySound(bytes as Uint8Array)) damaged(file, 'a field of it points beyond its end');
    return await read(bytes as Uint8Array, band, file);
  } catch (error) {
    if (error instanceof CannotMake) throw error;
    return damaged(file, error instanceof Error ? error.message : String(error));
  }
}

async function read(bytes: Uint8Array, band: number, file: string): Promise<Tiff> {
  const { addDecoder, BaseDecoder, fromArrayBuffer } = await import('geotiff');
  class LzwDecoder extends BaseDecoder {
    override decodeBlock(buffer: ArrayBuffer): ArrayBuffer {
      return decodeLzw(new Uint8Array(buffer), blockBytes(this.parameters)).slice().buffer as ArrayBuffer;
    }
  }
  class DeflateDecoder extends BaseDecoder {
    override decodeBlock(buffer: ArrayBuffer): ArrayBuffer {
      return inflated([new Uint8Array(buffer)], blockBytes(this.parameters)).buffer as ArrayBuffer;
    }
  }
  addDecoder(LZW, async () => LzwDecoder);
  addDecoder(DEFLATES, async () => DeflateDecoder);
  const image = await (await fromArrayBuffer(new Uint8Array(bytes).buffer)).getImage(0);
  const directory = image.fileDirectory;
  const [columns, rows] = [image.getWidth(), image.getHeight()];
  if (!(columns > 0 && rows > 0)) damaged(file, 'it has no width or no height');
  if (columns * rows > MOST_POSTS) tooMany(file, columns, rows);
  if (columns < 2 || rows < 2) tooFew(file, columns, rows);
  const bands = image.getSamplesPerPixel();
  if (bands > MOST_BANDS || image.getTileWidth() * image.getTileHeight() > MOST_IN_BLOCK) {
    damaged(file, 'its blocks are larger than any program writes');
  }
  if (band > bands) noBand(file, band, bands);
  const look = Number((await directory.loadValue('PhotometricInterpretation')) ?? 1);
  if (!GREYS.includes(look)) colours(file);
  const orientation = Number((await directory.loadValue('Orientation')) ?? 1);
  if (orientation !== 1) turned(file, orientation);
  const packing = Number((await directory.loadValue('Compression')) ?? NOT_PACKED);
  if (![NOT_PACKED, LZW, ...DEFLATES, PACK_BITS].includes(packing)) otherPacking(file, packing);
  const format = image.getSampleFormat(band - 1);
  const bits = image.getBitsPerSample(band - 1);
  const isKnown =
    format === 3 ? bits === 32 || bits === 64 : (format === 1 || format === 2) && [8, 16, 32].includes(bits);
  if (!isKnown) otherSamples(file, bits, format);

  const offsets = numbers(await directory.loadValue(image.isTiled ? 'TileOffsets' : 'StripOffsets'));
  const counts = numbers(await directory.loadValue(image.isTiled ? 'TileByteCounts' : 'StripByteCounts'));
  const across = Math.ceil(columns / image.getTileWidth());
  const down = Math.ceil(rows / image.getTileHeight());
  if (offsets.length < across * down || counts.length < across * down) damaged(file, 'blocks of it are missing');
  for (let i = 0; i < offsets.length; i++) {
    if (!(offsets[i] + counts[i] <= bytes.length)) damaged(file, 'it ends before its last row');
  }
  const noData = image.getGDALNoData();
  const leftOut = [];
  for (let i = 0; noData === null && i < across * down; i++) {
    if (counts[i] > 0) continue;
    const x = (i % across) * image.getTileWidth();
    const y = Math.floor(i / across) * image.getTileHeight();
    leftOut.push([
      x,
      y,
      Math.min(columns, x + image.getTileWidth()),
      Math.min(rows, y + image.getTileHeight()),
    ] as const);
  }
  const [values] = Array.from(await image.readRasters({ samples: [band - 1] }));
  if (values.length !== columns * rows) damaged(file, 'it has fewer heights than it says');
  return {
    columns,
    rows,
    values,
    noData: noData !== null && Number.isNaN(noData) ? null : noData,
    keys: image.getGeoKeys() ?? {},
    scale: numbers(await directory.loadValue('ModelPixelScale')),
    tie: numbers(await directory.loadValue('ModelTiepoint')),
    matrix: numbers(await directory.loadValue('ModelTransformation')),
    leftOut,
  };
}

/** Bytes that a block holds, unpacked: of all bands, where they do not lie in blocks of their own. */
function blockBytes({ tileWidth, tileHeight, bitsPerSample }: BlockSizes): number {
  const bits =
    typeof bitsPerSample === 'number' ? bitsPerSample : numbers(bitsPerSample).reduce((sum, n) => sum + n, 0);
  return Math.ceil((tileWidth * bits) / 8) * tileHeight;
}

const numbers = (value: unknown): number[] =>
  value === undefined || value === null ? [] : Array.from(value as ArrayLike<number | bigint>, Number);
