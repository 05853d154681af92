import { turn } from '../../geometry/exact-math.ts';
import { type Box, boxesMeet, boxOf } from '../../geometry/ring.ts';
import { boxOfMarks, type Group, type Mark } from '../page.ts';
import { decimal, operatorsOf, units } from './operators.ts';
import type { Ref, Writer } from './writer.ts';

/**
 * Part of another drawing, shown at its own size. A file holds the drawing once, however many panes show it: its groups are
 * known again by being the same array.
 */
export interface Pane {
  readonly groups: readonly Group[];
  /** What is seen, on the page. */
  readonly view: Box;
  /** The drawing's turn about its origin, counter-clockwise as seen, and where its origin comes to lie on the page. */
  readonly turnDeg: number;
  readonly xMm: number;
  readonly yMm: number;
}

/** Marks of a drawing that lie near one another, written once: a form XObject (ISO 32000-2, 8.10), and what it covers. */
interface Form {
  readonly ref: Ref;
  readonly name: string;
  readonly box: Box;
}

/**
 * Fields into which a drawing is sorted, by the middles of its marks. Finer ones make pages lighter to print, since less of what
 * a page shows is clipped away, and longer, since each form it shows is named: 300 mm is about a page.
 */
const FIELD_MM = 300;

/** Writes drawings that several pages show as shared forms, and the panes that show them. */
export class SharedForms {
  readonly #pdf: Writer;
  readonly #face: () => Ref;
  readonly #drawings = new Map<readonly Group[], readonly Form[]>();
  #count = 0;

  constructor(pdf: Writer, face: () => Ref) {
    this.#pdf = pdf;
    this.#face = face;
  }

  /** Show a pane on the page that was added last. Nothing is written for one that shows nothing. */
  show(pane: Pane) {
    const { view, turnDeg, xMm, yMm } = pane;
    const { cos, sin } = turn(turnDeg);
    const seen = boxUnder(view, ([x, y]) => [(x - xMm) * cos - (y - yMm) * sin, (x - xMm) * sin + (y - yMm) * cos]);
    const forms = this.#formsOf(pane.groups).filter(({ box }) => boxesMeet(box, seen));
    if (forms.length === 0) return;
    const [left, top, right, bottom] = view.map(units);
    const [c, s] = [decimal(cos), decimal(sin)];
    this.#pdf.addContent(
      `q ${left} ${top} ${right - left} ${bottom - top} re W n ${c} ${decimal(-sin)} ${s} ${c} ${units(xMm)} ${units(yMm)} cm`,
    );
    for (const { name, ref } of forms) {
      this.#pdf.page.xobjects[name] = ref;
      this.#pdf.addContent(`/${name} Do`);
    }
    this.#pdf.addContent('Q');
  }

  #formsOf(groups: readonly Group[]): readonly Form[] {
    const made = this.#drawings.get(groups);
    if (made) return made;
    const fields = new Map<string, Mark[]>();
    for (const { marks } of groups) {
      for (const mark of marks) {
        const box = boxOfMarks([mark]);
        if (!box) continue;
        const key = `${Math.floor((box[0] + box[2]) / 2 / FIELD_MM)} ${Math.floor((box[1] + box[3]) / 2 / FIELD_MM)}`;
        const field = fields.get(key);
        if (field) field.push(mark);
        else fields.set(key, [mark]);
      }
    }
    const forms = [...fields.values()].map((marks) => this.#write(marks));
    this.#drawings.set(groups, forms);
    return forms;
  }

  #write(marks: readonly Mark[]): Form {
    const box = boxOfMarks(marks) ?? [0, 0, 0, 0];
    const ref = this.#pdf.ref({
      Type: 'XObject',
      Subtype: 'Form',
      // Rounded outward: what lies on the edge is not clipped.
      BBox: [units(box[0]) - 1, units(box[1]) - 1, units(box[2]) + 1, units(box[3]) + 1],
      Resources: { Font: { L: this.#face() } },
    });
    ref.end(operatorsOf(marks));
    this.#count++;
    return { ref, name: `D${this.#count}`, box };
  }
}

/** The box of a box's corners after a motion. */
function boxUnder([left, top, right, bottom]: Box, move: (p: readonly [number, number]) => [number, number]): Box {
  const corners = [move([left, top]), move([right, top]), move([right, bottom]), move([left, bottom])];
  return boxOf([new Float64Array(corners.flat())]);
}
