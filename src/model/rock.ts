import type { Point, Region } from '../geometry/ring.ts';

export type Direction = readonly [x: number, y: number, z: number];

/** How a rock is to be carved, and how it stands afterwards. */
export interface RockRules {
  /** What the coat takes off the design, square to the surface: the foam is carved to that. */
  readonly coatMm: number;
  /** Foam that stands over the carved surface everywhere, square to it, for the carver to find the form in. */
  readonly allowanceMm: number;
  /** Where the rock's underside faces while it lies to be glued: along one axis, of length 1. */
  readonly seat: Direction;
  /** How much of its height stands in the ground, 0…1. */
  readonly buried: number;
}

/** A rock as it will stand, for who asks whether it tips. */
export interface StandingRock extends RockRules {
  readonly volumeMm3: number;
  readonly heightMm: number;
  /** Middle of mass over the seat, foam alone. */
  readonly massHeightMm: number;
  /** From below the middle of mass to the nearest edge about which it could tip, in plan; 0 or less: it falls. */
  readonly edgeMm: number;
  /** From the seat's plane to a point of the rock as it lies, along the axis of the seat: `at` times `seat`, from this. */
  readonly seatAtMm: number;
}

/** The carved surface where it passes the two faces of a layer. */
export interface Finish {
  readonly top: readonly Region[];
  readonly underside: readonly Region[];
}

/** How deep foam is carved at a place on a piece's edge, level, at its two faces; null where all of that face goes. */
export interface CarveStation {
  readonly at: Point;
  readonly topMm: number | null;
  readonly undersideMm: number | null;
}

/** Height over the plane of the seat, of a point of the rock as it lies. */
export const overSeat = ({ seat, seatAtMm }: StandingRock, x: number, y: number, z: number): number =>
  seatAtMm - (seat[0] * x + seat[1] * y + seat[2] * z);
