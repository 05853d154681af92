/** What is laid on a strip, in columns of one width: how far each reaches from its lower edge. Empty columns say Infinity, −Infinity. */
export interface Profile {
  readonly from: Float64Array;
  readonly to: Float64Array;
}

/** Where an item lies: which strip, in which of its ways, its first column, and how far along the strip its own zero lies. */
export interface OnStrip {
  readonly strip: number;
  readonly way: number;
  readonly column: number;
  readonly along: number;
}

/**
 * Pack items on strips of one width and a greatest length: longest first, each dropped where it then ends lowest, then leftmost, in the
 * first strip that has room (bottom-left with a skyline of real outlines; Burke, Kendall and Whitwell 2004 for boxes). Items go
 * into bays of one another, not into holes. `items[i]` holds the ways in which item i may lie. Null for one that fits nowhere.
 * Cost: items × ways × columns².
 */
export function packStrips(
  items: readonly (readonly Profile[])[],
  columns: number,
  length: number,
): readonly (OnStrip | null)[] {
  const order = items.map((_, i) => i).sort((a, b) => size(items[b]) - size(items[a]) || a - b);
  const skylines: Float64Array[] = [];
  const placed: (OnStrip | null)[] = items.map(() => null);
  for (const i of order) {
    const ways = items[i];
    for (let strip = 0; strip <= skylines.length; strip++) {
      const isNew = strip === skylines.length;
      const skyline = isNew ? new Float64Array(columns) : skylines[strip];
      const best = lowest(ways, skyline, length);
      if (!best && !isNew) continue;
      if (!best) break;
      if (isNew) skylines.push(skyline);
      const { to } = ways[best.way];
      for (let k = 0; k < to.length; k++) {
        skyline[best.column + k] = Math.max(skyline[best.column + k], best.along + to[k]);
      }
      placed[i] = { strip, ...best };
      break;
    }
  }
  return placed;
}

function lowest(ways: readonly Profile[], skyline: Float64Array, length: number) {
  let best: { way: number; column: number; along: number } | null = null;
  let least = Infinity;
  for (const [way, { from, to }] of ways.entries()) {
    const height = highest(to);
    for (let column = 0; column + from.length <= skyline.length; column++) {
      let along = 0;
      for (let k = 0; k < from.length; k++) along = Math.max(along, skyline[column + k] - from[k]);
      if (along + height > length || along + height >= least) continue;
      least = along + height;
      best = { way, column, along };
    }
  }
  return best;
}

const size = (ways: readonly Profile[]): number => Math.max(...ways.map(({ to }) => Math.max(highest(to), to.length)));

function highest(to: Float64Array): number {
  let most = 0;
  for (let k = 0; k < to.length; k++) if (to[k] > most) most = to[k];
  return most;
}

/**
 * The profile of segments (ax, ay, bx, by, flat), from their least x and y on, grown by `air` on all sides: what packed profiles keep between them
 * is twice that.
 */
export function profileOf(segments: Float64Array, column: number, air: number): Profile {
  let [minX, minY, maxX] = [Infinity, Infinity, -Infinity];
  for (let i = 0; i < segments.length; i += 2) {
    minX = Math.min(minX, segments[i]);
    maxX = Math.max(maxX, segments[i]);
    minY = Math.min(minY, segments[i + 1]);
  }
  const count = Math.max(1, Math.ceil((maxX - minX + 2 * air) / column));
  const from = new Float64Array(count).fill(Infinity);
  const to = new Float64Array(count).fill(-Infinity);
  for (let i = 0; i < segments.length; i += 4) {
    const flip = segments[i] > segments[i + 2] ? 2 : 0;
    const [ax, ay] = [segments[i + flip] - minX + air, segments[i + flip + 1] - minY + air];
    const [bx, by] = [segments[i + 2 - flip] - minX + air, segments[i + 3 - flip] - minY + air];
    const first = Math.max(0, Math.floor((ax - air) / column));
    const last = Math.min(count - 1, Math.floor((bx + air) / column));
    for (let k = first; k <= last; k++) {
      // The stretch over the column, as wide as the air reaches.
      const y0 = heightAt(ax, ay, bx, by, k * column - air);
      const y1 = heightAt(ax, ay, bx, by, (k + 1) * column + air);
      from[k] = Math.min(from[k], Math.min(y0, y1) - air);
      to[k] = Math.max(to[k], Math.max(y0, y1) + air);
    }
  }
  return { from, to };
}

function heightAt(ax: number, ay: number, bx: number, by: number, x: number): number {
  if (bx <= ax) return x <= ax ? ay : by;
  const t = Math.max(0, Math.min(1, (x - ax) / (bx - ax)));
  return ay + t * (by - ay);
}
