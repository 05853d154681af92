import type { Cells } from './grid-cells.ts';
import { type Region, ringsOf } from './ring.ts';

/**
 * Which posts of a grid, the corners of its cells, lie in the regions or on their edges: 1 for each, row by row from the
 * south, one more than the cells each way. O(posts + edges × rows that they span).
 * @param slack how far outside an edge a post may stand and still count as on it.
 */
export function postsInside(regions: readonly Region[], grid: Cells, slack: number): Uint8Array {
  const { across, up, stepX, stepY, originX, originY } = grid;
  const columns = across + 1;
  const posts = new Uint8Array(columns * (up + 1));
  const rings = ringsOf(regions);
  // A line just below each row of posts and one just above: a post on an edge that runs along its row lies by one of them.
  for (const shift of [-slack, slack]) {
    const crossings: number[][] = Array.from({ length: up + 1 }, () => []);
    for (const ring of rings) {
      for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
        const ay = (ring[j + 1] - originY - shift) / stepY;
        const by = (ring[i + 1] - originY - shift) / stepY;
        const last = Math.min(up, Math.ceil(Math.max(ay, by)) - 1);
        for (let row = Math.max(0, Math.ceil(Math.min(ay, by))); row <= last; row++)
          crossings[row].push(ring[j] + ((ring[i] - ring[j]) * (row - ay)) / (by - ay));
      }
    }
    for (let row = 0; row <= up; row++) {
      const line = crossings[row].sort((a, b) => a - b);
      for (let k = 0; k + 1 < line.length; k += 2) {
        const last = Math.min(across, Math.floor((line[k + 1] + slack - originX) / stepX));
        for (let column = Math.max(0, Math.ceil((line[k] - slack - originX) / stepX)); column <= last; column++)
          posts[row * columns + column] = 1;
      }
    }
  }
  return posts;
}
