import { refuse } from '../findings.ts';
import { share } from '../geometry/share.ts';
import { boardThickness } from '../model/board-thickness.ts';
import { extent } from '../model/landform.ts';
import type { Layer, LayerStack } from '../model/layer.ts';
import { definePlugin, type Walk } from '../plugin.ts';
import { carvedAt, finishes, grown } from './rock/grown.ts';
import { standing } from './rock/standing.ts';

/** More boards than this in one rock is a slip of a unit. */
const MOST_LAYERS = 2000;

/**
 * A rock in layers that are each cut rough before they are glued, for a wire will not pass glue: the finished shape less its
 * coat, and over that the carver's allowance on all sides. With each layer goes the line of the carved surface on its two faces.
 */
export const rock = definePlugin({
  api: 1,
  stage: 'slice',
  name: 'rock',
  summary: 'cuts a rock into layers with an allowance to carve, and the carved line on each',
  options: ({ z, length }) =>
    z.strictObject({
      thickness: length({ above: 0 }).optional().describe('of the boards; must be said when there are several'),
    }),
  *run(landform, { thickness }, { facts }): Walk<LayerStack> {
    if (landform.kind !== 'solid' || !landform.rock) return noRock();
    const { rock } = landform;
    const thicknessMm =
      thickness === undefined
        ? facts.thicknessesMm.length === 1
          ? facts.thicknessesMm[0]
          : whichBoard(facts.thicknessesMm)
        : boardThickness(thickness, facts, 'slice.rock.thickness');
    const growMm = Math.max(0, rock.allowanceMm - rock.coatMm);
    const count = Math.ceil((extent(landform).highMm + growMm) / thicknessMm - 1e-9);
    if (count > MOST_LAYERS) tooMany(count);
    const surface = { positions: landform.positionsMm, triangles: landform.triangles };
    // Whole micrometres, never sums of doubles.
    const um = Math.round(thicknessMm * 1000);
    const levels = Float64Array.from({ length: count + 1 }, (_, k) => (k * um) / 1000);
    const outlines = yield* share(grown(surface, levels, growMm), 0, 0.6);
    while (outlines.at(-1)?.length === 0) outlines.pop();
    const gap = outlines.findIndex((regions) => regions.length === 0);
    if (gap >= 0) floating(gap + 1);
    const lines = yield* share(carvedAt(surface, levels, rock.coatMm), 0.6, 1);
    if (lines.every((regions) => regions.length === 0)) allCoat(rock.coatMm);
    const finish = finishes(lines);
    const layers = outlines.map(
      (regions, k): Layer => ({ number: k + 1, bottomMm: levels[k], thicknessMm, regions, finish: finish[k] }),
    );
    return { kind: 'flat', layers, rock: standing(landform, rock) };
  },
});

const noRock = (): never =>
  refuse(
    'slice/no-rock',
    'Nothing says how this ground is carved as a rock.',
    'Put rock last in shape (shape: [ rock ]), with a solid as the source; or slice: layers.',
    { path: 'slice.rock' },
  );

const whichBoard = (thicknessesMm: readonly number[]): never =>
  refuse(
    'slice/which-board',
    thicknessesMm.length === 0
      ? 'There is no board on sale.'
      : `Boards of several thicknesses are on sale: ${thicknessesMm.join(', ')} mm.`,
    'Say which: slice: { rock: { thickness: … } }.',
    { path: 'slice.rock.thickness' },
  );

const tooMany = (count: number): never =>
  refuse('slice/too-many-layers', `The rock would take ${count} layers.`, 'Check its unit, or use thicker boards.', {
    path: 'slice.rock.thickness',
  });

const floating = (layer: number): never =>
  refuse(
    'slice/floating',
    `Layer ${layer} of the rock is empty and there is foam above it: it is of two bodies.`,
    'Build each body as a rock of its own, or lay it on another side with shape: [ rock: { bed: … } ].',
    { layer },
  );

const allCoat = (coatMm: number): never =>
  refuse(
    'slice/all-coat',
    `A coat of ${coatMm} mm leaves no foam of the rock at the face of any layer.`,
    'Check the unit of the model and the coat.',
    { path: 'shape.rock.coat' },
  );
