import { boxOf, type Region, ringsOf } from '../../geometry/ring.ts';
import { tidyMm } from '../../model/ground.ts';
import { type Heightfield, heightfield, isWhole } from '../../model/landform.ts';

/** A field turned by a whole number of quarter turns, counter-clockwise. Every height is kept. */
export function quarterTurned(field: Heightfield, turnDeg: number): Heightfield {
  let turned = field;
  const quarters = (((turnDeg / 90) % 4) + 4) % 4;
  for (let i = 0; i < quarters; i++) turned = once(turned);
  return turned;
}

/** (x, y) goes to (depth − y, x): columns run where rows ran back. */
function once(field: Heightfield): Heightfield {
  const { columns, rows, stepXMm, stepYMm, originMm } = field;
  const heightsMm = field.heightsMm.slice();
  for (let row = 0; row < rows; row++) {
    const column = rows - 1 - row;
    for (let i = 0; i < columns; i++) heightsMm[i * rows + column] = field.heightsMm[row * columns + i];
  }
  if (isWhole(field)) return heightfield(rows, columns, stepYMm, stepXMm, heightsMm);
  const depthMm = boxOf(ringsOf(field.footprint))[3];
  const lastMm = originMm[1] + (rows - 1) * stepYMm;
  return {
    ...field,
    columns: rows,
    rows: columns,
    stepXMm: stepYMm,
    stepYMm: stepXMm,
    originMm: [tidyMm(depthMm - lastMm), originMm[0]],
    heightsMm,
    footprint: field.footprint.map((region) => turnedRegion(region, depthMm)),
  };
}

const turnedRegion = (region: Region, depthMm: number): Region =>
  region.map((ring) => ring.map((_, i) => (i % 2 === 0 ? tidyMm(depthMm - ring[i + 1]) : ring[i - 1])));
