import { type DecodedPng, decode } from 'fast-png';
import { refuse } from '../../findings.ts';
import { CannotInflate, inflatedLength } from '../../model/inflated.ts';
import { cutOff, type Header, seeThrough, swollen } from './header.ts';

/** The letters IDAT. */
const IDAT = 0x49444154;
/** Some programs leave a little after the last row; interlaced, each pass may begin on a byte of its own. */
const SPARE_BYTES = 4096;

/** Grey values of an image, row by row from the top (north). */
export interface Grey {
  readonly levels: Uint8Array | Uint16Array;
  /** The largest value there can be: what `high` stands for. */
  readonly highest: number;
  /** Pixels that are wholly clear, 1 each: they have no height. null when there are none. */
  readonly clear: Uint8Array | null;
}

/**
 * The grey of every pixel, exactly as it is stored. Colour and palette images are taken when every pixel is a grey, alpha when
 * every pixel is solid or wholly clear; else the image is refused, since no rule for mixing colours gives heights.
 */
export function greyLevels(bytes: Uint8Array, header: Header, file: string): Grey {
  const image = pixels(bytes, header, file);
  const { width, height, depth, colour, channels } = header;
  const count = width * height;
  const highest = colour === 'palette' ? 255 : (1 << depth) - 1;
  const data = image.data as Uint8Array | Uint16Array;
  if (data.length < (depth < 8 ? height * Math.ceil((width * depth) / 8) : count * channels)) cutOff(file);
  const samples = depth < 8 ? unpacked(data, width, height, depth) : data;
  if (colour === 'grey') return { levels: samples, highest, clear: null };
  if (colour === 'palette')
    return { levels: fromPalette(samples, image.palette ?? [], width, file), highest, clear: null };

  const levels = depth === 16 ? new Uint16Array(count) : new Uint8Array(count);
  const hasAlpha = channels === 2 || channels === 4;
  let clear: Uint8Array | null = null;
  for (let pixel = 0, at = 0; pixel < count; pixel++, at += channels) {
    const alpha = hasAlpha ? samples[at + channels - 1] : highest;
    if (alpha === 0) {
      clear ??= new Uint8Array(count);
      clear[pixel] = 1;
      continue;
    }
    if (alpha !== highest) seeThrough(file);
    if (channels > 2 && (samples[at] !== samples[at + 1] || samples[at] !== samples[at + 2]))
      inColour(file, pixel, width);
    levels[pixel] = samples[at];
  }
  return { levels, highest, clear };
}

function pixels(bytes: Uint8Array, header: Header, file: string): DecodedPng {
  const kept = pixelChunks(bytes);
  try {
    // The reader of PNG unpacks whatever there is, so it is seen beforehand that there is no more than the image holds.
    inflatedLength(dataOf(kept), mostBytes(header));
    return decode(kept, { checkCrc: true });
  } catch (error) {
    return error instanceof CannotInflate && error.isTooLong ? swollen(file) : cutOff(file);
  }
}

/** Bytes of the image unpacked: each row begins with one that says its filter, and interlaced there are twice as many rows at most. */
const mostBytes = ({ width, height, depth, channels }: Header): number =>
  height * (Math.ceil((width * depth * channels) / 8) + 2) + SPARE_BYTES;

/** What the chunks of pixels hold. */
function dataOf(bytes: Uint8Array): Uint8Array[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const data: Uint8Array[] = [];
  for (let at = 8; at + 12 <= bytes.length; at += 12 + view.getUint32(at)) {
    if (view.getUint32(at + 4) === IDAT) data.push(bytes.subarray(at + 8, at + 8 + view.getUint32(at)));
  }
  return data;
}

/**
 * The same image without what does not touch its pixels (notes, colour profiles, dates: their names begin with a small
 * letter). So a fault in one of them, or one that the reader does not take, cannot cost the ground.
 */
function pixelChunks(bytes: Uint8Array): Uint8Array {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const kept = new Uint8Array(bytes.length);
  kept.set(bytes.subarray(0, 8));
  let end = 8;
  for (let at = 8; at + 12 <= bytes.length; ) {
    const size = 12 + view.getUint32(at);
    const isNeeded = (bytes[at + 4] & 0x20) === 0;
    if (isNeeded) {
      kept.set(bytes.subarray(at, at + size), end);
      end += Math.min(size, bytes.length - at);
    }
    at += size;
  }
  return kept.subarray(0, end);
}

/** Samples of 1, 2 or 4 bits, packed from the left in rows that begin on whole bytes, each in a byte of its own. */
function unpacked(data: Uint8Array | Uint16Array, width: number, height: number, depth: number): Uint8Array {
  const rowBytes = Math.ceil((width * depth) / 8);
  const perByte = 8 / depth;
  const mask = (1 << depth) - 1;
  const samples = new Uint8Array(width * height);
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      const byte = data[row * rowBytes + Math.floor(column / perByte)];
      samples[row * width + column] = (byte >> (8 - depth * ((column % perByte) + 1))) & mask;
    }
  }
  return samples;
}

function fromPalette(
  samples: Uint8Array | Uint16Array,
  palette: readonly (readonly number[])[],
  width: number,
  file: string,
): Uint8Array {
  const levels = new Uint8Array(samples.length);
  for (let pixel = 0; pixel < samples.length; pixel++) {
    const colour = palette[samples[pixel]];
    if (!colour) cutOff(file);
    if (colour[0] !== colour[1] || colour[0] !== colour[2]) inColour(file, pixel, width);
    levels[pixel] = colour[0];
  }
  return levels;
}

const inColour = (file: string, pixel: number, width: number): never =>
  refuse(
    'source/in-colour',
    `The image is a colour image: the pixel in column ${(pixel % width) + 1} of row ${Math.floor(pixel / width) + 1} is not a grey.`,
    'Save it as grey, so that you choose how colours become heights.',
    { file },
  );
