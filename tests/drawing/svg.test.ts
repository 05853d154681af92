import { expect, test } from 'vitest';
import { openLine, type Page } from '../../src/drawing/page.ts';
import { PENS } from '../../src/drawing/pen.ts';
import { escaped, pageToSvg } from '../../src/drawing/svg.ts';
import { readSvg } from '../help/read-svg.ts';

const KEPT = `"><script>alert('1')</script> & ]]> 🏔 ${'x'.repeat(300)}`;
const NASTY = `\u0000${KEPT}\u001f\ud800`;

const page = (words: string): Page => ({
  widthMm: 1234.5,
  heightMm: 678.25,
  title: words,
  description: words,
  groups: [
    {
      id: 'cut',
      marks: [
        { pen: PENS.cut, id: `cut-${words}`, title: words, lines: [openLine(1, 2, 1e-7, -0.00001, 4.56789, 1e6)] },
      ],
    },
    { id: 'empty', marks: [] },
    {
      id: 'slit',
      marks: [{ pen: PENS.slit, lines: [{ points: new Float64Array([0, 0, 9, 1, 4, 7]), closed: true }] }],
    },
  ],
});

test('a page is as large in the file as it is, and a user unit is a millimetre', () => {
  const { root, groups, paths } = readSvg(pageToSvg(page('plain')));
  expect([root.width, root.height, root.viewBox]).toEqual(['1234.5mm', '678.25mm', '0 0 1234.5 678.25']);
  expect(groups).toEqual(['cut', 'empty', 'slit']);
  expect(paths.map(({ group, id, dashed }) => [group, id, dashed])).toEqual([
    ['cut', 'cut-plain', false],
    ['slit', undefined, true],
  ]);
  // Three decimals at most, no exponent, no −0 (the reader refuses anything else).
  expect([...paths[0].lines[0].points]).toEqual([1, 2, 0, 0, 4.568, 1000000]);
  expect(paths[1].lines[0].closed).toBe(true);
});

test('no words can break out of the file', () => {
  const text = pageToSvg(page(NASTY));
  const { title, elements, paths } = readSvg(text);
  expect([...elements].sort()).toEqual(['desc', 'g', 'path', 'svg', 'title']);
  expect(title).toBe(KEPT);
  expect(paths[0].id).toBe(`cut-${KEPT}`);
  expect(paths[0].title).toBe(KEPT);
});

test('escaping keeps every character that XML allows', () => {
  expect(escaped('a\u0000\u0008b\ufffec\ud83dd')).toBe('abcd');
  expect(escaped('é山🏔\t')).toBe('é山🏔\t');
});

test('what is not a number is not drawn', () => {
  const broken = {
    ...page('x'),
    groups: [{ id: 'cut', marks: [{ pen: PENS.cut, lines: [openLine(0, Number.NaN, 1, 1)] }] }],
  };
  expect(() => pageToSvg(broken)).toThrow('not a number');
});
