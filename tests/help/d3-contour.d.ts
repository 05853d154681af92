/** What tests use of d3-contour, which comes without types. */
declare module 'd3-contour' {
  interface Contours {
    size(size: readonly [number, number]): Contours;
    smooth(isSmooth: boolean): Contours;
    contour(values: ArrayLike<number>, level: number): { readonly coordinates: number[][][][] };
  }
  export function contours(): Contours;
}
