import { type HeightLine, heightAt, partsOver } from '../../geometry/height-line.ts';
import { simplifiedLine } from '../../geometry/simplify.ts';
import type { Bare, Pass } from './crossings.ts';

/** How far an upper edge may be from the ground to have fewer points: less than a tenth even on a slope of 70°. */
const EDGE_MM = 0.03;

/** What of the ground over a line of the grid a rib reaches up to. */
export interface Standing {
  readonly stretches: readonly HeightLine[];
  /** Whether a rib ends where the ground goes on, since it would be too low. */
  readonly isCut: boolean;
  /** Heights at the ends of the ground. */
  readonly endsMm: readonly number[];
}

/** The upper edges of ribs under some ground, less a depth, where they are `leastMm` high or higher and `longMm` long or longer. */
export function stretchesUnder(
  ground: readonly HeightLine[],
  depthMm: number,
  leastMm: number,
  longMm: number,
): Standing {
  const edges = ground.map((line) => line.map((value, i) => (i % 2 === 0 ? value : value - depthMm)));
  const stretches = edges.flatMap((edge) => partsOver(edge, leastMm, longMm));
  const isCut = lengthOf(stretches) < lengthOf(edges) - longMm;
  const endsMm = edges.flatMap((edge) => [edge[1], edge[edge.length - 1]]);
  return { stretches: stretches.map((line) => simplifiedLine(line, EDGE_MM)), isCut, endsMm };
}

const lengthOf = (lines: readonly HeightLine[]): number =>
  lines.reduce((sum, line) => sum + line[line.length - 2] - line[0], 0);

/** How far the ground falls across half the thickness of either rib at a crossing: what a square edge stands out by. */
export function crossFallMm(
  firsts: readonly Bare[],
  seconds: readonly Bare[],
  { first, firstStretch, second, secondStretch }: Pass,
  thicknessMm: number,
): number {
  const [a, b] = [firsts[first], seconds[second]];
  const fall = (line: HeightLine, at: number) =>
    Math.abs(heightAt(line, at + thicknessMm / 2) - heightAt(line, at - thicknessMm / 2)) / 2;
  return Math.max(fall(a.stretches[firstStretch], b.atMm), fall(b.stretches[secondStretch], a.atMm));
}
