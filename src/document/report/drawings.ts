import { areaOf, boxOf } from '../../geometry/ring.ts';
import type { Layer } from '../../model/layer.ts';
import type { Piece } from '../../model/piece.ts';
import type { PieceRest, Plan } from '../../model/plan.ts';
import { lengthText, numberText, thicknessText } from '../../units.ts';
import { boardOfPiece, pieceMasses } from '../../workshop/quantities.ts';
import { areaText, boardText, massText, sizeText, volumeText } from './amounts.ts';
import { boardFigure } from './board-figure.ts';
import { deviationFigure } from './deviation-figure.ts';
import { type Captioned, groundFigure, stackFigure } from './figures.ts';
import { escaped, table } from './html.ts';
import { layerFigure } from './layer-figure.ts';
import { listed } from './marks.ts';
import { gridFigure, ribBlocks } from './ribs.ts';
import { sectionFigures } from './section-figure.ts';

const figure = ({ svg, caption }: Captioned): string =>
  `<figure>${svg}<figcaption>${escaped(caption)}</figcaption></figure>`;

/** The whole: from above, stacked, and cut through. Of ribs the ground and the grid that they stand on. */
export function overview(plan: Plan): string {
  const ground = {
    svg: groundFigure(plan.landform, plan.stack.kind === 'flat' ? plan.stack.layers : [], `${plan.name} from above`),
    caption: "The ground from above, north up, with the layers' outlines.",
  };
  if (plan.stack.kind !== 'flat') {
    const alone = { ...ground, caption: 'The ground from above, north up.' };
    return `<div class="pair">${figure(alone)}\n${figure(gridFigure(plan))}</div>`;
  }
  if (plan.stack.layers.length === 0) return `<div class="pair">${figure(ground)}</div>`;
  const sections = sectionFigures(plan);
  const low = sections
    .filter(({ isLow }) => isLow)
    .map(({ svg, caption }) => figure({ svg: `<div class="wide">${svg}</div>`, caption }));
  const more = [deviationFigure(plan), ...sections.filter(({ isLow }) => !isLow)].map(figure);
  return `<div class="pair">${figure(ground)}\n${figure(stackFigure(plan))}</div>
${low.map((each) => `<div class="row">${each}</div>`).join('\n')}<div class="pair">${more.join('\n')}</div>`;
}

/** Where the front lies on a drawing with north up. */
const DRAWN = { south: 'below', north: 'above', west: 'left', east: 'right' } as const;

/** Each layer in plan, or each rib as it is seen. */
export function layers(plan: Plan): string {
  if (plan.stack.kind !== 'flat') return ribBlocks(plan);
  const { front } = plan.facts;
  const isSloped = plan.stack.layers.some(({ slope }) => slope);
  const wires = isSloped ? ' Short lines in from an edge show how the wire leans, from its foot to its top end.' : '';
  const isThin = plan.stack.layers.some((layer) => layer.thin);
  const thin = isThin ? ' Rings mark where foam is thin, with its width.' : '';
  const isMarked = listed(plan).some(({ mark }) => mark);
  const found = isMarked
    ? ' A number white on black is that of a finding in the list at the head; its ring shows the place.'
    : '';
  const key = `Each piece with its name. Joints carry a label with a stroke, as 3/A; black dots are pins, white ones pins that are pulled before carving; tinted is where the next layer is glued; heavy lines are cuts, light ones across a piece entry slits; grey is what lies below, dashed the outline of the next.${wires}${thin}${found} North is up; the front (${front.word}) is ${DRAWN[front.side]}.`;
  const stack = plan.stack.layers;
  const figures = stack.map((layer, i) => layerBlock(plan, layer, stack[i - 1], stack[i + 1]));
  return `<p>${escaped(key)}</p><div class="grid">${figures.join('\n')}</div>`;
}

function layerBlock(plan: Plan, layer: Layer, below: Layer | undefined, above: Layer | undefined): string {
  const { svg, locator, isBroad } = layerFigure(plan, layer, below, above);
  const count = plan.pieces.filter((piece) => piece.layer === layer.number).length;
  const [low, high] = [layer.bottomMm, layer.bottomMm + layer.thicknessMm];
  const heights = `${thicknessText(low, plan.unit).replace(/ \S+$/, '')} to ${thicknessText(high, plan.unit)}`;
  const caption = `${heights} up, ${count} ${count === 1 ? 'piece' : 'pieces'}, ${areaText(areaOf(layer.regions) / 1e6, plan.unit)} before hollowing${toCarve(plan, layer)}`;
  const head = `<h3>Layer ${layer.number} of ${plan.stack.layers.length}</h3>`;
  return `<figure${isBroad ? ' class="broad"' : ''}>${head}<div class="wide">${svg}</div><figcaption>${escaped(caption)}${locator ?? ''}</figcaption></figure>`;
}

