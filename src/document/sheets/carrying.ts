import type { Block } from '../../drawing/flow/block.ts';
import type { Finding } from '../../findings.ts';
import type { Plan } from '../../model/plan.ts';
import { lengthText, numberText } from '../../units.ts';
import { type Load, loadsOf, type Trip, tripsFor, USUAL_VAN } from '../../workshop/carrying.ts';
import { TIMES_ONE_WAY } from '../../workshop/hands.ts';
import { bagLiftKg } from '../../workshop/lifting.ts';
import { massText, sizeText, volumeText } from '../report/amounts.ts';
import { caution, heading, plainValue, rulesUsed, type WorkSheet } from './sheet.ts';

/** What is carried by whom, through what, and how the van is loaded. */
export const CARRYING: WorkSheet = {
  name: 'carry-and-van',
  title: 'Carry and van',
  summary: 'every piece with its weight and hands, bundles in the order of loading, trips',
  blocks: (plan) => {
    const { unit, facts } = plan;
    const { twoPersonMm } = facts.work.rules;
    const van = facts.way.van ?? USUAL_VAN;
    const loads = loadsOf(plan);
    const trips = tripsFor(plan, loads);
    return [
      caution(
        'Large light pieces are sails: two people outdoors, no lone carries in wind. Weights are screening figures (NIOSH 94-110), not permissions; wet cover weighs far more than foam.',
      ),
      {
        kind: 'values',
        rows: [
          {
            label: 'Van: length, between wheel arches, height, payload',
            value: `${sizeText([van.lengthMm, van.widthMm, van.heightMm], unit)}, ${van.payloadKg === null ? '_______' : massText(van.payloadKg, unit)}`,
            assumed: facts.way.van === null,
          },
          ...openings(plan),
          plainValue('Foam in all', `${massText(plan.quantities.foamMassKg, unit)}, ${loads.length} pieces`),
          plainValue('Trips for the foam', `${trips.length}`),
          ...coverTrips(plan, van.payloadKg),
        ],
      },
      heading('Loading, from the top of each list: what is needed first comes out first'),
      ...trips.flatMap((trip, i) => tripBlocks(trip, i, plan)),
      heading('Pieces'),
      {
        kind: 'table',
        head: ['Piece', 'Long × short × thick', 'Raw', 'Hands', 'Covered', 'Wet', 'Hands', 'Way in'],
        rows: loads.map((load) => pieceRow(load, plan)),
        right: [2, 3, 4, 5, 6],
        note: `Covered: with its share of the cover, by the top that lies open. Two people: over ${lengthText(twoPersonMm.value, unit)} both ways or ${lengthText(TIMES_ONE_WAY * twoPersonMm.value, unit)} one way (our choice), or more than ${facts.carry.massKg === null ? '' : `the ${massText(facts.carry.massKg, unit)} said of one carrier or `}the lifting equation has for a board held flat.`,
      },
      heading('Counted with'),
      rulesUsed(plan, ['vanFill', 'bagKg', 'twoPersonMm', 'loadMinutesATrip']),
    ];
  },
  findings: (plan) => bagTooHeavy(plan),
};

function openings({ facts: { way }, unit }: Plan) {
  const { door, stair, lift } = way;
  const row = (label: string, sides: readonly number[] | null) => ({
    label,
    value: sides === null ? '_______ (not said: measure it first)' : sizeText(sides, unit),
  });
  return [
    row('Smallest door, clear width and height', door ? [door.widthMm, door.heightMm] : null),
    row('Stair, clear width', stair ? [stair.widthMm] : null),
    row('Lift, inside', lift ? [lift.widthMm, lift.lengthMm, lift.heightMm] : null),
  ];
}

function coverTrips({ facts, quantities: q, unit }: Plan, payloadKg: number | null) {
  if (!facts.cover) return [];
  if (q.coverMassKg === null) return [plainValue(facts.cover.material, 'weight not worked out')];
  const kg = q.coverMassKg * (1 + facts.work.rules.coverSpareShare.value);
  const bags = Math.ceil(kg / facts.work.rules.bagKg.value);
  const trips =
    payloadKg === null
      ? 'trips not worked out'
      : `${Math.ceil(kg / payloadKg)} trip${kg > payloadKg ? 's' : ''} by payload`;
  return [
    plainValue(
      `${facts.cover.material}, as bought`,
      `${massText(kg, unit)}, ${bags} bags, ${trips}: have it delivered`,
    ),
  ];
}

function tripBlocks({ bundles, massKg, volumeM3 }: Trip, i: number, { unit }: Plan): Block[] {
  return [
    {
      kind: 'table',
      head: [`Trip ${i + 1}`, 'Layer', 'Pieces', 'Largest × all laid up', 'Volume', 'Mass'],
      rows: bundles.map((bundle, n) => [
        n === 0 ? 'first in' : n === bundles.length - 1 ? 'last in' : '',
        `${bundle.layer}`,
        `${bundle.pieces}`,
        sizeText(bundle.sizeMm, unit),
        volumeText(bundle.volumeM3, unit),
        massText(bundle.massKg, unit),
      ]),
      right: [1, 2, 4, 5],
      ticks: true,
      note: `In all ${volumeText(volumeM3, unit)} and ${massText(massKg, unit)}. One layer a bundle, flat, thin edges inward, strapped over boards.`,
    },
  ];
}

function pieceRow(
  { piece, box, rawKg, coveredKg, wetKg, people, coveredPeople, passes }: Load,
  { unit }: Plan,
): string[] {
  const mass = (kg: number | null) => (kg === null ? 'not worked out' : massText(kg, unit));
  const hands =
    coveredPeople === 'more than two' ? 'do not lift' : coveredPeople === 'not worked out' ? '?' : `${coveredPeople}`;
  return [
    piece.name,
    sizeText(box, unit),
    mass(rawKg),
    `${people}`,
    mass(coveredKg),
    mass(wetKg),
    hands,
    passes ? 'passes' : 'DOES NOT PASS',
  ];
}

function bagTooHeavy({ facts, unit }: Plan): Finding[] {
  const { bagKg } = facts.work.rules;
  const payloadKg = facts.way.van?.payloadKg ?? null;
  if (!facts.cover || facts.cover.depthMm === 0) return [];
  if (payloadKg !== null && payloadKg < bagKg.value) {
    const message = `The van takes ${massText(payloadKg, unit)}: less than one bag of cover, ${massText(bagKg.value, unit)}.`;
    const fix = 'Mend van.payload, or have the cover delivered.';
    return [{ level: 'stop', code: 'document/payload-bag', message, fix, where: { path: 'van.payload' } }];
  }
  const most = bagLiftKg();
  if (bagKg.value <= most) return [];
  const message = `A bag of ${massText(bagKg.value, unit)} is more than the ${numberText(most, 0)} kg that the lifting equation has for a bag from the floor (NIOSH 94-110).`;
  const fix = 'Take smaller bags (rules.bagKg), lift with two, or wheel them.';
  return [{ level: 'note', code: 'document/bag-heavy', message, fix, where: { path: 'rules.bagKg' } }];
}
