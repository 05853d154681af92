import { intersect, offset, subtract, unite } from '../../geometry/clip.ts';
import type { Region } from '../../geometry/ring.ts';
import type { Course } from './pieces.ts';

/** Foam over a void that is thinner than this is a shell: a heel goes through it (our choice, no source). */
const SHELL_MM = 150;
/** What is seen of it is at least so wide, or only a toe's edge stands there. */
const TREAD_MM = 80;

/** For each layer, where what is seen of it is a shell over a void, thin enough for a foot to break. Empty where nothing is. */
export function thinShells(courses: readonly Course[]): Region[][] {
  return courses.map(({ layer, foam }, i) => {
    const topMm = layer.bottomMm + layer.thicknessMm;
    const beneath = courses.slice(0, i).filter((course) => {
      const { bottomMm, thicknessMm } = course.layer;
      return topMm - (bottomMm + thicknessMm) < SHELL_MM && course.voids.length > 0;
    });
    if (beneath.length === 0) return [];
    const over = intersect(foam, unite(beneath.flatMap(({ voids }) => [...voids])));
    const seen = subtract(over, courses[i + 1]?.layer.regions ?? []);
    return offset(seen, -TREAD_MM / 2, { sag: 1 });
  });
}
