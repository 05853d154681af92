import { refuse } from '../../findings.ts';
import { Pairs } from '../../geometry/pairs.ts';
import type { Surface } from '../../geometry/sections.ts';

/** The edges of a surface: undirected, the lower vertex number first. */
interface Edges {
  readonly pairs: Pairs;
  /** How many triangles an edge has. */
  readonly uses: Uint32Array;
  /** How often an edge is run from lower to higher number more than the other way. 0 all over: closed. */
  readonly net: Int32Array;
}

/**
 * Make sure that a surface is closed: that each edge is run as often one way as the other. Where triangles only disagree
 * about which side is outside, they are turned to agree with the most of their shell; more than two at an edge are
 * welcome as long as they pair up. Refuses open edges and one-sided surfaces.
 * @param placeText a place as the file has it.
 * @returns the triangles, and how many were turned.
 */
export function closedTriangles(
  surface: Surface,
  file: string,
  placeText: (x: number, y: number, z: number) => string,
): { triangles: Uint32Array; turned: number } {
  const edges = edgesOf(surface.triangles);
  if (edges.net.every((net) => net === 0)) return { triangles: surface.triangles, turned: 0 };
  const open = edges.uses.reduce((count, uses) => count + (uses % 2), 0);
  if (open > 0) {
    const first = edges.uses.findIndex((uses) => uses % 2 === 1);
    refuse(
      'source/not-closed',
      `This is not a closed solid: ${open === 1 ? 'an edge has' : `${open} edges have`} a triangle on one side only, the first near ${middle(edges, first)}.`,
      'Give it a base and walls and close its holes in the program it was drawn with; bare ground can be read as a height grid or height image.',
      { file },
    );
  }
  const triangles = agreeing(surface.triangles, edges);
  const after = edgesOf(triangles);
  const wrong = after.net.findIndex((net) => net !== 0);
  if (wrong >= 0) {
    refuse(
      'source/no-outside',
      `The file has triangles that cannot agree which side is outside, the first near ${middle(after, wrong)}.`,
      'Remove doubled and inner faces there in the program it was drawn with.',
      { file },
    );
  }
  let turned = 0;
  for (let i = 0; i < triangles.length; i += 3) turned += triangles[i + 1] === surface.triangles[i + 1] ? 0 : 1;
  return { triangles, turned };

  function middle({ pairs }: Edges, edge: number): string {
    const a = 3 * pairs.firstOf(edge);
    const b = 3 * pairs.secondOf(edge);
    const at = (axis: number) => (surface.positions[a + axis] + surface.positions[b + axis]) / 2;
    return placeText(at(0), at(1), at(2));
  }
}

function edgesOf(triangles: Uint32Array): Edges {
  const pairs = new Pairs(triangles.length / 2);
  const uses = new Uint32Array(triangles.length);
  const net = new Int32Array(triangles.length);
  for (let i = 0; i < triangles.length; i++) {
    const v = triangles[i];
    const w = triangles[i % 3 === 2 ? i - 2 : i + 1];
    const edge = v < w ? pairs.number(v, w) : pairs.number(w, v);
    uses[edge]++;
    net[edge] += v < w ? 1 : -1;
  }
  const { size } = pairs;
  return { pairs, uses: uses.subarray(0, size), net: net.subarray(0, size) };
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
