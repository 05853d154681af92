import { readFileSync } from 'node:fs';

/**
 * Maunga Whau (Mt Eden), Auckland: 87 × 61 heights in metres on a 10 m grid, digitised from a topographic map by Ross Ihaka;
 * given in vega-datasets 3.2.1, data/volcano.json. Row by row as the file has them.
 */
export function volcano(): { columns: number; rows: number; heightsM: readonly number[] } {
  const path = new URL('../../node_modules/vega-datasets/data/volcano.json', import.meta.url);
  const { width, height, values } = JSON.parse(readFileSync(path, 'utf8'));
  return { columns: width, rows: height, heightsM: values };
}
