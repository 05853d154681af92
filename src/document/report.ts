import { placeText } from '../findings.ts';
import { areaOf, boxOf } from '../geometry/ring.ts';
import type { Layer } from '../model/layer.ts';
import type { Plan } from '../model/plan.ts';
import { definePlugin } from '../plugin.ts';
import { lengthText } from '../units.ts';
import { CAUTIONS } from '../workshop/cautions.ts';
import { pieceMasses } from '../workshop/quantities.ts';
import { boardFigure, groundFigure, layerFigure, stackFigure } from './report/figures.ts';
import { escaped, table } from './report/html.ts';
import { STYLE } from './report/style.ts';

/**
 * One HTML file to look at: the ground, the stack, each layer in plan, each board, quantities, lists, findings and
 * cautions. Opens without a network; everything is inside it and it runs no script.
 */
export const report = definePlugin({
  api: 1,
  stage: 'document',
  name: 'report',
  summary: 'everything to look at in one page that opens without a network',
  options: ({ z }) => z.strictObject({}),
  run: (plan) => [{ path: 'report.html', mediaType: 'text/html', body: page(plan) }],
});

function page(plan: Plan): string {
  const name = escaped(plan.name);
  return `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width,initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:">
<title>${name} · Lynchet</title><style>${STYLE}</style></head><body>
<header><h1>${name}</h1><p class="lead">${escaped(lead(plan))}</p></header>
${keyFigures(plan)}
<div class="pair"><figure>${groundFigure(plan.landform, plan.stack.layers, `The ground of ${plan.name} from above`)}<figcaption>The ground from above, north up, with the layers' outlines.</figcaption></figure>
<figure>${stackFigure(plan)}<figcaption>The layers stacked, seen from the south.</figcaption></figure></div>
<h2>Findings</h2>${findings(plan)}
<div class="caution"><h3>Before you cut</h3><ul>${CAUTIONS.map((text) => `<li>${escaped(text)}</li>`).join('')}</ul></div>
<h2>Layers</h2><p>Each piece with its name; joints lettered; pins as dots; the layer below grey, the next one dashed. South is down.</p>
<div class="grid">${plan.stack.layers.map((layer, i) => layerBlock(plan, layer, i)).join('\n')}</div>
<h2>Boards</h2><div class="grid">${boards(plan)}</div>
<h2>Quantities</h2>${quantities(plan)}
<h2>Pieces</h2>${pieces(plan)}
</body></html>
`;
}

function lead({ quantities: q, bound, facts, unit, stack }: Plan): string {
  const [minX, minY, maxX, maxY] = boxOf(
    stack.layers.flatMap(({ regions }) => regions.flatMap((region) => [...region])),
  );
  const top = stack.layers[stack.layers.length - 1];
  const size = `${lengthText(maxX - minX, unit)} × ${lengthText(maxY - minY, unit)} in plan, ${lengthText(top.bottomMm + top.thicknessMm, unit)} high in foam`;
  const least = q.boardsBought === bound.boards ? 'proven least' : `fewer than ${bound.boards} is impossible`;
  const cover = facts.cover
    ? ` Covered with ${facts.cover.material}, ${lengthText(facts.cover.depthMm, unit)} deep.`
    : '';
  return `${size}: ${q.layers} layers, ${q.pieces} pieces on ${q.boards} boards (${least}: ${bound.why}).${cover}`;
}

function keyFigures({ quantities: q, bound, facts }: Plan): string {
  const cells: [string, string][] = [
    [String(q.boardsBought), `boards to buy (at least ${bound.boards})`],
    [
      q.price === null ? '—' : q.price.toFixed(2),
      q.price === null ? 'money not worked out: a price is missing' : 'money for boards',
    ],
    [`${q.foamMassKg.toFixed(1)} kg`, `foam, ${q.foamVolumeM3.toFixed(2)} m³`],
    [`${q.cutLengthM.toFixed(0)} m`, 'to cut'],
    [String(q.pieces), `pieces, ${q.joints} joints, ${q.pins} pins`],
  ];
  if (facts.cover) {
    const weight = q.coverMassKg === null ? 'weight not worked out' : `${q.coverMassKg.toFixed(0)} kg`;
    cells.push([weight, `${facts.cover.material}, ${((q.coverVolumeM3 ?? 0) + q.stepFillM3).toFixed(2)} m³`]);
  }
  return `<div class="key">${cells.map(([value, label]) => `<div><b>${escaped(value)}</b><span>${escaped(label)}</span></div>`).join('')}</div>`;
}

