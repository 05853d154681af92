import { turn } from '../../geometry/exact-math.ts';
import { type Box, boxOf, type Point, type Ring, ringsOf } from '../../geometry/ring.ts';
import type { Layer } from '../../model/layer.ts';
import type { Piece } from '../../model/piece.ts';
import type { Plan } from '../../model/plan.ts';
import { thicknessText } from '../../units.ts';
import { figureSvg, flipped, grown, type Shape, thinned } from './figure.ts';
import { type Label, letter, roomiest } from './labels.ts';
import { listed } from './marks.ts';
import { zonesInPlan } from './zone-shapes.ts';

/** Heights of letters as shares of a figure's width: about 20 and 12 pixels for names, 11 for joints. */
const NAMES = { most: 1 / 28, least: 1 / 46, joint: 1 / 52 };
/** The same where the figure takes the whole width of the page. */
const BROAD = { most: 1 / 56, least: 1 / 96, joint: 1 / 104 };
/** A layer with more names than this takes the whole width. */
const MANY = 14;
/** No figure is more upright or lower than this, height to width; nor a smaller share of the whole stack shown. */
const UPRIGHT = 0.75;
const LOW = 0.3;
const LEAST_SHARE = 1 / 6;

/** Lines of a leaning wire are no closer than this share of a figure's width. */
const WIRE_APART = 1 / 90;

/** A finding's number stands in a disc that is so many of its heights across; the disc's room is that of larger letters. */
const DISC = 1.6;
const DISC_ROOM = 1.5;

/** Thin places that are told their widths, in one figure: the thinnest. */
const MOST_WIDTHS = 12;

export interface LayerFigure {
  readonly svg: string;
  /** Where the figure shows a part only: the layer in the whole ground, small. */
  readonly locator: string | null;
  readonly isBroad: boolean;
}

/** One layer in plan: its findings, pieces, joints, pins and glue; the layer below grey, the next one dashed. South is down. */
export function layerFigure(plan: Plan, layer: Layer, below: Layer | undefined, above: Layer | undefined): LayerFigure {
  const pieces = plan.pieces.filter((piece) => piece.layer === layer.number);
  const whole = boxOf(ringsOf(plan.stack.layers.flatMap((each) => [...each.regions])));
  const depth = whole[3];
  // With the next layer, which may overhang.
  const shown = framed(boxOf(ringsOf([...layer.regions, ...(above?.regions ?? [])])), whole);
  const width = shown[2] - shown[0];
  const joints = jointsOf(pieces);
  const isBroad = pieces.length + joints.length > MANY;
  const letters = isBroad ? BROAD : NAMES;
  const size = width * letters.joint;

  const regions = pieces.map((piece) => flipped(piece.region, depth));
  const labels: Label[] = [
    ...pieces.map(({ name }, i) => ({
      text: name,
      at: roomiest(regions[i]),
      region: regions[i],
      most: width * letters.most,
      least: width * letters.least,
      look: 'name',
    })),
    ...joints.map(({ label, line }) => {
      const [x, y] = middleOf(line);
      return { text: label, at: [x, depth - y] as const, most: size, least: size, look: 'joint', weight: 2.5 };
    }),
  ];
  const box: Box = [shown[0], depth - shown[3], shown[2], depth - shown[1]];
  const mark = width / 60;
  const thin = layer.thin ?? [];
  for (const { atMm, widthMm } of thin.slice(0, MOST_WIDTHS)) {
    const at = [atMm[0], depth - atMm[1] - 1.8 * mark] as const;
    labels.push({ text: thicknessText(widthMm, plan.unit), at, most: size, least: size, look: 'joint', weight: 2.5 });
  }
  const marks = listed(plan).flatMap(({ mark: each }) => (each?.layer === layer.number ? [each] : []));
  for (const { number, atMm } of marks) {
    const at = [atMm[0], depth - atMm[1]] as const;
    const disc = DISC * size;
    const clear = mark + disc / 2;
    const room = DISC_ROOM * disc;
    labels.push({ text: `${number}`, at, most: room, least: room, look: 'mark', weight: 0.5, clear });
  }
  const { words, leaders } = letter(labels, regions, box);
  const zones = zonesInPlan(plan.facts.zones, depth, width * letters.joint);
  const discs = words.filter(({ look }) => look === 'mark');
  const isThin = ([x, y]: Point) => thin.some(({ atMm }) => atMm[0] === x && atMm[1] === y);
  const pin = width / (isBroad ? 640 : 320);
  const inLayer = plan.pins.filter(({ fromLayer, toLayer }) => fromLayer <= layer.number && layer.number <= toLayer);
  const pinsIn = (isPulled: boolean) => inLayer.filter((each) => each.isPulled === isPulled);
  const shapes: Shape[] = [
    // Under the first layer is the floor: its voids are shaded too, or they would look like pieces.
    { rings: flipped(ringsOf((below ?? layer).regions), depth), look: 'below' },
    ...regions.map((rings) => ({ rings, look: 'piece' })),
    { rings: flipped(ringsOf(pieces.flatMap(({ glue = [] }) => [...glue])), depth), look: 'glue' },
    {
      rings: flipped(
        pieces.flatMap(({ slits }) => [...slits]),
        depth,
      ),
      look: 'slit',
      isOpen: true,
    },
    { rings: flipped(ringsOf(above?.regions ?? []), depth), look: 'above' },
    { rings: flipped(wireLines(layer, width * WIRE_APART), depth), look: 'wire', isOpen: true },
    { rings: pinsIn(false).map(({ at: [x, y] }) => dot(x, depth - y, pin)), look: 'pin' },
    { rings: pinsIn(true).map(({ at: [x, y] }) => dot(x, depth - y, 1.4 * pin)), look: 'pull' },
    { rings: thin.map(({ atMm: [x, y] }) => circle(x, depth - y, mark)), look: 'thin' },
    // A thin place has a ring already.
    {
      rings: marks.filter(({ atMm }) => !isThin(atMm)).map(({ atMm: [x, y] }) => circle(x, depth - y, mark)),
      look: 'found',
    },
    ...zones.shapes,
    { rings: leaders, look: 'leader', isOpen: true },
    { rings: discs.map(({ x, y }) => circle(x, y, (DISC * size) / 2)), look: 'disc' },
  ];
  const sized = words.map((word) => (word.look === 'mark' ? { ...word, size } : word));
  const svg = figureSvg({ box, shapes, words: [...sized, ...zones.words], title: `Layer ${layer.number} in plan` });
  const isPart = width < 0.75 * (whole[2] - whole[0]);
  return { svg, locator: isPart ? locator(layer, whole) : null, isBroad };
}

