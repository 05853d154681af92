import type { Plan } from '../model/plan.ts';
import { boardsFrom, USUAL_BLOCK } from '../workshop/block.ts';
import { buyingOf, foamOrders } from '../workshop/buying.ts';
import type { Figures } from '../workshop/comparing.ts';

type Written = Readonly<Record<string, unknown>>;

/** A way to build the job otherwise: the job rewritten, or none and why it cannot be tried. */
export type Otherwise =
  | {
      readonly name: string;
      readonly job: Written;
      /** What its figures are beside those of its plan: where foam comes otherwise than in boards. */
      readonly adjusted?: (figures: Figures, plan: Plan) => Figures;
    }
  | { readonly name: string; readonly job: null; readonly why: string };

/** What is typed in beside the job. */
export interface Typed {
  /** Of each piece that a supplier cuts; null when not asked. */
  readonly piecePrice: number | null;
}

/** A step as plan.json writes it: a name, or a map from it to its options. */
export function stepOf(step: unknown, otherwise: string): [string, Record<string, unknown>] {
  if (typeof step === 'string') return [step, {}];
  const entry = Object.entries((step ?? {}) as Record<string, Record<string, unknown> | null>)[0];
  return entry ? [entry[0], entry[1] ?? {}] : [otherwise, {}];
}

/** The other ways, in the order in which they are told. */
export function otherWays(now: Plan, typed: Typed): Otherwise[] {
  const written = now.job;
  const [own, options] = stepOf(written.split, '');
  const isFlat = now.stack.kind === 'flat' && now.stack.rock === undefined;
  const splits: Otherwise[] = ['solid', 'hollow', 'rings']
    .filter((name) => name !== own)
    .map((name) => ({
      name,
      job: { ...written, ...(isFlat ? {} : { slice: 'layers' }), split: { [name]: alike(own, options, name) } },
    }));
  const ribs: Otherwise[] =
    now.stack.kind === 'upright' ? [] : [{ name: 'ribs', job: { ...written, slice: ribsOf(now), split: 'ribs' } }];
  return [...splits, ...ribs, thicker(now, written), block(now, written), supplied(typed, written)];
}

/** The lap and the seams of the job's own way, so that ways are compared and not their details; a lap of ribs is another thing. */
function alike(own: string, { lap, seams }: Record<string, unknown>, name: string): Record<string, unknown> {
  const hasLap = own !== 'ribs' && name !== 'solid' && lap !== undefined;
  return { ...(hasLap ? { lap } : {}), ...(seams !== undefined ? { seams } : {}) };
}

const ribsOf = (now: Plan): unknown => {
  const { thicknessesMm } = now.facts;
  return thicknessesMm.length > 1 ? { ribs: { thickness: thicknessOf(now) } } : 'ribs';
};

const thicknessOf = (plan: Plan): number => plan.stack.layers[0].thicknessMm;

/** The next thicker board on sale for every layer. */
function thicker(now: Plan, written: Written): Otherwise {
  const name = 'a thicker board';
  const [slicer, options] = stepOf(written.slice, 'layers');
  const most = Math.max(...now.stack.layers.map(({ thicknessMm }) => thicknessMm));
  const next = now.facts.soldAs.find(({ thicknessMm }) => thicknessMm > most);
  if (slicer !== 'layers') return { name, job: null, why: 'the job is not of layers' };
  if (!next) return { name, job: null, why: 'none is in the stock: add it under stock.boards with its price' };
  const slice = { layers: { ...options, thickness: next.nominalMm } };
  return { name: `boards of ${next.nominalMm} mm`, job: { ...written, slice } };
}

/** A block wired into boards of the thickness that the job has. */
function block(now: Plan, written: Written): Otherwise {
  const { work, tool } = now.facts;
  const [said] = work.blocks;
  const name = said ? `own block, ${said.name}` : 'own block';
  if (tool.kind !== 'hot wire')
    return { name, job: null, why: 'boards are wired from a block, and the job has no hot wire' };
  if (new Set(now.stack.layers.map(({ thicknessMm }) => thicknessMm)).size > 1)
    return { name, job: null, why: 'its layers are of several thicknesses' };
  const { sizeMm, heightMm } = said ?? USUAL_BLOCK;
  const crustMm = work.rules.crustMm.value;
  const thicknessMm = thicknessOf(now);
  const { boards: yielded } = boardsFrom(heightMm, thicknessMm, tool.kerfMm, crustMm);
  if (yielded === 0) return { name, job: null, why: `a block ${heightMm} mm high gives no board of ${thicknessMm} mm` };
  const density = said?.densityKgM3.value ?? now.facts.boardSizes[0].densityKgM3;
  const price = said?.price ?? null;
  const board = {
    name: 'board of a block',
    size: [...sizeMm],
    thickness: thicknessMm,
    density,
    trim: crustMm,
    ...(price === null ? {} : { price: price / yielded }),
  };
  const stock = { ...(written.stock as Written), boards: [board] };
  return {
    name,
    job: { ...written, stock },
    adjusted: (figures, plan) => wired(figures, plan, { yielded, price, lengthMm: Math.max(...sizeMm) }),
  };
}

/** Whole blocks are bought, and wired by two. */
function wired(
  figures: Figures,
  plan: Plan,
  { yielded, price, lengthMm }: { yielded: number; price: number | null; lengthMm: number },
): Figures {
  const { rules } = plan.facts.work;
  const orders = foamOrders(buyingOf(plan));
  const ordered = orders.reduce((sum, order) => sum + order.ordered, 0);
  const asBoards = orders.reduce((sum, order) => sum + (order.money ?? 0), 0);
  const blocks = Math.ceil(ordered / yielded);
  const passHours = ((lengthMm / 1000) * rules.secondsAMetre.value) / 3600;
  const hours = rules.wireHours.value + 2 * passHours * ordered;
  const spread = rules.timeSpread.value;
  const { cut } = figures.hours;
  return {
    ...figures,
    money: price === null || figures.money === null ? null : figures.money - asBoards + blocks * price,
    hours: {
      ...figures.hours,
      cut: { least: cut.least + hours * (1 - spread), most: cut.most + hours * (1 + spread) },
    },
    wireHours: figures.wireHours + 2 * passHours * ordered,
    wireM: figures.wireM + (lengthMm / 1000) * ordered,
  };
}

/** A supplier cuts the pieces: they are paid by the piece, and nobody here holds a wire. */
function supplied({ piecePrice }: Typed, written: Written): Otherwise {
  const name = "a supplier's cut boards";
  if (piecePrice === null) return { name, job: null, why: 'no price is typed in: --piece-price' };
  return {
    name,
    job: written,
    adjusted: (figures, plan) => {
      const buying = buyingOf(plan);
      const foam = foamOrders(buying).reduce((sum, order) => sum + (order.money ?? 0), 0);
      // The boards are the supplier's; their money falls away with them.
      const rest = buying.known - foam;
      return {
        ...figures,
        money: rest + piecePrice * plan.quantities.pieces,
        hours: { ...figures.hours, cut: { least: 0, most: 0 } },
        wireHours: 0,
        wireM: 0,
        boards: 0,
        fewest: 0,
        wasteM3: 0,
      };
    },
  };
}
