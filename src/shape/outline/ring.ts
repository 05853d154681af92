import { refuse } from '../../findings.ts';
import { type Point, ringArea } from '../../geometry/ring.ts';
import { crossingOf } from '../../geometry/self-meeting.ts';
import { numberText } from '../../units.ts';

/** The ring of an outline's corners, as they were given; points said twice in a row count once. Refused when it is none. */
export function outlineRing(corners: readonly Point[], shaper: string): Float64Array {
  const ring = new Float64Array(corners.filter((point, i) => !same(point, corners[(i + 1) % corners.length])).flat());
  if (ring.length < 6) noArea(shaper);
  const at = crossingOf(ring);
  if (at) crossing(at, shaper);
  if (ringArea(ring) === 0) noArea(shaper);
  return ring;
}

export const noArea = (shaper: string): never =>
  refuse('shape/no-area', `The ${shaper} encloses no area.`, 'Give corners that lie apart, and not all in a line.', {
    path: `shape.${shaper}`,
  });

const crossing = ([x, y]: Point, shaper: string): never =>
  refuse(
    'shape/crossing',
    `The outline of the ${shaper} crosses or touches itself near ${numberText(x, 1)}, ${numberText(y, 1)} mm.`,
    'Put its corners in the order in which one walks round.',
    { path: `shape.${shaper}.outline`, atMm: [x, y] },
  );

const same = (a: Point, b: Point): boolean => a[0] === b[0] && a[1] === b[1];
