import { SaxesParser } from 'saxes';
import type { Line } from '../../src/drawing/page.ts';

export interface SvgPath {
  readonly group: string;
  readonly id: string | undefined;
  readonly title: string | undefined;
  readonly widthMm: number;
  readonly dashed: boolean;
  readonly lines: readonly Line[];
}

export interface SvgFile {
  readonly root: Readonly<Record<string, string>>;
  readonly title: string;
  readonly description: string;
  readonly groups: readonly string[];
  readonly paths: readonly SvgPath[];
  readonly elements: ReadonlySet<string>;
}

/** Read an SVG file back with a strict XML parser. Fails on anything that is not well-formed. */
export function readSvg(text: string): SvgFile {
  const parser = new SaxesParser();
  const open: { name: string; attributes: Record<string, string>; text: string; title?: string }[] = [];
  const groups: string[] = [];
  const paths: SvgPath[] = [];
  const elements = new Set<string>();
  let root: Record<string, string> = {};
  let title = '';
  let description = '';
  parser.on('error', (error) => {
    throw error;
  });
  parser.on('opentag', ({ name, attributes }) => {
    elements.add(name);
    open.push({ name, attributes: attributes as Record<string, string>, text: '' });
    if (name === 'svg') root = attributes as Record<string, string>;
    if (name === 'g') groups.push((attributes as Record<string, string>).id);
  });
  parser.on('text', (text) => {
    if (open.length > 0) open[open.length - 1].text += text;
  });
  parser.on('closetag', () => {
    const closed = open.pop();
    const parent = open[open.length - 1];
    if (closed?.name === 'title' && parent?.name === 'path') parent.title = closed.text;
    else if (closed?.name === 'title') title = closed.text;
    if (closed?.name === 'desc') description = closed.text;
    if (closed?.name === 'path') {
      paths.push({
        group: parent?.attributes.id ?? '',
        id: closed.attributes.id,
        title: closed.title,
        widthMm: Number(closed.attributes['stroke-width']),
        dashed: closed.attributes['stroke-dasharray'] !== undefined,
        lines: readPath(closed.attributes.d),
      });
    }
  });
  parser.write(text).close();
  return { root, title, description, groups, paths, elements };
}

/** Straight path data: M, L and Z, absolute. Fails on anything else. */
function readPath(data: string): Line[] {
  if (!/^([ML]-?\d+(\.\d{1,3})? -?\d+(\.\d{1,3})?|Z)*$/.test(data))
    throw new Error(`odd path data: ${data.slice(0, 80)}`);
  return data
    .split('M')
    .slice(1)
    .map((run) => ({
      points: new Float64Array(run.replace('Z', '').split(/[L ]/).map(Number)),
      closed: run.endsWith('Z'),
    }));
}

/** Length of a line once along, or round when it is closed. */
export function lineLength({ points, closed }: Line): number {
  let length = 0;
  for (let i = 2; i < points.length; i += 2) {
    length += Math.hypot(points[i] - points[i - 2], points[i + 1] - points[i - 1]);
  }
  const last = points.length - 2;
  return closed ? length + Math.hypot(points[0] - points[last], points[1] - points[last + 1]) : length;
}
