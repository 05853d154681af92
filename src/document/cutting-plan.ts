import { CUTTING } from './sheets/cutting.ts';
import { sheetPlugin } from './sheets/sheet.ts';

/** cutting-plan.pdf: boards and pieces in the order of cutting, with metres, minutes and hands. */
export const cuttingPlan = sheetPlugin(CUTTING);
