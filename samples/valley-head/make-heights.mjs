/**
 * Writes heights.tif: the invented head of a glacier valley, 610 × 564 m at posts 10 m west to east and 12 m south to north,
 * 32-bit floats in metres, pixel is area, with a snowfield in the north-west that the survey could not measure (−9999).
 * Run it from the project's folder: node samples/valley-head/make-heights.mjs
 */
import { writeFileSync } from 'node:fs';
import { writeArrayBuffer } from 'geotiff';

const [width, height, stepX, stepY, missing] = [62, 48, 10, 12, -9999];

/** Height in metres at so many metres east and north: a bowl that opens to the south-east, a tarn behind a bar of rock. */
function heightM(east, north) {
  const [x, y] = [(east - 260) / 250, (north - 330) / 235];
  const bowl = 105 * Math.min(1, (x * x + y * y) ** 1.25);
  const mouth = 62 * Math.exp(-(((x - 1.15) / 0.75) ** 2 + ((y + 0.95) / 0.8) ** 2));
  const bar = 17 * Math.exp(-(((x + 0.9 * y - 0.42) / 0.13) ** 2));
  const spurs = 13 * Math.sin(4.1 * Math.atan2(y, x) + 1.7) * Math.min(1, x * x + y * y);
  return Math.max(24, 31 + bowl - mouth + bar + spurs);
}

const values = new Float32Array(width * height);
for (let row = 0; row < height; row++) {
  for (let column = 0; column < width; column++) {
    const [east, north] = [column * stepX, (height - 1 - row) * stepY];
    const isSnow = ((east - 120) / 62) ** 2 + ((north - 470) / 48) ** 2 < 1;
    values[row * width + column] = isSnow ? missing : Math.round(heightM(east, north) * 100) / 100;
  }
}
const bytes = writeArrayBuffer(values, {
  width,
  height,
  SampleFormat: [3],
  BitsPerSample: [32],
  GTModelTypeGeoKey: 1,
  GTRasterTypeGeoKey: 1,
  ProjectedCSTypeGeoKey: 32632,
  ProjLinearUnitsGeoKey: 9001,
  VerticalUnitsGeoKey: 9001,
  ModelPixelScale: [stepX, stepY, 0],
  ModelTiepoint: [0, 0, 0, 400000, 5200000, 0],
  GDAL_NODATA: String(missing),
});
writeFileSync(new URL('heights.tif', import.meta.url), new Uint8Array(bytes));
