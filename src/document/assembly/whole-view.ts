import { lettered } from '../../drawing/lettering.ts';
import type { Line, Mark, Page } from '../../drawing/page.ts';
import { PENS } from '../../drawing/pen.ts';
import { linesInside, subtract, unite } from '../../geometry/clip.ts';
import { lineAround } from '../../geometry/line-distance.ts';
import { type Box, boxOf, type Region, type Ring, rectangle, reversed, ringArea } from '../../geometry/ring.ts';
import type { Front } from '../../model/facts.ts';
import type { Layer } from '../../model/layer.ts';
import { stretchFor, stretchText } from '../report/figure.ts';
import { stackView } from '../report/stack-view.ts';
import { turnedRing } from './plan-view.ts';

/** How far to one side of the front the eye stands, degrees. */
const ASIDE_DEG = 25;
/** Outlines are thinned to so much on paper: it is a picture, not a template. */
const LEAST_MM = 0.8;

/** The whole stack seen from the front and above, edges only, what is hidden left out. */
export function wholeView(layers: readonly Layer[], front: Front, room: { widthMm: number; heightMm: number }): Page {
  const turned = layers.map((layer) => ({
    ...layer,
    regions: layer.regions.map((region) => region.map((ring) => turnedRing(ring, front.side))),
  }));
  const [minX, , maxX] = boxOf(turned.flatMap(({ regions }) => regions.flat()));
  const top = layers[layers.length - 1];
  const stretch = stretchFor(top.bottomMm + top.thicknessMm, maxX - minX, 0.15);
  const leastMm = (LEAST_MM * (maxX - minX)) / room.widthMm;
  const pictures = turned.map((layer) => stackView([layer], { turnDeg: ASIDE_DEG, stretch, leastMm }));
  const box = boxOf(pictures.flatMap((shapes) => shapes.flatMap(({ rings }) => rings)));
  const scale = Math.min((room.widthMm - 4) / (box[2] - box[0]), (room.heightMm - 12) / (box[3] - box[1]));
  const lines = visibleEdges(pictures, box).map(
    (points): Line => ({
      points: points.map((value, i) => 2 + (value - box[i % 2]) * scale),
      closed: false,
    }),
  );
  const heightMm = (box[3] - box[1]) * scale + 12;
  const marks: Mark[] = [
    { pen: PENS.thin, title: 'edges that are seen', lines },
    lettered(`${front.word}: the eye stands a little to one side; ${stretchText(stretch)}`, {
      heightMm: 3.5,
      xMm: room.widthMm / 2,
      yMm: heightMm - 2,
      align: 'middle',
    }),
  ];
  const title = 'the whole, seen from the front and above';
  return { widthMm: room.widthMm, heightMm, title, description: title, groups: [{ id: 'whole', marks }] };
}

/** From the top layer down: edges where nothing of the layers above stands before them. */
function visibleEdges(
  pictures: readonly ReturnType<typeof stackView>[],
  [minX, minY, maxX, maxY]: Box,
): Float64Array[] {
  let free: Region[] = [[rectangle(minX - 1, minY - 1, maxX + 1, maxY + 1)]];
  const edges: Float64Array[] = [];
  for (const shapes of [...pictures].reverse()) {
    const feet = shapes.filter(({ isOpen }) => isOpen).flatMap(({ rings }) => rings);
    const solid = shapes.filter(({ isOpen }) => !isOpen);
    const tops = solid[solid.length - 1].rings;
    const walls = solid.slice(0, -1).map(({ rings }): Region => [counterClockwise(rings[0])]);
    // With y down the rings of a top run the other way round.
    const cover = unite([...walls, tops.map(reversed)]);
    edges.push(...linesInside([...tops.map(lineAround), ...feet], free));
    free = subtract(free, cover);
  }
  return edges;
}

const counterClockwise = (ring: Ring): Ring => (ringArea(ring) >= 0 ? ring : reversed(ring));
