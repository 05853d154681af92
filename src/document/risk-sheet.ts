import { RISK } from './sheets/risk.ts';
import { sheetPlugin } from './sheets/sheet.ts';

/** risk-sheet.pdf: the dangers of the work in plain words, what is done about each, and who agreed. */
export const riskSheet = sheetPlugin(RISK);
