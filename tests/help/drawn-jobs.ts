import { inlineJob } from './jobs.ts';
import { textStl } from './solid-files.ts';
import { prism, solid, together } from './solids.ts';

/** Two small invented jobs to draw: a sketched bank cut shy and left solid, and a rock from a file cut proud and hollowed. */

/** A bank with a knoll, in inches, seen from the west. */
export const ottersBank = () =>
  inlineJob(`name: Otters' bank
unit: in
source:
  sketch:
    size: [62, 41]
    spacing: 1
    level: 2.4
    features:
      - mound: { at: [21, 17], radii: [26, 15], turn: 20, height: 5.6 }
      - mound: { at: [48, 30], radii: [11, 8], turn: -30, height: 3.1, profile: bell }
      - gully: { along: [[40, -3], [35, 12], [44, 22]], width: 9, floor: 3, depth: 1.2 }
cover: { material: wet sand, depth: 0.75 }
stock:
  boards: [ { name: EPS 70, size: [48, 24], thickness: 2, density: 15, price: 9.8, trim: 0.25 } ]
tool: { kind: knife, kerf: 1 mm }
gap: 0.5
slice: { layers: { cut: shy } }
split: solid
nest: { boards: { effort: 4000 } }
front: { side: west, word: PORCH }
seed: 4
documents: [ board-svg, report ]
`);

/** A leaning block with a smaller one on its shoulder, a boulder of flat faces. */
const boulder = together(
  solid(
    [
      [40, 30, 0],
      [610, 0, 0],
      [660, 420, 0],
      [0, 470, 0],
      [95, 70, 118],
      [520, 62, 141],
      [566, 380, 133],
      [61, 402, 126],
    ],
    [
      [3, 2, 1, 0],
      [4, 5, 6],
      [4, 6, 7],
      [0, 1, 5],
      [0, 5, 4],
      [1, 2, 6],
      [1, 6, 5],
      [2, 3, 7],
      [2, 7, 6],
      [3, 0, 4],
      [3, 4, 7],
    ],
  ),
  prism(
    [
      [760, 90],
      [905, 130],
      [880, 310],
      [731, 275],
    ],
    0,
    71,
  ),
);

/** Two boulders of a river bed, hollowed, on small boards. */
export const riverStones = () =>
  inlineJob(
    `name: River stones
source: { mesh: { file: stones.stl, unit: mm } }
stock:
  boards: [ { name: XPS 30, size: [600, 500], thickness: 30, density: 33, price: 6.25, count: 20, trim: 4 } ]
tool: { kind: hot wire, kerf: 1.5, throat: 700 }
gap: 8
slice: { layers: { cut: proud } }
split: { hollow: { lap: 45, leastVoid: 90 } }
nest: { boards: { effort: 4000 } }
front: { side: south, word: WINDOW }
seed: 6
documents: [ board-svg, report ]
`,
    { 'stones.stl': textStl(boulder) },
  );
