import type { Block } from '../drawing/flow/block.ts';
import { areaOf, boxOf, ringsOf } from '../geometry/ring.ts';
import type { Layer } from '../model/layer.ts';
import { GLUE_BACK_MM, type Piece } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { definePlugin } from '../plugin.ts';
import { lengthText } from '../units.ts';
import { CAUTIONS } from '../workshop/cautions.ts';
import { handsOf } from '../workshop/hands.ts';
import { boardOfPiece, pieceMasses } from '../workshop/quantities.ts';
import { SETTING_UP } from '../workshop/setting-up.ts';
import { heightBlocks } from './assembly/heights.ts';
import { type HeightsOff, heightsOff } from './assembly/heights-off.ts';
import { layerDrawing, layerLegend } from './assembly/layer-sheet.ts';
import { settingOrder } from './assembly/order.ts';
import { planView } from './assembly/plan-view.ts';
import { ribBlocks } from './assembly/rib-sheets.ts';
import { settingOutBlocks } from './assembly/setting-out.ts';
import { wholeView } from './assembly/whole-view.ts';
import { paperOption } from './pages/papers.ts';
import { areaText, massText } from './report/amounts.ts';
import { type Measures, measuresOf, measuresOption } from './sheets/measures.ts';
import { ARMS_LENGTH_PT, type Room, sheetFile } from './sheets/sheet-file.ts';

/**
 * assembly.pdf: the stack set up from the ground up, read at arm's length. The whole, the rules of the work, setting out the
 * base, the story stick and spot heights; then a page for each layer, the front always at the bottom.
 */
export const assemblyPdf = definePlugin({
  api: 1,
  stage: 'document',
  name: 'assembly-pdf',
  summary: 'set-up sheets from the ground up, one layer a page, the front at the bottom',
  options: (kit) => kit.z.strictObject({ paper: paperOption(kit), measures: measuresOption(kit.z) }),
  async run(plan, { paper, measures: choice }, { tell }) {
    if (plan.pieces.length === 0) return [];
    const measures = measuresOf(choice, plan.unit);
    const choices = { path: 'assembly.pdf', title: 'Setting up', paper, textPt: ARMS_LENGTH_PT };
    const blocks = plan.stack.kind === 'flat' ? flatBlocks : ribBlocks;
    return [await sheetFile(plan, choices, (room) => blocks(plan, measures, room), tell)];
  },
});

/** What is looked up for every layer. */
interface Known {
  readonly off: HeightsOff;
  readonly boardOf: ReturnType<typeof boardOfPiece>;
  readonly massOf: ReturnType<typeof pieceMasses>;
}

function flatBlocks(plan: Plan, measures: Measures, room: Room): Block[] {
  const { layers } = plan.stack;
  const lowest = plan.pieces.filter(({ layer }) => layer === layers[0].number);
  const size = { widthMm: room.widthMm, heightMm: 0.4 * room.heightMm };
  const known: Known = {
    off: heightsOff(plan),
    boardOf: boardOfPiece(plan.boards),
    massOf: pieceMasses(plan.pieces, plan.boards),
  };
  return [
    { kind: 'heading', level: 1, text: 'The whole' },
    {
      kind: 'figure',
      drawing: wholeView(layers, plan.facts.front, size),
      caption: `${layers.length} layers, ${plan.pieces.length} pieces.`,
    },
    { kind: 'caution', text: CAUTIONS[1] },
    { kind: 'heading', level: 1, text: 'How it goes together' },
    { kind: 'list', items: SETTING_UP, numbered: true },
    { kind: 'page' },
    ...settingOutBlocks(plan, lowest, measures, room.widthMm),
    { kind: 'page' },
    ...heightBlocks(plan, known.off, measures, { widthMm: room.widthMm, heightMm: 90 }),
    ...layers.flatMap((layer) => layerBlocks(plan, layer, known, measures, room)),
  ];
}

