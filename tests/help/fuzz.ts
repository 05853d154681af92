import fc from 'fast-check';
import { CannotMake } from '../../src/findings.ts';
import { longestTaken } from './taken.ts';

/** Inputs a reader is given: 200, or as many as `npm run fuzz` says. */
export const FUZZ = Number(process.env.FUZZ ?? 200);
/** No input keeps the processor at it longer: the files are small. Not the clock, which counts what else the machine does. */
const LONGEST_MS = 2000;
/** Elements of the largest typed array that a reader of small files may make: a quarter of the posts that are taken in at most. */
const MOST_TAKEN = 25_000_000;

/**
 * Copies of a sound file with some of it wrong: bits flipped, bytes set to the ends of their range, a stretch written over or
 * doubled, the end lost. Half of the places are in the first bytes, where headers are.
 */
export function damaged(whole: Uint8Array): fc.Arbitrary<Uint8Array> {
  const place = fc.oneof(fc.nat({ max: Math.min(300, whole.length) - 1 }), fc.nat({ max: whole.length - 1 }));
  const harm = fc.oneof(
    fc.record({ kind: fc.constant('flip' as const), at: place, value: fc.integer({ min: 0, max: 7 }) }),
    fc.record({
      kind: fc.constant('set' as const),
      at: place,
      value: fc.constantFrom(0, 1, 32, 45, 127, 128, 254, 255),
    }),
    fc.record({ kind: fc.constant('stretch' as const), at: place, value: fc.integer({ min: 0, max: 255 }) }),
    fc.record({ kind: fc.constant('double' as const), at: place, value: fc.integer({ min: 1, max: 64 }) }),
    fc.record({ kind: fc.constant('cut' as const), at: place, value: fc.constant(0) }),
  );
  return fc.array(harm, { minLength: 1, maxLength: 4 }).map((harms) => {
    let bytes = whole.slice();
    for (const { kind, at, value } of harms) {
      if (at >= bytes.length) continue;
      if (kind === 'flip') bytes[at] ^= 1 << value;
      else if (kind === 'set') bytes[at] = value;
      else if (kind === 'stretch') bytes.fill(value, at, at + 8);
      else if (kind === 'cut') bytes = bytes.slice(0, at);
      else bytes = Uint8Array.from([...bytes.slice(0, at), ...bytes.slice(Math.max(0, at - value))]);
    }
    return bytes;
  });
}

/** Text that looks like what a reader reads: its own words and numbers in any order. */
export const textOf = (words: readonly string[]): fc.Arbitrary<Uint8Array> =>
  fc
    .array(
      fc.oneof(
        fc.constantFrom(...words),
        fc.double().map(String),
        fc.integer().map(String),
        fc.constantFrom('\n', '\r\n', '\t', ' ', ',', ';', '\u0000', '\ufeff', '-', '1e999', 'NaN'),
      ),
      { maxLength: 60 },
    )
    .map((parts) => new TextEncoder().encode(parts.join(' ')));

/**
 * Hold a reader to it: every input is read or refused, nothing else is thrown, nothing hangs, no input makes it take memory
 * beyond what is allowed. Answers how many were read and refused.
 */
export async function readsOrRefuses(
  inputs: fc.Arbitrary<Uint8Array>,
  read: (bytes: Uint8Array) => unknown,
  runs = FUZZ,
): Promise<{ read: number; refused: number }> {
  const outcomes = { read: 0, refused: 0 };
  await fc.assert(
    fc.asyncProperty(inputs, async (bytes) => {
      const before = process.cpuUsage();
      const longest = await longestTaken(async () => {
        try {
          await read(bytes);
          outcomes.read++;
        } catch (error) {
          if (!(error instanceof CannotMake)) throw error;
          outcomes.refused++;
        }
      });
      const { user, system } = process.cpuUsage(before);
      const busyMs = (user + system) / 1000;
      if (busyMs > LONGEST_MS) throw new Error(`an input took ${Math.round(busyMs)} ms`);
      if (longest > MOST_TAKEN) throw new Error(`an input made the reader take ${longest} elements`);
    }),
    { numRuns: runs, seed: 41, endOnFailure: runs > 1000 },
  );
  return outcomes;
}
