/** A piece of work as a part of a longer one: its progress runs from one number to the other; what else it yields goes on as it is. */
export function* share<Y, T, R>(work: Generator<Y, T, R>, from: number, to: number): Generator<Y | number, T, R> {
  for (let step = work.next(); ; step = work.next()) {
    if (step.done) return step.value;
    yield typeof step.value === 'number' ? from + (to - from) * step.value : step.value;
  }
}

/** What a piece of work comes to, done in one go. */
export function ended<T>(work: Generator<unknown, T>): T {
  for (let step = work.next(); ; step = work.next()) if (step.done) return step.value;
}
