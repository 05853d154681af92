import { assemblyPdf } from './document/assembly-pdf.ts';
import { blockSheet } from './document/block-sheet.ts';
import { boardSvg } from './document/board-svg.ts';
import { buyingList } from './document/buying-list.ts';
import { carryAndVan } from './document/carry-and-van.ts';
import { clock } from './document/clock.ts';
import { cutList } from './document/cut-list.ts';
import { cutListPdf } from './document/cut-list-pdf.ts';
import { cuttingPlan } from './document/cutting-plan.ts';
import { floorSheet } from './document/floor-sheet.ts';
import { gridPdf } from './document/grid-pdf.ts';
import { labelsPdf } from './document/labels-pdf.ts';
import { measureOffPdf } from './document/measure-off-pdf.ts';
import { offcuts } from './document/offcuts.ts';
import { pagesPdf } from './document/pages-pdf.ts';
import { pieceSvg } from './document/piece-svg.ts';
import { planJson } from './document/plan-json.ts';
import { report } from './document/report.ts';
import { riskSheet } from './document/risk-sheet.ts';
import { rollPdf } from './document/roll-pdf.ts';
import { strikeList } from './document/strike-list.ts';
import { throwPage } from './document/throw-page.ts';
import { traceUp } from './document/trace-up.ts';
import { wireSheet } from './document/wire-sheet.ts';
import { boards } from './nest/boards.ts';
import { type AnyPlugin, registry } from './registry.ts';
import { base } from './shape/base.ts';
import { cover } from './shape/cover.ts';
import { crop } from './shape/crop.ts';
import { fit } from './shape/fit.ts';
import { flatten } from './shape/flatten.ts';
import { join } from './shape/join.ts';
import { mirror } from './shape/mirror.ts';
import { rock as laidRock } from './shape/rock.ts';
import { smooth } from './shape/smooth.ts';
import { steepest } from './shape/steepest.ts';
import { terrace } from './shape/terrace.ts';
import { turn } from './shape/turn.ts';
import { layers } from './slice/layers.ts';
import { ribs as standingRibs } from './slice/ribs.ts';
import { rock as roughRock } from './slice/rock.ts';
import { contourDrawing } from './source/contour-drawing.ts';
import { geotiff } from './source/geotiff.ts';
import { heightGrid } from './source/height-grid.ts';
import { heightImage } from './source/height-image.ts';
import { mesh } from './source/mesh.ts';
import { sketch } from './source/sketch.ts';
import { spotHeights } from './source/spot-heights.ts';
import { hollow } from './split/hollow.ts';
import { ribs as lappedRibs } from './split/ribs.ts';
import { rings } from './split/rings.ts';
import { rock as carvedRock } from './split/rock.ts';
import { solid } from './split/solid.ts';

/** Every plugin that comes with the program. Adding one: its file, its cases, one line here. */
const BUILTIN: readonly AnyPlugin[] = [
  sketch,
  heightImage,
  heightGrid,
  geotiff,
  contourDrawing,
  mesh,
  spotHeights,
  fit,
  crop,
  smooth,
  steepest,
  join,
  terrace,
  flatten,
  turn,
  laidRock,
  mirror,
  base,
  cover,
  layers,
  standingRibs,
  roughRock,
  solid,
  hollow,
  rings,
  lappedRibs,
  carvedRock,
  report,
  boardSvg,
  pieceSvg,
  pagesPdf,
  rollPdf,
  gridPdf,
  throwPage,
  cutList,
  cutListPdf,
  clock,
  buyingList,
  blockSheet,
  wireSheet,
  cuttingPlan,
  carryAndVan,
  floorSheet,
  riskSheet,
  strikeList,
  measureOffPdf,
  assemblyPdf,
  labelsPdf,
  traceUp,
  offcuts,
  planJson,
  boards,
];

export const builtin = registry(BUILTIN);
