import { encode } from 'fast-png';
import { reliefOf } from '../../geometry/relief.ts';
import { boxOf, ringsOf } from '../../geometry/ring.ts';
import type { Front } from '../../model/facts.ts';
import { extent, type Landform } from '../../model/landform.ts';
import type { Layer } from '../../model/layer.ts';
import type { Plan } from '../../model/plan.ts';
import { rasterOf } from '../../model/raster.ts';
import { numberText } from '../../units.ts';
import { toBase64 } from './base64.ts';
import { figureSvg, flipped, grown, stretchFor, stretchText } from './figure.ts';
import { openingShapes } from './opening-shapes.ts';
import { stackView } from './stack-view.ts';

/** Cells along the longer side of the ground's picture. */
export const RELIEF_CELLS = 640;

/** A figure with what is said under it. */
export interface Captioned {
  readonly svg: string;
  readonly caption: string;
}

/** The ground from above, lit from the north-west, with the layers' outlines over it. North is up. */
export function groundFigure(landform: Landform, layers: readonly Layer[], title: string, style?: string): string {
  const raster = rasterOf(landform, RELIEF_CELLS);
  const { columns, rows, stepMm } = raster;
  const data = reliefOf(raster.heightsMm, columns, rows, stepMm);
  const png = toBase64(encode({ width: columns, height: rows, data, channels: 2, depth: 8 }));
  const [, , maxX, maxY] = extent(landform).box;
  // The raster starts in the south-west corner; its last row and column may end up to half a cell off the others.
  const [width, height] = [columns * stepMm, rows * stepMm];
  const under = `<image href="data:image/png;base64,${png}" x="0" y="${numberText(maxY - height)}" width="${numberText(width)}" height="${numberText(height)}" preserveAspectRatio="none"/>`;
  const shapes = layers.map((layer) => ({ rings: flipped(ringsOf(layer.regions), maxY), look: 'contour' }));
  const open = openingShapes(landform, maxX, maxY);
  return figureSvg({ box: open.box, shapes: [...shapes, ...open.shapes], words: open.words, title, under }, style);
}

/** The turn that brings a side of the ground to the south, where the viewer stands. */
const TO_SOUTH: Readonly<Record<Front['side'], number>> = { south: 0, west: 90, north: 180, east: 270 };
/** Looked at a little from the left of the front: walls of two sides show. */
const ASIDE_DEG = 24;
/** Heights are stretched until they take this much of the ground's longer side. */
const SHARE = 0.22;

/** The stack of layers seen from the front and above. */
export function stackFigure({ name, stack, facts: { front } }: Plan): Captioned {
  const { layers } = stack;
  const [minX, minY, maxX, maxY] = boxOf(ringsOf(layers.flatMap((layer) => [...layer.regions])));
  const longer = Math.max(maxX - minX, maxY - minY);
  const top = layers[layers.length - 1];
  const stretch = stretchFor(top.bottomMm + top.thicknessMm, longer, SHARE);
  const view = { turnDeg: TO_SOUTH[front.side] + ASIDE_DEG, stretch, leastMm: longer / 240 };
  const shapes = stackView(layers, view);
  const box = grown(boxOf(shapes.flatMap(({ rings }) => [...rings])), longer / 100);
  const svg = figureSvg({ box, shapes, words: [], title: `The layers of ${name}, stacked` });
  return {
    svg,
    caption: `The layers stacked, seen from the front (${front.word}) and its left; ${stretchText(stretch)}.`,
  };
}
