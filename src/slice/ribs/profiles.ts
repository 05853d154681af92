import { linesInside, unite } from '../../geometry/clip.ts';
import { type HeightLine, partBetween, upperLines } from '../../geometry/height-line.ts';
import { areaOf, boxOf, type Region, ringsOf } from '../../geometry/ring.ts';
import { type Surface, sections } from '../../geometry/sections.ts';
import { heightOf } from '../../model/ground-height.ts';
import type { Heightfield, Landform, Solid } from '../../model/landform.ts';
import type { Walk } from '../../plugin.ts';

/** Where a line of the grid runs: along x at a y, or along y at an x. */
export interface Run {
  readonly along: 'x' | 'y';
  readonly atMm: number;
}

/** The ground over one line of the grid. */
export interface Profile {
  readonly lines: readonly HeightLine[];
  /** Air under the ground that an upright rib fills. */
  readonly airMm2: number;
}

/**
 * The ground's upper surface along each of some lines, kept where `keep` is (null: everywhere). Exact for the four triangles a
 * cell of a heightfield; of a solid the upright section, to a thousandth of a millimetre.
 */
export function* profiles(landform: Landform, runs: readonly Run[], keep: readonly Region[] | null): Walk<Profile[]> {
  const found: Profile[] = [];
  for (const along of ['x', 'y'] as const) {
    const own = runs.filter((run) => run.along === along);
    const before = found.length;
    const whole: Iterable<Profile> =
      landform.kind === 'solid'
        ? yield* ofSolid(landform, along, own)
        : own.map((run) => ({ lines: [ofField(landform, run)], airMm2: 0 }));
    for (const profile of whole) {
      const run = own[found.length - before];
      found.push({ ...profile, lines: keep ? profile.lines.flatMap((line) => kept(line, run, keep)) : profile.lines });
      yield (0.9 * found.length) / runs.length;
    }
  }
  return found;
}

/** Along x at a y, every post column and every point where the line passes a diagonal of a cell; likewise along y. */
function ofField(field: Heightfield, { along, atMm }: Run): HeightLine {
  const { originMm, columns, rows } = field;
  const [start, step, cells] =
    along === 'x' ? [originMm[0], field.stepXMm, columns - 1] : [originMm[1], field.stepYMm, rows - 1];
  const across = along === 'x' ? (atMm - originMm[1]) / field.stepYMm : (atMm - originMm[0]) / field.stepXMm;
  const share = across - Math.floor(across);
  const stops = share === 0 ? [0] : [0, Math.min(share, 1 - share), Math.max(share, 1 - share)];
  const points: number[] = [];
  for (let cell = 0; cell <= cells; cell++) {
    for (const stop of cell < cells ? stops : [0]) {
      const u = start + (cell + stop) * step;
      points.push(u, along === 'x' ? heightOf(field, u, atMm) : heightOf(field, atMm, u));
    }
  }
  return Float64Array.from(points);
}

/** Turned so that the lines' planes lie level, a solid is cut as it is into layers: (y, z, x) for planes of x, (x, z, −y) for planes of y. */
function* ofSolid(solid: Solid, along: 'x' | 'y', runs: readonly Run[]): Walk<Profile[]> {
  const p = solid.positionsMm;
  const positions = new Float64Array(p.length);
  for (let i = 0; i < p.length; i += 3) {
    positions[i] = along === 'x' ? p[i] : p[i + 1];
    positions[i + 1] = p[i + 2];
    positions[i + 2] = along === 'x' ? -p[i + 1] : p[i];
  }
  const surface: Surface = { positions, triangles: solid.triangles };
  const order = along === 'x' ? [...runs].reverse() : runs;
  const levels = order.map(({ atMm }) => (along === 'x' ? -atMm : atMm));
  const cutting = sections(surface, levels, 'above');
  let step = cutting.next();
  // How far the cutting is says little of the whole: its progress is let go.
  while (!step.done) step = cutting.next();
  const made = step.value.map((rings): Profile => {
    const regions = unite([rings]);
    const lines = upperLines(ringsOf(regions));
    const lowMm = boxOf(ringsOf(regions))[1];
    const over = lines.reduce((sum, line) => sum + areaUnder(line, lowMm), 0);
    return { lines, airMm2: Math.max(0, over - areaOf(regions)) };
  });
  return along === 'x' ? made.reverse() : made;
}

function areaUnder(line: HeightLine, lowMm: number): number {
  let area = 0;
  for (let i = 2; i < line.length; i += 2) area += (line[i] - line[i - 2]) * ((line[i + 1] + line[i - 1]) / 2 - lowMm);
  return area;
}

/** What of a profile lies over the regions. */
function kept(line: HeightLine, { along, atMm }: Run, keep: readonly Region[]): HeightLine[] {
  const [from, to] = [line[0] - 1, line[line.length - 2] + 1];
  const plan = along === 'x' ? [from, atMm, to, atMm] : [atMm, from, atMm, to];
  const own = along === 'x' ? 0 : 1;
  return linesInside([Float64Array.from(plan)], keep)
    .map((inside) => [inside[own], inside[inside.length - 2 + own]].sort((a, b) => a - b))
    .sort((a, b) => a[0] - b[0])
    .flatMap(([a, b]) => partBetween(line, a, b, 0) ?? []);
}
