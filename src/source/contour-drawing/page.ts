/** From the drawing's own units to millimetres of ground. */
import { refuse, type Where } from '../../findings.ts';
import { type Affine, after, STILL } from '../../geometry/affine.ts';
import type { Element } from './xml.ts';

/** Millimetres in CSS's absolute units: a pixel is 1/96 in (CSS Values 3, 5.2). */
const PAPER_MM: Readonly<Record<string, number>> = {
  mm: 1,
  cm: 10,
  q: 0.25,
  in: 25.4,
  pt: 25.4 / 72,
  pc: 25.4 / 6,
  px: 25.4 / 96,
};
const PIXEL_MM = PAPER_MM.px;

/** How the whole drawing lies on the ground. */
export interface Page {
  /** From user units (y down) to millimetres of ground (y up), before the ground is moved to its corner. */
  readonly toGround: Affine;
  /** Of the whole page on the ground; null when the drawing has none. */
  readonly sizeMm: readonly [number, number] | null;
  /** The size was written in pixels, which few people mean as a length. */
  readonly isPixels: boolean;
  /** How much more `size` stretches the page one way than the other, 1 for not at all. */
  readonly stretched: number;
}

/** Read the size of the page: real, or as the job says. Refuses a drawing of which neither says it. */
export function pageOf(
  { attributes, line, column }: Element,
  { scale, size }: { scale?: number | undefined; size?: readonly [number, number] | undefined },
  file: string,
): Page {
  const where = { file, line, column };
  const box = viewBoxOf(attributes.get('viewBox'), where);
  let [width, height] = [paperMm(attributes.get('width')), paperMm(attributes.get('height'))];
  if (box !== null) {
    width ??= height === null ? null : (height * box[2]) / box[3];
    height ??= width === null ? null : (width * box[3]) / box[2];
  }
  const isReal = width !== null && height !== null;
  // Without a real size a unit counts as a millimetre of paper, so that `scale` can be said of it.
  const paper = isReal ? ([width as number, height as number] as const) : box && ([box[2], box[3]] as const);
  if (!isReal && (size === undefined ? scale === undefined : paper === null)) noSize(size === undefined, where);
  const inside =
    box === null
      ? isReal
        ? ([PIXEL_MM, 0, 0, PIXEL_MM, 0, 0] as const)
        : STILL
      : fitted(box, paper as readonly [number, number], attributes.get('preserveAspectRatio'));

  const [x, y] = size && paper ? [size[0] / paper[0], size[1] / paper[1]] : [scale ?? 1, scale ?? 1];
  const toGround = after([x, 0, 0, -y, 0, 0], inside);
  const sizeMm = paper && ([paper[0] * x, paper[1] * y] as const);
  const isPixels =
    isReal && size === undefined && /(px|\d|\.)\s*$/i.test(attributes.get('width') ?? attributes.get('height') ?? '');
  return { toGround, sizeMm, isPixels, stretched: Math.max(x / y, y / x) };
}

/** Where a nested drawing lies in the one around it: its place, and its own units. Sizes that it does not say are 1 : 1. */
export function nestedDrawing({ attributes, line, column }: Element, file: string): Affine {
  const place = (name: string) => (paperMm(attributes.get(name)) ?? 0) / PIXEL_MM;
  const box = viewBoxOf(attributes.get('viewBox'), { file, line, column });
  const at: Affine = [1, 0, 0, 1, place('x'), place('y')];
  const [width, height] = [place('width'), place('height')];
  if (box === null || width <= 0 || height <= 0) return at;
  return after(at, fitted(box, [width, height], attributes.get('preserveAspectRatio')));
}

/** A length in CSS's absolute units, a bare number being pixels; null for none, a share (%) or a length of letters (em). */
function paperMm(written: string | undefined): number | null {
  const match = /^\s*([+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d+)?)\s*([a-z]*)\s*$/i.exec(written ?? '');
  if (match === null) return null;
  const unitMm = match[2] === '' ? PIXEL_MM : PAPER_MM[match[2].toLowerCase()];
  const mm = Number(match[1]) * (unitMm ?? Number.NaN);
  return Number.isFinite(mm) ? mm : null;
}

type ViewBox = readonly [x: number, y: number, width: number, height: number];

function viewBoxOf(written: string | undefined, where: Where): ViewBox | null {
  if (written === undefined || written.trim() === '') return null;
  const numbers = (written.match(/[^\s,]+/g) ?? []).map(Number);
  const [x, y, width, height] = numbers;
  if (numbers.length === 4 && numbers.every(Number.isFinite) && width > 0 && height > 0) return [x, y, width, height];
  return refuse(
    'source/damaged-file',
    `The drawing's viewBox is "${written.slice(0, 60)}"; it must be four numbers, the last two above 0.`,
    'Save the drawing again as plain SVG, or mend the viewBox.',
    where,
  );
}

/** A view box laid into a page (SVG 2, 8.7): by default as large as fits, in the middle. */
function fitted(
  [x, y, width, height]: ViewBox,
  [pageWidth, pageHeight]: readonly [number, number],
  written = '',
): Affine {
  let [across, down] = [pageWidth / width, pageHeight / height];
  if (!/^\s*(defer\s+)?none/.test(written)) {
    across = down = /\bslice\b/.test(written) ? Math.max(across, down) : Math.min(across, down);
  }
  const share = (axis: 'x' | 'Y', word = new RegExp(`${axis}(Min|Max)`).exec(written)?.[1]) =>
    word === 'Min' ? 0 : word === 'Max' ? 1 : 0.5;
  const left = (pageWidth - width * across) * share('x');
  const top = (pageHeight - height * down) * share('Y');
  return [across, 0, 0, down, left - x * across, top - y * down];
}

const noSize = (hasNoSize: boolean, where: Where): never =>
  refuse(
    'source/no-size',
    'The drawing does not say how large it is: it has no width and height in mm, cm, in, pt or px.',
    hasNoSize
      ? "Say the ground's size in the job, size: [2400, 1800] for the whole page, or scale: 10 where one unit of the drawing is 10 mm of ground; or set the page's size in mm in the drawing."
      : 'Say scale: 10 where one unit of the drawing is 10 mm of ground; or give the drawing a viewBox, which size then measures.',
    where,
  );
