/** A piece of work as a part of a longer one: its progress runs from one number to the other. */
export function* share<T>(work: Generator<number, T>, from: number, to: number): Generator<number, T> {
  for (let step = work.next(); ; step = work.next()) {
    if (step.done) return step.value;
    yield from + (to - from) * step.value;
  }
}
