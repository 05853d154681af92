const ARRAYS = ['Uint8Array', 'Uint16Array', 'Uint32Array', 'Float32Array', 'Float64Array'] as const;

/** The longest typed array that some work makes, in elements. */
export async function longestTaken(work: () => Promise<unknown>): Promise<number> {
  const globals = globalThis as unknown as Record<string, new (...args: unknown[]) => { length: number }>;
  const before = ARRAYS.map((name) => globals[name]);
  let longest = 0;
  const watched = (plain: (typeof before)[number]) =>
    new Proxy(plain, {
      construct(target, args, newTarget) {
        if (typeof args[0] === 'number') longest = Math.max(longest, args[0]);
        return Reflect.construct(target, args, newTarget) as object;
      },
    });
  for (const [i, name] of ARRAYS.entries()) globals[name] = watched(before[i]);
  try {
    await work();
  } finally {
    for (const [i, name] of ARRAYS.entries()) globals[name] = before[i];
  }
  return longest;
}
