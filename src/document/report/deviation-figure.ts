import { encode } from 'fast-png';
import { ringsOf } from '../../geometry/ring.ts';
import { extent } from '../../model/landform.ts';
import type { Plan } from '../../model/plan.ts';
import type { Raster } from '../../model/raster.ts';
import { lengthText, numberText } from '../../units.ts';
import { deviationRaster } from '../../workshop/deviation/raster.ts';
import { toBase64 } from './base64.ts';
import { figureSvg, flipped } from './figure.ts';
import type { Captioned } from './figures.ts';

const CELLS = 640;
/** Stripes that mark what is to be filled: so many cells from one to the next, across both ways. */
const STRIPE_CELLS = 8;
/** Depths up to this are told as flush: no hand cuts or fills closer. */
const FLUSH_MM = 0.5;

/**
 * The deviation map: how far the top of the foam stands over the ground or under it, seen from above. Plain grey is foam to
 * carve, stripes are steps to fill; the darker, the deeper. Meaning is told by stripes, not by colour: it prints in black.
 */
export function deviationFigure({ name, landform, stack: { layers }, unit, deviation }: Plan): Captioned {
  const raster = deviationRaster(landform, layers, CELLS);
  const { columns, rows, stepMm } = raster;
  const { carveMm, fillMm } = deepest(raster);
  const data = shaded(raster, Math.max(carveMm, fillMm));
  const png = toBase64(encode({ width: columns, height: rows, data, channels: 2, depth: 8 }));
  const [, , maxX, maxY] = extent(landform).box;
  const [width, height] = [columns * stepMm, rows * stepMm];
  const under = `<image href="data:image/png;base64,${png}" x="0" y="${numberText(maxY - height)}" width="${numberText(width)}" height="${numberText(height)}" preserveAspectRatio="none"/>`;
  const shapes = layers.map(({ regions }) => ({ rings: flipped(ringsOf(regions), maxY), look: 'contour' }));
  const told = [
    carveMm > FLUSH_MM ? `grey: foam to carve, at most ${lengthText(carveMm, unit)} deep` : '',
    fillMm > FLUSH_MM ? `striped: steps to fill, at most ${lengthText(fillMm, unit)} deep` : '',
  ].filter((words) => words !== '');
  const step = deviation?.largestStep;
  const steps = step
    ? ` The corner of a layer stands at most ${lengthText(step.mm, unit)} from the ground, square to it (layer ${step.layer}).`
    : '';
  return {
    svg: figureSvg({
      box: [0, 0, maxX, maxY],
      shapes,
      words: [],
      title: `From the foam to the ground: ${name}`,
      under,
    }),
    caption: `From the foam to the ground, straight up and down: ${told.length > 0 ? `${told.join('; ')}; the darker, the deeper` : 'flush'}.${steps}`,
  };
}

function deepest({ heightsMm }: Raster): { carveMm: number; fillMm: number } {
  let carveMm = 0;
  let fillMm = 0;
  for (let i = 0; i < heightsMm.length; i++) {
    if (heightsMm[i] > carveMm) carveMm = heightsMm[i];
    if (-heightsMm[i] > fillMm) fillMm = -heightsMm[i];
  }
  return { carveMm, fillMm };
}

/** Grey and alpha, the northern row first. */
function shaded({ columns, rows, heightsMm }: Raster, blackMm: number): Uint8Array {
  const picture = new Uint8Array(2 * columns * rows);
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const over = heightsMm[row * columns + column];
      if (Number.isNaN(over)) continue;
      const to = 2 * ((rows - 1 - row) * columns + column);
      const isStripe = over > 0 || (column + row) % STRIPE_CELLS < STRIPE_CELLS / 2;
      const depth = Math.abs(over) <= FLUSH_MM || !isStripe ? 0 : Math.abs(over) / blackMm;
      picture[to] = Math.round(255 - 205 * depth);
      picture[to + 1] = 255;
    }
  }
  return picture;
}
