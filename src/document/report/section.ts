import { linesInside } from '../../geometry/clip.ts';
import { isInside, type Region } from '../../geometry/ring.ts';
import type { Landform, Solid } from '../../model/landform.ts';
import type { Raster } from '../../model/raster.ts';

/** An upright cut through the ground: along x at a y, or along y at an x. */
export interface Section {
  readonly along: 'x' | 'y';
  readonly atMm: number;
  /** Row or column of the raster that it runs through the middle of. */
  readonly line: number;
}

/** The two sections through the highest ground of a raster; none where nothing is ground. */
export function sectionsThroughTop({ columns, stepMm, heightsMm }: Raster): Section[] {
  let top = -1;
  for (let i = 0; i < heightsMm.length; i++) {
    if (!Number.isNaN(heightsMm[i]) && (top < 0 || heightsMm[i] > heightsMm[top])) top = i;
  }
  if (top < 0) return [];
  const [column, row] = [top % columns, Math.floor(top / columns)];
  return [
    { along: 'x', atMm: (row + 0.5) * stepMm, line: row },
    { along: 'y', atMm: (column + 0.5) * stepMm, line: column },
  ];
}

/** Where a section runs inside flat regions: from, to, from, to … along it, rising. */
export function runsInside({ along, atMm }: Section, regions: readonly Region[], lengthMm: number): number[] {
  const line = along === 'x' ? [-1, atMm, lengthMm + 1, atMm] : [atMm, -1, atMm, lengthMm + 1];
  const own = along === 'x' ? 0 : 1;
  const runs = linesInside([new Float64Array(line)], regions).map((run) => {
    const ends = [run[own], run[run.length - 2 + own]];
    return [Math.min(...ends), Math.max(...ends)];
  });
  return runs.sort((a, b) => a[0] - b[0] || a[1] - b[1]).flat();
}

/**
 * The ground in a section, as open lines of (distance along it, height). Of a heightfield the raster's row or column; of a
 * solid its triangles cut one by one, undersides too, each a line of its own.
 */
export const groundIn = (section: Section, landform: Landform, raster: Raster): Float64Array[] =>
  landform.kind === 'solid' ? cutTriangles(section, landform) : rasterLines(section, raster);

function rasterLines({ along, line }: Section, { columns, rows, stepMm, heightsMm }: Raster): Float64Array[] {
  const lines: number[][] = [];
  let isOpen = false;
  for (let i = 0; i < (along === 'x' ? columns : rows); i++) {
    const height = along === 'x' ? heightsMm[line * columns + i] : heightsMm[i * columns + line];
    if (Number.isNaN(height)) {
      isOpen = false;
      continue;
    }
    if (!isOpen) lines.push([]);
    isOpen = true;
    lines[lines.length - 1].push((i + 0.5) * stepMm, height);
  }
  return lines.filter((each) => each.length >= 4).map((each) => new Float64Array(each));
}

function cutTriangles({ along, atMm }: Section, { positionsMm: p, triangles, footprint }: Solid): Float64Array[] {
  const lines: Float64Array[] = [];
  const [own, across] = along === 'x' ? [0, 1] : [1, 0];
  for (let t = 0; t < triangles.length; t += 3) {
    const ends: number[] = [];
    for (let side = 0; side < 3; side++) {
      const a = 3 * triangles[t + side];
      const b = 3 * triangles[t + ((side + 1) % 3)];
      // On the plane counts as beyond it, so that a corner is met once.
      if (p[a + across] < atMm === p[b + across] < atMm) continue;
      const share = (atMm - p[a + across]) / (p[b + across] - p[a + across]);
      ends.push(p[a + own] + (p[b + own] - p[a + own]) * share, p[a + 2] + (p[b + 2] - p[a + 2]) * share);
    }
    if (ends.length !== 4) continue;
    const middle = (ends[0] + ends[2]) / 2;
    const [x, y] = along === 'x' ? [middle, atMm] : [atMm, middle];
    if (!footprint || isInside(x, y, footprint)) lines.push(new Float64Array(ends));
  }
  return lines;
}
