/**
 * Outlines of a surface given by posts on a grid, at any level.
 *
 * Between four posts the surface is four flat triangles that meet at the mean of the posts, so an outline is exact: one
 * straight piece a triangle. Whether a post is in is decided once, by one comparison; a point of an outline belongs to
 * one edge and is computed once, so that all who meet there agree to the last bit, and no coordinate is ever compared to
 * find out what joins what.
 *
 *     NW───N───NE     Edges of a cell: S E N W (0…3) between posts, and 4…7 from each post to the centre.
 *      │ 7   6 │      A piece runs through each triangle that the level cuts, with what is in on its left.
 *      W   ×   E      Across the border of the grid nothing is in: outlines close along it, with square corners.
 *      │ 4   5 │
 *     SW───S───SE
 *
 * Roads not taken: outlines of cells with four straight edges and no centre broke the volume law on 254 of 400 random
 * grids; this on none. Looking at every cell for every level cost 10 times the blocks of block-ranges.ts. Joining pieces
 * by the points they end on (a map of ends) is not needed: every point knows its next one as soon as both exist.
 */
import { type InRule, OutlineScan, type Posts } from './outline-scan.ts';
import { type Ring, ringArea } from './ring.ts';

export { centreOf, type InRule, type Posts } from './outline-scan.ts';

/**
 * Make ready to outline the same posts at many levels. The function that comes out gives, for a level, rings without
 * repeated points: outer ones counter-clockwise, holes clockwise, in a fixed order, not sorted under one another. They
 * never cross; where posts lie exactly on the level they may touch, and run along each other. Rings without area are
 * left out. Values must be finite. A level for 32-bit values should have passed through Math.fround.
 *
 * O(posts) once; then O(blocks + cells of the blocks that the level crosses), with memory for one outline.
 */
export function contours(posts: Posts): (level: number, rule: InRule) => Ring[] {
  if (posts.columns < 2 || posts.rows < 2) return () => [];
  const outline = new OutlineScan(posts);
  return (level, rule) => {
    outline.scan(level, rule);
    return ringsOf(outline);
  };
}

/** Walk every ring once, from its earliest point. */
function ringsOf({ posts, u, v, next, count }: OutlineScan): Ring[] {
  const { stepX, stepY, originX, originY } = posts;
  const rings: Ring[] = [];
  const walked = new Float64Array(2 * count);
  for (let begin = 0; begin < count; begin++) {
    let length = 0;
    for (let point = begin; next[point] >= 0; ) {
      const x = originX + u[point] * stepX;
      const y = originY + v[point] * stepY;
      // Where a post lies on the level, the points of several edges are that post.
      if (length === 0 || x !== walked[length - 2] || y !== walked[length - 1]) {
        walked[length] = x;
        walked[length + 1] = y;
        length += 2;
      }
      const after = next[point];
      next[point] = -1;
      point = after;
    }
    while (length > 2 && walked[length - 2] === walked[0] && walked[length - 1] === walked[1]) length -= 2;
    if (length < 6) continue;
    const ring = walked.slice(0, length);
    if (ringArea(ring) !== 0) rings.push(ring);
  }
  return rings;
}
