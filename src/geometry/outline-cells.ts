/**
 * What runs through a cell whose posts and centre are in or out, worked out once for all 32 patterns. Edges of a cell as
 * contour.ts draws them: S E N W (0…3) between posts, 4…7 from each post to the centre.
 */
export const [S, E, N, W] = [0, 1, 2, 3];

/** It lies on an edge between two posts of one row, and the `before` of it is known. */
export const ON_ROW = 2;
/** What lies before it in its row is in. */
export const LEFT_IN = 4;
/**
 * For each pattern of posts that are in (bits SW 1, SE 2, NE 4, NW 8, centre 16): up to four pieces as pairs of edges,
 * from and to; −1 ends the list. A triangle's piece runs from the edge on which its rim, run counter-clockwise, leaves
 * what is in, to the edge on which it comes back.
 */
export const PIECES = piecesOfCells();

/** For each edge: the ends between which the level is met, SW SE NE NW centre; where it begins in its cell, and how far it runs. */
export const FROM = Int8Array.of(0, 1, 3, 0, 0, 1, 2, 3);
export const TO = Int8Array.of(1, 2, 2, 3, 4, 4, 4, 4);
export const AT_U = Float64Array.of(0, 1, 0, 0, 0, 1, 1, 0);
export const AT_V = Float64Array.of(0, 0, 1, 0, 0, 0, 1, 1);
export const BY_U = Float64Array.of(1, 0, 1, 0, 0.5, -0.5, -0.5, 0.5);
export const BY_V = Float64Array.of(0, 1, 0, 1, 0.5, 0.5, -0.5, -0.5);

/** For each pattern: the edges with a point that no cell before has, −1 after the last; and what is told of each. */
export const POINTS = new Int8Array(32 * 7).fill(-1);
export const TOLD = new Uint8Array(32 * 7);
for (let pattern = 0; pattern < 32; pattern++) {
  let at = pattern * 7;
  for (const edge of [E, N, 4, 5, 6, 7]) {
    const isFromIn = (pattern >> FROM[edge]) & 1;
    if (isFromIn === ((pattern >> TO[edge]) & 1)) continue;
    TOLD[at] = edge === N ? ON_ROW | (isFromIn === 1 ? LEFT_IN : 0) : 0;
    POINTS[at++] = edge;
  }
}

function piecesOfCells(): Int8Array {
  const pieces = new Int8Array(32 * 9).fill(-1);
  for (let pattern = 0; pattern < 32; pattern++) {
    let at = pattern * 9;
    for (let side = 0; side < 4; side++) {
      const after = (side + 1) % 4;
      const isIn = [(pattern >> side) & 1, (pattern >> after) & 1, pattern >> 4];
      const edges = [side, 4 + after, 4 + side];
      const leaves = edges.filter((_, i) => isIn[i] > isIn[(i + 1) % 3]);
      const returns = edges.filter((_, i) => isIn[i] < isIn[(i + 1) % 3]);
      if (leaves.length === 1) {
        pieces[at++] = leaves[0];
        pieces[at++] = returns[0];
      }
    }
  }
  return pieces;
}
