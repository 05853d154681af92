/** What is told of a drawing, as findings. */
import type { Finding, Where } from '../../findings.ts';
import type { Point } from '../../geometry/ring.ts';
import { numberText } from '../../units.ts';
import type { Doubts } from './checks.ts';
import type { Page } from './page.ts';
import type { Placed } from './place.ts';
import type { Read } from './read.ts';
import type { Contour, Line, Sorted, Spot } from './sort.ts';

type Tell = (finding: Finding) => void;

/** So many findings of a kind are told each; the rest in one. */
const MOST_TOLD = 10;

/** Tell what is to be known of the page. */
export function tellPage({ sizeMm, isPixels, stretched }: Page, where: Where, tell: Tell): void {
  if (isPixels && sizeMm !== null) {
    const message = `The drawing's size is written in pixels; at 96 to the inch the page is ${mm(sizeMm[0], 1)} × ${mm(sizeMm[1], 1)} of ground.`;
    tell(note('source/size-in-pixels', message, 'Say size or scale in the job if it is another.', where));
  }
  if (stretched > 1.01) {
    const message = `The size said in the job has other proportions than the page: the drawing is stretched ${numberText(stretched, 2)} times more one way.`;
    tell(watch('source/stretched', message, 'Say the size that the whole page has on the ground.', where));
  }
}

/** Tell what was taken, and what was left out. */
export function tellRead(read: Read, sorted: Sorted, placed: Placed, file: string, tell: Tell): void {
  const { contours, spots, creases, tears, labels, isOutlined, sizeMm } = placed;
  const heights = new Set(contours.map(({ zMm }) => zMm));
  const parts = [
    `${count(contours.length, 'contour')} at ${count(heights.size, 'height')}`,
    count(spots.length, 'spot'),
    count(creases.length + tears.length, 'break line'),
    ...(labels > 0 ? [`${count(labels, 'number')} taken for the label of a line`] : []),
  ];
  const message = `The drawing holds ${parts.join(', ')}; the ground is ${mm(sizeMm[0], 1)} × ${mm(sizeMm[1], 1)}.`;
  tell(note('source/drawing-read', message, 'Nothing to do if that is what you drew.', { file }));
  if (!isOutlined) {
    const without = 'No outline of the ground is drawn: it is the box round everything that has a height.';
    tell(note('source/no-footprint', without, 'Draw a closed line with the id footprint.', { file }));
  }
  if (read.hidden.length > 0) {
    const names = read.hidden.slice(0, 5).join(', ') + (read.hidden.length > 5 ? ' …' : '');
    const hidden = `${count(read.hidden.length, 'hidden group or shape', 'hidden groups or shapes')} left out: ${names}.`;
    tell(note('source/hidden', hidden, 'Show them in the drawing if they belong to the ground.', { file }));
  }
  const unstroked = read.unstroked + sorted.unstroked;
  if (unstroked + read.images > 0) {
    const left = [
      ...(unstroked > 0
        ? [count(unstroked, 'shape without a line or a height', 'shapes without a line or a height')]
        : []),
      ...(read.images > 0 ? [count(read.images, 'picture')] : []),
    ].join(' and ');
    tell(note('source/left-out', `Left out: ${left}.`, 'Give what belongs to the ground a height.', { file }));
  }
  some(read.uses, tell, ({ name, where }) =>
    watch(
      'source/copy-by-reference',
      `The ${name} shows another shape by reference; such copies are left out.`,
      'Make it a shape of its own in the drawing program (unlink the copy), or take it out.',
      where,
    ),
  );
  for (const key of read.unusedKeys) {
    const colours = read.colours.filter((colour) => colour !== 'none').slice(0, 8);
    const seen = colours.length > 0 ? ` Lines are drawn in ${colours.join(', ')}.` : '';
    tell(
      watch(
        'source/legend-unused',
        `Nothing in the drawing is ${JSON.stringify(key)}.${seen}`,
        'Write the colour or the id as the drawing has it.',
        {
          path: `source.contour-drawing.legend.${key}`,
        },
      ),
    );
  }
  some(sorted.withoutHeight.length > 0 ? placed.withoutHeight : [], tell, (line) =>
    watch(
      'source/line-without-height',
      `The ${line.name} has no height.`,
      'Name it or its layer by height (h150), say its colour in the legend, or the legend nothing for what is no ground.',
      { ...line.where, atMm: middleOf(line) },
    ),
  );
  some(placed.openOutlines, tell, ({ line, gapMm, atMm }) =>
    watch(
      'source/open-footprint',
      `The footprint (${line.name}) is open by ${mm(gapMm, 1)}; it is closed by a straight line.`,
      'Close it in the drawing; a footprint drawn in several lines must be joined into one.',
      { ...line.where, atMm },
    ),
  );
}

