import { projection, tapedCorners } from './solve.ts';

/**
 * The script of the page. Board coordinates are mm, y up; the screen's are pixels, y down. `boards`: name, size, and
 * for each line its pen in mm and its points in tenths of a millimetre.
 */
export const pageScript = (boards: string): string => `'use strict';
${tapedCorners.toString()}
${projection.toString()}
const boards = ${boards};
const { document: sheet } = self;
const get = (id) => sheet.getElementById(id);
const canvas = get('thrown');
const pen = canvas.getContext('2d');
const NAMES = ['A', 'B', 'C', 'D'];
const FIELDS = ['AB', 'BC', 'CD', 'DA', 'AC', 'BD', 'ax', 'ay', 'by'];
const apart = ([ax, ay], [bx, by]) => Math.sqrt((bx - ax) * (bx - ax) + (by - ay) * (by - ay));
let shown = 0;
let crosses = null;
let held = 0;
let isHeld = false;
let map = null;

function fit() {
  canvas.width = self.innerWidth;
  canvas.height = self.innerHeight;
}

/** Before anything is measured: the board as large as the screen, crosses a tenth in from its corners. */
function start() {
  const { size: [w, h] } = boards[shown];
  const scale = Math.min(canvas.width / w, canvas.height / h) * 0.94;
  const [left, top] = [(canvas.width - w * scale) / 2, (canvas.height - h * scale) / 2];
  const inset = Math.round(Math.min(w, h) / 10);
  const taped = [[inset, inset], [w - inset, inset], [w - inset, h - inset], [inset, h - inset]];
  crosses = taped.map(([x, y]) => [left + x * scale, top + (h - y) * scale]);
  const far = (p, q) => Math.round(10 * apart(taped[p], taped[q])) / 10;
  const values = [far(0, 1), far(1, 2), far(2, 3), far(3, 0), far(0, 2), far(1, 3), inset, inset, inset];
  FIELDS.forEach((id, i) => { get(id).value = values[i]; });
}

function solve() {
  const values = FIELDS.map((id) => Number(get(id).value));
  const taped = tapedCorners(values.slice(0, 6), [values[6], values[7]], values[8]);
  map = taped && projection(taped.corners, crosses);
  const told = get('told');
  if (!map) {
    told.textContent = 'No figure has these measurements: look for a misread one.';
    told.className = 'bad';
    return;
  }
  const worst = taped.residualsMm.map(Math.abs).reduce((best, mm, i, all) => (mm > all[best] ? i : best), 0);
  const most = Math.abs(taped.residualsMm[worst]);
  const sum = taped.residualsMm.reduce((total, mm) => total + mm * mm, 0);
  told.textContent = 'The tape disagrees with itself by ' + most.toFixed(1) + ' mm at most (' + FIELDS[worst] + '), ' +
    Math.sqrt(sum).toFixed(1) + ' mm in all.' + (most > 3 ? ' Measure again.' : '');
  told.className = most > 3 ? 'bad' : '';
  get('told').dataset.residual = most.toFixed(3);
}

/** Where a point of the board is on the screen. */
function at(x, y) {
  const w = map[6] * x + map[7] * y + map[8];
  return [(map[0] * x + map[1] * y + map[2]) / w, (map[3] * x + map[4] * y + map[5]) / w];
}

function draw() {
  pen.setTransform(1, 0, 0, 1, 0, 0);
  pen.fillStyle = '#000';
  pen.fillRect(0, 0, canvas.width, canvas.height);
  pen.strokeStyle = '#fff';
  pen.fillStyle = '#fff';
  pen.lineCap = pen.lineJoin = 'round';
  if (map) {
    const { size: [w, h], lines } = boards[shown];
    const [ax, ay] = at(w / 2, h / 2);
    const [bx, by] = at(w / 2 + 10, h / 2);
    const scale = apart([ax, ay], [bx, by]) / 10;
    for (const [wide, dash, isClosed, points] of lines) {
      pen.lineWidth = Math.max(1, wide * scale);
      pen.setLineDash(dash.map((mm) => mm * scale));
      pen.beginPath();
      for (let i = 0; i < points.length; i += 2) {
        const [x, y] = at(points[i] / 10, points[i + 1] / 10);
        if (i === 0) pen.moveTo(x, y);
        else pen.lineTo(x, y);
      }
      if (isClosed) pen.closePath();
      pen.stroke();
    }
  }
  pen.setLineDash([]);
  pen.lineWidth = 2;
  pen.font = '24px sans-serif';
  crosses.forEach(([x, y], i) => {
    pen.beginPath();
    pen.moveTo(x - 18, y);
    pen.lineTo(x + 18, y);
    pen.moveTo(x, y - 18);
    pen.lineTo(x, y + 18);
    pen.stroke();
    if (i === held) pen.strokeRect(x - 22, y - 22, 44, 44);
    pen.fillText(NAMES[i], x + 24, y - 8);
  });
  get('name').textContent = boards[shown].name;
}

function again() {
  solve();
  draw();
}

function turnTo(next) {
  shown = (next + boards.length) % boards.length;
  get('board').value = String(shown);
  again();
}

boards.forEach(({ name }, i) => {
  const option = sheet.createElement('option');
  option.value = String(i);
  option.textContent = name;
  get('board').append(option);
});
get('board').addEventListener('change', (event) => turnTo(Number(event.target.value)));
get('hide').addEventListener('click', () => get('bar').classList.toggle('away'));
FIELDS.forEach((id) => get(id).addEventListener('input', again));
canvas.addEventListener('pointerdown', ({ clientX, clientY }) => {
  const far = (cross) => apart(cross, [clientX, clientY]);
  held = [0, 1, 2, 3].reduce((best, i) => (far(crosses[i]) < far(crosses[best]) ? i : best), 0);
  isHeld = far(crosses[held]) < 60;
  draw();
});
canvas.addEventListener('pointermove', ({ clientX, clientY }) => {
  if (!isHeld) return;
  crosses[held] = [clientX, clientY];
  again();
});
self.addEventListener('pointerup', () => { isHeld = false; });
self.addEventListener('keydown', (event) => {
  if (event.target.tagName === 'INPUT') return;
  const step = event.shiftKey ? 10 : 0.5;
  const moves = { ArrowLeft: [-step, 0], ArrowRight: [step, 0], ArrowUp: [0, -step], ArrowDown: [0, step] };
  const move = moves[event.key];
  if (move) crosses[held] = [crosses[held][0] + move[0], crosses[held][1] + move[1]];
  else if ('1234'.includes(event.key)) held = Number(event.key) - 1;
  else if (event.key === 'n') return turnTo(shown + 1);
  else if (event.key === 'p') return turnTo(shown - 1);
  else if (event.key === 'h') get('bar').classList.toggle('away');
  else return;
  event.preventDefault();
  again();
});
self.addEventListener('resize', () => { fit(); draw(); });
fit();
start();
again();
self.thrownAt = at;
`;
