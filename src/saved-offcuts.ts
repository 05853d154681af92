import { refuse } from './findings.ts';
import { areaOf, boxOf } from './geometry/ring.ts';
import type { Job } from './job.ts';
import type { Facts } from './model/facts.ts';
import { readOffcuts } from './model/files.ts';
import type { Offcut } from './model/stock.ts';
import type { JobFiles } from './steps.ts';

/** A job's facts with its saved offcuts, now that their files are read. Where there are no boards, a splitter cuts to fit offcuts. */
export function factsWithOffcuts({ facts, offcutFiles }: Job, files: JobFiles): Facts {
  const offcuts = savedOffcuts(offcutFiles, files);
  if (offcuts.length === 0 && facts.stock.boards.length === 0) noStock(offcutFiles);
  const stock = { ...facts.stock, offcuts };
  if (facts.boardSizes.length > 0) return { ...facts, stock };
  const boardSizes = offcuts.map(({ rings, thicknessMm, densityKgM3 }) => {
    const [minX, minY, maxX, maxY] = boxOf(rings);
    return { sizeMm: [maxX - minX, maxY - minY] as const, thicknessMm, densityKgM3, trimMm: 0 };
  });
  const thicknessesMm = [...new Set(offcuts.map(({ thicknessMm }) => thicknessMm))].sort((a, b) => a - b);
  const soldAs = thicknessesMm.map((thicknessMm) => ({ thicknessMm, nominalMm: thicknessMm }));
  const boardPrices = thicknessesMm.map((thicknessMm) => {
    const same = offcuts.filter((each) => each.thicknessMm === thicknessMm);
    const onHandM2 = same.reduce((sum, { rings }) => sum + areaOf([[...rings]]) / 1e6, 0);
    return { thicknessMm, pricePerM2: null, onHandM2 };
  });
  return { ...facts, stock, boardSizes, thicknessesMm, soldAs, boardPrices };
}

/** The saved offcuts of every file. Each name once: it is written on the foam, and one piece of foam is cut once. */
function savedOffcuts(names: readonly string[], files: JobFiles): Offcut[] {
  const fileOf = new Map<string, string>();
  const offcuts: Offcut[] = [];
  for (const [i, file] of names.entries()) {
    for (const offcut of readOffcuts(files.get(file), file)) {
      const other = fileOf.get(offcut.name);
      if (other !== undefined) offcutTwice(offcut.name, other, file, `stock.offcuts.${i}`);
      fileOf.set(offcut.name, file);
      offcuts.push(offcut);
    }
  }
  return offcuts;
}

const offcutTwice = (name: string, other: string, file: string, path: string): never =>
  refuse(
    'stock/offcut-twice',
    `An offcut called "${name}" is in ${other === file ? `${file}, which is named twice` : `${other} as well as in ${file}`}.`,
    other === file ? 'Name the file once.' : 'Take it out of one of the files, or rename it, on the foam too.',
    { path },
  );

const noStock = (files: readonly string[]): never =>
  refuse(
    'stock/empty',
    `There is no stock: ${files.join(', ')} ${files.length === 1 ? 'holds' : 'hold'} no offcut, and no board is on offer.`,
    'Add a board to stock.boards, or name a file of offcuts that holds some.',
    { path: 'stock' },
  );
