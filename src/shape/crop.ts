import { refuse } from '../findings.ts';
import { intersect, unite } from '../geometry/clip.ts';
import { boxOf, moved, type Point, type Region, rectangle, ringsOf } from '../geometry/ring.ts';
import { extent, type Landform } from '../model/landform.ts';
import { definePlugin } from '../plugin.ts';
import { numberText } from '../units.ts';
import { croppedField } from './crop/field.ts';
import { noArea, outlineRing } from './outline/ring.ts';

/**
 * Keep the ground inside a rectangle or an outline, in its present coordinates. Heights stay exactly as they are, posts
 * beyond the kept cells are dropped, and the box of what is kept starts at (0, 0): a cut between posts leaves the first post
 * less than a step below that. A solid keeps its surface whole; its footprint says what of it is built.
 */
export const crop = definePlugin({
  api: 1,
  stage: 'shape',
  name: 'crop',
  summary: 'keeps the ground inside a rectangle or an outline',
  options: ({ z, point }) =>
    z
      .strictObject({
        rectangle: z.tuple([point(), point()]).optional().describe('two opposite corners'),
        outline: z.array(point()).min(3).max(10_000).optional().describe('corners in turn, either way round'),
      })
      .refine(({ rectangle, outline }) => (rectangle === undefined) !== (outline === undefined), {
        message: 'One outline is wanted.\nSay either rectangle or outline.',
      }),
  run(landform, { rectangle, outline }) {
    const ring = outline ? outlineRing(outline, 'crop') : rectangleRing(rectangle as readonly [Point, Point]);
    const kept = keptOf(landform, ring, outline === undefined);
    if (kept.length === 0) outside(landform);
    const [minX, minY] = boxOf(ringsOf(kept));
    const footprint = kept.map((region) => region.map((each) => moved(each, -minX, -minY)));
    if (landform.kind === 'heightfield') return croppedField(landform, footprint, [minX, minY]);
    const positionsMm = landform.positionsMm.map((value, i) => value - [minX, minY, 0][i % 3]);
    return { ...landform, positionsMm, footprint };
  },
});

const outside = (landform: Landform): never => {
  const { box } = extent(landform);
  return refuse(
    'shape/outside',
    `Nothing of the ground lies inside the crop: the ground reaches from 0, 0 to ${numberText(box[2], 1)}, ${numberText(box[3], 1)} mm.`,
    'Give corners inside it, in the coordinates that the ground has after the shapers before.',
    { path: 'shape.crop' },
  );
};

function rectangleRing([a, b]: readonly [Point, Point]): Float64Array {
  if (a[0] === b[0] || a[1] === b[1]) noArea('crop');
  return rectangle(Math.min(a[0], b[0]), Math.min(a[1], b[1]), Math.max(a[0], b[0]), Math.max(a[1], b[1]));
}

/** A rectangle within a rectangle is cut without the clipping grid, so that it keeps every digit. */
function keptOf(landform: Landform, ring: Float64Array, isRectangle: boolean): Region[] {
  const [minX, minY, maxX, maxY] = extent(landform).box;
  const footprint = landform.footprint ?? [[rectangle(minX, minY, maxX, maxY)]];
  if (!isRectangle || footprint.length > 1 || !isUpright(footprint[0])) return intersect(footprint, unite([[ring]]));
  const [west, south, east, north] = boxOf([ring]);
  const cut = [Math.max(minX, west), Math.max(minY, south), Math.min(maxX, east), Math.min(maxY, north)] as const;
  return cut[0] < cut[2] && cut[1] < cut[3] ? [[rectangle(...cut)]] : [];
}

function isUpright(region: Region): boolean {
  const [minX, minY, maxX, maxY] = boxOf(region);
  const ring = rectangle(minX, minY, maxX, maxY);
  return region.length === 1 && region[0].length === 8 && region[0].every((value, i) => value === ring[i]);
}
