import { fillNearest } from '../../geometry/grid-fill.ts';
import { boxOf, type Region, ringsOf } from '../../geometry/ring.ts';
import { SNAP } from '../../geometry/tolerance.ts';
import { groundPosts } from '../../model/ground.ts';
import { type Heightfield, heightfield } from '../../model/landform.ts';

/**
 * A field cut to a footprint (whose box starts at (0, 0)) that stood at `cornerMm` before. Posts are those of the cells
 * that the footprint's box meets. Those of them that no ground hangs on take a nearest height: what was cropped away must
 * not count as the highest ground.
 */
export function croppedField(
  field: Heightfield,
  footprint: readonly Region[],
  cornerMm: readonly [number, number],
): Heightfield {
  const [, , widthMm, depthMm] = boxOf(ringsOf(footprint));
  const x = span(cornerMm[0] - field.originMm[0], widthMm, field.stepXMm, field.columns);
  const y = span(cornerMm[1] - field.originMm[1], depthMm, field.stepYMm, field.rows);
  const heights = new Float64Array(x.count * y.count);
  for (let row = 0; row < y.count; row++) {
    const from = (y.first + row) * field.columns + x.first;
    heights.set(field.heightsMm.subarray(from, from + x.count), row * x.count);
  }
  if (x.isWhole && y.isWhole && isBox(footprint, widthMm, depthMm))
    return heightfield(x.count, y.count, field.stepXMm, field.stepYMm, heights);
  const cropped: Heightfield = {
    ...field,
    columns: x.count,
    rows: y.count,
    originMm: [x.isWhole ? 0 : x.origin, y.isWhole ? 0 : y.origin],
    heightsMm: heights,
    footprint,
  };
  const posts = groundPosts(cropped);
  return posts ? { ...cropped, heightsMm: fillNearest(heights, posts, x.count) } : cropped;
}

/** Whether a footprint is its whole box: four points, all of them corners. */
function isBox(footprint: readonly Region[], width: number, depth: number): boolean {
  const [ring, ...others] = ringsOf(footprint);
  if (others.length > 0 || ring.length !== 8) return false;
  return ring.every((value, i) => value === 0 || value === (i % 2 === 0 ? width : depth));
}

/** The posts from the last at or before a start to the first at or after its end; whole when both lie on posts. */
function span(start: number, length: number, step: number, posts: number) {
  const slack = SNAP / step;
  const first = Math.min(posts - 2, Math.max(0, Math.floor(start / step + slack)));
  const last = Math.max(first + 1, Math.min(posts - 1, Math.ceil((start + length) / step - slack)));
  const isWhole = Math.abs(first * step - start) <= SNAP && Math.abs(last * step - start - length) <= SNAP;
  return { first, count: last - first + 1, origin: first * step - start, isWhole };
}
