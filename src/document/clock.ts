import { CLOCK } from './sheets/clock.ts';
import { sheetPlugin } from './sheets/sheet.ts';

/** clock.pdf: the latest start of every job, backwards from the opening, the float, and what to drop. */
export const clock = sheetPlugin(CLOCK);