/** What of a layer is carved off and filled. */
function toCarve({ deviation, unit }: Plan, { number }: Layer): string {
  const of = deviation?.layers.find(({ layer }) => layer === number);
  if (!of) return '';
  const [carve, fill] = [of.carveMm3, of.fillMm3].map((mm3) => Math.round(mm3 / 1000) / 1e6);
  const words = [
    carve > 0 ? `carve ${volumeText(carve, unit)}` : '',
    fill > 0 ? `fill ${volumeText(fill, unit)}` : '',
  ].filter((each) => each !== '');
  return words.length > 0 ? `; ${words.join(', ')}` : '';
}

/** Each board with what is cut from it. */
export function boards(plan: Plan): string {
  const byName = new Map(plan.pieces.map((piece) => [piece.name, piece]));
  // Round a deck foam is cut away, and a rib stands on edge.
  const zones = plan.stack.kind === 'flat' ? plan.facts.zones.filter(({ kind }) => kind !== 'people') : [];
  const figures = plan.boards.map((board) => {
    const kind = `${board.stock}${board.rings ? ', a kept offcut' : ''}, ${boardText(board.sizeMm, board.thicknessMm, plan.unit)}`;
    const names = board.placed.map(({ piece }) => piece).join(', ');
    const left = board.offcuts.map(({ name }) => name).join(', ');
    const caption = `${kind}. Pieces ${names}.${left ? ` Left over (dotted): ${left}.` : ''}`;
    return `<figure><h3>Board ${board.number} of ${plan.boards.length}</h3>${boardFigure(board, byName, zones)}<figcaption>${escaped(caption)}</figcaption></figure>`;
  });
  const key = `Pieces white with their names, waste grey, remainders worth keeping dotted, named where there is room.${zones.length > 0 ? ' Dashes and dots bound what of a piece lies in a zone.' : ''} As the board lies, lower left corner first; full size in the board drawings.`;
  return `<p>${key}</p><div class="grid">${figures.join('\n')}</div>`;
}

const REST_HEADS = ['Rests', 'of it', 'Least lap', 'Middle in'];
const REST_KEY =
  'How each piece rests on the layer beneath, laid loose before any glue: the area and the share of it that rest, the least lap of its outer edge over a void, none where no void is near, and how far its middle of mass lies inside of what it rests on. Those of layer 1 stand on the floor.';

/** How a piece rests, in the columns of REST_HEADS. */
function restTexts(rest: PieceRest | undefined, { unit }: Plan): string[] {
  if (!rest) return ['', '', '', ''];
  const { areaMm2, share, insideMm, leastLap } = rest;
  return [
    areaText(areaMm2 / 1e6, unit),
    `${numberText(100 * share, 0)} %`,
    leastLap ? lengthText(leastLap.mm, unit) : '',
    insideMm >= 0 ? lengthText(insideMm, unit) : 'tips',
  ];
}

/** As a crew looks for it: rings of one blank are of several layers. */
const byName = (a: Piece, b: Piece): number =>
  a.layer - b.layer || a.name.length - b.name.length || (a.name < b.name ? -1 : 1);

/** A row for each piece. */
export function pieces(plan: Plan): string {
  const isLying = plan.stack.kind === 'flat';
  const boardOf = boardOfPiece(plan.boards);
  const masses = pieceMasses(plan.pieces, plan.boards);
  const rests = new Map(plan.rests.map((rest) => [rest.piece, rest]));
  const row = (piece: Piece) => {
    const [minX, minY, maxX, maxY] = boxOf(piece.region);
    const rest = rests.get(piece.name);
    return [
      piece.name,
      piece.layer,
      boardOf.get(piece.name)?.number ?? '',
      sizeText([maxX - minX, maxY - minY], plan.unit),
      massText(masses.get(piece.name) ?? 0, plan.unit),
      piece.pins.length,
      ...(isLying ? restTexts(rest, plan) : []),
      piece.joints.map(({ label, neighbour }) => `${label} to ${neighbour}`).join(', '),
    ];
  };
  const heads = ['Piece', 'Layer', 'Board', 'Size', 'Mass', 'Pins', ...(isLying ? REST_HEADS : []), 'Joints'];
  const key = isLying ? `<p>${escaped(REST_KEY)}</p>` : '';
  return `${key}${table(heads, [...plan.pieces].sort(byName).map(row))}`;
}
