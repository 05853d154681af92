/** What is drawn, and what it means: see state.ts for how an element comes by its height and kind. */
import { CannotMake, type Fault, refuse, type Where } from '../../findings.ts';
import { type Affine, mapped, stretchOf } from '../../geometry/affine.ts';
import { type FlatLine, Flattener } from '../../geometry/flatten.ts';
import { colourOf } from './colour.ts';
import { drawShape, SHAPES, userLength } from './shapes.ts';
import { keysOf, outermost, type ReadingOptions, type State, stateOf } from './state.ts';
import { readStyles } from './style.ts';
import { type Kind, namesOf } from './words.ts';
import type { Element } from './xml.ts';

/** A shape with what it means. Millimetres of ground, y up. */
export interface Drawn {
  readonly lines: readonly FlatLine[];
  readonly kind: Kind | null;
  readonly heightMm: number | null;
  readonly colour: string;
  readonly isCircle: boolean;
  /** `circle "h150-2"`, for people. */
  readonly name: string;
  readonly where: Where;
}

/** A text with its anchor point. */
export interface Written {
  readonly text: string;
  /** By an attribute of its own. */
  readonly saidMm: number | null;
  /** A group around it has a height. */
  readonly isInLayer: boolean;
  readonly at: readonly [number, number];
  readonly sizeMm: number;
  readonly where: Where;
}

/** All that is seen of a drawing, and what was left out of it. */
export interface Read {
  readonly shapes: readonly Drawn[];
  readonly texts: readonly Written[];
  readonly hidden: readonly string[];
  readonly unstroked: number;
  readonly images: number;
  readonly uses: readonly { readonly name: string; readonly where: Where }[];
  readonly unusedKeys: readonly string[];
  readonly colours: readonly string[];
}

/** Points of a whole drawing at most. */
const MOST_POINTS = 2_000_000;
/** Farther from the page's corner than this, in millimetres (100 km), nothing is drawn. */
const FARTHEST_MM = 1e8;
const MOST_FAULTS = 20;
const CONTAINERS: ReadonlySet<string> = new Set(['svg', 'g', 'a', 'switch']);

/** Read what the elements draw. Refuses shapes that cannot be read, each with its line and column. */
export function* readDrawing(
  elements: readonly Element[],
  toGround: Affine,
  options: ReadingOptions,
): Generator<number, Read> {
  const { file, legend, toleranceMm } = options;
  const declarations = readStyles(elements);
  const keys = keysOf(legend);
  const states: (State | null)[] = [];
  const shapes: Drawn[] = [];
  const texts: Written[] = [];
  const uses: Read['uses'][number][] = [];
  const hidden: string[] = [];
  const faults: Fault[] = [];
  const colours = new Set<string>();
  let [points, unstroked, images] = [0, 0, 0];

  for (const [i, element] of elements.entries()) {
    if (i % 1000 === 999) yield i / elements.length;
    const above = element.parent < 0 ? outermost(toGround) : states[element.parent];
    states.push(null);
    const isContainer = CONTAINERS.has(element.name);
    const isText = element.name === 'text';
    if (above === null || !above.isSeen) continue;
    if (element.name === 'image') images++;
    const where = { file, line: element.line, column: element.column };
    const name = nameOf(element);
    if (element.name === 'use') uses.push({ name, where });
    if (!isContainer && !isText && !SHAPES.has(element.name)) continue;

    const declared = declarations(element);
    const state = stateOf(element, above, declared, keys, options, where);
    if (!state.isSeen || (above.isVisible && !state.isVisible)) hidden.push(name);
    if (isContainer) states[i] = state;
    if (!state.isSeen || !state.isVisible || isContainer) continue;

    if (isText) {
      const at = anchorOf(element, elements, i, state.map);
      const sizeMm = state.fontSize * stretchOf(state.map);
      const saidMm = element.attributes.has('data-height') ? state.heightMm : null;
      const text = element.text.trim();
      if (at !== null && state.kind !== 'nothing')
        texts.push({ text, saidMm, isInLayer: above.heightMm !== null, at, sizeMm, where });
      continue;
    }
    const colour = colourOf(state.stroke);
    const byColour = keys.asked(colour);
    const kind = state.kind ?? (typeof byColour === 'string' ? byColour : null);
    const heightMm = state.heightMm ?? (typeof byColour === 'number' ? byColour : null);
    if (kind === 'nothing') continue;
    if (colour === 'none' && kind === null && heightMm === null) {
      // A small circle may be filled only, and a number beside it say its height: it is judged later.
      if (element.name !== 'circle' && element.name !== 'ellipse') {
        unstroked++;
        continue;
      }
    } else colours.add(colour);

    const pen = new Flattener(state.map, toleranceMm, MOST_POINTS - points);
    const fault = drawShape(element, pen);
    points += pen.count;
    if (pen.isFull) tooManyPoints(where);
    if (fault !== null) faults.push(badShape(name, fault, where));
    else if (!pen.lines.every(({ points }) => points.every((at) => Math.abs(at) <= FARTHEST_MM))) {
      faults.push(tooFar(name, where));
    }
    if (faults.length >= MOST_FAULTS) break;
    const isCircle = element.name === 'circle' || element.name === 'ellipse';
    if (pen.lines.length > 0) shapes.push({ lines: pen.lines, kind, heightMm, colour, isCircle, name, where });
  }
  if (faults.length > 0) throw new CannotMake(faults);
  return { shapes, texts, hidden, unstroked, images, uses, unusedKeys: keys.unused(), colours: [...colours] };
}

/** Where a text stands: its own x and y, else those of the first of its runs that has them. */
function anchorOf(element: Element, elements: readonly Element[], i: number, map: Affine): [number, number] | null {
  const isPlaced = ({ attributes }: Element) => attributes.has('x') && attributes.has('y');
  let placed = element;
  for (let k = i + 1; !isPlaced(placed) && k < elements.length && elements[k].parent >= i; k++) {
    if (isPlaced(elements[k])) placed = elements[k];
  }
  const first = (name: string) => {
    const written = placed.attributes.get(name);
    return written === undefined ? 0 : userLength(written.trim().split(/[\s,]+/)[0]);
  };
  const at = mapped(map, first('x'), first('y'));
  return at.every((coordinate) => Math.abs(coordinate) <= FARTHEST_MM) ? at : null;
}

/** `path "h150-2"`, or `path` where it has no id. */
function nameOf(element: Element): string {
  const [name] = namesOf(element);
  return name === undefined ? element.name : `${element.name} "${name.length > 40 ? `${name.slice(0, 40)}…` : name}"`;
}

const badShape = (name: string, what: string, where: Where): Fault => ({
  code: 'source/bad-shape',
  message: `The ${name} cannot be read: ${what}.`,
  fix: 'Mend it, take it out, or save the drawing again as plain SVG.',
  where,
});

const tooFar = (name: string, where: Where): Fault => ({
  code: 'source/too-wide',
  message: `The ${name} runs out farther than 100 km, or to no number at all.`,
  fix: 'Take it out, or say the right size or scale.',
  where,
});

const tooManyPoints = (where: Where): never =>
  refuse(
    'source/too-large',
    `The drawing's lines have more than ${MOST_POINTS / 1e6} million points.`,
    'Simplify them in the drawing program: within half a millimetre of the ground no eye sees it.',
    where,
  );
