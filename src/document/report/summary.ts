import { placeText } from '../../findings.ts';
import { boxOf, ringsOf } from '../../geometry/ring.ts';
import { extent } from '../../model/landform.ts';
import type { LayoutBoard } from '../../model/layout.ts';
import { GLUE_BACK_MM } from '../../model/piece.ts';
import type { Plan, Quantities } from '../../model/plan.ts';
import { lengthText, numberText, thicknessText, type Unit } from '../../units.ts';
import { areaText, boardText, massText, sizeText, volumeText, wayText } from './amounts.ts';
import { escaped, table } from './html.ts';
import { listed } from './marks.ts';

/** The job in two sentences. */
export function lead({ quantities: q, bound, facts, unit, stack, landform }: Plan): string {
  const box = boxOf(ringsOf(stack.layers.flatMap(({ regions }) => [...regions])));
  const [minX, minY, maxX, maxY] = stack.kind === 'flat' ? box : extent(landform).box;
  const top = stack.layers[stack.layers.length - 1];
  const highMm = stack.kind === 'flat' && top ? top.bottomMm + top.thicknessMm : box[3];
  const size = top
    ? `${sizeText([maxX - minX, maxY - minY], unit)} in plan, ${thicknessText(highMm, unit)} high in foam: `
    : '';
  const layers = stack.kind === 'flat' ? 'layers' : 'ribs';
  const least = q.boardsBought === bound.boards ? 'proven least' : `fewer than ${bound.boards} is impossible`;
  const cover = facts.cover
    ? ` Covered with ${facts.cover.material}, ${lengthText(facts.cover.depthMm, unit, 2)} deep.`
    : '';
  return `${size}${q.layers} ${layers}, ${q.pieces} pieces on ${q.boards} boards (${least}: ${bound.why}).${cover}`;
}

/** What a builder asks first: how many boards, what they cost, what it weighs, what to look out for. */
export function keyFigures({ quantities: q, bound, facts, unit, findings }: Plan): string {
  const count = (level: string) => findings.filter((each) => each.level === level).length;
  const [stops, watches] = [count('stop'), count('watch')];
  const cells: [string, string][] = [
    [String(q.boardsBought), `boards to buy (at least ${bound.boards})`],
    q.price === null ? ['—', 'money: a price is missing'] : [q.price.toFixed(2), 'money for boards'],
    [massText(q.foamMassKg, unit), `foam, ${volumeText(q.foamVolumeM3, unit)}`],
  ];
  if (facts.cover) {
    const weight = q.coverMassKg === null ? '—' : massText(q.coverMassKg, unit);
    const volume = volumeText((q.coverVolumeM3 ?? 0) + q.stepFillM3, unit);
    const unknown = q.coverMassKg === null ? 'weight not worked out: ' : '';
    cells.push([weight, `${unknown}${facts.cover.material}, ${volume} as laid`]);
  }
  cells.push(
    [wayText(q.cutLengthM, unit), `to cut, ${q.pieces} pieces`],
    [String(q.joints), `joints, ${q.pins} pins`],
    stops > 0 ? [`${stops} stop`, 'do not build from this plan yet'] : [String(watches), 'to look at before you cut'],
  );
  return `<div class="key">${cells.map(([value, label]) => `<div><b>${escaped(value)}</b><span>${escaped(label)}</span></div>`).join('')}</div>`;
}

/** What a covering overlaps at its joins, and what is cut off it (common practice, no source). */
const COVERING_WASTE = 0.1;

