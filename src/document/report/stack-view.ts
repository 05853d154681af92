import { length, turn } from '../../geometry/exact-math.ts';
import type { Ring } from '../../geometry/ring.ts';
import { ringsOf } from '../../geometry/ring.ts';
import type { Layer } from '../../model/layer.ts';
import { type Shape, thinned } from './figure.ts';

/** From where a stack is looked at: turned first, then seen from the south and above, level lines level. */
export interface View {
  /** Turn of the ground about the origin, counter-clockwise. */
  readonly turnDeg: number;
  /** How many times too tall heights are drawn. */
  readonly stretch: number;
  /** Outlines are thinned to this distance between points: it is a picture, not a template. */
  readonly leastMm: number;
}

/** The eye looks down by 30°: depth is foreshortened by the sine, a height shows by the cosine. */
const { sin: DEPTH, cos: RISE } = turn(30);

/** Walls by where they face, left to right: lit from the left. */
const WALLS = ['wall-lit', 'wall', 'wall-dark'] as const;

/**
 * The stack as shapes to paint in order, layer by layer from the ground up, so that what is hidden is painted over. Of each
 * layer first the walls that face the viewer, far ones first, then their lower edges, then the top. Picture: x right, y down.
 */
export function stackView(layers: readonly Layer[], { turnDeg, stretch, leastMm }: View): Shape[] {
  const { cos, sin } = turn(turnDeg);
  const shapes: Shape[] = [];
  for (const { regions, bottomMm, thicknessMm } of layers) {
    const low = bottomMm * RISE * stretch;
    const high = (bottomMm + thicknessMm) * RISE * stretch;
    const rings = ringsOf(regions).map((ring) => seenFlat(thinned(ring, leastMm), cos, sin));
    const walls = rings.flatMap(facing).sort((a, b) => a.line[1] - b.line[1] || a.line[0] - b.line[0]);
    for (const { line, look } of walls) shapes.push({ rings: [wallRing(line, low, high)], look });
    shapes.push({ rings: walls.map(({ line }) => lifted(line, low)), look: 'foot', isOpen: true });
    shapes.push({ rings: rings.map((ring) => lifted(ring, high)), look: 'top' });
  }
  return shapes;
}

/** A ring as it would be seen at height 0. */
function seenFlat(ring: Ring, cos: number, sin: number): Ring {
  const seen = new Float64Array(ring.length);
  for (let i = 0; i < ring.length; i += 2) {
    seen[i] = ring[i] * cos - ring[i + 1] * sin;
    seen[i + 1] = -(ring[i] * sin + ring[i + 1] * cos) * DEPTH;
  }
  return seen;
}

interface Wall {
  readonly line: Ring;
  readonly look: (typeof WALLS)[number];
}

/** The runs of a ring's edges whose walls face the viewer: material is on their left, so they run to the right. */
function facing(ring: Ring): Wall[] {
  const walls: Wall[] = [];
  let run: number[] = [];
  let look: Wall['look'] | undefined;
  const close = () => {
    if (look && run.length > 0) walls.push({ line: new Float64Array(run), look });
    run = [];
    look = undefined;
  };
  for (let i = 0; i < ring.length; i += 2) {
    const j = (i + 2) % ring.length;
    const dx = ring[j] - ring[i];
    const dy = (ring[i + 1] - ring[j + 1]) / DEPTH;
    if (dx <= 0) {
      close();
      continue;
    }
    // The way a wall faces, −1 left … 1 right.
    const side = dy / length(dx, dy);
    const now = WALLS[side < -0.35 ? 0 : side < 0.35 ? 1 : 2];
    if (now !== look) {
      close();
      run = [ring[i], ring[i + 1]];
      look = now;
    }
    run.push(ring[j], ring[j + 1]);
  }
  close();
  return walls;
}

function wallRing(line: Ring, low: number, high: number): Ring {
  const ring = new Float64Array(line.length * 2);
  ring.set(lifted(line, low));
  for (let i = 0; i < line.length; i += 2) {
    ring[line.length + i] = line[line.length - 2 - i];
    ring[line.length + i + 1] = line[line.length - 1 - i] - high;
  }
  return ring;
}

const lifted = (ring: Ring, by: number): Ring => ring.map((value, i) => (i % 2 === 0 ? value : value - by));
