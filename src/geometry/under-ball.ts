import type { Cells } from './grid-cells.ts';

/**
 * Lower ground by a ball: under each post the highest point that no point of the ground comes nearer to than `radius`, seen
 * from beneath. It is the parallel surface at that distance, of the four flat triangles of each cell (their planes, edges and
 * corners, each in closed form), so exact at the posts up to rounding. Erosion by a ball (J. Serra, Image Analysis and Mathematical
 * Morphology, 1982). Beyond the grid and its cells that are left out there is no ground.
 * O(posts × cells within the radius), each cell told away by its lowest post where it can.
 * @param used which cells are ground: 0 is none; null when all are.
 * @returns heights at the posts; yields its progress.
 */
export function* underBall(
  heights: Float64Array | Float32Array,
  grid: Cells,
  used: Uint8Array | null,
  radius: number,
): Generator<number, Float64Array> {
  const { across, up, stepX, stepY } = grid;
  const columns = across + 1;
  const lowest = new Float64Array(across * up);
  for (let cell = 0; cell < lowest.length; cell++) {
    const at = cell + Math.floor(cell / across);
    lowest[cell] =
      used?.[cell] === 0
        ? Infinity
        : Math.min(heights[at], heights[at + 1], heights[at + columns], heights[at + columns + 1]);
  }
  const near = cellsNear(stepX, stepY, radius);
  const result = new Float64Array(heights.length);
  // The triangle under a post's cell at hand: its corners, x and y from the post.
  const corner = new Float64Array(15);
  for (let row = 0; row <= up; row++) {
    for (let column = 0; column <= across; column++) {
      const post = row * columns + column;
      let least = heights[post] - radius;
      for (let k = 0; k < near.east.length; k++) {
        const x = column + near.east[k];
        const y = row + near.north[k];
        if (x < 0 || y < 0 || x >= across || y >= up) continue;
        if (lowest[y * across + x] - near.drop[k] >= least) continue;
        const at = y * columns + x;
        const west = near.east[k] * stepX;
        const south = near.north[k] * stepY;
        const [sw, se, nw, ne] = [heights[at], heights[at + 1], heights[at + columns], heights[at + columns + 1]];
        setPoint(corner, 0, west, south, sw);
        setPoint(corner, 3, west + stepX, south, se);
        setPoint(corner, 6, west + stepX, south + stepY, ne);
        setPoint(corner, 9, west, south + stepY, nw);
        setPoint(corner, 12, west + stepX / 2, south + stepY / 2, (sw + se + (nw + ne)) / 4);
        for (let side = 0; side < 12; side += 3) {
          const next = (side + 3) % 12;
          least = Math.min(
            least,
            underEdge(corner, side, next, radius),
            underEdge(corner, side, 12, radius),
            underFace(corner, side, next, radius),
          );
        }
      }
      result[post] = least;
    }
    yield (row + 1) / (up + 1);
  }
  return result;
}

/** Cells that come nearer to a post than the radius, nearest first: places from the post's north-east cell, and how far the ball reaches down over them. */
function cellsNear(stepX: number, stepY: number, radius: number) {
  const found: { east: number; north: number; drop: number }[] = [];
  const [mostX, mostY] = [Math.ceil(radius / stepX), Math.ceil(radius / stepY)];
  for (let north = -mostY; north < mostY; north++) {
    for (let east = -mostX; east < mostX; east++) {
      const x = Math.max(0, east, -east - 1) * stepX;
      const y = Math.max(0, north, -north - 1) * stepY;
      const squared = radius * radius - x * x - y * y;
      if (squared > 0) found.push({ east, north, drop: Math.sqrt(squared) });
    }
  }
  found.sort((a, b) => b.drop - a.drop);
  return {
    east: Int32Array.from(found, ({ east }) => east),
    north: Int32Array.from(found, ({ north }) => north),
    drop: Float64Array.from(found, ({ drop }) => drop),
  };
}

function setPoint(points: Float64Array, at: number, x: number, y: number, z: number): void {
  points[at] = x;
  points[at + 1] = y;
  points[at + 2] = z;
}

/** The lowest that a ball rolled along an edge, ends included, reaches over (0, 0). Infinity where it does not. */
function underEdge(p: Float64Array, a: number, b: number, radius: number): number {
  const dx = p[b] - p[a];
  const dy = p[b + 1] - p[a + 1];
  const long = Math.sqrt(dx * dx + dy * dy);
  // How far along the edge (0, 0) lies, and how far beside it.
  const along = -(p[a] * dx + p[a + 1] * dy) / long;
  const beside = (p[a] * dy - p[a + 1] * dx) / long;
  const squared = radius * radius - beside * beside;
  if (squared <= 0) return Infinity;
  const rise = (p[b + 2] - p[a + 2]) / long;
  const best = along - (Math.sqrt(squared) * rise) / Math.sqrt(1 + rise * rise);
  const at = Math.max(0, Math.min(long, best));
  const left = squared - (along - at) * (along - at);
  return left < 0 ? Infinity : p[a + 2] + rise * at - Math.sqrt(left);
}

/** The lowest that a ball rolled over the inside of the triangle a, b, middle reaches over (0, 0). Infinity where it does not. */
function underFace(p: Float64Array, a: number, b: number, radius: number): number {
  const [ux, uy, uz] = [p[b] - p[a], p[b + 1] - p[a + 1], p[b + 2] - p[a + 2]];
  const [vx, vy, vz] = [p[12] - p[a], p[13] - p[a + 1], p[14] - p[a + 2]];
  const twice = ux * vy - uy * vx;
  const riseX = (uz * vy - vz * uy) / twice;
  const riseY = (ux * vz - vx * uz) / twice;
  const steep = Math.sqrt(1 + riseX * riseX + riseY * riseY);
  // Where the ball touches: its middle's foot on the plane, from a.
  const x = (-radius * riseX) / steep - p[a];
  const y = (-radius * riseY) / steep - p[a + 1];
  const s = (x * vy - y * vx) / twice;
  const t = (ux * y - uy * x) / twice;
  if (s < 0 || t < 0 || s + t > 1) return Infinity;
  return p[a + 2] - riseX * p[a] - riseY * p[a + 1] - radius * steep;
}
