import { type Box, boxOf, type Point, type Region, type Ring, rectangle, ringsOf } from '../../geometry/ring.ts';
import { extent } from '../../model/landform.ts';
import type { Layer } from '../../model/layer.ts';
import type { Plan } from '../../model/plan.ts';
import { isWestEast } from '../../model/rib.ts';
import { lengthText } from '../../units.ts';
import { figureSvg, flipped, grown, type Shape, type Words } from './figure.ts';
import type { Captioned } from './figures.ts';
import { escaped } from './html.ts';
import { type Label, letter, roomiest } from './labels.ts';

/** Heights of letters, as shares of a figure's width: on the grid, and on a rib that takes the whole width of the page. */
const GRID_LETTERS = 1 / 48;
const NAMES = { most: 1 / 56, least: 1 / 110, joint: 1 / 110 };
/** A rib longer than this share of the longest takes the whole width. */
const BROAD_SHARE = 0.6;

/** The grid from above: every rib with its number at both ends, its joints, and the decks by others that it is cut round. North is up. */
export function gridFigure(plan: Plan): Captioned {
  const { box } = extent(plan.landform);
  const depth = box[3];
  const size = Math.max(box[2] - box[0], box[3] - box[1]) * GRID_LETTERS;
  const bands: Ring[] = [];
  const joints: Ring[] = [];
  const words: Words[] = [];
  for (const { rib, number, thicknessMm, regions } of plan.stack.layers) {
    if (!rib) continue;
    const isAcross = isWestEast(rib.frame);
    const at = rib.frame.originMm[isAcross ? 1 : 0];
    const band = (from: number, to: number, halfMm: number) =>
      isAcross ? rectangle(from, at - halfMm, to, at + halfMm) : rectangle(at - halfMm, from, at + halfMm, to);
    for (const [from, , to] of regions.map((region) => boxOf(region))) bands.push(band(from, to, thicknessMm / 2));
    for (const piece of plan.pieces.filter(({ layer }) => layer === number)) {
      for (const [from, , to] of piece.joints.map(({ line }) => boxOf([line])))
        joints.push(band(from, to, thicknessMm / 2));
    }
    for (const beyond of [-0.8, 0.8]) {
      const end = beyond < 0 ? box[isAcross ? 0 : 1] : box[isAcross ? 2 : 3];
      const place: Point = isAcross ? [end + beyond * size * 1.4, at] : [at, end + beyond * size];
      words.push({ x: place[0], y: depth - place[1], text: `${number}`, size, look: 'number' });
    }
  }
  const decks = plan.facts.zones
    .filter(({ kind }) => kind === 'people')
    .map(({ outline }) => Float64Array.from(outline.flat()));
  for (const deck of decks) {
    const [minX, minY, maxX, maxY] = boxOf([deck]);
    const small = Math.min(size, (maxX - minX) / 12);
    words.push({ x: (minX + maxX) / 2, y: depth - (minY + maxY) / 2, text: 'DECK BY OTHERS', size: small });
  }
  const shapes: Shape[] = [
    { rings: flipped(ringsOf(plan.landform.footprint ?? [[rectangle(...box)]]), depth), look: 'below' },
    { rings: flipped(bands, depth), look: 'piece' },
    { rings: flipped(joints, depth), look: 'foam' },
    { rings: flipped(decks, depth), look: 'above' },
  ];
  const shown: Box = grown([box[0], depth - box[3], box[2], depth - box[1]], size * 2.4);
  const deckText = decks.length > 0 ? ' Dashed: decks by others, which stand on their own; ribs carry nobody.' : '';
  return {
    svg: figureSvg({ box: shown, shapes, words, title: `The ribs of ${plan.name} from above` }),
    caption: `The grid of ribs from above, north up, the front (${plan.facts.front.word}) to the ${plan.facts.front.side}. Numbers are the ribs', shaded stretches their laps.${deckText}`,
  };
}

