import { sheetPlugin } from './sheets/sheet.ts';
import { WIRE } from './sheets/wire.ts';

/** wire-sheet.pdf: ohms, amps, volts and watts of the wire in air and in foam, its supply, its pull. */
export const wireSheet = sheetPlugin(WIRE);
