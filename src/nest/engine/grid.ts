import { SNAP } from '../../geometry/tolerance.ts';

/** Noise of doubles that does not count when a position is put on the grid of SNAP; in steps of SNAP. */
const NOISE = 1e-6;
const PER_MM = 1 / SNAP;

/** The nearest position on the grid of SNAP; the next one up and down. */
export const onGrid = (v: number): number => Math.round(v * PER_MM) / PER_MM;
export const gridUp = (v: number): number => Math.ceil(v * PER_MM - NOISE) / PER_MM;
export const gridDown = (v: number): number => Math.floor(v * PER_MM + NOISE) / PER_MM;
