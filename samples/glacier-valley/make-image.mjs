/**
 * Writes valley.png: an invented glacier valley, 600 × 450 m at a post every 1.5 m, 16 bit grey, 0 to 120 m.
 * Run it from the project's folder: node samples/glacier-valley/make-image.mjs
 */
import { writeFileSync } from 'node:fs';
import { encode } from 'fast-png';

const [width, height, postM, highestM] = [401, 301, 1.5, 120];

const smooth = (from, to, x) => {
  const t = Math.min(1, Math.max(0, (x - from) / (to - from)));
  return t * t * (3 - 2 * t);
};
const hump = (x, middle, reach) => Math.exp(-(((x - middle) / reach) ** 2));

/** Height in metres at so many metres east and north. The ice comes down from the north-east. */
function heightM(east, north) {
  const along = east * 0.8 + north * 0.6;
  const axis = 205 + 34 * Math.sin(along / 118) - 0.3 * along;
  const across = north * 0.8 - east * 0.6 + 160 - axis + 55;
  const floor = 9 + 0.052 * along;
  const trough = 60 * smooth(46, 205, Math.abs(across)) ** 1.15;
  const crest = 10 * Math.sin(east / 41 + 1.3) * Math.sin(north / 57 + 0.4) * smooth(80, 190, Math.abs(across));
  const ice = smooth(250, 330, along);
  const tongue = ice * 15 * Math.max(0, 1 - (across / 62) ** 2);
  const crevasses = ice * 0.9 * Math.sin(along / 5.5 + across / 40) * hump(across, 4, 34);
  const moraines = (6.5 * hump(across, 66, 8) + 5 * hump(across, -64, 9)) * smooth(190, 260, along);
  const end = 8 * hump(along, 232 - 0.004 * across * across, 10) * hump(across, 0, 70);
  const stream = 2.4 * (1 - smooth(200, 240, along)) * hump(across, 7 * Math.sin(along / 17), 7);
  return floor + trough + crest + tongue + crevasses + moraines + end - stream;
}

const data = new Uint16Array(width * height);
for (let row = 0; row < height; row++) {
  for (let column = 0; column < width; column++) {
    const metres = heightM(column * postM, (height - 1 - row) * postM);
    data[row * width + column] = Math.round((Math.min(highestM, Math.max(0, metres)) / highestM) * 65535);
  }
}
writeFileSync(
  new URL('valley.png', import.meta.url),
  encode({ width, height, data, depth: 16, channels: 1 }, { zlib: { level: 9 } }),
);
