import type { Finding } from '../findings.ts';
import { intersect, subtract } from '../geometry/clip.ts';
import { areaOf, type Region } from '../geometry/ring.ts';
import { centroidOf } from '../geometry/support.ts';
import type { Zone } from '../model/facts.ts';
import type { Plan } from '../model/plan.ts';
import { zoneRegion } from '../model/zone.ts';
import { numberText } from '../units.ts';
import { KPA_PER_KG_M2, LASTING_FROM_TO, lastingKPa } from '../workshop/foam-load.ts';
import { coverOf } from '../workshop/materials.ts';
import { type Course, coursesOf } from './courses.ts';

/** A layer reaches under all of a zone when it lacks no more than this share of it. */
const WHOLE = 0.01;

/** The layer under a zone where pressure comes nearest to what its foam takes. */
interface Pressed {
  readonly layer: number;
  readonly kPa: number;
  readonly densityKgM3: number;
  /** Null where the table does not reach. */
  readonly mostKPa: number | null;
}

/**
 * The pressure of what the job says stands on its zones of kind lean, with the cover and the foam above, on the foam of each
 * layer beneath, against what that foam takes for long. The load counts as spread over the whole zone, going straight down:
 * a void takes its share from the foam beside it. A caution: it permits nothing, and says nothing of people, of points and of edges.
 */
export function load(plan: Plan, courses: readonly Course[] = coursesOf(plan)): Finding[] {
  return plan.facts.zones.flatMap((zone, i) =>
    zone.loadKg === null ? [] : ofZone(zone, zone.loadKg, i, plan, courses),
  );
}

function ofZone(zone: Zone, loadKg: number, number: number, plan: Plan, courses: readonly Course[]): Finding[] {
  const area = zoneRegion(zone);
  const zoneMm2 = areaOf(area);
  const called = zone.name ?? `zone ${number + 1}`;
  const under = courses.filter(({ layer }) => areaOf(subtract(area, layer.regions)) <= WHOLE * zoneMm2);
  if (under.length === 0) return [beside(called, area, number)];
  let worst: Pressed | undefined;
  let aboveKg = loadKg + coverKg(plan, zoneMm2);
  for (const { layer, pieces } of [...under].reverse()) {
    const bearing = pieces
      .map(({ name, region }) => ({ name, mm2: areaOf(intersect(area, [region])) }))
      .filter(({ mm2 }) => mm2 > 0);
    const foamMm2 = bearing.reduce((sum, { mm2 }) => sum + mm2, 0);
    if (foamMm2 <= WHOLE * zoneMm2) return [hollowUnder(called, layer.number, area)];
    const densityKgM3 = Math.min(...bearing.map(({ name }) => densityOf(name, plan)));
    const kPa = (aboveKg / (foamMm2 / 1e6)) * KPA_PER_KG_M2;
    const mostKPa = lastingKPa(densityKgM3);
    if (!worst || share({ kPa, mostKPa }) > share(worst)) worst = { layer: layer.number, kPa, densityKgM3, mostKPa };
    aboveKg += (foamMm2 * layer.thicknessMm * densityKgM3) / 1e9;
  }
  return worst ? [pressed(called, worst, area)] : [];
}

/** Of what a foam takes, how much it gets; most of all where that is not known. */
const share = ({ kPa, mostKPa }: Pick<Pressed, 'kPa' | 'mostKPa'>): number =>
  mostKPa === null ? Infinity : kPa / mostKPa;

/** The cover over an area as it lies level. Nothing where its weight is not known, which is told elsewhere. */
function coverKg({ facts: { cover } }: Plan, mm2: number): number {
  if (!cover) return 0;
  return (mm2 * cover.depthMm * (coverOf(cover).densityKgM3 ?? 0)) / 1e9;
}

function densityOf(name: string, { boards }: Plan): number {
  return boards.find(({ placed }) => placed.some(({ piece }) => piece === name))?.densityKgM3 ?? 0;
}

const CAUTION =
  'This is a caution and no permission: it proves nothing about people, edges, points, wind or fire. Ask a competent person; local codes go first.';
const SOURCE = 'stress at 1 % strain, ASTM D6817 as makers of geofoam print it, if it is expanded polystyrene';

const at = (area: readonly Region[]) => [...centroidOf(area[0])] as const;
const kPaText = (kPa: number): string => `${numberText(kPa, kPa < 10 ? 2 : 0)} kPa`;

function pressed(called: string, { layer, kPa, densityKgM3, mostKPa }: Pressed, area: readonly Region[]): Finding {
  const foam = `foam of ${numberText(densityKgM3, 1)} kg/m³`;
  const presses = `The load on ${called} presses with ${kPaText(kPa)} on this layer, cover and foam above counted.`;
  const where = { layer, atMm: at(area) };
  if (mostKPa === null) {
    const [least, most] = LASTING_FROM_TO.map((density) => numberText(density, 1));
    const message = `${presses} What ${foam} takes for long is not known here: the table runs from ${least} to ${most} kg/m³.`;
    return {
      level: 'watch',
      code: 'checks/load-unknown',
      message,
      fix: `Ask its maker for the lasting load. ${CAUTION}`,
      where,
    };
  }
  const limit = `${foam} creeps under more than about ${kPaText(mostKPa)} (${SOURCE})`;
  return kPa > mostKPa
    ? {
        level: 'stop',
        code: 'checks/load-over',
        message: `${presses} That is too much: ${limit}.`,
        fix: `Spread it with a plate, take denser foam there, or stand it on legs of its own. ${CAUTION}`,
        where,
      }
    : { level: 'note', code: 'checks/load', message: `${presses} For comparison: ${limit}.`, fix: CAUTION, where };
}

const hollowUnder = (called: string, layer: number, area: readonly Region[]): Finding => ({
  level: 'stop',
  code: 'checks/load-hollow',
  message: `Under the load on ${called} this layer is hollow.`,
  fix: `Lay a zone of kind solid there too, or split solid. ${CAUTION}`,
  where: { layer, atMm: at(area) },
});

const beside = (called: string, area: readonly Region[], number: number): Finding => ({
  level: 'watch',
  code: 'checks/load-beside',
  message: `The load on ${called} does not stand on foam alone: no layer reaches under all of its outline.`,
  fix: `Draw the zone as what stands there touches the ground. ${CAUTION}`,
  where: { path: `zones.${number}`, atMm: at(area) },
});