/** Tell what cannot be as drawn, and what was probably meant otherwise. */
export function tellDoubts({ contours, disagreeing }: Placed, doubts: Doubts, tell: Tell): void {
  some(doubts.meetings, tell, ({ lines: [a, b], x, y }) =>
    stop(
      'source/lines-cross',
      `The ${shown(contours[a])} meets the ${shown(contours[b])}, line ${contours[b].where.line}: one place cannot have both heights.`,
      'Move one of them, or give it its right height.',
      { ...contours[a].where, atMm: [x, y] },
    ),
  );
  some(doubts.contradictions, tell, ({ spot, other }) =>
    stop(
      'source/heights-contradict',
      `The ${shown(spot)} stands on the ${shown(other)}, line ${other.where.line}.`,
      'Move it, or correct one of the two heights.',
      { ...spot.where, atMm: [spot.x, spot.y] },
    ),
  );
  some(disagreeing, tell, ({ spot, textMm }) =>
    stop(
      'source/heights-contradict',
      `The ${shown(spot)} has the number ${mm(textMm, 3)} beside it.`,
      'Correct one of the two, or move the number away.',
      { ...spot.where, atMm: [spot.x, spot.y] },
    ),
  );
  some(doubts.gaps, tell, ({ a, b, gapMm }) =>
    watch(
      'source/open-ends',
      `The ${shown(contours[a.contour])} ends ${mm(gapMm, 1)} from ${a.contour === b.contour ? 'its other end' : `the end of the ${shown(contours[b.contour])}, line ${contours[b.contour].where.line}`}: they probably should meet.`,
      'Join them in the drawing if they are one line.',
      { ...contours[a.contour].where, atMm: [(a.at[0] + b.at[0]) / 2, (a.at[1] + b.at[1]) / 2] },
    ),
  );
  some(doubts.ends, tell, ({ contour, at }) =>
    watch(
      'source/contour-ends-inside',
      `The ${shown(contours[contour])} ends within the ground; a contour runs on to the edge, to a break line or back to itself.`,
      'Draw it on, or leave it if the ground beyond may find its own way.',
      { ...contours[contour].where, atMm: at },
    ),
  );
}

export const offGiven = (offMm: number, spacingMm: number, finerMm: number, where: Where): Finding =>
  watch(
    'source/posts-too-wide',
    `Posts ${mm(spacingMm, 2)} apart cannot hold the drawing here: the ground misses it by ${mm(offMm, 2)} in height.`,
    `Say spacing: ${mm(finerMm, 2)}, or draw the lines farther apart.`,
    where,
  );

export const belowZero = (lowMm: number, where: Where): Finding =>
  note(
    'source/below-zero',
    `The ground falls to ${mm(lowMm, 1)}: layers stand on 0 and reach no lower.`,
    'Take the base shaper, or draw heights above 0.',
    where,
  );

/** Tell each of the first few, and the rest as a number. */
function some<T>(all: readonly T[], tell: Tell, finding: (each: T) => Finding): void {
  for (const each of all.slice(0, MOST_TOLD)) tell(finding(each));
  const rest = all.length - MOST_TOLD;
  if (rest <= 0) return;
  const like = finding(all[MOST_TOLD]);
  tell({ ...like, message: `${like.message} And so at ${rest - 1} more places.` });
}

const middleOf = ({ points }: Line): Point => {
  const middle = 2 * Math.floor(points.length / 4);
  return [points[middle], points[middle + 1]];
};

const shown = ({ name, zMm }: Contour | Spot): string => `${name} at ${mm(zMm, 3)}`;

const finding =
  (level: Finding['level']) =>
  (code: string, message: string, fix: string, where: Where): Finding => ({
    level,
    code,
    message,
    fix,
    where,
  });
const note = finding('note');
const watch = finding('watch');
const stop = finding('stop');

const mm = (value: number, decimals: number): string => `${numberText(value, decimals)} mm`;

const count = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`;
