import { refuse, type Where } from '../../findings.ts';
import { convexHull } from '../../geometry/hull.ts';
import { boxOf, type Point, type Ring, rectangle, reversed, ringArea } from '../../geometry/ring.ts';
import { crossingOf } from '../../geometry/self-meeting.ts';
import { numberText } from '../../units.ts';
import type { Spots } from './doubles.ts';

const OUTLINE: Where = { path: 'source.spot-heights.outline' };

/** The edge of the ground round spots: their hull or their rectangle. Refused where they enclose no area. */
export function edgeOf({ xMm, yMm }: Spots, kind: 'hull' | 'rectangle', file: string): Ring {
  const points = new Float64Array(2 * xMm.length);
  for (let i = 0; i < xMm.length; i++) {
    points[2 * i] = xMm[i];
    points[2 * i + 1] = yMm[i];
  }
  const [minX, minY, maxX, maxY] = boxOf([points]);
  const ring = kind === 'hull' ? convexHull([points]) : rectangle(minX, minY, maxX, maxY);
  if (ring.length < 6 || !(ringArea(ring) > 0)) noArea(xMm.length, file);
  return ring;
}

/** The ring of an outline as the job gives it, counter-clockwise. Refused when it crosses itself or has no area. */
export function outlineOf(corners: readonly Point[]): Ring {
  const apart = corners.filter(([x, y], i) => {
    const next = corners[(i + 1) % corners.length];
    return x !== next[0] || y !== next[1];
  });
  const ring = Float64Array.from(apart.flat());
  const at = ring.length < 6 ? null : crossingOf(ring);
  if (at) crossing(at);
  const area = ring.length < 6 ? 0 : ringArea(ring);
  if (area === 0) flat();
  return area < 0 ? reversed(ring) : ring;
}

const noArea = (count: number, file: string): never =>
  refuse(
    'source/no-area',
    count === 1 ? 'The file holds one spot.' : `All ${count} spots stand on one line: they enclose no ground.`,
    'Give more spots, or say with outline: where the ground ends (it is then level across the line of the spots).',
    { file },
  );

const crossing = ([x, y]: Point): never =>
  refuse(
    'source/outline-crosses',
    `The outline crosses or touches itself ${numberText(x, 1)}, ${numberText(y, 1)} mm from the most western and southern spot.`,
    'Put its corners in the order in which one walks round.',
    OUTLINE,
  );

const flat = (): never =>
  refuse('source/no-area', 'The outline encloses no area.', 'Give corners that lie apart, not all in a line.', OUTLINE);
