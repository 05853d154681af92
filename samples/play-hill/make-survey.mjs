// Writes survey.csv: an invented play hill of 17 × 12 m, as a surveyor walks over it. Run: node samples/play-hill/make-survey.mjs
import { writeFileSync } from 'node:fs';

const EAST = 4187310;
const NORTH = 5418220;
let state = 20;
const random = () => {
  state = (state * 1103515245 + 12345) % 2147483648;
  return state / 2147483648;
};
const bump = (x, y, cx, cy, rx, ry) => Math.exp(-(((x - cx) / rx) ** 2) - ((y - cy) / ry) ** 2);
const heightAt = (x, y) =>
  231.4 +
  0.02 * x +
  2.3 * bump(x, y, 7.1, 6.4, 3.4, 2.6) +
  1.2 * bump(x, y, 12.2, 4.6, 2.3, 2.9) -
  0.5 * bump(x, y, 10, 9, 1.6, 1.4);

const lines = ['# Play hill, invented. Metres; heights above the yard’s datum.', 'point,easting,northing,height,code'];
let number = 100;
const spot = (x, y, code) => {
  number += 1;
  const columns = [number, (EAST + x).toFixed(3), (NORTH + y).toFixed(3), heightAt(x, y).toFixed(3), code];
  lines.push(columns.join(','));
};
for (let i = 0; i < 9; i++) spot(0.4 + i * 2.05 + random() * 0.3, random() * 0.4, 'EDGE');
for (let i = 0; i < 6; i++) spot(17.1 + random() * 0.4, 1.2 + i * 2 + random() * 0.3, 'EDGE');
for (let i = 0; i < 9; i++) spot(16.4 - i * 2.0 + random() * 0.3, 12.1 + random() * 0.4, 'EDGE');
for (let i = 0; i < 6; i++) spot(random() * 0.4, 11.1 - i * 2 + random() * 0.3, 'EDGE');
for (let row = 0; row < 8; row++) {
  for (let column = 0; column < 11; column++) {
    spot(1 + column * 1.5 + random() * 0.9, 0.9 + row * 1.4 + random() * 0.8, 'GROUND');
  }
}
spot(7.1, 6.4, 'TOP');
spot(12.2, 4.6, 'TOP');
writeFileSync(new URL('survey.csv', import.meta.url), `${lines.join('\n')}\n`);
