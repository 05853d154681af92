declare module 'polylabel' {
  /** Point furthest inside a polygon of [x, y] rings, with its distance to the nearest edge. */
  export default function polylabel(rings: number[][][], precision?: number): number[] & { distance: number };
}
