import { FLOOR } from './sheets/floor.ts';
import { sheetPlugin } from './sheets/sheet.ts';

/** floor-sheet.pdf: what presses on the floor finished, wet and while it is delivered, beside the figure of the venue. */
export const floorSheet = sheetPlugin(FLOOR);
