/**
 * What is drawn, and what it means. Meaning goes down the groups: the nearest of an element and the groups around it that
 * says a height or a kind (by `data-height` and `data-kind`, then the job's legend by id, then the id itself) says it for all
 * inside. Only where none does is the legend asked for the stroke's colour.
 */
import { CannotMake, type Fault, refuse, type Where } from '../../findings.ts';
import { type Affine, after, mapped, stretchOf } from '../../geometry/affine.ts';
import { type FlatLine, Flattener } from '../../geometry/flatten.ts';
import type { Unit } from '../../units.ts';
import { colourOf } from './colour.ts';
import { nestedDrawing } from './page.ts';
import { drawShape, SHAPES, userLength } from './shapes.ts';
import { type Declarations, readStyles } from './style.ts';
import { transformOf } from './transform.ts';
import { heightOfName, heightOfText, type Kind, kindOf, namesOf, withoutEnding } from './words.ts';
import type { Element } from './xml.ts';

/** What the job says that colours and ids stand for: a height in millimetres, or a kind. */
export type Legend = Readonly<Record<string, number | Kind>>;

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

export interface ReadingOptions {
  readonly file: string;
  readonly unit: Unit;
  readonly legend: Legend;
  readonly toleranceMm: number;
}

/** What an element hands down to those inside it. */
interface State {
  readonly map: Affine;
  readonly isSeen: boolean;
  readonly isVisible: boolean;
  readonly stroke: string;
  readonly fontSize: number;
  readonly kind: Kind | null;
  readonly heightMm: number | null;
}

/** Points of a whole drawing at most. */
const MOST_POINTS = 2_000_000;
/** Farther from the page's corner than this, in millimetres (100 km), nothing is drawn. */
const FARTHEST_MM = 1e8;
const MOST_FAULTS = 20;
const CONTAINERS: ReadonlySet<string> = new Set(['svg', 'g', 'a', 'switch']);
const USUAL_FONT_SIZE = 16;

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
  const root: State = {
    map: toGround,
    isSeen: true,
    isVisible: true,
    stroke: 'none',
    fontSize: USUAL_FONT_SIZE,
    kind: null,
    heightMm: null,
  };

  for (const [i, element] of elements.entries()) {
    if (i % 1000 === 999) yield i / elements.length;
    const above = element.parent < 0 ? root : states[element.parent];
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

function stateOf(
  element: Element,
  above: State,
  declared: Declarations,
  keys: ReturnType<typeof keysOf>,
  { unit, file }: ReadingOptions,
  where: Where,
): State {
  const { attributes } = element;
  const property = (name: string): string | undefined => {
    const value = declared.get(name) ?? attributes.get(name);
    return value === undefined || value === 'inherit' ? undefined : value;
  };
  const inner = declared.get('transform');
  if (inner !== undefined && inner !== 'none') styledTransform(where);
  const transform = attributes.get('transform');
  const moved =
    transform === undefined ? above.map : after(above.map, transformOf(transform) ?? badTransform(transform, where));
  const visibility = property('visibility');
  const said = saidBy(element, keys, unit, where);
  const fontSize = userLength(property('font-size'));
  return {
    map: element.name === 'svg' && element.parent >= 0 ? after(moved, nestedDrawing(element, file)) : moved,
    isSeen: property('display') !== 'none',
    isVisible: visibility === undefined ? above.isVisible : visibility === 'visible',
    stroke: property('stroke') ?? above.stroke,
    fontSize: fontSize > 0 ? fontSize : above.fontSize,
    kind: said.kind ?? above.kind,
    heightMm: said.heightMm ?? above.heightMm,
  };
}

/** What an element says of itself. */
function saidBy(element: Element, keys: ReturnType<typeof keysOf>, unit: Unit, where: Where) {
  let kind: Kind | null = null;
  let heightMm: number | null = null;
  const { attributes } = element;
  const height = attributes.get('data-height');
  if (height !== undefined) heightMm = heightOfText(height, unit) ?? badHeight(height, where);
  const written = attributes.get('data-kind');
  if (written !== undefined) kind = kindOf(written.trim()) ?? badKind(written, where);
  const names = namesOf(element);
  for (const name of names) {
    const said = keys.asked(name) ?? keys.asked(withoutEnding(name));
    if (typeof said === 'string') kind ??= said;
    else if (said !== undefined) heightMm ??= said;
  }
  for (const name of names) {
    kind ??= kindOf(name);
    heightMm ??= heightOfName(name, unit);
  }
  return { kind, heightMm };
}

/** The legend, asked by colour or name; it remembers what was never asked for. */
function keysOf(legend: Legend) {
  const written = Object.keys(legend);
  const byKey = new Map(
    written.flatMap((key) => [
      [key, key],
      [colourOf(key), key],
    ]),
  );
  const met = new Set<string>();
  return {
    asked(key: string): number | Kind | undefined {
      const found = byKey.get(key);
      if (found === undefined) return undefined;
      met.add(found);
      return legend[found];
    },
    unused: () => written.filter((key) => !met.has(key)),
  };
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

const badHeight = (written: string, where: Where): never =>
  refuse(
    'source/bad-height',
    `data-height is "${written.slice(0, 40)}", which is no height.`,
    'Write a number, perhaps with a unit: 150, 150 mm, 1.5 m.',
    where,
  );

const badKind = (written: string, where: Where): never =>
  refuse(
    'source/bad-kind',
    `data-kind is "${written.slice(0, 40)}".`,
    'Write contour, spot, footprint, ridge, stream, cliff or nothing.',
    where,
  );

const badTransform = (written: string, where: Where): never =>
  refuse(
    'source/bad-transform',
    `The transform "${written.slice(0, 60)}" cannot be read.`,
    'Mend it, or save the drawing again as plain SVG.',
    where,
  );

const styledTransform = (where: Where): never =>
  refuse(
    'source/bad-transform',
    'A shape or group is moved by its style, which is not read here.',
    'Write it as a transform attribute, or let the drawing program apply it.',
    where,
  );
