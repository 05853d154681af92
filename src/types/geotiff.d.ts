/** The few things of geotiff that are used, without the language library of a page. */
declare module 'geotiff' {
  export interface ImageFileDirectory {
    hasTag(tag: string): boolean;
    loadValue(tag: string): Promise<unknown>;
  }
  export interface GeoTIFFImage {
    readonly fileDirectory: ImageFileDirectory;
    readonly isTiled: boolean;
    getWidth(): number;
    getHeight(): number;
    getTileWidth(): number;
    getTileHeight(): number;
    getSamplesPerPixel(): number;
    getBitsPerSample(sample?: number): number;
    getSampleFormat(sample?: number): number;
    getGeoKeys(): Readonly<Record<string, unknown>> | null;
    getGDALNoData(): number | null;
    readRasters(options: { samples: number[] }): Promise<ArrayLike<ArrayLike<number>>>;
  }
  export interface GeoTIFF {
    getImage(index: number): Promise<GeoTIFFImage>;
  }
  export interface BlockSizes {
    readonly tileWidth: number;
    readonly tileHeight: number;
    readonly bitsPerSample: number | ArrayLike<number>;
  }
  export class BaseDecoder {
    readonly parameters: BlockSizes;
    decodeBlock(buffer: ArrayBuffer): ArrayBuffer;
  }
  export function addDecoder(compression: number | readonly number[], decoder: () => Promise<typeof BaseDecoder>): void;
  export function fromArrayBuffer(bytes: ArrayBuffer): Promise<GeoTIFF>;
}
