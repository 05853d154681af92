import { boxOf, ringsOf } from '../../geometry/ring.ts';
import type { Layer } from '../../model/layer.ts';
import type { Piece } from '../../model/piece.ts';
import { BITE_MM, MOST_PIN_MM, type PinThrough, UNDER_SURFACE_MM } from '../../model/pin.ts';
import { ABOVE_UNDERSIDE_MM, stepFor } from './ends.ts';

/** Where the two pins of a lap stand, as shares of its length. */
const IN_LAP = [0.25, 0.75];

/** Two pins straight down through each lap of upright ribs, from the upper tongue into the lower; none where a lap is too low. */
export function lapPins(pieces: readonly Piece[], layers: readonly Layer[]): PinThrough[] {
  return layers.flatMap(({ number, regions, rib, thicknessMm }) => {
    if (!rib) return [];
    const { originMm, along } = rib.frame;
    const lines = new Map(
      pieces.flatMap(({ layer, joints }) => (layer === number ? joints.map(({ label, line }) => [label, line]) : [])),
    );
    const stepMm = stepFor({ thicknessMm });
    return [...lines.values()].flatMap((line) => {
      const [fromMm, , toMm] = boxOf([line]);
      return IN_LAP.flatMap((share): PinThrough[] => {
        const u = fromMm + share * (toMm - fromMm);
        const meetMm = heightsAt(line, u, false)[0];
        const topMm = Math.max(...[...ringsOf(regions)].flatMap((ring) => heightsAt(ring, u, true)));
        const roomMm = topMm - UNDER_SURFACE_MM - ABOVE_UNDERSIDE_MM;
        const lengthMm = stepMm * Math.floor(Math.min(roomMm, MOST_PIN_MM) / stepMm);
        const bottomMm = topMm - UNDER_SURFACE_MM - lengthMm;
        const hasBite = bottomMm <= meetMm - BITE_MM && bottomMm + lengthMm >= meetMm + BITE_MM;
        const at = [originMm[0] + u * along[0], originMm[1] + u * along[1]] as const;
        return hasBite ? [{ at, fromLayer: number, toLayer: number, bottomMm, lengthMm, isPulled: false }] : [];
      });
    });
  });
}

/** Heights at which a line in the plane of a rib passes over a place along it, rising. */
function heightsAt(line: ArrayLike<number>, u: number, isClosed: boolean): number[] {
  const heights: number[] = [];
  for (let i = isClosed ? 0 : 2; i < line.length; i += 2) {
    const j = i === 0 ? line.length - 2 : i - 2;
    const [a, b] = [line[j], line[i]];
    if (a <= u !== b <= u) heights.push(line[j + 1] + ((u - a) / (b - a)) * (line[i + 1] - line[j + 1]));
  }
  return heights.sort((one, other) => one - other);
}
