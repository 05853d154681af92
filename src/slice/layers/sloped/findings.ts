import type { Finding } from '../../../findings.ts';
import { atan2, PI } from '../../../geometry/exact-math.ts';
import type { Point } from '../../../geometry/ring.ts';
import { numberText } from '../../../units.ts';
import type { Lean } from '../sloped.ts';

/** Something that keeps a wire from making the bank in one cut. */
export interface Seen {
  readonly what: 'lean' | 'pause' | 'too-fast' | 'no-top' | 'bridge' | 'wall' | 'pit' | 'overhang';
  readonly layer: number;
  /** Length of edge that it takes. */
  readonly mm: number;
  /** How bad; what is measured follows what it is. */
  readonly worst: number;
  readonly atMm: Point;
}

/** Cubic millimetres, over the height of the stack. */
export interface Volumes {
  readonly foam: number;
  readonly ground: number;
  readonly proud: number;
  readonly shy: number;
}

/** Tell all that was seen of one kind as one finding: how much in each layer, where the worst of each is. */
export function findingsOf(seen: readonly Seen[], volumes: Volumes, { leanDeg, reachMm }: Lean): Finding[] {
  const told = (what: Seen['what'], words: (worst: Seen, places: string) => [string, string]): Finding[] => {
    const found = seen.filter((each) => each.what === what);
    if (found.length === 0) return [];
    const worst = worstOf(found);
    const [message, fix] = words(worst, placesOf(found));
    return [
      { level: 'watch', code: `slice/sloped-${what}`, message, fix, where: { layer: worst.layer, atMm: worst.atMm } },
    ];
  };
  const limit = `${numberText(leanDeg, 1)}°${reachMm === undefined ? '' : `, ${numberText(reachMm, 0)} mm of wire`}`;
  return [
    ...told('lean', ({ worst }, places) => [
      `The bank leans further than the wire may (${limit}), up to ${numberText(degrees(worst), 0)}° from upright: ${places}.`,
      'The wire stays at its limit there, and what it leaves is carved. Thinner boards leave less; a wire that may lean more needs lean said.',
    ]),
    ...told('pause', (_, places) => [
      `One end of the wire moves 2 to 3 times as fast as the other: ${places}.`,
      'Mark pauses there: the slower end waits at each station until the other has come up.',
    ]),
    ...told('too-fast', (_, places) => [
      `One end of the wire would move more than 3 times as fast as the other: ${places}.`,
      'These edges are cut upright: carve them to the top outline afterwards.',
    ]),
    ...told('no-top', (_, places) => [
      `The underside goes where no top outline can be met (a spur, a summit, the foot of something lower): ${places}.`,
      'These edges are cut upright: carve them.',
    ]),
    ...told('bridge', (_, places) => [
      `The top outline turns in or parts where the wire cannot follow, and the top end goes straight across: ${places}.`,
      'Carve out what stays between the cut and the top outline.',
    ]),
    ...told('wall', (_, places) => [
      `The ground ends in a wall that is lower than the board's top: ${places}. No wire reaches what lies behind it.`,
      'Carve down from the top outline to the wall, or bring the rim to a whole number of boards with base.',
    ]),
    ...told('pit', ({ layer }) => [
      `A pit ends within layer ${layer}: its outline is on the top only, and no wire reaches it.`,
      'Carve it out from above.',
    ]),
    ...told('overhang', ({ layer }) => [
      `Layer ${layer} sticks out over its own underside: it is cut upright, as wide as its widest.`,
      'Carve it, or turn it over and shape it by hand.',
    ]),
    templates(),
    held(volumes),
  ];
}

const degrees = (rise: number): number => (atan2(rise, 1) * 180) / PI;

const worstOf = (found: readonly Seen[]): Seen => found.reduce((a, b) => (b.worst > a.worst ? b : a));

/** `layer 2 1.4 m (worst at 120, 340), layer 3 …` */
function placesOf(found: readonly Seen[]): string {
  const layers = [...new Set(found.map(({ layer }) => layer))];
  return layers
    .map((layer) => {
      const here = found.filter((each) => each.layer === layer);
      const { atMm } = worstOf(here);
      const metres = here.reduce((sum, { mm }) => sum + mm, 0) / 1000;
      return `layer ${layer} ${numberText(metres, 2)} m (worst at ${numberText(atMm[0], 0)}, ${numberText(atMm[1], 0)})`;
    })
    .join(', ');
}

const templates = (): Finding => ({
  level: 'watch',
  code: 'slice/sloped-templates',
  message: 'Templates and boards show the underside of each layer only: what the foot of the wire follows.',
  fix: 'Mark the top outline from the stations in plan.json (layers, slope), or cut upright and carve.',
  where: { path: 'slice.layers.cut' },
});

/** How near the stack comes to the ground, against upright edges of the same boards. */
function held({ foam, ground, proud, shy }: Volumes): Finding {
  const cubic = (mm3: number) => `${numberText(mm3 / 1e9, 4)} m³`;
  return {
    level: 'note',
    code: 'slice/sloped-volume',
    message: `With sloped edges the layers hold ${cubic(foam)}, the ground ${cubic(ground)}; with upright edges they would hold ${cubic(proud)} proud or ${cubic(shy)} shy.`,
    fix: 'The difference is what is carved or filled.',
    where: { path: 'slice.layers.cut' },
  };
}