function findings({ findings: told }: Plan): string {
  if (told.length === 0) return '<p>Nothing to tell.</p>';
  const sorted = (['stop', 'watch', 'note'] as const).flatMap((level) => told.filter((each) => each.level === level));
  const items = sorted.map(({ level, message, fix, where }) => {
    const place = placeText(where);
    return `<li class="${level}"><b>${level}</b>${place ? `${escaped(place)}: ` : ''}${escaped(message)} <em>${escaped(fix)}</em></li>`;
  });
  return `<ul class="findings">${items.join('\n')}</ul>`;
}

function layerBlock(plan: Plan, layer: Layer, i: number): string {
  const { layers } = plan.stack;
  const count = plan.pieces.filter((piece) => piece.layer === layer.number).length;
  const heights = `${lengthText(layer.bottomMm, plan.unit)} to ${lengthText(layer.bottomMm + layer.thicknessMm, plan.unit)}`;
  const caption = `${heights} · ${count} ${count === 1 ? 'piece' : 'pieces'} · ${(areaOf(layer.regions) / 1e6).toFixed(2)} m² before hollowing`;
  return `<figure><h3>Layer ${layer.number} of ${layers.length}</h3>${layerFigure(plan, layer, layers[i - 1], layers[i + 1])}<figcaption>${escaped(caption)}</figcaption></figure>`;
}

function boards(plan: Plan): string {
  const byName = new Map(plan.pieces.map((piece) => [piece.name, piece]));
  return plan.boards
    .map((board) => {
      const size = `${lengthText(board.sizeMm[0], plan.unit)} × ${lengthText(board.sizeMm[1], plan.unit)} × ${lengthText(board.thicknessMm, plan.unit)}`;
      const kind = board.rings ? 'kept offcut' : 'bought';
      return `<figure><h3>Board ${board.number} of ${plan.boards.length}</h3>${boardFigure(board, byName)}<figcaption>${escaped(`${board.stock}, ${size}, ${kind}`)}</figcaption></figure>`;
    })
    .join('\n');
}

function quantities({ quantities: q, facts, unit }: Plan): string {
  const rows: [string, string, string][] = [
    [
      'Ground',
      `${q.planAreaM2.toFixed(2)} m² in plan, ${q.surfaceAreaM2.toFixed(2)} m² along the slopes`,
      `${q.groundVolumeM3.toFixed(3)} m³`,
    ],
    ['Foam in the pieces', `${q.foamMassKg.toFixed(1)} kg`, `${q.foamVolumeM3.toFixed(3)} m³`],
    ['Offcuts worth keeping', `${q.offcutAreaM2.toFixed(2)} m²`, ''],
    [
      'Gap between blanks, kerf',
      `${lengthText(facts.gapMm, unit, 1)}, ${lengthText(facts.tool.kerfMm, unit, 1)}`,
      facts.tool.kind,
    ],
  ];
  if (facts.cover) {
    const weight = q.coverMassKg === null ? 'not worked out' : `${q.coverMassKg.toFixed(0)} kg as laid`;
    rows.push([`Cover: ${facts.cover.material}`, weight, `${(q.coverVolumeM3 ?? 0).toFixed(3)} m³`]);
    if (q.stepFillM3 > 0.0005) rows.push(['Cover that fills the steps', '', `${q.stepFillM3.toFixed(3)} m³`]);
  }
  return table(['What', 'How much', 'Volume'], rows);
}

function pieces(plan: Plan): string {
  const boardOf = new Map(
    plan.boards.flatMap((board) => board.placed.map(({ piece }) => [piece, board.number] as const)),
  );
  const masses = pieceMasses(plan.pieces, plan.boards);
  const rows = plan.pieces.map((piece) => {
    const [minX, minY, maxX, maxY] = boxOf(piece.region);
    const size = `${lengthText(maxX - minX, plan.unit)} × ${lengthText(maxY - minY, plan.unit)}`;
    const joints = piece.joints.map(({ label, neighbour }) => `${label} to ${neighbour}`).join(', ');
    return [
      piece.name,
      piece.layer,
      boardOf.get(piece.name) ?? '',
      size,
      (masses.get(piece.name) ?? 0).toFixed(2),
      piece.pins.length,
      joints,
    ];
  });
  return table(['Piece', 'Layer', 'Board', 'Size', 'kg', 'Pins', 'Joints'], rows);
}
