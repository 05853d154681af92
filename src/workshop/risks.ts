import type { Plan } from '../model/plan.ts';

/** One danger: what can happen, and what the crew does. */
export interface Risk {
  readonly danger: string;
  readonly happens: string;
  readonly we: string;
}

const POINT = 'the voids are closed: no cables, lamps, candles or fog inside, and nothing hot under it';

/** The dangers of this job in plain words, those that its own facts bring among them (common practice, no source). */
export function risksOf({ facts, pieces, quantities }: Plan): Risk[] {
  const { tool, cover, work } = facts;
  const isWire = tool.kind === 'hot wire';
  const isHollow = pieces.some(({ region }) => region.length > 1);
  return [
    ...(isWire ? WIRE : BLADE),
    {
      danger: 'Fire',
      happens: 'all foam burns, fire-retarded too, with dense black smoke; hidden hollows carry fire',
      we: `ask the fire authority before buying; keep the certificate; do not leave foam bare; no flame, hot lamp or pyrotechnics near${isHollow ? `; ${POINT}` : ''}; extinguisher at hand`,
    },
    {
      danger: 'Dust and beads',
      happens: 'eyes, breath, slippery floor, drains',
      we: 'eye and breathing protection; collect at the source; vacuum, no dry sweeping',
    },
    ...(cover && /sand|cement|mortar|plaster|gypsum|render/i.test(cover.material) ? [SILICA] : []),
    {
      danger: 'Glue, spray, solvents',
      happens: 'fumes, skin, fire; solvent eats foam',
      we: 'read the sheet of each; foam-safe only; never near a hot wire; lids on; gloves',
    },
    {
      danger: 'Lifting and carrying',
      happens: `backs, falls${cover ? '; wet cover weighs far more than foam' : ''}`,
      we: 'two for what the carry sheet says; clear way first; wheel bags',
    },
    {
      danger: 'Wind',
      happens: 'large pieces are sails, stacks blow away',
      we: 'two people outdoors; strap bundles; ballast what stands; stop in gusts',
    },
    {
      danger: 'Standing on foam',
      happens: 'it gives way or breaks: falls',
      we: 'nobody stands, kneels or climbs on it; where people go, a deck by others, with its own proof; mark "do not step"',
    },
    {
      danger: 'Wet cables',
      happens: 'shock',
      we: 'cables off the ground and out of the wet; protected outlets; damp place: lower volts for the wire, or none',
    },
    {
      danger: 'Long shifts',
      happens: 'burns, cuts, spoilt boards',
      we: `breaks as planned; never alone at a wire or blade${work.crew.people.value === 1 ? ': the job says one person, so find a second' : ''}`,
    },
    {
      danger: 'Waste',
      happens: 'beads in water, fines, fire in a skip',
      we: `clean foam apart; no burning; local waste rules; ${quantities.pins} pins counted out again`,
    },
  ];
}

const WIRE: readonly Risk[] = [
  {
    danger: 'Hot wire',
    happens: 'burns at once; snaps and whips; molten foam drips',
    we: 'eye protection; nobody under a cut; isolate before changing wire; never left on; cold water near',
  },
  {
    danger: 'Supply',
    happens: 'shock, short, fire',
    we: 'low voltage, isolated, fused, switch in reach; never mains, with a dimmer or without; wiring and batteries by a qualified electrician',
  },
  {
    danger: 'Fumes',
    happens: 'headache, harm; smell tells nothing of the dose',
    we: 'polystyrene only; extraction to outside at the wire; as cool as cuts; breathing protection chosen by a competent person',
  },
];

const BLADE: readonly Risk[] = [
  {
    danger: 'Blades',
    happens: 'cuts',
    we: 'sharp blades, cut away from the body, clamp the board, cut-proof gloves, blades capped',
  },
];

const SILICA: Risk = {
  danger: 'Silica and lime',
  happens: 'dust of sand, plaster and cement harms lungs, skin and eyes for good',
  we: 'damp it down; breathing protection chosen by a competent person; no dry sweeping; wash hands',
};

/** Who agrees before work starts. */
export const AGREED_BY = [
  'whoever answers for the venue',
  'fire authority',
  'whoever answers for the floor and for decks',
  'electrician, for the supply',
  'head of the crew',
] as const;
