import { refuse } from '../findings.ts';
import { share } from '../geometry/share.ts';
import { oneThickness } from '../model/board-thickness.ts';
import { tidyMm } from '../model/ground.ts';
import { extent } from '../model/landform.ts';
import type { Layer, LayerStack } from '../model/layer.ts';
import { definePlugin, type Walk } from '../plugin.ts';
import { bounded, levelsMm, thicknessesUpTo } from './layers/levels.ts';
import { carvedAt, finishes, grown } from './rock/grown.ts';
import { standing } from './rock/standing.ts';

const BOARDS = {
  path: 'slice.rock.thickness',
  each: 'layer',
  fix: 'Say which the layers are cut from: slice: { rock: { thickness: … } }.',
};

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
    const thicknessMm = oneThickness(thickness, facts, BOARDS);
    const growMm = Math.max(0, rock.allowanceMm - rock.coatMm);
    const highMm = tidyMm(extent(landform).highMm + growMm);
    bounded(highMm, thicknessMm, BOARDS.path);
    const surface = { positions: landform.positionsMm, triangles: landform.triangles };
    const levels = levelsMm(thicknessesUpTo(highMm, [thicknessMm]));
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
