/**
 * What an element hands down to those inside it. Meaning goes down the groups: the nearest of an element and the groups around
 * it that says a height or a kind (by `data-height` and `data-kind`, then the job's legend by id, then the id itself) says it
 * for all inside. Only where none does is the legend asked for the stroke's colour.
 */
import { refuse, type Where } from '../../findings.ts';
import { type Affine, after } from '../../geometry/affine.ts';
import type { Unit } from '../../units.ts';
import { colourOf } from './colour.ts';
import { nestedDrawing } from './page.ts';
import { userLength } from './shapes.ts';
import type { Declarations } from './style.ts';
import { transformOf } from './transform.ts';
import { heightOfName, heightOfText, type Kind, kindOf, namesOf, withoutEnding } from './words.ts';
import type { Element } from './xml.ts';

/** What the job says that colours and ids stand for: a height in millimetres, or a kind. */
export type Legend = Readonly<Record<string, number | Kind>>;

export interface ReadingOptions {
  readonly file: string;
  readonly unit: Unit;
  readonly legend: Legend;
  readonly toleranceMm: number;
}

/** What an element hands down to those inside it. */
export interface State {
  readonly map: Affine;
  readonly isSeen: boolean;
  readonly isVisible: boolean;
  readonly stroke: string;
  readonly fontSize: number;
  readonly kind: Kind | null;
  readonly heightMm: number | null;
}

type Keys = ReturnType<typeof keysOf>;

const USUAL_FONT_SIZE = 16;

/** Around the outermost element. */
export const outermost = (map: Affine): State => ({
  map,
  isSeen: true,
  isVisible: true,
  stroke: 'none',
  fontSize: USUAL_FONT_SIZE,
  kind: null,
  heightMm: null,
});

/** How an element stands, after the one around it. Refuses a transform, height or kind that cannot be read. */
export function stateOf(
  element: Element,
  above: State,
  declared: Declarations,
  keys: Keys,
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
function saidBy(element: Element, keys: Keys, unit: Unit, where: Where) {
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
export function keysOf(legend: Legend) {
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
