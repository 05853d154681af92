/** A stream of numbers 0 ≤ r < 1. */
export type Random = () => number;

/**
 * Start the stream that belongs to a seed and a place (for example stage and position in its list). Streams of different
 * places are unrelated, so that an added step changes no other step's numbers. Same bits on every engine.
 * FNV-1a over the key, then mulberry32 (both public domain, 32-bit integer arithmetic only).
 */
export function stream(seed: number, ...place: readonly (string | number)[]): Random {
  let state = 0x811c9dc5;
  for (const character of `${seed}/${place.join('/')}`) {
    state = Math.imul(state ^ (character.codePointAt(0) as number), 0x01000193);
  }
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
