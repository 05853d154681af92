// polylabel 2.1.0 has no types of its own.
declare module 'polylabel' {
  /** Point furthest inside a polygon of [x, y] rings, with its distance to the nearest edge. */
  export default function polylabel(
    rings: readonly (readonly (readonly number[])[])[],
    precision?: number,
  ): [number, number] & { distance: number };
}
