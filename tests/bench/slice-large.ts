// How much memory and time large ground takes: node on a bundle of this file, one size a process.
//   npx esbuild tests/bench/slice-large.ts --bundle --platform=node --format=esm --outfile=/tmp/slice-large.mjs
//   for n in 2048 4096 8192; do node /tmp/slice-large.mjs $n; done
// Makes rolling ground of n × n posts 5 mm apart in 32 bits, as many swells a metre at any size, slices it into 30 layers
// as the plugin does, keeps the layers, and says the most memory that the process held.
import process from 'node:process';
import { heightfield } from '../../src/model/landform.ts';
import { levelsMm } from '../../src/slice/layers/levels.ts';
import { layerOutlines } from '../../src/slice/layers/outlines.ts';
import { walkNow } from '../../src/walk.ts';

const n = Number(process.argv[2] ?? 8192);
const heights = new Float32Array(n * n);
for (let row = 0, at = 0; row < n; row++) {
  for (let column = 0; column < n; column++, at++) {
    const x = column / 2048;
    const y = row / 2048;
    const rolling =
      500 * Math.sin(17 * x + 5 * y) * Math.cos(13 * y - 4 * x) + 200 * Math.sin(41 * x) * Math.sin(37 * y);
    heights[at] = 700 + rolling;
  }
}
const begun = process.cpuUsage();
const layers = walkNow(layerOutlines(heightfield(n, n, 5, 5, heights), levelsMm(new Array(30).fill(47)), 'proud', 500));
const used = process.cpuUsage(begun);
const points = layers.flat(2).reduce((sum, ring) => sum + ring.length / 2, 0);
const seconds = (used.user + used.system) / 1e6;
console.log(
  `${n} × ${n}: ${seconds.toFixed(2)} s of processor, ${((1e9 * seconds) / (n * n)).toFixed(1)} ns a post, ` +
    `${points} points, most memory ${Math.round(process.resourceUsage().maxRSS / 1024)} MB`,
);