/** In which order the ribs stand up, and each of them as it is seen, its slots and laps. */
export function ribBlocks(plan: Plan): string {
  const longest = Math.max(...plan.stack.layers.map((layer) => lengthMm(layer)));
  const firsts = plan.stack.layers.filter(({ rib }) => rib && isWestEast(rib.frame));
  const order = `Glue the laps first and let them set. Stand ribs 1 to ${firsts.length} on their lines, slots up; then let the others down into them, slots down. A rib that stands proud at a crossing has its slot deepened there, not its edge carved. Numbers under a rib are the ribs that pass through it; joints carry a label with a stroke, as 3/A; light upright lines in a lap are its pins.`;
  const figures = plan.stack.layers.map((layer) => ribBlock(plan, layer, lengthMm(layer) > BROAD_SHARE * longest));
  return `<p>${escaped(order)}</p><div class="grid">${figures.join('\n')}</div>`;
}

function lengthMm({ regions }: Layer): number {
  const [from, , to] = boxOf(ringsOf(regions));
  return to - from;
}

function ribBlock(plan: Plan, layer: Layer, isBroad: boolean): string {
  const { rib, number, regions } = layer;
  if (!rib) return '';
  const pieces = plan.pieces.filter((piece) => piece.layer === number);
  const [from, , to, high] = boxOf(ringsOf(regions));
  const width = (to - from) * (isBroad ? 1 : 2);
  const drawn = pieces.map(({ region }) => flipped(region, high));
  const joints = new Map(pieces.flatMap((piece) => piece.joints.map((joint) => [joint.label, joint.line] as const)));
  const labels: Label[] = [
    ...pieces.map(({ name }, i) => ({
      text: name,
      at: roomiest(drawn[i] as Region),
      region: drawn[i],
      most: width * NAMES.most,
      least: width * NAMES.least,
      look: 'name',
    })),
    ...[...joints].map(([text, line]) => {
      const [left, low, right, top] = boxOf([line]);
      const at = [(left + right) / 2, high - (low + top) / 2] as const;
      return { text, at, most: width * NAMES.joint, least: width * NAMES.joint, look: 'joint', weight: 2.5 };
    }),
  ];
  const size = width * NAMES.joint;
  const box: Box = [from - size, -size * 2, to + size, high + size * 2.4];
  const { words, leaders } = letter(labels, drawn, box);
  const numbers = rib.crossings.map(({ layer: other, atMm }) => ({
    x: atMm,
    y: high + size * 1.2,
    text: `${other}`,
    size,
    look: 'number',
  }));
  const pins = plan.pins.filter(({ toLayer }) => toLayer === number);
  const { originMm, along } = rib.frame;
  const shapes: Shape[] = [
    ...drawn.map((rings) => ({ rings, look: 'piece' })),
    {
      rings: pins.map(({ at: [x, y], bottomMm, lengthMm }) => {
        const u = (x - originMm[0]) * along[0] + (y - originMm[1]) * along[1];
        return Float64Array.of(u, high - bottomMm, u, high - bottomMm - lengthMm);
      }),
      look: 'slit',
      isOpen: true,
    },
    { rings: leaders, look: 'leader', isOpen: true },
  ];
  const isAcross = isWestEast(rib.frame);
  const seen = isAcross ? 'seen from the south, west to the left' : 'seen from the east, south to the left';
  const opens = rib.crossings[0]?.opens === 'top' ? 'stands first, slots up' : 'is let down, slots down';
  const length = (mm: number) => lengthText(mm, plan.unit);
  const count = `${pieces.length} ${pieces.length === 1 ? 'piece' : 'pieces'}`;
  const caption = `${length(to - from)} long, up to ${length(high)} high, ${count}; ${opens}; ${seen}.`;
  const svg = figureSvg({ box, shapes, words: [...words, ...numbers], title: `Rib ${number}, ${rib.gridLine}` });
  return `<figure${isBroad ? ' class="broad"' : ''}><h3>Rib ${number}: ${escaped(rib.gridLine)}</h3><div class="wide">${svg}</div><figcaption>${escaped(caption)}</figcaption></figure>`;
}
