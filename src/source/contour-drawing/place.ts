/** The drawing laid on the ground: its footprint, and everything counted from the south-west corner of it. */
import { refuse } from '../../findings.ts';
import { regionsFromRings } from '../../geometry/clip.ts';
import { lineAround } from '../../geometry/line-distance.ts';
import { type Box, boxOf, type Point, type Region, rectangle, ringsOf } from '../../geometry/ring.ts';
import { SegmentIndex } from '../../geometry/segment-index.ts';
import { snapped } from '../../geometry/snap.ts';
import type { Contour, Line, Sorted, Spot } from './sort.ts';

/** What is given of a ground whose box starts at (0, 0). */
export interface Placed {
  readonly footprint: readonly Region[];
  /** Whether an outline was drawn; without one the ground is the box round all that has a height. */
  readonly isOutlined: boolean;
  readonly sizeMm: readonly [number, number];
  readonly contours: readonly Contour[];
  readonly spots: readonly Spot[];
  readonly creases: readonly Line[];
  readonly tears: readonly Line[];
  readonly contourIndex: SegmentIndex;
  /** Numbers taken for the label of a line that they stand by. */
  readonly labels: number;
  readonly disagreeing: Sorted['disagreeing'];
  readonly withoutHeight: readonly Line[];
  /** Outlines that are not closed, by how far their ends are apart. */
  readonly openOutlines: readonly { readonly line: Line; readonly gapMm: number; readonly atMm: Point }[];
}

/** An outline whose ends are nearer than this is as good as closed. */
const CLOSED_MM = 1;
/** A number labels a line of its height that is no farther away than so many times the size of its letters. */
const LABELS = 2;
/** However large its letters, not farther than this part of the ground's longer side. */
const LABEL_SHARE = 1 / 20;

/** Lay the drawing on the ground. Refuses one that says no height, or has no area. */
export function place(drawn: Sorted, file: string): Placed {
  const { contours, outlines } = drawn;
  if (contours.length + drawn.spots.length + drawn.labels.length === 0) noHeights(drawn.withoutHeight.length, file);
  const isOutlined = outlines.length > 0;
  const rings = isOutlined ? outlines.map(({ points, isClosed }) => (isClosed ? points.slice(0, -2) : points)) : [];
  const drawnFootprint = regionsFromRings(rings);
  if (isOutlined && drawnFootprint.length === 0) flatOutline(outlines[0], file);
  const [minX, minY, maxX, maxY] = isOutlined ? boxOf(ringsOf(drawnFootprint)) : boxOfGiven(drawn);
  const sizeMm = [snapped(maxX - minX), snapped(maxY - minY)] as const;
  if (!(sizeMm[0] > 0 && sizeMm[1] > 0)) noArea(file);

  const lower = (_: number, i: number) => (i % 2 === 0 ? minX : minY);
  const moved = <T extends Line>(line: T): T => ({ ...line, points: line.points.map((at, i) => at - lower(at, i)) });
  const movedSpot = <T extends Spot>(spot: T): T => ({ ...spot, x: spot.x - minX, y: spot.y - minY });
  // Whole steps of the grid again: a difference of two of them need not be one.
  const movedRing = (ring: Float64Array) => ring.map((at, i) => snapped(at - lower(at, i)));

  const placed = contours.map(moved);
  const contourIndex = new SegmentIndex(placed.map(({ points }) => points));
  const numbers = drawn.labels.map(movedSpot);
  const spots = numbers.filter(({ x, y, zMm, sizeMm: letters }) =>
    contourIndex
      .near(x, y, Math.min(LABELS * letters, LABEL_SHARE * Math.max(...sizeMm)))
      .every(({ line }) => placed[line].zMm !== zMm),
  );
  const open = outlines.filter(({ isClosed }) => !isClosed).map(moved);
  return {
    footprint: isOutlined
      ? drawnFootprint.map((region) => region.map(movedRing))
      : [[rectangle(0, 0, sizeMm[0], sizeMm[1])]],
    isOutlined,
    sizeMm,
    contours: placed,
    spots: [...drawn.spots.map(movedSpot), ...spots],
    creases: drawn.creases.map(moved),
    tears: drawn.tears.map(moved),
    contourIndex,
    labels: numbers.length - spots.length,
    disagreeing: drawn.disagreeing.map(({ spot, textMm }) => ({ spot: movedSpot(spot), textMm })),
    withoutHeight: drawn.withoutHeight.map(moved),
    openOutlines: open.map(openingOf).filter(({ gapMm }) => gapMm > CLOSED_MM),
  };
}

/** The footprint's rim as closed lines. */
export const rimOf = ({ footprint }: Placed): SegmentIndex => new SegmentIndex(ringsOf(footprint).map(lineAround));

function boxOfGiven({ contours, spots, labels }: Sorted): Box {
  const points = [...spots, ...labels].flatMap(({ x, y }) => [x, y]);
  return boxOf([...contours.map((line) => line.points), Float64Array.from(points)]);
}

function openingOf(line: Line) {
  const [x, y] = [line.points[0], line.points[1]];
  const [endX, endY] = [line.points[line.points.length - 2], line.points[line.points.length - 1]];
  const gapMm = Math.sqrt((endX - x) * (endX - x) + (endY - y) * (endY - y));
  return { line, gapMm, atMm: [(x + endX) / 2, (y + endY) / 2] as const };
}

const noHeights = (lines: number, file: string): never =>
  refuse(
    'source/no-heights',
    lines === 0
      ? 'Nothing in the drawing that can be seen has a height.'
      : `None of the drawing's ${lines} ${lines === 1 ? 'line' : 'lines'} says its height.`,
    'Name lines or their layers by height (h150), give them data-height="150", or say in the job what their colours mean: legend: { "#c00000": 150 }.',
    { file },
  );

const flatOutline = ({ name, where }: Line, file: string): never =>
  refuse('source/no-area', `The footprint (${name}) encloses nothing.`, 'Draw it as one closed outline.', {
    ...where,
    file,
  });

const noArea = (file: string): never =>
  refuse(
    'source/no-area',
    'All heights lie in one line or at one place: the ground has no area.',
    'Draw an outline with the id footprint round the ground.',
    { file },
  );
