import { type Finding, refuse } from '../../findings.ts';
import type { Zone } from '../../model/facts.ts';
import { numberText } from '../../units.ts';

const mm = (value: number, decimals = 0): string => `${numberText(value, decimals)} mm`;

const some = (names: readonly string[]): string => `${names.slice(0, 6).join(', ')}${names.length > 6 ? ' …' : ''}`;

/** The grid as it was laid, and in which order it stands up. */
export const gridTold = (
  counts: readonly [westEast: number, southNorth: number],
  apartMm: readonly [number, number],
  slopedMm: number,
): Finding => ({
  level: 'note',
  code: 'slice/rib-grid',
  message: `Ribs that run west to east: ${counts[0]}, on lines ${mm(apartMm[1])} apart; south to north: ${counts[1]}, ${mm(apartMm[0])} apart. Those west to east stand first, slots up; the others are let down into them. They carry the covering and what lies on it, nobody.`,
  fix:
    slopedMm >= 0.5
      ? `Upper edges are cut square: where the ground slopes across a rib shave its high side, up to ${mm(slopedMm, 1)} off its middle.`
      : 'Upper edges are cut square, and need no more than a rub with a sanding block.',
  where: { path: 'slice.ribs' },
});

export const lowGround = (leastMm: number, lines: readonly string[]): Finding => ({
  level: 'watch',
  code: 'slice/low-ground',
  message: `Where ribs would be lower than ${mm(leastMm, 1)} they end, and the ground goes on without them: ${some(lines)}.`,
  fix: 'Bring the covering down to the floor there over wedges of offcut, raise the ground with base, or say a smaller slice.ribs.least.',
  where: { path: 'slice.ribs.least' },
});

export const endsAgainst = (ends: number): Finding => ({
  level: 'note',
  code: 'slice/rib-ends',
  message: `${ends === 1 ? 'A rib ends' : `${ends} ribs end`} against another without a slot, since there is no room for one.`,
  fix: 'Glue and pin these ends, or move the grid with slice.ribs.edge.',
  where: { path: 'slice.ribs' },
});

export const loose = (lines: readonly string[]): Finding => ({
  level: 'watch',
  code: 'slice/loose-rib',
  message: `Ground here would be held by a rib that no other crosses, so none is cut: ${some(lines)}.`,
  fix: 'Say a closer slice.ribs.spacing, or block the place up with offcuts.',
  where: { path: 'slice.ribs.spacing' },
});

export const coveringShort = (sizeMm: readonly number[], apartMm: readonly number[]): Finding => ({
  level: 'watch',
  code: 'slice/covering-short',
  message: `Boards of the covering, ${sizeMm.map((each) => mm(each)).join(' × ')}, do not reach from rib to rib, ${apartMm.map((each) => mm(each)).join(' and ')} apart: their joints would hang in the air, and they are not counted.`,
  fix: 'Take larger boards of covering, let the ribs stand closer, or set battens under the joints.',
  where: { path: 'slice.ribs.covering.size' },
});

export const zonesOver = (zones: readonly Zone[]): Finding => ({
  level: 'watch',
  code: 'slice/rib-zones',
  message: `Between ribs is air, under ${some(zones.map(({ kind, name }) => `the zone ${name ?? kind} (${kind})`))} too, and a rib takes a load on its edge only.`,
  fix: 'Stand what loads this on the floor, or fill the bays under it with foam to the covering; what it then bears is for a competent person to say.',
  where: { path: 'zones' },
});

export const overhang = (line: string, airMm2: number): Finding => ({
  level: 'watch',
  code: 'slice/overhang',
  message: `The ground has air under it, most in ${line}: ${numberText(airMm2 / 100, 0)} cm² of it. A rib is foam from the floor up to the highest ground.`,
  fix: 'Cut this ground into layers instead, or take the overhang out of the model.',
  where: { path: 'slice.ribs' },
});

export const belowZero = (lowMm: number): never =>
  refuse(
    'slice/below-zero',
    `The ground goes down to ${mm(lowMm, 3)}: ribs stand on a floor at 0.`,
    'Set it on a base first: add base to shape.',
    { path: 'shape' },
  );

export const edgeTooNear = (leastMm: number): never =>
  refuse(
    'slice/rib-edge',
    'The outermost ribs stand so near the edge of the ground that those they cross have no foam left beyond the slot.',
    `Say slice.ribs.edge: ${numberText(Math.ceil(leastMm))} mm or more.`,
    { path: 'slice.ribs.edge' },
  );

export const tooSmall = (sidesMm: readonly number[], edgeMm: number): never =>
  refuse(
    'slice/too-small',
    `The ground is ${sidesMm.map((side) => numberText(side, 0)).join(' × ')} mm in plan: with ribs ${mm(edgeMm, 1)} inside its edges there is no room between them.`,
    'Cut so small a ground into layers, check its unit, or offer thinner boards.',
    { path: 'slice.ribs' },
  );

export const tooClose = (apartMm: number, leastMm: number): never =>
  refuse(
    'slice/rib-spacing',
    `Ribs ${mm(apartMm, 1)} from one to the next leave too little foam between their slots.`,
    `Let them be ${mm(Math.ceil(leastMm))} apart or more, or use thinner boards.`,
    { path: 'slice.ribs.spacing' },
  );

export const tooMany = (lines: number, mostLines: number): never =>
  refuse(
    'slice/too-many',
    `The grid has ${lines} lines: more than ${mostLines} ribs are not one job but a slip of a unit.`,
    'Check the units of the ground and of slice.ribs.spacing.',
    { path: 'slice.ribs.spacing' },
  );

export const nothing = (highMm: number, leastMm: number): never =>
  refuse(
    'slice/nothing',
    `The highest ground is ${mm(highMm, 1)}: less the covering no two ribs of ${mm(leastMm, 1)} or more cross under it.`,
    'Raise the ground with base, cut it into layers, or say a smaller slice.ribs.least or spacing.',
    { path: 'slice.ribs' },
  );
