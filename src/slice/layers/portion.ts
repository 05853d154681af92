import type { Walk } from '../../plugin.ts';

/** A walk as a portion of a longer one. */
export function* portion<T>(from: number, to: number, walk: Walk<T>): Walk<T> {
  for (let step = walk.next(); ; step = walk.next()) {
    if (step.done) return step.value;
    yield typeof step.value === 'number' ? from + step.value * (to - from) : step.value;
  }
}