/** The layer where it lies in the whole, for the corner of an eye. */
function locator(layer: Layer, whole: Box): string {
  const [minX, minY, maxX, maxY] = whole;
  const rings = ringsOf(layer.regions).map((ring) => thinned(ring, (maxX - minX) / 100));
  const shapes = [{ rings: flipped(rings, maxY), look: 'pin' }];
  const title = `Where layer ${layer.number} lies in the whole`;
  return figureSvg({ box: grown([minX, 0, maxX, maxY - minY], (maxX - minX) / 50), shapes, words: [], title });
}

/** The box that a figure shows: the layer with a margin, not too upright and not too close. */
function framed(own: Box, whole: Box): Box {
  const margin = (own[2] - own[0]) / 30;
  const [minX, minY, maxX, maxY] = grown(own, margin);
  const width = Math.max(maxX - minX, (maxY - minY) / UPRIGHT, (whole[2] - whole[0]) * LEAST_SHARE);
  const height = Math.max(maxY - minY, width * LOW);
  const [x, y] = [(minX + maxX) / 2, (minY + maxY) / 2];
  return [x - width / 2, y - height / 2, x + width / 2, y + height / 2];
}

/** Where a leaning wire stands, from foot to top: not every station, but lines whose feet are so far apart or more. */
function wireLines({ slope }: Layer, apart: number): Ring[] {
  const lines: Ring[] = [];
  for (const stations of slope?.stations ?? []) {
    let [x, y] = [Infinity, Infinity];
    for (let i = 0; i < stations.length; i += 4) {
      const line = stations.subarray(i, i + 4);
      if (line[0] === line[2] && line[1] === line[3]) continue;
      if ((line[0] - x) * (line[0] - x) + (line[1] - y) * (line[1] - y) < apart * apart) continue;
      [x, y] = line;
      lines.push(line);
    }
  }
  return lines;
}

/** Each joint once, from the side whose name comes first. */
const jointsOf = (pieces: readonly Piece[]) => [
  ...new Map(pieces.flatMap(({ joints }) => joints.map((joint) => [joint.label, joint] as const))).values(),
];

/** The middle of the middle edge of a line. */
function middleOf(line: Float64Array): Point {
  const at = 2 * Math.max(1, Math.floor(line.length / 4));
  return [(line[at] + line[at - 2]) / 2, (line[at + 1] + line[at - 1]) / 2];
}

const circle = (x: number, y: number, r: number): Ring =>
  Float64Array.from({ length: 48 }, (_, i) => {
    const { cos, sin } = turn((360 * (i >> 1)) / 24);
    return i % 2 === 0 ? x + r * cos : y + r * sin;
  });

const dot = (x: number, y: number, r: number): Ring => new Float64Array([x - r, y, x, y + r, x + r, y, x, y - r]);
