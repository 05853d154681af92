import { refuse } from '../../findings.ts';
import { Pairs } from '../../geometry/pairs.ts';
import type { Surface } from '../../geometry/sections.ts';
import { fillRim } from './fill.ts';
import { type Rim, rimsOf } from './rims.ts';

/** Edges of a vertex are looked through one by one when that takes no more than this for each edge. */
const MOST_LOOKS = 40;

/** The edges of a surface: undirected, the lower vertex number first. */
export interface Edges {
  readonly pairs: Pairs;
  /** How many triangles an edge has. */
  readonly uses: Uint32Array;
  /** How often an edge is run from lower to higher number more than the other way. 0 all over: closed. */
  readonly net: Int32Array;
  /** For each triangle the lowest number of a triangle that it hangs together with by edges: its shell. */
  readonly shells: Uint32Array;
}

export interface Closed {
  readonly triangles: Uint32Array;
  /** How many were turned. */
  readonly turned: number;
  readonly rims: readonly Rim[];
  /** For each triangle the number of its shell. */
  readonly shells: Uint32Array;
  /** Whether every edge has two triangles. */
  readonly isManifold: boolean;
}

/**
 * Close a surface: so that each edge is run as often one way as the other. Where triangles only disagree about which side
 * is outside, they are turned to agree with the most of their shell; more than two at an edge are welcome as long as they
 * pair up. Holes are found by edges and filled with triangles between the corners that are there, whatever their size:
 * then every section is closed by itself, and volume, shadow and pictures see the same body. Whether a filled hole may be
 * built is judged where layers are known, by its gap there. Refuses one-sided surfaces and heaps of triangles.
 *
 * Road not taken: closing outlines layer by layer. The same hole would be closed in another way at each level, what a
 * layer covers (its undersides) would still be open, and all that asks for volume or inside would have to refuse.
 * @param closeMm rims wider than this are looked through for seams.
 * @param placeText a place as the file has it.
 */
export function closedTriangles(
  surface: Surface,
  closeMm: number,
  file: string,
  placeText: (x: number, y: number, z: number) => string,
): Closed {
  const known = pairedShells(surface);
  if (known) return { triangles: surface.triangles, turned: 0, rims: [], shells: known, isManifold: true };
  let edges = edgesOf(surface.triangles);
  let { triangles } = surface;
  const isWrong = (net: number, i: number) => Math.abs(net) > edges.uses[i] % 2;
  if (edges.net.some(isWrong)) {
    triangles = agreeing(triangles, edges);
    edges = edgesOf(triangles);
    const wrong = edges.net.findIndex(isWrong);
    if (wrong >= 0) refuseOneSided(placeText(...middle(edges, wrong, surface.positions)), file);
  }
  let turned = 0;
  for (let i = 0; i < triangles.length; i += 3) turned += triangles[i + 1] === surface.triangles[i + 1] ? 0 : 1;
  const rims = edges.net.some((net) => net !== 0) ? rimsOf(edges, surface.positions, closeMm, file) : [];
  if (rims.length > 0) {
    const added: number[] = [];
    for (const { corners } of rims) fillRim(corners, surface.positions, added);
    const all = new Uint32Array(triangles.length + added.length);
    all.set(triangles);
    all.set(added, triangles.length);
    triangles = all;
    edges = edgesOf(all);
  }
  const { shells, uses } = edges;
  return { triangles, turned, rims, shells, isManifold: uses.every((count) => count === 2) };
}

function middle({ pairs }: Edges, edge: number, positions: Float64Array): [number, number, number] {
  const a = 3 * pairs.firstOf(edge);
  const b = 3 * pairs.secondOf(edge);
  const at = (axis: number) => (positions[a + axis] + positions[b + axis]) / 2;
  return [at(0), at(1), at(2)];
}

const refuseOneSided = (place: string, file: string): never =>
  refuse(
    'source/no-outside',
    `The file has triangles that cannot agree which side is outside, the first near ${place}.`,
    'Remove doubled and inner faces there in the program it was drawn with.',
    { file },
  );

function edgesOf(triangles: Uint32Array): Edges {
  const most = triangles.length;
  const pairs = new Pairs(most / 2);
  const uses = new Uint32Array(most);
  const net = new Int32Array(most);
  /** The first triangle that was met at an edge. */
  const owner = new Uint32Array(most);
  const shells = numbered(most / 3);
  for (let triangle = 0, i = 0; i < most; triangle++) {
    for (let corner = 0; corner < 3; corner++, i++) {
      const v = triangles[i];
      const w = triangles[corner === 2 ? i - 2 : i + 1];
      const edge = v < w ? pairs.number(v, w) : pairs.number(w, v);
      net[edge] += v < w ? 1 : -1;
      if (uses[edge]++ === 0) owner[edge] = triangle;
      else unite(shells, owner[edge], triangle);
    }
  }
  for (let triangle = 0; triangle < shells.length; triangle++) shells[triangle] = rootOf(shells, triangle);
  const { size } = pairs;
  return { pairs, uses: uses.subarray(0, size), net: net.subarray(0, size), shells };
}

