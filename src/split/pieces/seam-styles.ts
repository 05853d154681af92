import type { Finding } from '../../findings.ts';
import { length } from '../../geometry/exact-math.ts';
import { snapped } from '../../geometry/snap.ts';
import type { Tool } from '../../model/facts.ts';
import type { Joint } from '../../model/piece.ts';
import { numberText } from '../../units.ts';
import type { SeamOptions } from './seam-options.ts';

/** In thicknesses: how long a loose tongue is, and what of the joint is left whole at its ends and between two. */
const TONGUE = 3;
const BETWEEN = 5;
const FROM_END = 2;
/** How deep the slot for it goes into either piece, in thicknesses: in the middle of the height, as thick as the tongue. */
export const TONGUE_DEPTH = 1;

/** A straight joint with the slots for loose tongues marked along it, as many as it is long; the same joint when it is too short. */
export function withTongues(joint: Joint, thicknessMm: number): Joint {
  const { line } = joint;
  const [ax, ay, bx, by] = [line[0], line[1], line[line.length - 2], line[line.length - 1]];
  const long = length(bx - ax, by - ay);
  const slotMm = TONGUE * thicknessMm;
  const count = Math.floor(
    (long - 2 * FROM_END * thicknessMm + BETWEEN * thicknessMm) / (slotMm + BETWEEN * thicknessMm),
  );
  if (count < 1) return joint;
  const at = (along: number) => [snapped(ax + (along * (bx - ax)) / long), snapped(ay + (along * (by - ay)) / long)];
  const tongues = Array.from({ length: count }, (_, k) => {
    const middle = ((k + 0.5) * long) / count;
    return Float64Array.from([...at(middle - slotMm / 2), ...at(middle + slotMm / 2)]);
  });
  return { ...joint, tongues };
}

/** Tell what the style of seams asks of the crew: keys and tongues counted, joints without, and the play of keys. */
export function tellOfStyle(
  courses: readonly {
    readonly joints: readonly (readonly Joint[])[];
    readonly layer: { readonly thicknessMm: number };
  }[],
  { style, clearance }: SeamOptions,
  tool: Pick<Tool, 'kerfMm'>,
  tell: (finding: Finding) => void,
): void {
  if (style === 'butt') return;
  let count = 0;
  const plain: string[] = [];
  let all = 0;
  for (const { joints } of courses) {
    const each = new Map(joints.flat().map((joint) => [joint.label, joint]));
    for (const { label, line, tongues = [] } of each.values()) {
      // A key has four points, and the ends of a joint are two.
      const here = style === 'key' ? Math.floor((line.length / 2 - 2) / 4) : tongues.length;
      all++;
      count += here;
      if (here === 0) plain.push(label);
    }
  }
  if (all === 0) return;
  const thickest = courses.reduce((most, { layer }) => Math.max(most, layer.thicknessMm), 0);
  tell(
    style === 'key' ? keysTold(count, all, plain, clearance ?? tool.kerfMm) : tonguesTold(count, all, plain, thickest),
  );
  if (style === 'key' && clearance !== undefined && clearance > tool.kerfMm) tell(tightKeys(clearance, tool.kerfMm));
}

const without = (plain: readonly string[]): string =>
  plain.length === 0
    ? ''
    : ` ${plain.length === 1 ? 'One joint has' : `${plain.length} joints have`} no room for one: ${plain.slice(0, 8).join(', ')}${plain.length > 8 ? ' …' : ''}.`;

const keysTold = (count: number, joints: number, plain: readonly string[], playMm: number): Finding => ({
  level: 'note',
  code: 'split/keys',
  message: `${count} keys in ${joints} joints, drawn line to line: led along the line, the cutter takes half its kerf from either side, which is their play of ${numberText(playMm)} mm.${without(plain)}`,
  fix: 'Lay keyed pieces in from above; try the first key dry.',
  where: {},
});

const tightKeys = (clearanceMm: number, kerfMm: number): Finding => ({
  level: 'watch',
  code: 'split/tight-keys',
  message: `Keys are to have ${numberText(clearanceMm)} mm of play, and the cutter takes ${numberText(kerfMm)} mm only.`,
  fix: `Ease each key by ${numberText(clearanceMm - kerfMm)} mm with a sanding block, or say seams.clearance no wider than the kerf.`,
  where: { path: 'split' },
});

const tonguesTold = (count: number, joints: number, plain: readonly string[], thicknessMm: number): Finding => ({
  level: 'note',
  code: 'split/tongues',
  message: `${count} loose tongues in ${joints} joints, ${numberText(TONGUE * thicknessMm)} mm long and ${numberText(2 * TONGUE_DEPTH * thicknessMm)} mm wide at most: three thicknesses by two, half in either piece, in the middle of the height.${without(plain)}`,
  fix: 'Cut tongues from thin ply or hard board and the slots to its thickness; glue them in one side first.',
  where: {},
});