/** A layer's page: the drawing takes what its words leave of it. */
function layerBlocks(plan: Plan, layer: Layer, known: Known, measures: Measures, room: Room): Block[] {
  const own = plan.pieces.filter((piece) => piece.layer === layer.number);
  const order = settingOrder(own, plan.facts.front);
  const heading: Block = { kind: 'heading', level: 1, text: `Layer ${layer.number} of ${plan.stack.layers.length}` };
  const legend: Block = { kind: 'figure', drawing: layerLegend(room.widthMm), caption: '' };
  const words = [readyBlock(plan, layer), ...checks(layer, known.off, measures), tickTable(plan, order, known)];
  const caption = `1: ${order[0].name} is laid first. Joints by their labels.`;
  const figure = (heightMm: number): Block => {
    const box = boxOf(ringsOf(plan.stack.layers[0].regions));
    const view = planView(box, plan.facts.front, { widthMm: room.widthMm, heightMm });
    return { kind: 'figure', drawing: layerDrawing(plan, layer, order, view), caption };
  };
  const left = room.heightMm - room.tallMm([heading, legend, ...words, { kind: 'text', text: caption }]) - 6;
  return [
    { kind: 'page' },
    heading,
    figure(left < LEAST_DRAWING_MM ? CROWDED_DRAWING_MM : Math.min(MOST_DRAWING_MM, left)),
    legend,
    ...words,
  ];
}

/** Where a layer's words leave less than this of the page, its table runs over to a second one, and the drawing may be large. */
const LEAST_DRAWING_MM = 90;
const CROWDED_DRAWING_MM = 150;
const MOST_DRAWING_MM = 300;

/** What must lie ready before the layer is begun: pins by length, and glue or none. */
function readyBlock(plan: Plan, { number }: Layer): Block {
  const counts = new Map<string, number>();
  for (const { toLayer, lengthMm, isPulled } of plan.pins) {
    if (toLayer !== number) continue;
    const kind = `pins ${lengthText(lengthMm, plan.unit, 2)}${isPulled ? ', pulled before carving' : ''}`;
    counts.set(kind, (counts.get(kind) ?? 0) + 1);
  }
  const pins = [...counts].map(([kind, count]) => `${count} ${kind}`);
  const below = plan.pieces.filter(({ layer }) => layer === number - 1);
  const glueM2 = below.reduce((sum, { glue = [] }) => sum + areaOf(glue), 0) / 1e6;
  const back = lengthText(GLUE_BACK_MM, plan.unit, 2);
  const isLowest = below.length === 0;
  const glue =
    glueM2 > 0
      ? `Glue: YES, ${areaText(glueM2, plan.unit)} on the layer below, ${back} back from edges that are carved`
      : `Glue: NO${isLowest ? ', it lies on the floor' : ''}`;
  return {
    kind: 'list',
    ticks: true,
    items: [glue, pins.length > 0 ? `Ready: ${pins.join('; ')}` : 'Pins: none from here'],
  };
}

function tickTable(plan: Plan, order: readonly Piece[], { boardOf, massOf }: Known): Block {
  const rows = order.map((piece, i) => {
    const mass = massOf.get(piece.name) ?? 0;
    return [
      `${i + 1}`,
      piece.name,
      `${boardOf.get(piece.name)?.number ?? ''}`,
      massText(mass, plan.unit),
      handsOf(piece, mass, plan.facts) === 2 ? 'two people' : '',
      piece.joints.map(({ label, neighbour }) => `${label} to ${neighbour}`).join(', '),
    ];
  });
  const head = ['order', 'piece', 'board', 'weight', 'carry', 'joints'];
  return { kind: 'table', head, rows, right: [3], ticks: true, note: `${order.length} pieces, all counted.` };
}

function checks({ number, bottomMm, thicknessMm }: Layer, off: HeightsOff, { text, unit }: Measures): Block[] {
  const mostOff = `${text(off.topMm(number))} ${unit}`;
  const top = `${text(bottomMm + thicknessMm)} ± ${mostOff}`;
  const line = number === 1 ? 'Nicks to the front and on its right' : 'Nicks and witness lines run on from below';
  return [
    {
      kind: 'list',
      ticks: true,
      items: [`Top on the story stick: ${top}`, `${line}; joints closed, match marks meet`],
    },
    {
      kind: 'caution',
      text: `Stop if a piece rocks or has nothing under it, a joint gapes, the witness lines are broken, or the top is off by more than ${mostOff}.`,
    },
  ];
}
