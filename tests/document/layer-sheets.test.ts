/** On samples: lettering of set-up sheets touches nothing; printed measure-off tables, joined, are the pieces within the tolerance. */
import { describe, expect, test } from 'vitest';
import { layerDrawing } from '../../src/document/assembly/layer-sheet.ts';
import { settingOrder } from '../../src/document/assembly/order.ts';
import { planView } from '../../src/document/assembly/plan-view.ts';
import { measureOffPdf } from '../../src/document/measure-off-pdf.ts';
import { boxOf, ringsOf } from '../../src/geometry/ring.ts';
import { makeKit } from '../../src/index.ts';
import type { OutputFile } from '../../src/model/plan.ts';
import { run } from '../../src/run.ts';
import { loadSample } from '../help/jobs.ts';
import { faultsOfMarks } from '../help/label-faults.ts';
import { expectWithin } from '../help/measured-tables.ts';
import { readSheets } from '../help/read-sheet.ts';

describe.each(['reading-knoll', 'play-hill', 'sea-stack'])('%s', (name) => {
  const planned = (async () => {
    const { job, files } = loadSample(name, [
      { path: 'nest.boards.effort', value: '2000' },
      { path: 'documents', value: '[]' },
    ]);
    return (await run(job, files)).plan;
  })();

  test('the printed measure-off tables lie within 3 mm of every piece', async () => {
    const plan = await planned;
    const context = { facts: {}, tell: () => undefined, random: () => 0.5 };
    const options = measureOffPdf.options(makeKit('mm')).parse({ measures: 'mm' });
    const [file] = (await measureOffPdf.run(plan, options, context as never)) as readonly OutputFile[];
    const { pages } = await readSheets(file.body as Uint8Array);
    expectWithin(plan, pages, 'mm', 3);
  });

  test('names and joints of every layer touch nothing, and none is missing', async () => {
    const plan = await planned;
    const { layers } = plan.stack;
    const box = boxOf(ringsOf(layers[0].regions.slice()));
    for (const layer of layers) {
      const own = plan.pieces.filter((piece) => piece.layer === layer.number);
      const order = settingOrder(own, plan.facts.front);
      const view = planView(box, plan.facts.front, { widthMm: 181, heightMm: 150 });
      const { groups } = layerDrawing(plan, layer, order, view);
      // A leader runs to what it names over lines; lettering keeps clear of it.
      const marks = groups.flatMap(({ marks }) => [...marks]);
      expect(faultsOfMarks(marks), `layer ${layer.number}`).toEqual([]);
      const texts = marks.flatMap(({ text }) => (text ? [text.text] : []));
      const labels = own.flatMap(({ joints }) => joints.map(({ label }) => label));
      for (const each of [...order.map((piece, i) => `${i + 1}: ${piece.name}`), ...labels])
        expect(texts).toContain(each);
    }
  });
});
