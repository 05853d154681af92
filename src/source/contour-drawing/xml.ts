/** XML as a flat list of elements: the one place that knows saxes. No entities beyond XML's own five are ever expanded. */
import { SaxesParser } from 'saxes';
import { refuse, type Where } from '../../findings.ts';
import { fileKind } from '../../model/file-kind.ts';
import { numberText } from '../../units.ts';

/** An element of the drawing. Parents stand before their children. */
export interface Element {
  /** Local name; empty for what is not SVG. */
  readonly name: string;
  /** Place in the list; −1 for the outermost. */
  readonly parent: number;
  /** By name; those with a prefix by `:` and the local name. */
  readonly attributes: ReadonlyMap<string, string>;
  /** Of `text` and `style` only: all that stands in them. */
  text: string;
  readonly line: number;
  /** Of its `<`, counted from 1. */
  readonly column: number;
}

const SVG = 'http://www.w3.org/2000/svg';
/** Larger files are no drawings; 64 MB hold some two million points. */
const MOST_BYTES = 64e6;
const MOST_ELEMENTS = 500_000;
/** Drawing programs nest a dozen groups or two. */
const MOST_DEPTH = 256;
/** A height is short; a text that is longer is none. */
const MOST_TEXT = 200;
/** Characters between two steps of progress. */
const CHUNK = 1 << 18;

/** Read a drawing's elements, in their order. Refuses what is not whole XML, or not SVG, with line and column. */
export function* readXml(bytes: Uint8Array, file: string): Generator<number, Element[]> {
  if (bytes.length === 0) refuse('source/empty-file', 'The file is empty.', SAVE_AGAIN, { file });
  if (bytes.length > MOST_BYTES) tooLarge(`is ${numberText(bytes.length / 1e6, 0)} MB`, { file });
  const kind = fileKind(bytes);
  if (kind !== 'XML or a web page') notSvg(kind, { file });

  const parser = new SaxesParser({ xmlns: true });
  const elements: Element[] = [];
  const open: number[] = [];
  /** The text or style that is open, and how deep it lies. */
  let heard: Element | null = null;
  let heardAt = 0;
  let start = { file, line: 1, column: 1 };
  const here = (): Where => ({ file, line: parser.line, column: parser.column + 1 });
  const hear = (text: string) => {
    if (heard !== null && (heard.name === 'style' || heard.text.length <= MOST_TEXT)) heard.text += text;
  };

  parser.on('error', ({ message }) => notWhole(message.replace(/^\d+:\d+: /, ''), here()));
  parser.on('text', hear);
  parser.on('cdata', hear);
  parser.on('opentagstart', ({ name }) => {
    // The parser stands behind the sign that ends the name.
    start = { file, line: parser.line, column: Math.max(1, parser.column - name.length - 1) };
  });
  parser.on('opentag', ({ local, uri, attributes }) => {
    if (elements.length === 0 && (local !== 'svg' || (uri !== SVG && uri !== ''))) notSvg(`XML of "${local}"`, start);
    if (open.length >= MOST_DEPTH) tooDeep(start);
    if (elements.length >= MOST_ELEMENTS) tooLarge(`holds more than ${MOST_ELEMENTS} shapes and groups`, start);
    const written = new Map<string, string>();
    for (const { prefix, local: key, value } of Object.values(attributes)) {
      written.set(prefix === '' ? key : `:${key}`, value);
    }
    const { line, column } = start;
    const name = uri === SVG || uri === '' ? local : '';
    const element: Element = { name, parent: open.at(-1) ?? -1, attributes: written, text: '', line, column };
    if (heard === null && (name === 'text' || name === 'style')) [heard, heardAt] = [element, open.length];
    open.push(elements.length);
    elements.push(element);
  });
  parser.on('closetag', () => {
    open.pop();
    if (open.length === heardAt) heard = null;
  });

  const text = new TextDecoder().decode(bytes);
  for (let at = 0; at < text.length; at += CHUNK) {
    parser.write(text.slice(at, at + CHUNK));
    yield at / text.length;
  }
  parser.close();
  return elements;
}

const SAVE_AGAIN = 'Save the drawing again as plain SVG and give that file.';

const notSvg = (kind: string, where: Where): never =>
  refuse('source/not-svg', `This is no SVG drawing: it seems to be ${kind}.`, SAVE_AGAIN, where);

const notWhole = (reason: string, where: Where): never =>
  refuse(
    'source/damaged-file',
    `The drawing breaks off or is damaged here: ${reason.replace(/\.?$/, '.')}`,
    SAVE_AGAIN,
    where,
  );

const tooDeep = (where: Where): never =>
  refuse('source/too-deep', `Groups lie more than ${MOST_DEPTH} deep in each other.`, 'Ungroup them.', where);

const tooLarge = (what: string, where: Where): never =>
  refuse(
    'source/too-large',
    `The drawing ${what}.`,
    'Leave out what is no line of the ground, and simplify the lines.',
    where,
  );
