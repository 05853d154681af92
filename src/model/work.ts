import type { Day } from './day.ts';
import type { Foam, Grade } from './foam.ts';
import { SOLD_PINS_MM } from './pin.ts';
import { type Known, known, type Rules, rulesWith } from './rules.ts';

export const SKILLS = ['first time', 'some practice', 'practised'] as const;
export const ALLOYS = ['nichrome 80', 'nichrome 60', 'stainless 304', 'stainless 316'] as const;
export const FACES = ['bare', 'film', 'skin'] as const;
export const EDGES = ['square', 'rebated', 'tongue and groove'] as const;

/** Who builds. */
export interface Crew {
  readonly people: Known<number>;
  /** Bows, knives or saws that cut at the same time. */
  readonly cutters: Known<number>;
  readonly hoursADay: Known<number>;
  /** In the job's money; null when nobody is paid by the hour. */
  readonly hourRate: number | null;
  readonly skill: Known<(typeof SKILLS)[number]>;
  /** Whether people set up who did not build it. */
  readonly strangers: Known<boolean>;
}

/** When it has to stand. No clock runs here: what day it is, the job says. */
export interface Ready {
  readonly opening: Day | null;
  /** First day on which the crew is let in. */
  readonly getIn: Day | null;
  readonly today: Day | null;
  /** Where coats and glue dry. */
  readonly dryingCelsius: Known<number>;
}

/** What the venue wrote of its floor. */
export interface VenueFloor {
  readonly kNM2: number;
  readonly from: string | null;
}

/** A supply as its label reads. */
export interface Supply {
  readonly volts: number;
  readonly amps: number;
  readonly current: 'AC' | 'DC';
  /** Null when the label does not say. */
  readonly noLoadVolts: number | null;
}

/** The wire and what feeds it; its length is the tool's. */
export interface WireSaid {
  readonly alloy: Known<(typeof ALLOYS)[number]>;
  readonly diameterMm: Known<number>;
  readonly supply: Supply | null;
  /** Outdoors, on a wet floor or on metal staging. */
  readonly isDamp: Known<boolean>;
}

/** How something is sold and brought. */
export interface Terms {
  readonly supplier: string | null;
  readonly pack: Known<number>;
  readonly least: Known<number>;
  readonly deliveryCost: number | null;
  readonly deliveryDays: Known<number>;
}

/** What is known of a board on sale besides its size, thickness and price. */
export interface Goods {
  /** Its name in the stock. */
  readonly stock: string;
  readonly foam: Known<Foam>;
  readonly densityKgM3: Known<number>;
  readonly grade: Grade | null;
  /** Of its reaction to fire; null when nobody asked. */
  readonly hasCertificate: boolean | null;
  readonly face: (typeof FACES)[number] | null;
  readonly edges: (typeof EDGES)[number] | null;
  readonly terms: Terms;
}

/** A block from which boards are wired. */
export interface FoamBlock {
  readonly name: string;
  readonly sizeMm: readonly [number, number];
  readonly heightMm: number;
  readonly foam: Known<Foam>;
  readonly densityKgM3: Known<number>;
  readonly price: number | null;
  /** Since it was moulded; null when nobody asked. */
  readonly ageDays: number | null;
  /** Of its reaction to fire; null when nobody asked. */
  readonly hasCertificate: boolean | null;
  readonly terms: Terms;
}

export const PRICED = ['glue', 'pin', 'cover', 'scrim', 'coat', 'wire', 'paper', 'safety', 'skip'] as const;
/** Money for what is bought besides foam; null where not said. */
export type Prices = Readonly<Record<(typeof PRICED)[number], number | null>>;

/** What a builder knows of the work: nothing here moves a cut, so no stage but the documents reads it. */
export interface Work {
  readonly crew: Crew;
  readonly ready: Ready;
  readonly floor: VenueFloor | null;
  readonly budget: number | null;
  readonly wire: WireSaid;
  readonly goods: readonly Goods[];
  readonly blocks: readonly FoamBlock[];
  readonly prices: Prices;
  /** The lengths in which pins are sold. */
  readonly pinLengthsMm: Known<readonly number[]>;
  readonly rules: Rules;
}

export const NO_PRICES = Object.fromEntries(PRICED.map((what) => [what, null])) as unknown as Prices;

/** The work of a job that says nothing of it. */
export const NOTHING_SAID: Work = {
  crew: {
    people: known(undefined, 2),
    cutters: known(undefined, 1),
    hoursADay: known(undefined, 7),
    hourRate: null,
    skill: known(undefined, 'some practice'),
    strangers: known(undefined, false),
  },
  ready: { opening: null, getIn: null, today: null, dryingCelsius: known(undefined, 15) },
  floor: null,
  budget: null,
  wire: {
    alloy: known(undefined, 'nichrome 80'),
    diameterMm: known(undefined, 0.5),
    supply: null,
    isDamp: known(undefined, false),
  },
  goods: [],
  blocks: [],
  prices: NO_PRICES,
  pinLengthsMm: known(undefined, SOLD_PINS_MM),
  rules: rulesWith(),
};
