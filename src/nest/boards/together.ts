import type { Lanes, Reply, Walk } from '../../plugin.ts';

/**
 * Drive several searches side by side: the lanes of all go to the workers at once, round by round, so that none waits for
 * another's end and "enough" reaches all. Each sees only its own results: it goes as if it were alone.
 */
export function* together<T>(walks: readonly Walk<T>[]): Walk<T[]> {
  const results: T[] = [];
  const replies: Reply[] = walks.map(() => ({ say: 'go', results: [] }));
  let open = walks.map((_, i) => i);
  let done = 0;
  while (open.length > 0) {
    const asked: { readonly i: number; readonly lanes: Lanes }[] = [];
    for (const i of open) {
      let step = walks[i].next(replies[i]);
      // Progress of one alone says nothing of all; lanes do.
      while (!step.done && typeof step.value === 'number') step = walks[i].next({ say: 'go', results: [] });
      if (step.done) results[i] = step.value;
      else asked.push({ i, lanes: step.value as Lanes });
    }
    if (asked.length === 0) break;
    done = Math.max(done, Math.min(...asked.map(({ lanes }) => lanes.upTo ?? 1)));
    const reply: Reply = yield { lanes: asked.flatMap(({ lanes }) => lanes.lanes), upTo: done };
    let at = 0;
    for (const { i, lanes } of asked) {
      replies[i] = { say: reply.say, results: reply.results.slice(at, at + lanes.lanes.length) };
      at += lanes.lanes.length;
    }
    open = asked.map(({ i }) => i);
  }
  return results;
}
