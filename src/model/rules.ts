/** A rule of thumb that the job may change. */
interface Rule {
  readonly value: number;
  readonly least: number;
  readonly most: number;
  /** What it is, with its unit. */
  readonly what: string;
  readonly source: string;
}

/** Said where the trade knows a figure and nobody has published it. */
export const PRACTICE = 'common practice, no source';

const rule = (value: number, least: number, most: number, what: string, source = PRACTICE): Rule => ({
  value,
  least,
  most,
  what,
  source,
});

/** Every figure that the workshop counts with and a crew may know better. A key of the job's `rules` each. */
export const RULES = {
  secondsAMetre: rule(
    200,
    20,
    5000,
    'seconds for a metre of straight cut, timed on scrap of the same board',
    'an inch in 4 to 6 s, printed on the plans of a foam-cored aircraft (quickheads.com, Q1 plans, p. 3-8)',
  ),
  bendSecondsAMetre: rule(
    354,
    20,
    9000,
    'seconds for a metre in tight bends',
    'an inch in 8 to 10 s, printed on the same plans',
  ),
  bendRadiusMm: rule(150, 1, 2000, 'mm: a bend of less radius is tight'),
  runInMm: rule(60, 0, 2000, "mm from the board's edge to an outline, where the layout does not say"),
  minutesABoard: rule(10, 0, 600, 'minutes to lay a board out, weigh it down and trace its pieces'),
  minutesAPiece: rule(3, 0, 600, 'minutes to number, mark and put aside a piece'),
  minutesAnInside: rule(4, 0, 600, 'minutes to thread or slit to an inner outline'),
  breakMinutesAnHour: rule(7, 0, 50, "minutes of break in an hour's cutting"),
  twoPersonMm: rule(
    1200,
    300,
    5000,
    'mm: a piece larger than this both ways, or than half as much again one way, is handled by two',
  ),
  carveLitresAnHour: rule(30, 1, 500, 'litres of foam carved off by one person in an hour'),
  dryMinutesAPiece: rule(3, 0, 600, 'minutes to lay a piece dry in the workshop, pins and all'),
  packMinutesAPiece: rule(2, 0, 600, 'minutes to wrap and bundle a piece'),
  setUpMinutesAPiece: rule(4, 0, 600, 'minutes to set a piece in its place at the venue'),
  glueMinutesAPiece: rule(4, 0, 600, 'minutes to glue and pin a piece'),
  strangersTimes: rule(
    3.5,
    1,
    10,
    'times as long where strangers set up',
    'about 4 times, told by a roadshow carpenter (controlbooth.com, "Road assembly plans"); 3 to 4 is usual',
  ),
  firstTimes: rule(1.5, 1, 5, 'times as long for a crew that does it for the first time'),
  someTimes: rule(1.2, 1, 5, 'times as long for a crew with some practice'),
  timeSpread: rule(0.3, 0, 0.9, 'share by which a time may be off, either way'),
  coverM2AnHour: rule(4, 0.1, 100, 'm² covered or coated by one person in an hour'),
  inspectionHours: rule(4, 0, 100, 'hours kept for the inspection by the venue'),
  driveHours: rule(1, 0, 100, 'hours for one way'),
  loadMinutesATrip: rule(40, 0, 600, 'minutes to load and unload the van once'),
  wireHours: rule(4, 0, 100, 'hours to rig the wire, cut the kerf strip and the timed metre'),
  spareShare: rule(0.1, 0, 1, 'share of boards bought besides, and no less than one'),
  pinSpareShare: rule(0.1, 0, 1, 'share of pins bought besides'),
  glueLitresAM2: rule(0.25, 0.01, 5, 'litres of glue for a square metre of bonded face'),
  glueLitresATube: rule(0.31, 0.05, 5, 'litres in a cartridge'),
  cureHours: rule(
    24,
    0,
    500,
    'hours under weight until glue holds',
    'builders of layered terrain (forum.trains.com 254425; blogs.massart.edu)',
  ),
  coverSpareShare: rule(0.12, 0, 1, 'share of cover bought besides: 10 to 15 % is lost or sinks in'),
  bagKg: rule(25, 1, 2000, 'kg in a bag of cover'),
  scrimLayers: rule(1, 0, 10, 'layers of scrim over the foam'),
  scrimLapShare: rule(0.15, 0, 1, 'share of scrim that laps'),
  coats: rule(2, 0, 20, 'coats over the foam or the scrim'),
  coatLitresAM2: rule(0.25, 0.01, 20, 'litres for a square metre of one coat'),
  coatDryHours: rule(12, 0, 500, 'hours until a coat is dry at 20 °C'),
  doublesEveryK: rule(10, 1, 100, '°C below 20 that double the hours of drying'),
  wireCelsius: rule(
    300,
    150,
    440,
    '°C of the wire at work',
    'between melting (about 200 °C, handwiki.org, hot-wire foam cutter) and fume (350 °C and up); AIPE gives vapour from 230 to 260 °C',
  ),
  meltRiseK: rule(230, 50, 400, '°C by which foam in the kerf is warmed'),
  wirePullN: rule(10, 1, 200, 'newton of pull in the wire; 5 to 20 is usual for 0.3 to 0.5 mm'),
  springLossShare: rule(0.2, 0.01, 0.9, 'share of its pull that the spring may lose while the wire grows'),
  noLoadShare: rule(0.2, 0, 1, 'share by which a supply stands higher without load, where its label does not say'),
  wireSpares: rule(4, 0, 100, 'spare lengths of wire'),
  crustMm: rule(10, 0, 200, 'mm of crust off each face of a block'),
  blockRestDays: rule(14, 0, 200, 'days that a fresh block airs before a wire meets it'),
  vanFill: rule(0.6, 0.1, 1, 'share of the van that bundles fill'),
  palletKg: rule(1000, 1, 5000, 'kg on a pallet of bags'),
  palletM2: rule(1.2, 0.1, 10, 'm² that a pallet stands on: 1.2 by 1.0'),
  looseTimes: rule(1.5, 1, 10, 'times its volume that broken foam takes in a skip'),
  skipM3: rule(6, 0.5, 60, 'm³ of a skip'),
  deliveryDays: rule(7, 0, 400, 'days from order to delivery, where the supplier is not asked'),
  daysAWeek: rule(5, 1, 7, 'days a week that the crew works'),
  leastFloatDays: rule(0.5, 0, 100, 'days of float under which a plan does not fit'),
} as const satisfies Readonly<Record<string, Rule>>;

export type RuleName = keyof typeof RULES;

/** A value, and whether the job said it or it was assumed. */
export interface Known<T> {
  readonly value: T;
  readonly isAssumed: boolean;
}

/** A value that the job said, or what is assumed in its place. */
export const known = <T>(said: T | undefined, otherwise: T): Known<T> => ({
  value: said ?? otherwise,
  isAssumed: said === undefined,
});

export type Rules = Readonly<Record<RuleName, Known<number>>>;

/** The rules, with what a job says in place of some. */
export const rulesWith = (said: Readonly<Partial<Record<RuleName, number>>> = {}): Rules =>
  Object.fromEntries(
    Object.entries(RULES).map(([name, { value }]) => [name, known(said[name as RuleName], value)]),
  ) as unknown as Rules;
