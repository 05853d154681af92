import { BLOCK } from './block.ts';
import { BUYING } from './buying.ts';
import { CARRYING } from './carrying.ts';
import { CLOCK } from './clock.ts';
import { CUTTING } from './cutting.ts';
import { FLOOR } from './floor.ts';
import { RISK } from './risk.ts';
import type { WorkSheet } from './sheet.ts';
import { STRIKE } from './strike.ts';
import { WIRE } from './wire.ts';

/** Every subject of the work, in the order in which a crew meets it. */
export const WORK_SHEETS: readonly WorkSheet[] = [CLOCK, BUYING, BLOCK, WIRE, CUTTING, CARRYING, FLOOR, RISK, STRIKE];
