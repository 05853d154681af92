/** Trouble as data, and as lines for people. */
import { describe, expect, test } from 'vitest';
import { CannotMake, type Fault, faultText, placeText, refuse } from '../src/findings.ts';

const fault = (over: Partial<Fault> = {}): Fault => ({
  code: 'split/too-tall',
  message: '3B is 12 mm taller than the board.',
  fix: 'Turn it, or use a larger board.',
  where: { layer: 3, piece: '3B' },
  ...over,
});

describe('placeText', () => {
  test.each([
    [{}, ''],
    [{ file: 'job.yaml' }, 'job.yaml'],
    [{ file: 'job.yaml', line: 3 }, 'job.yaml:3'],
    [{ file: 'job.yaml', line: 3, column: 7 }, 'job.yaml:3:7'],
    [{ file: 'job.yaml', line: 3, column: 7, path: 'slice.layers.cut' }, 'job.yaml:3:7, slice.layers.cut'],
    [{ layer: 2, piece: '2A', board: 1 }, 'layer 2, piece 2A, board 1'],
    [{ board: 4, atMm: [812.4, -3.6] as const }, 'board 4, at 812, -4 mm'],
    [{ atMm: [-0.2, 0.2] as const }, 'at 0, 0 mm'],
  ])('%j', (where, text) => {
    expect(placeText(where)).toBe(text);
  });
});

test('a fault in one line: place, what, way out', () => {
  expect(faultText(fault())).toBe(
    'layer 3, piece 3B: 3B is 12 mm taller than the board. Turn it, or use a larger board.',
  );
  expect(faultText(fault({ where: {}, fix: '' }))).toBe('3B is 12 mm taller than the board.');
});

describe('refusing', () => {
  test('throws one fault, whole, that is no plain error', () => {
    const where = { file: 'hill.asc', line: 9 };
    let caught: unknown;
    try {
      refuse('source/short-row', 'Row 3 has 4 numbers.', 'Give it 7.', where);
    } catch (error) {
      caught = error;
    }
    expect(caught).toBeInstanceOf(CannotMake);
    expect(caught).toBeInstanceOf(Error);
    const { faults, message, name } = caught as CannotMake;
    expect(name).toBe('CannotMake');
    expect(message).toBe('hill.asc:9: Row 3 has 4 numbers. Give it 7.');
    expect(faults).toEqual([{ code: 'source/short-row', message: 'Row 3 has 4 numbers.', fix: 'Give it 7.', where }]);
  });

  test('needs no place', () => {
    expect(() => refuse('nest/none', 'There is no board.', 'Add one.')).toThrow(/^There is no board\. Add one\.$/);
  });

  test('several faults come in their order, a line each', () => {
    const { message, faults } = new CannotMake([fault(), fault({ message: 'Other.', where: { board: 7 } })]);
    expect(message.split('\n')).toEqual(faults.map(faultText));
    expect(message.split('\n')[1]).toBe('board 7: Other. Turn it, or use a larger board.');
  });
});
