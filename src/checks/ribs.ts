import type { Finding } from '../findings.ts';
import { boxOf, type Region } from '../geometry/ring.ts';
import type { Layer } from '../model/layer.ts';
import type { Piece } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { isWestEast, type Rib } from '../model/rib.ts';
import { numberText } from '../units.ts';

/** How far slots may miss one another, or ribs stand in one another: less than a sanding block takes. */
const MEET_MM = 0.1;
/** A rib is asked what stands in its slot so far inside the faces of the other. */
const INSIDE_MM = 0.01;

interface Standing extends Layer {
  readonly rib: Rib;
  readonly pieces: readonly Piece[];
}

/**
 * Whether ribs go together: at every crossing their foam fills the height once, in the middle and at the faces, no lap lies in
 * a slot, and each piece is held upright by two others. Asked of the pieces as they are cut, not of what the slicer says.
 */
export function ribs({ stack, pieces }: Plan): Finding[] {
  const standing = stack.layers.flatMap((layer): Standing[] =>
    layer.rib ? [{ ...layer, rib: layer.rib, pieces: pieces.filter((piece) => piece.layer === layer.number) }] : [],
  );
  const [firsts, seconds] = [true, false].map((way) => standing.filter(({ rib }) => isWestEast(rib.frame) === way));
  const findings: Finding[] = [];
  for (const a of firsts) for (const b of seconds) findings.push(...crossing(a, b));
  const unsteady: string[] = [];
  for (const { rib, pieces: own } of standing) {
    for (const { name, region, joints } of own) {
      const [from, , to] = boxOf(region);
      const slots = rib.crossings.filter(({ atMm }) => atMm > from && atMm < to);
      if (slots.length < 2 && joints.length === 0) unsteady.push(name);
      const lap = joints.find(({ line }) =>
        rib.crossings.some(({ atMm, widthMm }) => {
          const [left, , right] = boxOf([line]);
          return right > atMm - widthMm / 2 && left < atMm + widthMm / 2;
        }),
      );
      if (lap) findings.push(lapInSlot(name, lap.label));
    }
  }
  return unsteady.length > 0 ? [...findings, tips(unsteady)] : findings;
}

function crossing(a: Standing, b: Standing): Finding[] {
  const [atA, atB] = [b.rib.frame.originMm[0], a.rib.frame.originMm[1]];
  const upOf = ({ pieces }: Standing, u: number) => pieces.flatMap(({ region }) => foamAt(region, u));
  const middles = [upOf(a, atA), upOf(b, atB)];
  if (middles.some((foam) => foam.length === 0)) return [];
  const where = { layer: a.number, atMm: [atA, atB] as const };
  const names = `ribs ${a.number} and ${b.number}`;
  const high = Math.max(...middles.flat());
  const filled = middles.flat().reduce((sum, value, i) => sum + (i % 2 === 0 ? -value : value), 0);
  if (high - filled > MEET_MM) return [slotsMiss(names, high - filled, where)];
  const [faceA, faceB] = [b.thicknessMm / 2 - INSIDE_MM, a.thicknessMm / 2 - INSIDE_MM];
  let worst = 0;
  for (const u of [atA - faceA, atA, atA + faceA]) {
    for (const v of [atB - faceB, atB, atB + faceB]) worst = Math.max(worst, common(upOf(a, u), upOf(b, v)));
  }
  return worst > MEET_MM ? [ribsCollide(names, worst, where)] : [];
}

/** Where a rib is foam over a place along it: from, to, from, to … */
function foamAt(region: Region, u: number): number[] {
  const heights: number[] = [];
  for (const ring of region) {
    for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
      if (ring[j] <= u === ring[i] <= u) continue;
      heights.push(ring[j + 1] + ((u - ring[j]) / (ring[i] - ring[j])) * (ring[i + 1] - ring[j + 1]));
    }
  }
  return heights.sort((one, other) => one - other);
}

/** The height that two lists of from, to … share. */
function common(a: readonly number[], b: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < a.length; i += 2) {
    for (let k = 0; k < b.length; k += 2) sum += Math.max(0, Math.min(a[i + 1], b[k + 1]) - Math.max(a[i], b[k]));
  }
  return sum;
}

const FIX = 'Do not cut from this plan. Slice again; if it comes back, report it with the job file.';

const slotsMiss = (names: string, byMm: number, where: Finding['where']): Finding => ({
  level: 'stop',
  code: 'checks/slots-miss',
  message: `The slots of ${names} leave ${numberText(byMm, 2)} mm of air between them.`,
  fix: FIX,
  where,
});

const ribsCollide = (names: string, byMm: number, where: Finding['where']): Finding => ({
  level: 'stop',
  code: 'checks/ribs-collide',
  message: `Of ${names} ${numberText(byMm, 2)} mm of foam stand in the same place.`,
  fix: FIX,
  where,
});

const lapInSlot = (piece: string, label: string): Finding => ({
  level: 'stop',
  code: 'checks/lap-in-slot',
  message: `The lap ${label} lies where another rib passes through.`,
  fix: FIX,
  where: { piece },
});

const tips = (names: readonly string[]): Finding => ({
  level: 'watch',
  code: 'checks/rib-tips',
  message: `${names.length === 1 ? 'A piece is' : `${names.length} pieces are`} held upright by one rib only: ${names.slice(0, 8).join(', ')}${names.length > 8 ? ' …' : ''}.`,
  fix: 'Brace these with a block of offcut glued into the corner.',
  where: { piece: names[0] },
});