/** Boards by kind, the cover and the pins: what has to be there before the work starts. */
export function toBring({ boards, facts, quantities: q, unit, stack: { covering } }: Plan): string {
  const kinds = new Map<string, LayoutBoard[]>();
  for (const board of boards.filter(({ rings }) => !rings)) {
    const kind = JSON.stringify([board.stock, board.sizeMm, board.thicknessMm]);
    kinds.set(kind, [...(kinds.get(kind) ?? []), board]);
  }
  const rows = [...kinds.values()].map((alike) => {
    const { stock, sizeMm, thicknessMm } = alike[0];
    const price = facts.stock.boards.find(({ name }) => name === stock)?.price ?? null;
    const money = price === null ? ['', ''] : [price.toFixed(2), (price * alike.length).toFixed(2)];
    return [stock, boardText(sizeMm, thicknessMm, unit), `${alike.length}`, ...money];
  });
  for (const { stock, sizeMm, thicknessMm } of boards.filter(({ rings }) => rings)) {
    rows.push([`${stock}, a kept offcut`, boardText(sizeMm, thicknessMm, unit), '1', '', '']);
  }
  if (facts.cover) {
    const volume = volumeText((q.coverVolumeM3 ?? 0) + q.stepFillM3, unit);
    rows.push([facts.cover.material, `${lengthText(facts.cover.depthMm, unit, 2)} deep`, volume, '', '']);
  }
  for (const { soldMm, sticks, pins, pulled, leastMm, mostMm } of q.pinStock) {
    const range =
      leastMm === mostMm
        ? lengthText(mostMm, unit, 2)
        : `${lengthText(leastMm, unit, 2)} to ${lengthText(mostMm, unit, 2)}`;
    const cut = leastMm === soldMm ? '' : `, cut to ${pins} ${pins === 1 ? 'pin' : 'pins'} of ${range}`;
    const pull = pulled === 0 ? '' : `; ${pulled === pins ? 'all' : pulled} pulled before carving`;
    rows.push(['pins', `${lengthText(soldMm, unit, 2)} long${cut}${pull}`, `${sticks}`, '', '']);
  }
  if (q.glueM2 > 0) {
    const back = `where layers meet, ${lengthText(GLUE_BACK_MM, unit, 2)} back from outer edges`;
    rows.push(['glue', back, areaText(q.glueM2, unit), '', '']);
  }
  if (covering && q.coveringM2 !== null) {
    const thick = covering.thicknessMm > 0 ? `${thicknessText(covering.thicknessMm, unit)} thick, ` : '';
    const waste = `${numberText(100 * COVERING_WASTE, 0)} % for laps and waste (assumed)`;
    if (covering.boards) {
      const { sizeMm, count } = covering.boards;
      const size = boardText(sizeMm, covering.thicknessMm, unit);
      rows.push([covering.material, `${size}, each joint on a rib`, `${count}`, '', '']);
      const sides = (covering.sidesMm2 / 1e6) * (1 + COVERING_WASTE);
      if (sides > 0) rows.push([covering.material, `for the sides, with ${waste}`, areaText(sides, unit), '', '']);
    } else {
      rows.push([
        covering.material,
        `${thick}with ${waste}`,
        areaText(q.coveringM2 * (1 + COVERING_WASTE), unit),
        '',
        '',
      ]);
    }
  }
  return table(['To bring', 'Size', 'How much', 'Each', 'Money'], rows);
}

/** Everything told of the plan, the gravest first; a number is that of its mark in a layer's figure. */
export function findingsList(plan: Plan): string {
  if (plan.findings.length === 0) return '<p>Nothing to tell.</p>';
  const items = listed(plan).map(({ finding: { level, message, fix, where }, mark }) => {
    const place = placeText(where);
    const number = mark ? `<span class="mark">${mark.number}</span>` : '';
    return `<li class="${level}"><b>${level}</b>${number}${place ? `${escaped(place)}: ` : ''}${escaped(message)} <em>${escaped(fix)}</em></li>`;
  });
  return `<ul class="findings">${items.join('\n')}</ul>`;
}

/** How far the foam as cut is from the ground. */
function toShape({ carveM3, stepFillM3, largestStepMm }: Quantities, unit: Unit): string[][] {
  if (largestStepMm === null) return [];
  const step = `corners at most ${lengthText(largestStepMm, unit)} from the ground`;
  return [
    ['Foam to carve off', step, volumeText(carveM3, unit)],
    ['Steps to fill', '', volumeText(stepFillM3, unit)],
  ];
}

/** What the plan comes to, in areas, volumes and masses. */
export function quantitiesTable({ quantities: q, facts, unit, stack }: Plan): string {
  const ground = `${areaText(q.planAreaM2, unit)} in plan, ${areaText(q.surfaceAreaM2, unit)} along the slopes`;
  const rows = [
    ['Ground', ground, volumeText(q.groundVolumeM3, unit)],
    ['Foam in the pieces', massText(q.foamMassKg, unit), volumeText(q.foamVolumeM3, unit)],
    ...toShape(q, unit),
    ['Offcuts worth keeping', areaText(q.offcutAreaM2, unit), ''],
    ['Gap between blanks', lengthText(facts.gapMm, unit, 2), ''],
    [`Kerf of the ${facts.tool.kind}`, lengthText(facts.tool.kerfMm, unit, 2), ''],
  ];
  if (facts.cover) {
    const weight = q.coverMassKg === null ? 'weight not worked out' : `${massText(q.coverMassKg, unit)} as laid`;
    rows.push([`Cover: ${facts.cover.material}`, weight, volumeText(q.coverVolumeM3 ?? 0, unit)]);
  }
  if (q.coveringM2 !== null) {
    rows.push([
      `Covering: ${stack.covering?.material}`,
      `${areaText(q.coveringM2, unit)} with the sides, without waste`,
      '',
    ]);
  }
  return table(['What', 'How much', 'Volume'], rows);
}
