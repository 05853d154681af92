import { refuse } from '../../findings.ts';
import { MOST_POSTS } from '../../model/landform.ts';
import { numberText } from '../../units.ts';

export const noTiff = (file: string): never =>
  refuse('source/other-kind', 'The file is no TIFF.', 'Give elevation data saved as GeoTIFF (.tif).', { file });

export const damaged = (file: string, what: string): never =>
  refuse(
    'source/damaged-file',
    `The TIFF cannot be read: ${what}.`,
    'Save or copy it again; uncompressed, or with the compression deflate or LZW, every program writes it alike.',
    { file },
  );

export const tooMany = (file: string, columns: number, rows: number): never =>
  refuse(
    'source/too-many-posts',
    `The TIFF has ${columns} × ${rows} posts, more than ${MOST_POSTS / 1e6} million.`,
    'Cut out the ground you build, or save it with wider spacing.',
    { file },
  );

export const tooFew = (file: string, columns: number, rows: number): never =>
  refuse(
    'source/too-few-posts',
    `The TIFF has ${columns} × ${rows} posts: no ground lies between them.`,
    'Give at least 2 × 2.',
    {
      file,
    },
  );

export const noBand = (file: string, band: number, bands: number): never =>
  refuse(
    'source/no-band',
    `The TIFF has ${bands === 1 ? 'one band' : `${bands} bands`}; there is no band ${band}.`,
    'Say which band holds the heights: band: 1.',
    { file },
  );

export const colours = (file: string): never =>
  refuse(
    'source/colours',
    'The TIFF is a picture in colours, not heights.',
    'Fetch the elevation data itself, not a map drawn from it.',
    { file },
  );

export const turned = (file: string, orientation: number): never =>
  refuse(
    'source/turned',
    `The TIFF is stored turned or mirrored (orientation ${numberText(orientation)}).`,
    'Save it again with its first row at the top and its first column at the left.',
    { file },
  );

export const otherSamples = (file: string, bits: number, format: number): never =>
  refuse(
    'source/other-samples',
    `The TIFF holds ${bits}-bit numbers of kind ${format}; heights are read from whole numbers of 8, 16 or 32 bits and floats of 32 or 64.`,
    'Save it as 32-bit float.',
    { file },
  );

export const otherPacking = (file: string, packing: number): never =>
  refuse(
    'source/other-packing',
    `The TIFF is packed in a way that is not read (compression ${packing}).`,
    'Save it uncompressed, or with the compression deflate or LZW.',
    { file },
  );
