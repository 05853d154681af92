import { encode } from 'fast-png';
import polylabel from 'polylabel';
import { reliefOf } from '../../geometry/relief.ts';
import { boxOf, placed as put, type Region, type Ring, ringsOf } from '../../geometry/ring.ts';
import type { Landform } from '../../model/landform.ts';
import type { Layer } from '../../model/layer.ts';
import type { LayoutBoard } from '../../model/layout.ts';
import type { Piece } from '../../model/piece.ts';
import type { Plan } from '../../model/plan.ts';
import { rasterOf } from '../../model/raster.ts';
import { toBase64 } from './base64.ts';
import { type Figure, figureSvg, type Shape, type Words } from './figure.ts';
import { stackView } from './stack-view.ts';

/** Cells along the longer side of the ground's picture. */
const RELIEF_CELLS = 640;

/** The ground from above, lit from the north-west, with the layers' outlines over it. North is up. */
export function groundFigure(landform: Landform, layers: readonly Layer[], title: string, style?: string): string {
  const raster = rasterOf(landform, RELIEF_CELLS);
  const { columns, rows, stepMm } = raster;
  const data = reliefOf(raster.heightsMm, columns, rows, stepMm);
  const png = toBase64(encode({ width: columns, height: rows, data, channels: 2, depth: 8 }));
  const [width, depth] = [columns * stepMm, rows * stepMm];
  const under = `<image href="data:image/png;base64,${png}" x="0" y="0" width="${width}" height="${depth}" preserveAspectRatio="none"/>`;
  const shapes = layers.map((layer) => ({ rings: flipped(ringsOf(layer.regions), depth), look: 'contour' }));
  return figureSvg({ box: [0, 0, width, depth], shapes, words: [], title, under }, style);
}

/** The stack of layers seen from the front and above. */
export function stackFigure(plan: Plan): string {
  const [, , width, depth] = boxOf(ringsOf(plan.stack.layers.flatMap((layer) => [...layer.regions])));
  const faces = stackView(plan.stack.layers, depth, Math.max(width, depth) / 500);
  const shapes = faces.map(({ rings, light }) => ({ rings, look: light > 0.5 ? 'top' : 'wall' }));
  const box = boxOf(faces.flatMap((face) => [...face.rings]));
  return figureSvg({ box: grown(box, width / 100), shapes, words: [], title: `The layers of ${plan.name}, stacked` });
}

/** One layer in plan: its pieces, joints and pins; the layer below grey, the next one dashed. South is down. */
export function layerFigure(plan: Plan, layer: Layer, below: Layer | undefined, above: Layer | undefined): string {
  const pieces = plan.pieces.filter((piece) => piece.layer === layer.number);
  const box = boxOf(ringsOf(plan.stack.layers.flatMap((each) => [...each.regions])));
  const depth = box[3];
  const scale = Math.max(box[2] - box[0], box[3] - box[1]);
  const shapes: Shape[] = [
    { rings: flipped(ringsOf(below?.regions ?? []), depth), look: 'below' },
    ...pieces.map((piece) => ({ rings: flipped(piece.region, depth), look: 'piece' })),
    ...pieces.flatMap((piece) =>
      piece.slits.map((slit) => ({ rings: flipped([slit], depth), look: 'slit', isOpen: true })),
    ),
    { rings: flipped(ringsOf(above?.regions ?? []), depth), look: 'above' },
    { rings: pieces.flatMap((piece) => piece.pins.map(([x, y]) => dot(x, depth - y, scale / 260))), look: 'pin' },
  ];
  const words = pieces.map((piece) => nameAt(piece.name, flipped(piece.region, depth), scale / 34, scale / 70));
  const joints = pieces.flatMap((piece) => piece.joints.filter((joint) => piece.name < joint.neighbour));
  for (const { label, line } of joints) {
    const middle = 2 * Math.floor(line.length / 4);
    const x = (line[middle] + line[middle === 0 ? 2 : middle - 2]) / 2;
    const y = (line[middle + 1] + line[middle === 0 ? 3 : middle - 1]) / 2;
    words.push({ x, y: depth - y, text: label, size: scale / 60, look: 'joint' });
  }
  const flat: Figure = {
    box: grown([box[0], 0, box[2], depth - box[1]], scale / 60),
    shapes,
    words,
    title: `Layer ${layer.number} in plan`,
  };
  return figureSvg(flat);
}

/** One board with its pieces and what is left of it. */
export function boardFigure(board: LayoutBoard, pieces: ReadonlyMap<string, Piece>): string {
  const [width, height] = board.sizeMm;
  const outline = board.rings ?? [new Float64Array([0, 0, width, 0, width, height, 0, height])];
  const shapes: Shape[] = [{ rings: flipped(outline, height), look: 'board' }];
  const words: Words[] = [];
  for (const offcut of board.offcuts) shapes.push({ rings: flipped(offcut.rings, height), look: 'offcut' });
  for (const place of board.placed) {
    const piece = pieces.get(place.piece);
    if (!piece) continue;
    const region = flipped(
      piece.region.map((ring) => put(ring, place)),
      height,
    );
    shapes.push({ rings: region, look: 'piece' });
    words.push(nameAt(piece.name, region, width / 26, width / 60));
  }
  const title = `Board ${board.number}: ${board.placed.map(({ piece }) => piece).join(', ')}`;
  return figureSvg({ box: grown([0, 0, width, height], width / 200), shapes, words, title });
}

/** A name at the roomiest place of a region, as large as fits between two sizes. */
function nameAt(text: string, region: Region, most: number, least: number): Words {
  const rings = region.map((ring) =>
    Array.from({ length: ring.length / 2 }, (_, i) => [ring[2 * i], ring[2 * i + 1]] as const),
  );
  const [minX, minY, maxX, maxY] = boxOf(region);
  const spot = polylabel(rings, Math.max(1, Math.min(maxX - minX, maxY - minY) / 50));
  const size = Math.max(least, Math.min(most, (spot.distance * 1.8) / Math.max(1, text.length * 0.6)));
  return { x: spot[0], y: spot[1], text, size, look: 'name' };
}

const dot = (x: number, y: number, r: number): Ring => new Float64Array([x - r, y, x, y + r, x + r, y, x, y - r]);

/** Y up becomes y down: the one flip of the report. */
const flipped = (rings: readonly Ring[], height: number): Ring[] =>
  rings.map((ring) => ring.map((value, i) => (i % 2 === 0 ? value : height - value)));

const grown = ([a, b, c, d]: Figure['box'], by: number): Figure['box'] => [a - by, b - by, c + by, d + by];
