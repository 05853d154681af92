import { extent } from '../model/landform.ts';
import type { Plan } from '../model/plan.ts';
import { KPA_PER_KG_M2 } from './foam-load.ts';
import { heapKNM2 } from './heap.ts';
import { coverOf } from './materials.ts';

/** What presses on the floor, kN/m². Null where a weight is not known. */
export interface FloorLoad {
  /** Over all of the plan, and where the foam stands highest. */
  readonly finished: number | null;
  readonly wet: number | null;
  readonly highest: number | null;
  readonly highestWet: number | null;
  /** Under the middle of all the cover tipped out in one heap; null without a cover. */
  readonly heap: number | null;
  /** Under a pallet of bags as it is delivered. */
  readonly pallet: number;
}

export function floorLoad({ quantities: q, facts, boards, stack, landform }: Plan): FloorLoad {
  const { cover, work } = facts;
  const { densityKgM3: bulk, wetTimes: times } = coverOf(cover);
  const over = (foamKg: number, coverKg: number) => ((foamKg + coverKg) / q.planAreaM2) * KPA_PER_KG_M2;
  const coverKg = cover === null ? 0 : q.coverMassKg;
  const depthMm = cover?.depthMm ?? 0;
  const densest = boards.reduce((most, { densityKgM3 }) => Math.max(most, densityKgM3), 0);
  const top = stack.layers.at(-1);
  const highMm = stack.kind === 'flat' && top ? top.bottomMm + top.thicknessMm : extent(landform).highMm;
  const column = (bulkKgM3: number) => ((highMm * densest + depthMm * bulkKgM3) / 1000) * KPA_PER_KG_M2;
  return {
    finished: coverKg === null ? null : over(q.foamMassKg, coverKg),
    wet: coverKg === null ? null : over(q.foamMassKg, coverKg * times),
    highest: bulk === null ? null : column(bulk),
    highestWet: bulk === null ? null : column(bulk * times),
    heap: cover === null || bulk === null ? null : heapKNM2((q.coverVolumeM3 ?? 0) + q.stepFillM3, bulk),
    pallet: (work.rules.palletKg.value / work.rules.palletM2.value) * KPA_PER_KG_M2,
  };
}

/** The most that the ground presses once it stands, as far as it is known. */
export const builtLoad = ({ wet, highestWet }: FloorLoad): number => Math.max(wet ?? 0, highestWet ?? 0);

/** Uniform live loads that codes ask of floors: yardsticks, not this floor's figure. */
export const YARDSTICKS: readonly { readonly place: string; readonly kNM2: string; readonly source: string }[] = [
  {
    place: 'stage floor, United States',
    kNM2: '7.2',
    source: '150 psf, table of a US military load code, as transcribed',
  },
  { place: 'assembly hall with movable seats, United States', kNM2: '4.8', source: '100 psf, the same' },
  { place: 'assembly hall with fixed seats, United States', kNM2: '2.9', source: '60 psf, the same' },
  {
    place: 'stages, dance halls, Europe (C4)',
    kNM2: '4.5 to 5.0',
    source: 'EN 1991-1-1, table 6.2, figures from memory',
  },
  {
    place: 'museums, exhibition rooms, Europe (C3)',
    kNM2: '3.0 to 5.0',
    source: 'EN 1991-1-1, table 6.2, figures from memory',
  },
  {
    place: 'theatres with fixed seats, Europe (C2)',
    kNM2: '3.0 to 4.0',
    source: 'EN 1991-1-1, table 6.2, figures from memory',
  },
];
