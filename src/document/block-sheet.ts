import { BLOCK } from './sheets/block.ts';
import { sheetPlugin } from './sheets/sheet.ts';

/** block-sheet.pdf: a block into boards: thickness, numbered cuts with rail heights, against bought boards. */
export const blockSheet = sheetPlugin(BLOCK);
