import type { Job, Step } from '../job.ts';
import type { Facts } from '../model/facts.ts';
import { boardPrices, type StockBoard, settledThicknessMm } from '../model/stock.ts';
import type { StageName } from '../stages.ts';
import { BEST } from './best.ts';
import type { Core } from './core.ts';
import { pieceRules } from './pieces.ts';
import type { Steps } from './steps.ts';
import { wayOf } from './way.ts';
import { workOf } from './work.ts';
import { zoneOf } from './zones.ts';

/** The job out of what was read and found without fault. */
export function jobOf(core: Core, steps: Steps, sourceFiles: readonly string[]): Job {
  const one = <S extends StageName>(list: readonly Step[]) => list[0] as Step<S>;
  return {
    name: core.name,
    unit: core.unit,
    seed: core.seed,
    source: one<'source'>(steps.source),
    shape: steps.shape as Step<'shape'>[],
    slice: one<'slice'>(steps.slice),
    split: steps.split as Step<'split'>[],
    nest: one<'nest'>(steps.nest),
    documents: steps.documents as Step<'document'>[],
    facts: factsOf(core),
    sourceFiles: [...sourceFiles],
    offcutFiles: core.stock.offcuts,
    written: written(core, steps),
  };
}

function factsOf(core: Core): Facts {
  const { stock, tool, gap, cover, front, carry, zones, pieces } = core;
  const work = workOf(core);
  const boards: StockBoard[] = stock.boards.map(
    ({ name, size, thickness, measured, price, count, trim, faced, keepOut }, i) => ({
      name,
      sizeMm: size,
      thicknessMm: settledThicknessMm(measured ?? thickness),
      densityKgM3: work.goods[i].densityKgM3.value,
      price: price ?? null,
      count: count ?? null,
      trimMm: trim,
      faced,
      ...(keepOut && keepOut.length > 0
        ? { keepOuts: keepOut.map((corners) => Float64Array.from(corners.flat())) }
        : {}),
    }),
  );
  const soldAs = stock.boards.map(({ thickness }, i) => ({
    thicknessMm: boards[i].thicknessMm,
    nominalMm: settledThicknessMm(thickness),
  }));
  const sizes = boards.map(({ sizeMm, thicknessMm, densityKgM3, trimMm }) => ({
    sizeMm,
    thicknessMm,
    densityKgM3,
    trimMm,
  }));
  const keys = sizes.map((size) => JSON.stringify(size));
  return {
    stock: { boards, offcuts: [] },
    thicknessesMm: [...new Set(boards.map(({ thicknessMm }) => thicknessMm))].sort((a, b) => a - b),
    soldAs: soldAs
      .filter((each, i) => soldAs.findIndex((other) => isAlike(other, each)) === i)
      .sort((a, b) => a.thicknessMm - b.thicknessMm || a.nominalMm - b.nominalMm),
    boardPrices: boardPrices(boards),
    boardSizes: sizes.filter((_, i) => keys.indexOf(keys[i]) === i),
    tool: {
      kind: tool.kind,
      kerfMm: tool.kerf,
      throatMm: tool.throat ?? null,
      wireMm: tool.wire ?? null,
      bladeMm: tool.blade ?? null,
      tableMm: tool.table ?? null,
    },
    gapMm: gap,
    cover: cover ? { material: cover.material, depthMm: cover.depth, densityKgM3: cover.density ?? null } : null,
    front,
    carry: { sizeMm: carry?.size ?? null, massKg: carry?.mass ?? null },
    way: wayOf(core),
    zones: (zones ?? []).map(zoneOf),
    work,
    pieces: pieceRules(pieces ?? {}),
  };
}

const isAlike = (a: Facts['soldAs'][number], b: Facts['soldAs'][number]): boolean =>
  a.thicknessMm === b.thicknessMm && a.nominalMm === b.nominalMm;

/** The job in the form of plan.json: every default filled in, lengths as millimetres. */
function written({ $schema: _, ...core }: Core, steps: Steps): Job['written'] {
  const form = ({ plugin, options }: Step) => ({ [plugin.name]: options });
  return {
    ...core,
    unit: 'mm',
    source: form(steps.source[0]),
    shape: steps.shape.map(form),
    slice: form(steps.slice[0]),
    split: steps.split.length === 1 ? form(steps.split[0]) : { [BEST]: steps.split.map(form) },
    nest: form(steps.nest[0]),
    documents: steps.documents.map(form),
  };
}
