import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { CannotMake } from '../../src/findings.ts';
import { boxOf, regionArea, ringArea } from '../../src/geometry/ring.ts';
import { folderName, offcutsFile, readOffcuts } from '../../src/model/files.ts';

const OUTLINE = [0, 0, 830, 0, 830, 340, 512, 455, 512, 610, 0, 610];
const HOLE = [100, 100, 90, 260, 310, 190];

const good = (changes: object = {}) => ({
  name: 'K3',
  material: 'EPS 70',
  thicknessMm: 50,
  densityKgM3: 15,
  rings: [OUTLINE, HOLE],
  from: 'Gull ledge, board 2',
  ...changes,
});

const bytes = (value: unknown) => new TextEncoder().encode(typeof value === 'string' ? value : JSON.stringify(value));
const fileOf = (...offcuts: unknown[]) => bytes({ lynchet: 1, offcuts });

function refusal(given: Uint8Array | undefined) {
  try {
    readOffcuts(given, 'kept/offcuts.json');
  } catch (error) {
    if (error instanceof CannotMake) return error.faults[0];
    throw error;
  }
  throw new Error('was not refused');
}

describe('a file of saved offcuts', () => {
  test('comes back as it was written', () => {
    const offcuts = readOffcuts(fileOf(good(), good({ name: 'K4', thicknessMm: 30, rings: [OUTLINE] })), 'o.json');
    expect(readOffcuts(bytes(offcutsFile(offcuts)), 'o.json')).toEqual(offcuts);
    expect(offcuts.map(({ name, thicknessMm }) => [name, thicknessMm])).toEqual([
      ['K3', 50],
      ['K4', 30],
    ]);
  });

  test('may run either way round and start anywhere: the box comes to (0, 0), area stays', () => {
    const other = (ring: number[]) =>
      ring.flatMap((_, i) => (i % 2 ? [] : [ring[ring.length - 2 - i] - 71.5, ring[ring.length - 1 - i] + 33]));
    const [{ rings }] = readOffcuts(fileOf(good({ rings: [other(OUTLINE), other(HOLE)] })), 'o.json');
    expect(boxOf(rings)).toEqual([0, 0, 830, 610]);
    expect([ringArea(rings[0]) > 0, ringArea(rings[1]) < 0]).toEqual([true, true]);
    expect(regionArea(rings)).toBeCloseTo(
      Math.abs(ringArea(new Float64Array(OUTLINE))) - Math.abs(ringArea(new Float64Array(HOLE))),
      6,
    );
  });

  test('takes rings that touch at a point, as remainders may', () => {
    const touching = [512, 455, 300, 300, 330, 420];
    expect(readOffcuts(fileOf(good({ rings: [OUTLINE, touching] })), 'o.json')[0].rings).toHaveLength(2);
  });

  test('takes an empty list and fields it does not know', () => {
    expect(readOffcuts(bytes({ lynchet: 1, offcuts: [], made: 'today' }), 'o.json')).toEqual([]);
    expect(readOffcuts(fileOf(good({ shelf: 4 })), 'o.json')).toHaveLength(1);
  });

  test.each<[what: string, given: Uint8Array | undefined, told: string]>([
    ['missing', undefined, 'is not there'],
    ['not JSON', bytes('{ "lynchet": 1,'), 'This is not JSON.'],
    ['not UTF-8', new Uint8Array([0x22, 0xff, 0xfe, 0x22]), 'This is not JSON.'],
    ['empty', new Uint8Array(), 'This is not JSON.'],
    ['far too big', new Uint8Array(5_000_001), 'more than 5000000 bytes'],
    ['null', bytes('null'), 'its outermost level'],
    ['a list', bytes('[]'), 'its outermost level'],
    ['of a later form', bytes({ lynchet: 2, offcuts: [] }), 'see lynchet'],
    ['without offcuts', bytes({ lynchet: 1 }), 'see offcuts'],
    ['of no thickness', fileOf(good({ thicknessMm: 0 })), 'see offcuts.0.thicknessMm'],
    [
      'of a thickness that is text',
      fileOf(good(), good({ name: 'b', thicknessMm: '50' })),
      'see offcuts.1.thicknessMm',
    ],
    ['of no density', fileOf(good({ densityKgM3: -1 })), 'see offcuts.0.densityKgM3'],
    ['without a name', fileOf(good({ name: '' })), 'see offcuts.0.name'],
    ['twice of one name', fileOf(good(), good({ thicknessMm: 30 })), 'Two offcuts are called "K3".'],
    ['without rings', fileOf(good({ rings: [] })), 'see offcuts.0.rings'],
    ['of two corners', fileOf(good({ rings: [[0, 0, 830, 0]] })), 'see offcuts.0.rings.0'],
    ['of half a corner', fileOf(good({ rings: [[0, 0, 830, 0, 830, 340, 5]] })), 'see offcuts.0.rings.0'],
    ['with a corner that is null', fileOf(good({ rings: [[0, 0, 830, null, 830, 340]] })), 'see offcuts.0.rings.0.3'],
    [
      'with a corner without end',
      bytes(JSON.stringify({ lynchet: 1, offcuts: [good()] }).replace('830', '1e999')),
      'see offcuts.0.rings.0.2',
    ],
    ['larger than any board', fileOf(good({ rings: [[0, 0, 1e9, 0, 830, 340]] })), 'see offcuts.0.rings.0.2'],
    ['in one line', fileOf(good({ rings: [[0, 0, 400, 200, 830, 415]] })), '"K3": its outline has no area'],
    ['a bow tie', fileOf(good({ rings: [[0, 0, 830, 340, 830, 0, 0, 500]] })), '"K3": its outline crosses itself'],
    [
      'wound twice',
      fileOf(good({ rings: [[0, 0, 830, 0, 830, 340, 0, 610, 90, 80, 700, 90, 610, 300, 70, 430]] })),
      'its outline crosses itself',
    ],
    [
      'with a spike',
      fileOf(good({ rings: [[0, 0, 830, 0, 830, 340, 1200, 340, 830, 340, 0, 610]] })),
      'its outline crosses itself or runs back',
    ],
    [
      'with a hole that is a bow tie',
      fileOf(good({ rings: [OUTLINE, [100, 100, 310, 190, 310, 100, 90, 260]] })),
      'its hole 1 crosses itself',
    ],
    [
      'with a hole outside',
      fileOf(good({ rings: [OUTLINE, HOLE.map((value) => value + 900)] })),
      'a hole lies outside',
    ],
    [
      'with a hole over the edge',
      fileOf(good({ rings: [OUTLINE, HOLE.map((value) => value - 150)] })),
      'a hole lies outside',
    ],
    ['with a hole along the edge', fileOf(good({ rings: [OUTLINE, [100, 0, 300, 0, 190, 70]] })), 'runs along it'],
    [
      'with a hole in a hole',
      fileOf(good({ rings: [OUTLINE, HOLE, [120, 150, 110, 200, 170, 190]] })),
      'a hole lies outside',
    ],
  ])('is refused when it is %s, with file and way out', (_, given, told) => {
    const fault = refusal(given);
    expect(fault.message).toContain(told);
    expect(fault.where).toEqual({ file: 'kept/offcuts.json' });
    expect(fault.fix).not.toBe('');
    expect(fault.code).toBe('stock/offcut-file');
  });
});

describe('the folder name of a job', () => {
  test.each([
    ['Moor bank', 'Moor-bank'],
    ['  Düne Nº 7 / 2nd try…  ', 'Dune-No-7-2nd-try'],
    ['../../etc/passwd', 'etc-passwd'],
    ['C:\\boards\\x', 'C-boards-x'],
    ['沙丘', 'job'],
    ['🏔🏔', 'job'],
    ['con', 'job-con'],
    ['LPT3', 'job-LPT3'],
    ['Com¹', 'job-Com1'],
    ['console', 'console'],
    ['a.'.repeat(200), 'a-'.repeat(30).slice(0, 59)],
  ])('%s → %s', (name, wanted) => {
    expect(folderName(name)).toBe(wanted);
  });

  test('is safe for any name, and stays when it is taken as a name', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 300 }), (name) => {
        const folder = folderName(name);
        expect(folder).toMatch(/^[A-Za-z0-9]+(-[A-Za-z0-9]+)*$/);
        expect(folder.length).toBeLessThanOrEqual(60);
        expect(folderName(folder)).toBe(folder);
      }),
      { numRuns: 100, seed: 3 },
    );
  });
});
