/**
 * Curves as points along them, never farther from the curve than a tolerance. How many points a curve needs is known at
 * once: a chord over a step h of the parameter misses by at most h² · max|B″| / 8, and the second derivative of a Bézier
 * curve lies in the hull of its control points' second differences (Filip, Magedson, Markot, "Surface algorithms using
 * bounds on derivatives", 1986). Nothing recurses, and nothing runs on for a hostile curve: each has a most.
 */
import { type Affine, mapped, stretchOf } from './affine.ts';
import { atan2, cos, PI, sin, turn } from './exact-math.ts';

/** A line of points, flat x, y. A closed one repeats its first point. */
export interface FlatLine {
  readonly points: Float64Array;
  readonly isClosed: boolean;
}

/** Points of one curve at most; even a circle of 100 km within 0.02 mm needs fewer. */
const MOST_STEPS = 200_000;

/** Draws lines and curves in one plane and keeps them as points in another. Curves are mapped before they are divided. */
export class Flattener {
  readonly lines: FlatLine[] = [];
  /** Points kept so far. */
  count = 0;
  readonly #map: Affine;
  readonly #tolerance: number;
  readonly #most: number;
  #points: number[] = [];
  // Where the pen is and where its line began, before the map.
  #x = 0;
  #y = 0;
  #startX = 0;
  #startY = 0;

  /** @param most points; past it what is drawn is dropped, and `isFull`. */
  constructor(map: Affine, tolerance: number, most: number) {
    this.#map = map;
    this.#tolerance = tolerance;
    this.#most = most;
  }

  get isFull(): boolean {
    return this.count > this.#most;
  }

  get x(): number {
    return this.#x;
  }

  get y(): number {
    return this.#y;
  }

  moveTo(x: number, y: number): void {
    this.end();
    this.#x = this.#startX = x;
    this.#y = this.#startY = y;
  }

  lineTo(x: number, y: number): void {
    this.#begin();
    this.#add(...mapped(this.#map, x, y));
    this.#x = x;
    this.#y = y;
  }

  quadraticTo(x1: number, y1: number, x: number, y: number): void {
    // The same curve as a cubic one.
    const third = (from: number, control: number) => from + (2 / 3) * (control - from);
    this.cubicTo(third(this.#x, x1), third(this.#y, y1), third(x, x1), third(y, y1), x, y);
  }

  cubicTo(x1: number, y1: number, x2: number, y2: number, x: number, y: number): void {
    this.#begin();
    const [ax, ay] = mapped(this.#map, this.#x, this.#y);
    const [bx, by] = mapped(this.#map, x1, y1);
    const [cx, cy] = mapped(this.#map, x2, y2);
    const [dx, dy] = mapped(this.#map, x, y);
    const bend = Math.max(norm(ax - 2 * bx + cx, ay - 2 * by + cy), norm(bx - 2 * cx + dx, by - 2 * cy + dy));
    const steps = this.#steps(Math.sqrt((6 * bend) / (8 * this.#tolerance)));
    for (let i = 1; i < steps; i++) {
      const t = i / steps;
      const s = 1 - t;
      const [p, q, r, w] = [s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t];
      this.#add(p * ax + q * bx + r * cx + w * dx, p * ay + q * by + r * cy + w * dy);
    }
    this.#add(dx, dy);
    this.#x = x;
    this.#y = y;
  }

  /** An arc of an ellipse, said and mended as in SVG 2, B.2: by its ends, radii, turn of its x axis, and which of four it is. */
  arcTo(rx: number, ry: number, turnDeg: number, isLarge: boolean, isSweep: boolean, x: number, y: number): void {
    if (x === this.#x && y === this.#y) return;
    let [a, b] = [Math.abs(rx), Math.abs(ry)];
    if (a === 0 || b === 0) {
      this.lineTo(x, y);
      return;
    }
    this.#begin();
    const axis = turn(turnDeg);
    const [halfX, halfY] = [(this.#x - x) / 2, (this.#y - y) / 2];
    const px = axis.cos * halfX + axis.sin * halfY;
    const py = axis.cos * halfY - axis.sin * halfX;
    // In the circle that the ellipse is when its radii are 1.
    let [ux, uy] = [px / a, py / b];
    const squared = ux * ux + uy * uy;
    if (squared > 1) {
      const grown = Math.sqrt(squared);
      [a, b, ux, uy] = [a * grown, b * grown, ux / grown, uy / grown];
    }
    const off = Math.sqrt(Math.max(0, 1 / Math.min(1, squared) - 1)) * (isLarge === isSweep ? -1 : 1);
    const [mx, my] = [off * uy, -off * ux];
    const from = atan2(uy - my, ux - mx);
    let sweep = atan2(-uy - my, -ux - mx) - from;
    if (isSweep && sweep < 0) sweep += 2 * PI;
    if (!isSweep && sweep > 0) sweep -= 2 * PI;
    const centreX = axis.cos * mx * a - axis.sin * my * b + (this.#x + x) / 2;
    const centreY = axis.sin * mx * a + axis.cos * my * b + (this.#y + y) / 2;
    const radius = stretchOf(this.#map) * Math.max(a, b);
    const steps = this.#steps(Math.abs(sweep) * Math.sqrt(radius / (8 * this.#tolerance)));
    for (let i = 1; i < steps; i++) {
      const angle = from + (sweep * i) / steps;
      const [cx, cy] = [a * cos(angle), b * sin(angle)];
      this.#add(...mapped(this.#map, centreX + axis.cos * cx - axis.sin * cy, centreY + axis.sin * cx + axis.cos * cy));
    }
    this.#add(...mapped(this.#map, x, y));
    this.#x = x;
    this.#y = y;
  }

  /** Back to where the line began. What is drawn next without a move begins there. */
  close(): void {
    if (this.#points.length > 0) {
      this.#add(this.#points[0], this.#points[1]);
      this.#keep(true);
    }
    this.#x = this.#startX;
    this.#y = this.#startY;
  }

  /** The line that is under way is done. */
  end(): void {
    const points = this.#points;
    const n = points.length;
    // Drawn back onto its own beginning, it is closed without a word.
    this.#keep(n > 4 && points[0] === points[n - 2] && points[1] === points[n - 1]);
  }

  #begin(): void {
    if (this.#points.length === 0) this.#add(...mapped(this.#map, this.#x, this.#y));
  }

  #add(x: number, y: number): void {
    const n = this.#points.length;
    if (this.isFull || (n > 0 && this.#points[n - 2] === x && this.#points[n - 1] === y)) return;
    this.#points.push(x, y);
    this.count++;
  }

  #keep(isClosed: boolean): void {
    if (this.#points.length >= 4) {
      this.lines.push({ points: Float64Array.from(this.#points), isClosed: isClosed && this.#points.length >= 8 });
    }
    this.#points = [];
  }

  /** Whole steps, at least one; NaN and Infinity, from numbers beyond all bounds, give one. */
  #steps(wanted: number): number {
    return wanted >= 1 ? Math.min(Math.ceil(wanted), MOST_STEPS) : 1;
  }
}

const norm = (x: number, y: number): number => Math.sqrt(x * x + y * y);
