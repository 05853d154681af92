/** Doors, stair, van and what a tool reaches, as a job says them; and the load on a zone. */
import { describe, expect, test } from 'vitest';
import { CannotMake } from '../src/findings.ts';
import { readJob } from '../src/job.ts';
import { LEAST, read } from './help/job-texts.ts';
import { testPlugins } from './help/test-plugins.ts';

const faults = (text: string): string[] => {
  try {
    readJob(text, 'job.yaml', testPlugins);
  } catch (error) {
    if (error instanceof CannotMake) return error.faults.map(({ where, message }) => `${where.path} ${message}`);
    throw error;
  }
  return [];
};

const SAID = `${LEAST}
doors: { width: 76 cm, height: 1.98 m }
stair: { width: 0.9 m, height: 2.1 m, turn: false }
lift: { width: 1.1 m, depth: 140 cm, height: 2 m, payload: 300 }
van: { length: 3.1 m, width: 1210, height: 1750, payload: 850.5 }
tool: { wire: 1.1 m, throat: 45 cm, table: [1.2 m, 900] }
`;

describe('the way in', () => {
  test('comes out in millimetres and kilograms, and reads back from the plan the same', () => {
    const job = read(SAID);
    expect(job.facts.way).toEqual({
      door: { widthMm: 760, heightMm: 1980 },
      stair: { widthMm: 900, heightMm: 2100, turns: false },
      lift: { lengthMm: 1400, widthMm: 1100, heightMm: 2000, payloadKg: 300 },
      van: { lengthMm: 3100, widthMm: 1210, heightMm: 1750, payloadKg: 850.5 },
    });
    expect(job.facts.tool).toMatchObject({ wireMm: 1100, throatMm: 450, tableMm: [1200, 900], bladeMm: null });
    expect(read(JSON.stringify(job.written)).facts.way).toEqual(job.facts.way);
  });

  test('is not there where nothing is said; a stair turns a corner when it does not say', () => {
    expect(read(LEAST).facts.way).toEqual({ door: null, stair: null, lift: null, van: null });
    expect(read(`${LEAST}\nstair: { width: 900 }`).facts.way.stair).toEqual({
      widthMm: 900,
      heightMm: null,
      turns: true,
    });
  });

  test.each([
    ['doors: { width: 760 }', 'doors.height'],
    ['doors: { width: 0, height: 1980 }', 'doors.width'],
    ['stair: { turn: true }', 'stair.width'],
    ['stair: { width: 900, corner: true }', 'stair.corner'],
    ['lift: { width: 1 m, height: 2 m }', 'lift.depth'],
    ['van: { length: 3 m, width: 1.2 m }', 'van.height'],
    ['van: { length: 3 m, width: 1.2 m, height: 1.7 m, payload: -1 }', 'van.payload'],
    ['tool: { table: 900 }', 'tool.table'],
  ])('%s is refused at its place', (line, place) => {
    expect(faults(`${LEAST}\n${line}`).join('\n')).toContain(place);
  });
});

describe('the load on a zone', () => {
  const zone = (rest: string) => `${LEAST}\nzones: [ { outline: [[0, 0], [900, 0], [700, 800]], ${rest} } ]`;

  test('belongs to a zone of kind lean', () => {
    expect(read(zone('kind: lean, load: 85')).facts.zones[0].loadKg).toBe(85);
    expect(read(zone('kind: lean')).facts.zones[0].loadKg).toBeNull();
    expect(faults(zone('kind: people, load: 85')).join()).toMatch(/zones\.0\.load Only a zone of kind lean has a load/);
    expect(faults(zone('kind: lean, load: 0'))).toHaveLength(1);
  });
});
