import { refuse } from '../../findings.ts';
import { cos, PI } from '../../geometry/exact-math.ts';
import { numberText } from '../../units.ts';
import type { Tiff } from './read.ts';

/** Where a grid's posts stand, in the file's own coordinates and unit. */
export interface Placing {
  readonly stepX: number;
  readonly stepY: number;
  /** The south-west post; null when the file does not place it. */
  readonly southWest: readonly [number, number] | null;
  /** The file's first row is the southern one. */
  readonly isFromSouth: boolean;
}

/** Codes of GTModelTypeGeoKey and GTRasterTypeGeoKey. */
const GEOGRAPHIC = 2;
const PIXEL_IS_POINT = 2;
/** Codes of linear units (EPSG, by OGC 19-008r4): metre, foot, US survey foot (1200/3937 m). */
const LINEAR: Readonly<Record<number, number>> = { 9001: 1000, 9002: 304.8, 9003: 1_200_000 / 3937 };

/**
 * Place the posts: by pixel scale and tie point, or by a matrix without turning. Heights stand in the middles of their pixels;
 * where the raster is of points, the tie point already is one, where it is of areas, it is the pixel's corner and the post
 * lies half a pixel further (GeoTIFF 1.1, 7.1.2.2). null when the file says nothing of the size of a pixel.
 */
export function placingOf({ keys, scale, tie, matrix, rows }: Tiff, file: string): Placing | null {
  const half = keys.GTRasterTypeGeoKey === PIXEL_IS_POINT ? 0 : 0.5;
  if (matrix.length === 16) {
    const [a, b, , west, d, e, , north] = matrix;
    const sizes = [a, b, d, e, west, north];
    if (!sizes.every(Number.isFinite) || b !== 0 || d !== 0 || !(a > 0) || e === 0) turned(file);
    const first = north + e * half;
    const south = e < 0 ? first + e * (rows - 1) : first;
    return { stepX: a, stepY: Math.abs(e), southWest: [west + a * half, south], isFromSouth: e > 0 };
  }
  if (scale.length < 2) return null;
  const [stepX, stepY] = scale;
  if (!(stepX > 0 && stepY > 0 && Number.isFinite(stepX) && Number.isFinite(stepY))) noStep(file, stepX, stepY);
  if (tie.length < 6) return { stepX, stepY, southWest: null, isFromSouth: false };
  const [i, j, , x, y] = tie;
  const west = x + (half - i) * stepX;
  const south = y - (rows - 1 + half - j) * stepY;
  const isPlaced = Number.isFinite(west) && Number.isFinite(south);
  return { stepX, stepY, southWest: isPlaced ? [west, south] : null, isFromSouth: false };
}

/** Whether the file counts in degrees of latitude and longitude. */
export const isGeographic = ({ keys }: Tiff): boolean => keys.GTModelTypeGeoKey === GEOGRAPHIC;

/** Millimetres of the file's unit in plan; null when it names none, NaN when it names one that is not known here. */
export const planUnitMm = ({ keys }: Tiff): number | null => unitMm(keys.ProjLinearUnitsGeoKey);

/** The same for heights. */
export const heightUnitMm = ({ keys }: Tiff): number | null => unitMm(keys.VerticalUnitsGeoKey);

const unitMm = (code: unknown): number | null => (code === undefined ? null : (LINEAR[Number(code)] ?? Number.NaN));

/** Refuse degrees, with the distance from post to post that they come to where the file says at which latitude. */
export function refuseDegrees({ stepX, stepY, southWest }: Placing, rows: number, file: string): never {
  const latitude = southWest === null ? 90 : southWest[1] + (stepY * (rows - 1)) / 2;
  const [east, north] = metresPerDegree(latitude);
  const spacing = `[${numberText(stepX * east, 2)} m, ${numberText(stepY * north, 2)} m] at latitude ${numberText(latitude, 2)}`;
  return refuse(
    'source/degrees',
    `The posts stand in degrees of latitude and longitude, ${numberText(stepX, 7)} by ${numberText(stepY, 7)} apart, and the heights do not.`,
    `Project the data to metres first; or, for a small piece of ground, say how far apart the posts are: spacing${Math.abs(latitude) < 90 ? `: ${spacing}` : ''}.`,
    { file },
  );
}

/**
 * Metres in a degree of longitude and of latitude. The usual series for the WGS 84 ellipsoid (National Imagery and Mapping
 * Agency; coefficients from memory), right to a metre.
 */
export function metresPerDegree(latitudeDeg: number): [number, number] {
  const at = (times: number) => cos((times * latitudeDeg * PI) / 180);
  return [
    Math.abs(111_412.84 * at(1) - 93.5 * at(3) + 0.118 * at(5)),
    111_132.92 - 559.82 * at(2) + 1.175 * at(4) - 0.0023 * at(6),
  ];
}

const turned = (file: string): never =>
  refuse(
    'source/turned',
    'The TIFF is placed by a matrix that turns, shears or mirrors it.',
    'Save it again with north up, or say spacing to take its rows as they lie.',
    { file },
  );

const noStep = (file: string, stepX: number, stepY: number): never =>
  refuse(
    'source/damaged-file',
    `The TIFF says that its posts are ${String(stepX)} by ${String(stepY)} apart.`,
    'Say spacing: the distance from post to post.',
    { file },
  );
