import { sheetPlugin } from './sheets/sheet.ts';
import { STRIKE } from './sheets/strike.ts';

/** strike-list.pdf: what has to go when the ground is struck: foam, cover, pins, skips. */
export const strikeList = sheetPlugin(STRIKE);