/**
 * The shells of a surface in which every edge is run once each way; null when it is not of that kind, or has vertices that
 * too many triangles share. Edges are put with their lower vertex by counting and looked through there: 4 times faster than
 * finding each in a table, for the surfaces that most files hold.
 */
function pairedShells({ positions, triangles }: Surface): Uint32Array | null {
  const most = triangles.length;
  const starts = new Uint32Array(positions.length / 3 + 1);
  for (let i = 0; i < most; i++) {
    const v = triangles[i];
    const w = triangles[i % 3 === 2 ? i - 2 : i + 1];
    starts[v < w ? v : w]++;
  }
  let total = 0;
  let work = 0;
  for (let v = 0; v < starts.length; v++) {
    const count = starts[v];
    work += count * count;
    total += count;
    starts[v] = total;
  }
  if (work > MOST_LOOKS * most) return null;
  // Filled from the back, so that each start moves to its own place.
  const corners = new Uint32Array(most);
  for (let i = most - 1; i >= 0; i--) {
    const v = triangles[i];
    const w = triangles[i % 3 === 2 ? i - 2 : i + 1];
    corners[--starts[v < w ? v : w]] = i;
  }
  const shells = numbered(most / 3);
  for (let v = 0; v + 1 < starts.length; v++) {
    const end = starts[v + 1];
    for (let k = starts[v]; k < end; k++) {
      const i = corners[k];
      const isUp = triangles[i] === v;
      const other = isUp ? triangles[i % 3 === 2 ? i - 2 : i + 1] : triangles[i];
      let partner = -1;
      for (let m = starts[v]; m < end; m++) {
        const j = corners[m];
        const goesUp = triangles[j] === v;
        if ((goesUp ? triangles[j % 3 === 2 ? j - 2 : j + 1] : triangles[j]) !== other || m === k) continue;
        if (partner >= 0 || goesUp === isUp) return null;
        partner = j;
      }
      if (partner < 0) return null;
      if (isUp) unite(shells, Math.floor(i / 3), Math.floor(partner / 3));
    }
  }
  for (let triangle = 0; triangle < shells.length; triangle++) shells[triangle] = rootOf(shells, triangle);
  return shells;
}

function unite(parents: Uint32Array, one: number, other: number): void {
  const a = rootOf(parents, one);
  const b = rootOf(parents, other);
  if (a < b) parents[b] = a;
  else parents[a] = b;
}

function numbered(count: number): Uint32Array {
  const list = new Uint32Array(count);
  for (let i = 0; i < count; i++) list[i] = i;
  return list;
}

/** The root of a tree of parents; the way there is halved. */
function rootOf(parents: Uint32Array, start: number): number {
  let at = start;
  while (parents[at] !== at) {
    parents[at] = parents[parents[at]];
    at = parents[at];
  }
  return at;
}

/** Turn triangles so that two that share an edge run it in opposite ways, shell by shell; the fewer are turned. */
function agreeing(triangles: Uint32Array, { pairs, uses }: Edges): Uint32Array {
  // Sum of the triangles at an edge: one of two tells the other.
  const sums = new Float64Array(pairs.size);
  for (let i = 0; i < triangles.length; i++) sums[edgeAt(triangles, i, pairs)] += Math.floor(i / 3);
  const result = triangles.slice();
  const count = triangles.length / 3;
  /** 0 not met, 1 as it is, −1 to be turned. */
  const sense = new Int8Array(count);
  const shell = new Uint32Array(count);
  for (let start = 0; start < count; start++) {
    if (sense[start] !== 0) continue;
    sense[start] = 1;
    shell[0] = start;
    let balance = 0;
    let met = 1;
    for (let k = 0; k < met; k++) {
      const triangle = shell[k];
      balance += sense[triangle];
      for (let corner = 0; corner < 3; corner++) {
        const edge = edgeAt(triangles, 3 * triangle + corner, pairs);
        if (uses[edge] !== 2) continue;
        const v = triangles[3 * triangle + corner];
        const w = triangles[3 * triangle + ((corner + 1) % 3)];
        const other = sums[edge] - triangle;
        if (sense[other] !== 0) continue;
        sense[other] = runs(triangles, other, v, w) ? -sense[triangle] : sense[triangle];
        shell[met++] = other;
      }
    }
    for (let k = 0; k < met; k++) {
      if (sense[shell[k]] * (balance < 0 ? -1 : 1) > 0) continue;
      const at = 3 * shell[k];
      result[at + 1] = triangles[at + 2];
      result[at + 2] = triangles[at + 1];
    }
  }
  return result;
}

/** The number of the edge that starts at a triangle's corner. */
function edgeAt(triangles: Uint32Array, i: number, pairs: Pairs): number {
  const v = triangles[i];
  const w = triangles[i % 3 === 2 ? i - 2 : i + 1];
  return v < w ? pairs.find(v, w) : pairs.find(w, v);
}

/** Whether a triangle runs from v to w. */
function runs(triangles: Uint32Array, triangle: number, v: number, w: number): boolean {
  for (let corner = 0; corner < 3; corner++) {
    if (triangles[3 * triangle + corner] === v) return triangles[3 * triangle + ((corner + 1) % 3)] === w;
  }
  return false;
}
