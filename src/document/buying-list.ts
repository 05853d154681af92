import { BUYING } from './sheets/buying.ts';
import { sheetPlugin } from './sheets/sheet.ts';

/** buying-list.pdf: what to order from whom until when, with spares, and money against the budget. */
export const buyingList = sheetPlugin(BUYING);
