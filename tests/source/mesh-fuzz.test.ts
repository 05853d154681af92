import { expect, test } from 'vitest';
import { CannotMake } from '../../src/findings.ts';
import { stream } from '../../src/geometry/random.ts';
import { mesh } from '../../src/source/mesh.ts';
import { binaryStl, obj, PLY_FORMATS, ply, textStl } from '../help/solid-files.ts';
import { turned } from '../help/solids.ts';

const ROCK = turned(
  [
    [0, 4],
    [130, 4],
    [170, 71],
    [96, 152.5],
    [0, 181],
  ],
  7,
  200,
  310,
);

test.each([
  ['rock.stl', binaryStl(ROCK)],
  ['rock.stl', textStl(ROCK)],
  ['rock.obj', obj(ROCK)],
  ...PLY_FORMATS.map((format): [string, Uint8Array] => ['rock.ply', ply(ROCK, format)]),
])('%s with flipped or lost bytes is read or refused, never more (seed 29)', async (file, whole) => {
  const random = stream(29, file, whole.length);
  const outcomes = { read: 0, refused: 0 };
  for (let round = 0; round < 150; round++) {
    let bytes = whole.slice();
    const flips = 1 + Math.floor(random() * 3);
    // Half of the damage goes into the first bytes, where the header is.
    const reach = round % 2 === 0 ? Math.min(bytes.length, 250) : bytes.length;
    for (let k = 0; k < flips; k++) bytes[Math.floor(random() * reach)] ^= 1 << Math.floor(random() * 8);
    if (round % 10 === 9) bytes = bytes.slice(0, Math.floor(random() * bytes.length));
    const context = { facts: {}, tell: () => {}, random: () => 0.5 };
    try {
      await mesh.run(new Map([[file, bytes]]), { file, unit: 'mm' }, context);
      outcomes.read++;
    } catch (error) {
      if (!(error instanceof CannotMake)) throw error;
      outcomes.refused++;
    }
  }
  expect(outcomes.refused).toBeGreaterThan(10);
  expect(outcomes.read + outcomes.refused).toBe(150);
});
