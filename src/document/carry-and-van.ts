import { CARRYING } from './sheets/carrying.ts';
import { sheetPlugin } from './sheets/sheet.ts';

/** carry-and-van.pdf: every piece with its weight and hands, bundles in the order of loading, trips. */
export const carryAndVan = sheetPlugin(CARRYING);
