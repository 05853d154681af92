import type { Finding } from '../findings.ts';
import { type Ring, squaredDistanceToSegment } from '../geometry/ring.ts';
import { SNAP } from '../geometry/tolerance.ts';
import type { Layer } from '../model/layer.ts';
import type { Joint, Piece } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';

/** One side of a joint. */
interface Side {
  readonly piece: Piece;
  readonly joint: Joint;
}

/**
 * Whether every joint has one label, read on exactly two pieces of one layer that name each other and share the cut, and
 * whether the pieces can be laid from the ground up, each straight down, with none lifted again. Of lying layers that needs
 * this: a piece is nowhere wider above than it is at its underside (upright edges, keys among them; a leaning edge keeps
 * its top within its underside, `Slope.top`), so that nothing of its layer is in its way when it comes from above, and what
 * it stands on ends where it begins. Ribs of one way stand first and open at the top; the others are let down into them.
 */
export function joints({ pieces, stack }: Plan): Finding[] {
  const sides = new Map<string, Side[]>();
  for (const piece of pieces) {
    for (const joint of piece.joints) {
      const both = sides.get(joint.label);
      if (both) both.push({ piece, joint });
      else sides.set(joint.label, [{ piece, joint }]);
    }
  }
  const isFlat = stack.kind === 'flat';
  const layers = new Map(stack.layers.map((layer) => [layer.number, layer]));
  return [
    ...[...sides].flatMap(([label, both]) => faultOf(label, both, isFlat)),
    ...pieces.flatMap((piece) => (isFlat ? outOfOrder(piece, layers.get(piece.layer)) : [])),
    ...(isFlat ? [] : slots(stack.layers)),
  ];
}

function faultOf(label: string, both: readonly Side[], isFlat: boolean): Finding[] {
  const [one, other] = both;
  const names = both.map(({ piece }) => piece.name).join(', ');
  if (both.length !== 2 || one.piece === other.piece) {
    const times = both.length === 1 ? 'once' : `${both.length} times`;
    return [
      stop('label', `Joint ${label} is written ${times}: on ${names}. It belongs on the two sides of one joint.`, one),
    ];
  }
  if (one.piece.layer !== other.piece.layer) {
    return [stop('label', `Joint ${label} is written on ${names}, which are of different layers.`, one)];
  }
  if (one.joint.neighbour !== other.piece.name || other.joint.neighbour !== one.piece.name) {
    const said = `${one.piece.name} says ${one.joint.neighbour}, ${other.piece.name} says ${other.joint.neighbour}`;
    return [stop('neighbour', `The two sides of joint ${label} do not name each other: ${said}.`, one)];
  }
  if (
    isFlat &&
    !both.every(({ piece }) => holdsLine(piece.region, one.joint.line) && holdsLine(piece.region, other.joint.line))
  ) {
    return [stop('joint-line', `${names} do not meet along joint ${label}.`, one)];
  }
  return [];
}

/** Whether every point of a line lies on some ring's edge. */
const holdsLine = (rings: readonly Ring[], line: Float64Array): boolean => {
  for (let i = 0; i < line.length; i += 2) {
    if (!rings.some((ring) => isOnRing(line[i], line[i + 1], ring))) return false;
  }
  return true;
};

function isOnRing(x: number, y: number, ring: Ring): boolean {
  for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
    if (squaredDistanceToSegment(x, y, ring[j], ring[j + 1], ring[i], ring[i + 1]) <= SNAP * SNAP) return true;
  }
  return false;
}

/** A piece that does not begin and end with its layer would have to be laid under another, or be held up. */
function outOfOrder(piece: Piece, layer: Layer | undefined): Finding[] {
  const { name, bottomMm, thicknessMm } = piece;
  if (layer && bottomMm === layer.bottomMm && thicknessMm === layer.thicknessMm) return [];
  const message = `${name} does not begin and end with its layer: it cannot be laid in its turn.`;
  return [{ level: 'stop', code: 'checks/laying', message, fix: FIX, where: { layer: piece.layer, piece: name } }];
}

/** A rib whose slots open both ways could be let down only with another lifted. Whether slots fit is asked in ribs.ts. */
function slots(layers: readonly Layer[]): Finding[] {
  return layers
    .filter(({ rib }) => new Set(rib?.crossings.map(({ opens }) => opens)).size > 1)
    .map(({ number }) => ({
      level: 'stop',
      code: 'checks/slot-order',
      message: `Rib ${number} has slots that open both ways: it cannot be let down in its turn.`,
      fix: FIX,
      where: { layer: number },
    }));
}

const FIX = 'Do not cut these pieces. Split again; if it comes back, report it with the job file.';

const stop = (what: string, message: string, { piece, joint: { line } }: Side): Finding => {
  const middle = 2 * Math.floor(line.length / 4);
  const atMm = [line[middle], line[middle + 1]] as const;
  return {
    level: 'stop',
    code: `checks/${what}`,
    message,
    fix: FIX,
    where: { layer: piece.layer, piece: piece.name, atMm },
  };
};
