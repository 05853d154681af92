/** On every sample: no lettering of a board touches a line, a pin or other lettering, and names are as large as there is room. */
import { describe, expect, test } from 'vitest';
import { drawnNow } from '../../src/document/board/drawn-boards.ts';
import { boxOfLine } from '../../src/drawing/page.ts';
import { isInRegion } from '../../src/geometry/ring.ts';
import { run } from '../../src/run.ts';
import { loadSample, sampleNames } from '../help/jobs.ts';
import { labelFaults } from '../help/label-faults.ts';

/** The two largest take a minute to plan: `npm run laws` measures them too. */
const NAMES = process.env.LAWS
  ? sampleNames
  : sampleNames.filter((name) => !['moor-bank', 'glacier-valley', 'shoreline-rock'].includes(name));

describe.each(NAMES)('%s', (name) => {
  const made = (async () => {
    const { job, files } = loadSample(name, [
      { path: 'nest.boards.effort', value: '2000' },
      { path: 'documents', value: '[]' },
    ]);
    const { plan } = await run(job, files);
    return { plan, drawings: drawnNow(plan, 1) };
  })();

  test('lettering touches nothing', async () => {
    const { drawings } = await made;
    const faults = drawings.flatMap((drawing) =>
      labelFaults(drawing).map((each) => `board ${drawing.board.number}: ${each}`),
    );
    expect(faults).toEqual([]);
  });

  test('each piece has its name, in its outline or on a leader, and all rows or a note', async () => {
    const { drawings } = await made;
    for (const { pieces, lying, crowded } of drawings) {
      for (const [i, { piece, groups }] of pieces.entries()) {
        const texts = groups.flatMap(({ marks }) => marks.flatMap(({ text }) => (text ? [text] : [])));
        const noted = crowded.find((each) => each.piece === piece.name)?.what.join() ?? '';
        const named = texts.filter(({ text }) => text === piece.name);
        if (named.length === 0) expect(noted).toContain(piece.name);
        for (const { underlined } of named) expect(underlined).toBe(true);
        const isLed = groups.some(({ marks }) => marks.some(({ title }) => title?.startsWith('leader')));
        const inside = named.filter(({ xMm, yMm }) => isInRegion(xMm, yMm, lying[i].outline));
        if (!isLed && !noted.includes(piece.name)) expect(inside.length, piece.name).toBe(1);
        for (const start of [
          'board ',
          piece.layer > 0 && texts.some(({ text }) => text.startsWith('rib ')) ? 'rib ' : 'layer ',
        ]) {
          expect(
            texts.some(({ text }) => text.startsWith(start)) || noted.includes(start),
            `${piece.name} ${start}`,
          ).toBe(true);
        }
      }
    }
  });

  test('a name with room for 40 mm in what the next layer covers has it', async () => {
    const { drawings } = await made;
    for (const { pieces, lying } of drawings) {
      for (const [i, { piece, groups }] of pieces.entries()) {
        // Room beyond doubt: a covered square far larger than the block of a name, free of pins and of outlines.
        const wide = lying[i].placing.some((region) => {
          const [left, top, right, bottom] = boxOfLine({ points: region[0], closed: true });
          const [x, y] = [(left + right) / 2, (top + bottom) / 2];
          const probes = [-300, -150, 0, 150, 300].flatMap((dx) =>
            [-300, -150, 0, 150, 300].map((dy) => [x + dx, y + dy]),
          );
          const isFree = ([px, py]: number[]) => isInRegion(px, py, region) && isInRegion(px, py, lying[i].outline);
          return region.length === 1 && right - left > 900 && bottom - top > 900 && probes.every(isFree);
        });
        if (!wide) continue;
        const texts = groups.flatMap(({ marks }) => marks.flatMap(({ text }) => (text ? [text] : [])));
        expect(texts.find(({ text }) => text === piece.name)?.heightMm, piece.name).toBeGreaterThanOrEqual(40);
      }
    }
  });
});
