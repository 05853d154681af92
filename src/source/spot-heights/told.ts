import { numberText } from '../../units.ts';
import type { Spots } from './doubles.ts';
import type { Points } from './points.ts';

/** So many places of one kind are told one by one. */
export const MOST_TOLD = 5;

export const columnsTaken = ({ columns: { x, y, z } }: Points, file: string) => ({
  level: 'note' as const,
  code: 'source/columns-taken',
  message: `Columns ${x + 1}, ${y + 1} and ${z + 1} were taken as x, y and height, by their order.`,
  fix: 'If it is not so, say columns: { x: 2, y: 1, z: 3 }, by number or by name.',
  where: { file },
});

export const mergedSpots = (groups: readonly (readonly number[])[], { line }: Spots, file: string) => ({
  level: 'note' as const,
  code: 'source/spots-repeated',
  message: `${groups.length} ${groups.length === 1 ? 'spot is' : 'spots are'} given more than once, with the same height: each counts once.`,
  fix: 'Nothing need be done.',
  where: { file, line: line[groups[0][1]] },
});

export const differingSpots = (group: readonly number[], { line, zMm }: Spots, count: number, file: string) => ({
  level: 'watch' as const,
  code: 'source/spots-differ',
  message: `Lines ${group
    .slice(0, MOST_TOLD)
    .map((i) => line[i])
    .join(
      ', ',
    )} give one place heights from ${numberText(least(group.map((i) => zMm[i])), 1)} to ${numberText(-least(group.map((i) => -zMm[i])), 1)} mm: their mean is taken.${others(count)}`,
  fix: 'Take out those that are wrong.',
  where: { file, line: line[group[group.length - 1]] },
});

export const outlier = (
  { at, offMm }: { at: number; offMm: number },
  { xMm, yMm, line }: Spots,
  [x, y]: readonly [number, number],
  count: number,
  file: string,
) => ({
  level: 'watch' as const,
  code: 'source/outlier',
  message: `This spot lies ${numberText(Math.abs(offMm), 1)} mm ${offMm > 0 ? 'above' : 'below'} what its neighbours lead to, far more than others do; it was kept.${others(count)}`,
  fix: 'Look at it. If it is a slip of measuring or typing, take the line out.',
  where: { file, line: line[at], atMm: [xMm[at] - x, yMm[at] - y] as const },
});

export const missed = (
  { off, x, y }: { off: number; x: number; y: number },
  { xMm, yMm }: Spots,
  [minX, minY]: readonly [number, number],
  file: string,
) => {
  const distances = Array.from(
    xMm,
    (at, i) => (at - minX - x) * (at - minX - x) + (yMm[i] - minY - y) * (yMm[i] - minY - y),
  );
  const apart = Math.sqrt(distances.sort((a, b) => a - b)[1] ?? 0);
  return {
    level: 'watch' as const,
    code: 'source/spots-missed',
    message: `The ground misses a spot by ${numberText(off, 1)} mm: more spots stand close together here than posts can follow.`,
    fix: `A spacing of ${numberText(Math.max(0.01, apart / 2), 2)} mm would follow them.`,
    where: { file, atMm: [x, y] as const },
  };
};

const others = (count: number): string => (count > MOST_TOLD ? ` (${count} such places in all.)` : '');

/** The least of some numbers; Infinity of none. */
export function least(values: ArrayLike<number>): number {
  let low = Infinity;
  for (let i = 0; i < values.length; i++) if (values[i] < low) low = values[i];
  return low;
}
