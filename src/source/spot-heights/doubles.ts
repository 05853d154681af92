/** Spots nearer than this are one place: no tape tells them apart. */
const SAME_PLACE_MM = 0.1;
/** Heights that differ by no more are the same. */
const SAME_HEIGHT_MM = 0.1;

/** Spots in millimetres. */
export interface Spots {
  readonly xMm: Float64Array;
  readonly yMm: Float64Array;
  readonly zMm: Float64Array;
  readonly line: Uint32Array;
}

/** Places at which several spots stand, as numbers of spots. */
export interface Doubles {
  readonly same: readonly (readonly number[])[];
  readonly differing: readonly (readonly number[])[];
}

/**
 * One spot for each place, in order of their lines: where several stand, the first with the mean of their heights.
 * Whether two are one place is seen on a grid of that size, and in the eight cells round each. O(n).
 */
export function merged(spots: Spots): { spots: Spots; doubles: Doubles } {
  const { xMm, yMm, zMm, line } = spots;
  const groups = new Map<string, number[]>();
  const kept: number[][] = [];
  const key = (x: number, y: number) => `${x},${y}`;
  for (let i = 0; i < xMm.length; i++) {
    const x = Math.floor(xMm[i] / SAME_PLACE_MM);
    const y = Math.floor(yMm[i] / SAME_PLACE_MM);
    let group: number[] | undefined;
    for (let cell = 0; cell < 9 && !group; cell++) {
      const near = groups.get(key(x + (cell % 3) - 1, y + Math.floor(cell / 3) - 1));
      if (near && isNear(near[0], i)) group = near;
    }
    if (group) group.push(i);
    else {
      group = [i];
      kept.push(group);
      if (!groups.has(key(x, y))) groups.set(key(x, y), group);
    }
  }
  const heightOf = (group: readonly number[]) => group.reduce((sum, i) => sum + zMm[i], 0) / group.length;
  const doubles = kept.filter((group) => group.length > 1);
  const differs = (group: readonly number[]) => group.some((i) => Math.abs(zMm[i] - zMm[group[0]]) > SAME_HEIGHT_MM);
  return {
    spots: {
      xMm: Float64Array.from(kept, ([first]) => xMm[first]),
      yMm: Float64Array.from(kept, ([first]) => yMm[first]),
      zMm: Float64Array.from(kept, heightOf),
      line: Uint32Array.from(kept, ([first]) => line[first]),
    },
    doubles: { same: doubles.filter((group) => !differs(group)), differing: doubles.filter(differs) },
  };

  function isNear(a: number, b: number): boolean {
    const dx = xMm[a] - xMm[b];
    const dy = yMm[a] - yMm[b];
    return dx * dx + dy * dy <= SAME_PLACE_MM * SAME_PLACE_MM;
  }
}
