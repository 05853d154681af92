import type { z } from 'zod';
import {
  FOAMS,
  type Foam,
  foamNamed,
  GRADE_SYSTEMS,
  type Grade,
  gradeRow,
  USUAL_DENSITY_KG_M3,
} from '../model/foam.ts';
import { type Known, known, type Rules } from '../model/rules.ts';
import { LONGEST_BOARD_MM, MOST_DENSITY_KG_M3 } from '../model/stock.ts';
import { EDGES, FACES, type FoamBlock, type Goods, type Terms } from '../model/work.ts';
import type { Kit } from '../plugin.ts';
import { text } from './text.ts';

/** Sums of prices stay numbers that can be written, in any money. */
export const MOST_MONEY = 1e9;

export const densitySchema = ({ z }: Kit) => z.number().positive().max(MOST_DENSITY_KG_M3);

/** What is said of foam, how it is sold and brought: keys of a board and of a block alike. */
const foamKeys = (kit: Kit) => {
  const { z } = kit;
  return {
    foam: z.enum(FOAMS).optional().describe('kind of foam; not said, what the name tells'),
    density: densitySchema(kit).optional().describe('kg/m³; not said, what grade and kind of foam usually weigh'),
    grade: z
      .strictObject({
        name: text(kit).describe('as the maker writes it'),
        system: z.enum(GRADE_SYSTEMS).optional().describe('what its number means: a pressure, a type or a density'),
      })
      .optional()
      .describe('grade with the system it is named by'),
    certificate: z.boolean().optional().describe('whether a fire certificate is in hand'),
    supplier: text(kit).optional().describe('who sells it'),
    pack: z.int().min(1).max(100_000).optional().describe('how many are in a pack'),
    least: z.int().min(1).max(100_000).optional().describe('the fewest that are sold'),
    delivery: z
      .strictObject({
        cost: z.number().min(0).max(MOST_MONEY).optional().describe('money for bringing it, once'),
        days: z.int().min(0).max(1000).optional().describe('from order to delivery'),
      })
      .optional()
      .describe('how it comes'),
  };
};

/** What else is said of a board. */
export const boardKeys = (kit: Kit) => ({
  ...foamKeys(kit),
  face: kit.z
    .enum(FACES)
    .optional()
    .describe('what is on its faces: film is peeled before gluing, a skin is roughened'),
  edges: kit.z.enum(EDGES).optional().describe('rebates and tongues are cut off: give trim'),
});

/** A block that boards are wired from. */
export const blockSchema = (kit: Kit) =>
  kit.z.strictObject({
    name: text(kit).describe('what the supplier calls it'),
    size: kit.size({ most: LONGEST_BOARD_MM }).describe('[length, width] of the faces that become boards'),
    height: kit.length({ above: 0, most: LONGEST_BOARD_MM }).describe('which is divided into thicknesses'),
    price: kit.z.number().min(0).max(MOST_MONEY).optional().describe('of one block'),
    age: kit.z.number().min(0).max(10_000).optional().describe('days since it was moulded'),
    ...foamKeys(kit),
  });

type FoamSaid = {
  readonly name: string;
  readonly foam?: Foam;
  readonly density?: number;
  readonly grade?: { readonly name: string; readonly system?: Grade['system'] };
};
type TermsSaid = {
  readonly supplier?: string;
  readonly pack?: number;
  readonly least?: number;
  readonly delivery?: { readonly cost?: number; readonly days?: number };
};

const gradeOf = ({ grade }: FoamSaid): Grade | null =>
  grade ? { name: grade.name, system: grade.system ?? null } : null;

export const foamOf = ({ foam, name }: FoamSaid): Known<Foam> => known(foam, foamNamed(name));

/** What is said, else what the grade weighs at least, else what such foam usually weighs. */
export function densityOf(said: FoamSaid): Known<number> {
  const grade = gradeOf(said);
  const row = grade && gradeRow(grade);
  return known(said.density, row?.densityKgM3 ?? USUAL_DENSITY_KG_M3[foamOf(said).value]);
}

const termsOf = ({ supplier, pack, least, delivery }: TermsSaid, rules: Rules): Terms => ({
  supplier: supplier ?? null,
  pack: known(pack, 1),
  least: known(least, 1),
  deliveryCost: delivery?.cost ?? null,
  deliveryDays: known(delivery?.days, rules.deliveryDays.value),
});

export type BoardSaid = FoamSaid &
  TermsSaid & {
    readonly certificate?: boolean;
    readonly face?: Goods['face'] & string;
    readonly edges?: Goods['edges'] & string;
  };

export const goodsOf = (said: BoardSaid, rules: Rules): Goods => ({
  stock: said.name,
  foam: foamOf(said),
  densityKgM3: densityOf(said),
  grade: gradeOf(said),
  hasCertificate: said.certificate ?? null,
  face: said.face ?? null,
  edges: said.edges ?? null,
  terms: termsOf(said, rules),
});

export type BlockSaid = z.output<ReturnType<typeof blockSchema>>;

export const blockOf = (said: BlockSaid, rules: Rules): FoamBlock => ({
  name: said.name,
  sizeMm: said.size,
  heightMm: said.height,
  foam: foamOf(said),
  densityKgM3: densityOf(said),
  price: said.price ?? null,
  ageDays: said.age ?? null,
  hasCertificate: said.certificate ?? null,
  terms: termsOf(said, rules),
});
