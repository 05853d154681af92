import { refuse } from '../findings.ts';
import { lapMm, TIMES_THICKNESS } from '../model/layer.ts';
import { zoneRegions } from '../model/zone.ts';
import { definePlugin } from '../plugin.ts';
import { numberText } from '../units.ts';
import { hollowing, type Sizes } from './hollow/voids.ts';
import { piecesOf } from './pieces/pieces.ts';
import { type Props, propMm } from './pieces/props.ts';
import { seamOptions } from './pieces/seam-options.ts';

/** A lid spans so many thicknesses, and so much at least where boards are thin (our choice, common practice has 8 to 12). */
const SPAN = 12;
const LEAST_SPAN_MM = 300;

/**
 * Layers hollow: each keeps what is seen and what the next one bears on (hollow/voids.ts), and is divided by seams where no
 * board holds it. The layer on top has no void.
 *
 * No point of a layer is farther from foam beneath it than half of what its thickness spans: where a void is wider, props
 * stand in it (pieces/props.ts), pieces of their own to be cut from the plug of that void, or webs where they stand near its
 * edge. Foam stays under paths and flats, and in zones of kind solid, down to the floor: for who steps there by mistake, since
 * foam carries nobody even so. A flat is as wide as a path is made (600 mm, our choice: at a foot's 250 mm a gentle bank is
 * all flats, and the moor of the samples takes 50 boards for 29); narrower steps over voids are marked DO NOT STEP.
 */
export const hollow = definePlugin({
  api: 1,
  stage: 'split',
  name: 'hollow',
  summary: 'leaves out of each layer what nobody sees and nothing bears on',
  options: ({ z, length }) =>
    z.strictObject({
      lap: z
        .union([
          length({ least: 5 }),
          z.string().regex(TIMES_THICKNESS, { error: 'This is not a lap.\nWrite 60, 60 mm or 1.5 x thickness.' }),
        ])
        .optional()
        .describe(
          'width by which a layer bears on the one beneath, or 1.5 x thickness; not said, its height, at least 40 mm',
        ),
      leastVoid: length({ above: 0 }).prefault('200 mm').describe('narrowest void that is worth the cut'),
      spacing: length({ above: 0 })
        .optional()
        .describe(
          'of props in wide voids, centre to centre; not said, as a lid spans: 12 thicknesses, at least 300 mm',
        ),
      prop: length({ least: 20 })
        .optional()
        .describe('side of a square prop; not said, 3 thicknesses, at least 100 mm'),
      flat: length({ least: 50 })
        .prefault('600 mm')
        .describe('what is seen of a layer and is so wide all round is a path or a flat, where somebody may step'),
      underFlats: z.enum(['solid', 'hollow']).default('solid').describe('what lies beneath paths and flats'),
      seams: seamOptions({ z, length }),
    }),
  run(input, { lap, leastVoid, spacing, prop, flat, underFlats, seams }, context) {
    const props = (thicknessMm: number): Props => {
      const sizeMm = prop ?? propMm(thicknessMm);
      const spacingMm = spacing ?? sizeMm + Math.max(LEAST_SPAN_MM, SPAN * thicknessMm) / Math.SQRT2;
      return spacingMm >= sizeMm + LEAST_BETWEEN_MM ? { spacingMm, sizeMm } : tooClose(spacingMm, sizeMm);
    };
    for (const { thicknessMm } of input.stack.layers) props(thicknessMm);
    const sizes: Sizes = {
      lapMm: ({ thicknessMm }) => lapMm(lap, thicknessMm),
      propsFor: ({ thicknessMm }) => props(thicknessMm),
      leastVoidMm: leastVoid,
      flatMm: underFlats === 'solid' ? flat : Infinity,
      solid: zoneRegions(context.facts.zones, 'solid'),
    };
    return piecesOf(input, context, hollowing(sizes), seams);
  },
});

/** Props closer than this leave no void that anybody cuts. */
const LEAST_BETWEEN_MM = 20;

const tooClose = (spacingMm: number, sizeMm: number): never =>
  refuse(
    'split/props-too-close',
    `Props of ${numberText(sizeMm)} mm at a spacing of ${numberText(spacingMm)} mm leave no void between them.`,
    `Say a spacing of ${numberText(sizeMm + LEAST_BETWEEN_MM)} mm or more, or a smaller prop; or split solid.`,
    { path: 'split.hollow.spacing' },
  );
