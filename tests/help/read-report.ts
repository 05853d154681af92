import { SaxesParser } from 'saxes';

export interface FigureText {
  readonly text: string;
  readonly look: string | undefined;
  readonly x: number;
  /** The base line, as written. */
  readonly y: number;
  readonly size: number;
}

export interface FigurePath {
  readonly look: string;
  /** Flat x, y … of each run. */
  readonly rings: readonly Float64Array[];
}

/** A figure of the report, read back. */
export interface ReadFigure {
  /** Least x, least y, width, height. */
  readonly viewBox: readonly number[];
  readonly title: string;
  readonly paths: readonly FigurePath[];
  readonly texts: readonly FigureText[];
}

export interface ReadReport {
  readonly elements: ReadonlySet<string>;
  /** Name and value of every attribute. */
  readonly attributes: readonly (readonly [string, string])[];
  /** The text outside of figures and styles, elements apart by a space. */
  readonly text: string;
  readonly figures: readonly ReadFigure[];
}

/** Read a report, or a lone figure, with a strict XML parser. Fails on anything that is not well-formed. */
export function readReport(html: string): ReadReport {
  const parser = new SaxesParser();
  const elements = new Set<string>();
  const attributes: [string, string][] = [];
  const figures: { viewBox: number[]; title: string; paths: FigurePath[]; texts: FigureText[] }[] = [];
  const open: { name: string; attributes: Record<string, string>; text: string }[] = [];
  let text = '';
  parser.on('error', (error) => {
    throw error;
  });
  parser.on('opentag', ({ name, attributes: own }) => {
    elements.add(name);
    const values = own as Record<string, string>;
    attributes.push(...Object.entries(values));
    if (name === 'svg')
      figures.push({ viewBox: values.viewBox.split(' ').map(Number), title: '', paths: [], texts: [] });
    open.push({ name, attributes: values, text: '' });
  });
  parser.on('text', (more) => {
    if (open.length > 0) open[open.length - 1].text += more;
    const isDrawn = open.some(({ name }) => name === 'svg' || name === 'style');
    if (!isDrawn) text += more;
  });
  parser.on('closetag', () => {
    text += ' ';
    const closed = open.pop();
    const figure = open.some(({ name }) => name === 'svg') ? figures[figures.length - 1] : undefined;
    if (!closed || !figure) return;
    const { class: look, d, x, y, 'font-size': size } = closed.attributes;
    if (closed.name === 'title') figure.title = closed.text;
    if (closed.name === 'path') figure.paths.push({ look, rings: readPath(d) });
    if (closed.name === 'text')
      figure.texts.push({ text: closed.text, look, x: Number(x), y: Number(y), size: Number(size) });
  });
  parser.write(html).close();
  return { elements, attributes, text: text.replace(/\s+/g, ' '), figures };
}

/** Straight path data: M, L and Z, absolute. Fails on anything else, an exponent or a NaN. */
function readPath(data: string): Float64Array[] {
  if (!/^([ML]-?\d+(\.\d+)? -?\d+(\.\d+)?|Z)+$/.test(data)) throw new Error(`odd path data: ${data.slice(0, 80)}`);
  return data
    .split('M')
    .slice(1)
    .map((run) => new Float64Array(run.replace('Z', '').split(/[L ]/).map(Number)));
}
