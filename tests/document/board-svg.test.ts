import { beforeAll, describe, expect, test } from 'vitest';
import { boardSvg } from '../../src/document/board-svg.ts';
import { boxOfLine, type Line } from '../../src/drawing/page.ts';
import type { Finding } from '../../src/findings.ts';
import { distanceToRings, isInRegion, type Ring, ringLength } from '../../src/geometry/ring.ts';
import type { OutputFile, Plan } from '../../src/model/plan.ts';
import { walkNow } from '../../src/walk.ts';
import { lineLength, readSvg, type SvgFile, type SvgPath } from '../help/read-svg.ts';
import { lying, smallPlan } from '../help/small-plan.ts';

interface Drawn {
  readonly files: readonly OutputFile[];
  readonly boards: readonly SvgFile[];
  readonly findings: readonly Finding[];
}

function draw(plan: Plan): Drawn {
  const findings: Finding[] = [];
  const context = { facts: {}, tell: (finding: Finding) => void findings.push(finding), random: () => 0.5 };
  const files = walkNow(boardSvg.run(plan, { scale: 1 }, context) as Generator<number, readonly OutputFile[], never>);
  return { files, boards: files.map(({ body }) => readSvg(body as string)), findings };
}

/** A piece's rings as they lie, in page space (y down), by the definition in the plan file. */
const onPage = (plan: Plan, board: number, place: number): Ring[] =>
  lying(plan, plan.boards[board].placed[place]).map((ring) =>
    ring.map((value, i) => (i % 2 === 0 ? value : plan.boards[board].sizeMm[1] - value)),
  );

const plan = smallPlan();
let drawn: Drawn;
beforeAll(() => {
  drawn = draw(plan);
});

describe('the file', () => {
  test('one a board, at true size, with the groups that others may rely on', () => {
    expect(drawn.files.map(({ path }) => path)).toEqual(['board-01.svg', 'board-02.svg']);
    const roots = drawn.boards.map(({ root }) => [root.width, root.height, root.viewBox]);
    expect(roots).toEqual([
      ['2400mm', '1200mm', '0 0 2400 1200'],
      ['830mm', '610mm', '0 0 830 610'],
    ]);
    for (const { groups, description } of drawn.boards) {
      expect(groups).toEqual(['cut', 'slit', 'mark', 'label', 'guide']);
      expect(description).toContain('does not prove that people can stand on it');
    }
  });

  test('read back, each outline is one path with all its rings, as long as in the plan and where the plan says', () => {
    for (const [b, board] of plan.boards.entries()) {
      const cut = drawn.boards[b].paths.filter(({ group }) => group === 'cut');
      expect(cut.map(({ id }) => id)).toEqual(board.placed.map(({ piece }) => `cut-${piece}`));
      for (const [place, path] of cut.entries()) {
        const rings = onPage(plan, b, place);
        expect(path.lines).toHaveLength(rings.length);
        for (const [i, { points, closed }] of path.lines.entries()) {
          expect(closed).toBe(true);
          expect(points).toHaveLength(rings[i].length);
          for (const [k, value] of points.entries()) expect(Math.abs(value - rings[i][k])).toBeLessThan(0.0006);
          expect(Math.abs(lineLength(path.lines[i]) - ringLength(rings[i]))).toBeLessThan(0.01);
        }
      }
    }
  });

  test('every mark is on the board', () => {
    for (const { paths, root } of drawn.boards) {
      const [, , width, height] = root.viewBox.split(' ').map(Number);
      for (const { lines, widthMm, group } of paths) {
        for (const line of lines) {
          const [minX, minY, maxX, maxY] = boxOfLine(line);
          const half = group === 'guide' ? 0 : widthMm / 2;
          expect(minX - half).toBeGreaterThanOrEqual(0);
          expect(minY - half).toBeGreaterThanOrEqual(0);
          expect(maxX + half).toBeLessThanOrEqual(width);
          expect(maxY + half).toBeLessThanOrEqual(height);
        }
      }
    }
  });

  test('twice the same plan gives the same bytes', () => {
    expect(draw(smallPlan()).files).toEqual(drawn.files);
  });
});

/** A label's box with its strokes' width, the least air around it that is promised left out. */
const inkOf = ({ lines, widthMm }: SvgPath) => {
  const boxes = lines.map(boxOfLine);
  const half = widthMm / 2;
  return [
    Math.min(...boxes.map((box) => box[0])) - half,
    Math.min(...boxes.map((box) => box[1])) - half,
    Math.max(...boxes.map((box) => box[2])) + half,
    Math.max(...boxes.map((box) => box[3])) + half,
  ];
};

/** Points along lines, no farther apart than `step`. */
function* along(lines: readonly Line[], step: number): Generator<[number, number]> {
  for (const { points, closed } of lines) {
    const count = points.length / 2;
    for (let i = 0; i < (closed ? count : count - 1); i++) {
      const next = ((i + 1) % count) * 2;
      const [ax, ay, bx, by] = [points[2 * i], points[2 * i + 1], points[next], points[next + 1]];
      const steps = Math.max(1, Math.ceil(Math.hypot(bx - ax, by - ay) / step));
      for (let k = 0; k <= steps; k++) yield [ax + ((bx - ax) * k) / steps, ay + ((by - ay) * k) / steps];
    }
  }
}

describe('lettering', () => {
  const labels = (board: number) =>
    drawn.boards[board].paths.filter(({ group, title }) => group === 'label' && title !== undefined);

  test('each piece says its name, its layer and place in it, its side, its joints and the way to the front', () => {
    const said = (board: number) => labels(board).map(({ title }) => title);
    for (const words of ['1A', '1C', '1D', '2C', 'layer 1, one of 3', 'underside up: turn over, top at 100 mm']) {
      expect(said(0)).toContain(words);
    }
    expect(said(0).filter((words) => words === '1/A to 1C')).toHaveLength(1);
    expect(said(0).filter((words) => words === '1/A to 1A')).toHaveLength(1);
    expect(said(0).filter((words) => words === 'this side up, top at 50 mm')).toHaveLength(3);
    expect(said(1)).toContain('this side up, top at 100 mm');
    expect(said(0).filter((words) => words === 'AUDIENCE')).toHaveLength(4);
  });

  test('every label lies inside its piece, clear of every line, pin and other label', () => {
    for (const b of [0, 1]) {
      const pieces = plan.boards[b].placed.map((_, place) => onPage(plan, b, place));
      const others = drawn.boards[b].paths.filter(({ group }) => ['cut', 'slit', 'mark'].includes(group));
      const lines = others.flatMap((path) => path.lines);
      const all = labels(b);
      expect(all.length).toBeGreaterThan(b === 0 ? 16 : 5);
      for (const label of all) {
        // A leader ends in its piece.
        if (label.title?.startsWith('leader')) continue;
        const half = label.widthMm / 2;
        const strokes = [...along(label.lines, 0.5)];
        const inside = pieces.filter((piece) => strokes.every(([x, y]) => isInRegion(x, y, piece)));
        // What a piece has no room for stands in the waste, wholly.
        expect(inside.length, label.title).toBe(
          pieces.some((piece) => strokes.some(([x, y]) => isInRegion(x, y, piece))) ? 1 : 0,
        );
        for (const piece of pieces) {
          for (const [x, y] of strokes) {
            expect(distanceToRings(x, y, piece) - half, label.title).toBeGreaterThan(0.8);
          }
        }
        // Against marks and slits: no point of theirs inside the label's strokes.
        const box = inkOf(label);
        for (const [x, y] of along(lines, 0.5)) {
          if (x < box[0] || x > box[2] || y < box[1] || y > box[3]) continue;
          const nearest = Math.min(...strokes.map(([sx, sy]) => Math.hypot(sx - x, sy - y)));
          expect(nearest - half, label.title).toBeGreaterThan(0.8);
        }
      }
      for (const [i, label] of all.entries()) {
        for (const other of all.slice(i + 1)) {
          const [a, c] = [[...along(label.lines, 0.7)], [...along(other.lines, 0.7)]];
          const [boxA, boxC] = [inkOf(label), inkOf(other)];
          if (boxA[0] > boxC[2] || boxC[0] > boxA[2] || boxA[1] > boxC[3] || boxC[1] > boxA[3]) continue;
          const nearest = Math.min(...a.map(([x, y]) => Math.min(...c.map(([u, v]) => Math.hypot(x - u, y - v)))));
          expect(nearest - (label.widthMm + other.widthMm) / 2, `${label.title} / ${other.title}`).toBeGreaterThan(0);
        }
      }
    }
  });

  test('a name is as large as there is room, and stands where the next layer covers it when that has room', () => {
    const height = (board: number, name: string) =>
      (labels(board).find(({ title }) => title === name)?.widthMm as number) * 10;
    expect(height(0, '1A')).toBeCloseTo(40, 6);
    expect(height(0, '1D')).toBeCloseTo(20, 6);
    expect(height(1, '2D')).toBeLessThan(10);
    const [placing] = drawn.boards[0].paths.filter(({ id }) => id === 'placing-1A');
    const name = labels(0).find(({ title }) => title === '1A') as SvgPath;
    for (const [x, y] of along(name.lines, 2))
      expect(
        isInRegion(
          x,
          y,
          placing.lines.map(({ points }) => points),
        ),
      ).toBe(true);
  });

  test('arrows point to the front as each piece lies', () => {
    const arrows = labels(0).filter(({ title }) => title === 'arrow to AUDIENCE');
    const rings = plan.boards[0].placed.map((_, place) => onPage(plan, 0, place));
    const wanted = [
      [0, 1], // 1A lies as it stands: the south front is down the page
      [0, 1],
      [0, -1], // 1D is turned half round
      [1, 0], // 2C is mirrored and turned a quarter: south comes to the right
    ];
    for (const [place, piece] of rings.entries()) {
      const own = arrows.filter(({ lines }) => isInRegion(lines[0].points[0], lines[0].points[1], piece));
      expect(own).toHaveLength(1);
      const [ax, ay, bx, by] = own[0].lines[0].points;
      const length = Math.hypot(bx - ax, by - ay);
      expect((bx - ax) / length).toBeCloseTo(wanted[place][0], 3);
      expect((by - ay) / length).toBeCloseTo(wanted[place][1], 3);
      // The head is at the tip.
      expect([...own[0].lines[1].points.slice(2, 4)]).toEqual([bx, by]);
    }
  });

  test('what found no room is told, with the piece', () => {
    const [note, ...others] = drawn.findings;
    expect(others).toEqual([]);
    expect([note.code, note.level, note.where]).toEqual(['document/crowded', 'note', { piece: '2D' }]);
    expect(note.message).toContain('2D');
  });
});

describe('marks', () => {
  test('nicks are notches in the cut edge, point into the piece, and no lettering stands on them', () => {
    const nicks = [
      { side: 'front', at: [760, 70] },
      { side: 'right', at: [1400, 460] },
      { side: 'right', at: [1400, 476] },
    ] as const;
    const [ring] = plan.pieces[1].region;
    // The nearest points of the outline.
    const onEdge = nicks.map(({ side, at }) => {
      let best: readonly [number, number] = [ring[0], ring[1]];
      for (let i = 0; i < ring.length; i += 2) {
        const off = ([x, y]: readonly [number, number]) => Math.hypot(x - at[0], y - at[1]);
        if (off([ring[i], ring[i + 1]]) < off(best)) best = [ring[i], ring[i + 1]];
      }
      return { side, at: best };
    });
    const pieces = plan.pieces.map((piece) => (piece.name === '1C' ? { ...piece, nicks: onEdge } : piece));
    const { boards, findings } = draw(smallPlan({ pieces }));
    expect(findings.map(({ code }) => code)).toEqual(['document/crowded']);
    const region = onPage(plan, 0, 1);
    const mark = boards[0].paths.find(({ id }) => id === 'mark-1C') as SvgPath;
    const notches = mark.lines.filter(({ points, closed }) => !closed && points.length === 6);
    expect(notches).toHaveLength(3);
    const letters = [
      ...along(
        boards[0].paths.filter(({ group }) => group === 'label').flatMap(({ lines }) => lines),
        1,
      ),
    ];
    for (const { points } of notches) {
      expect(isInRegion(points[2], points[3], region)).toBe(true);
      expect(distanceToRings(points[2], points[3], region)).toBeGreaterThan(3.5);
      expect(Math.hypot(points[4] - points[0], points[5] - points[1])).toBeCloseTo(6, 2);
      for (const [x, y] of letters) expect(Math.hypot(x - points[2], y - points[3])).toBeGreaterThan(0.8);
    }
    // Areas stay: a nick is drawn, the outline is not cut by it.
    expect(boards[0].paths.filter(({ group }) => group === 'cut')).toEqual(
      drawn.boards[0].paths.filter(({ group }) => group === 'cut'),
    );
  });

  test('both sides of a joint carry the same match marks at the same places of the cut', () => {
    const [a, c] = ['1A', '1C'].map((name) => {
      const placed = plan.boards[0].placed.find(({ piece }) => piece === name);
      const path = drawn.boards[0].paths.find(({ id }) => id === `mark-${name}`) as SvgPath;
      const across = path.lines.filter(({ points, closed }) => !closed && points[1] === points[3]);
      // Where the mark crosses the seam, back in the landform.
      const seamX = 701.25 + (placed?.xMm as number);
      const crossing = across.filter(({ points }) => (points[0] - seamX) * (points[2] - seamX) < 0);
      return crossing.map(({ points }) => 1200 - points[1] - (placed?.yMm as number)).sort((p, q) => p - q);
    });
    expect(a).toHaveLength(2);
    for (const [i, y] of a.entries()) expect(y).toBeCloseTo(c[i], 3);
  });

  test('the board shows its edge, its trim, its new offcut with its name; a saved offcut shows its own outline', () => {
    const guide = drawn.boards.map(({ paths }) => paths.filter(({ group }) => group === 'guide'));
    const edge = guide.map((paths) => paths.find(({ id }) => id === 'edge') as SvgPath);
    expect(edge[0].lines.map((line) => boxOfLine(line))).toEqual([
      [0, 0, 2400, 1200],
      [5, 5, 2395, 1195],
    ]);
    expect(edge[1].lines).toHaveLength(1);
    expect(edge[1].lines[0].points).toHaveLength(12);
    const titles = guide.map((paths) => paths.map(({ title }) => title));
    expect(titles[0]).toContain('offcut K7');
    expect(titles[0]).toContain('KEEP K7');
  });

  test('title block, legend and check bars of 100 mm both ways stand in the waste, clear of the pieces', () => {
    for (const b of [0, 1]) {
      const guide = drawn.boards[b].paths.filter(({ group }) => group === 'guide');
      const titles = guide.map(({ title }) => title);
      for (const words of [`board ${b + 1} of 2`, 'Gull ledge', 'cut ON this line: it is the finished edge']) {
        expect(titles).toContain(words);
      }
      const bars = guide.filter(({ title }) => title === 'check bar').map(({ lines }) => lines[0].points);
      expect(bars.map(([ax, ay, bx, by]) => [Math.abs(bx - ax), Math.abs(by - ay)])).toEqual([
        [100, 0],
        [0, 100],
      ]);
      const pieces = plan.boards[b].placed.map((_, place) => onPage(plan, b, place));
      const blocks = guide.filter(({ id, title }) => id !== 'edge' && title !== 'offcut K7');
      for (const [x, y] of along(
        blocks.flatMap(({ lines }) => lines),
        2,
      )) {
        for (const piece of pieces) expect(isInRegion(x, y, piece)).toBe(false);
      }
    }
  });

  test('where the waste has no room for them they are left off, and nothing else is', () => {
    const [board] = plan.boards;
    const chip = { piece: '2D', blank: 1, turnDeg: 0, mirrored: false, xMm: -1575, yMm: -238 };
    const { paths } = draw(smallPlan({ boards: [{ ...board, sizeMm: [64, 71], placed: [chip], offcuts: [] }] }))
      .boards[0];
    const guide = paths.filter(({ group }) => group === 'guide');
    expect(guide.map(({ title }) => title)).toEqual(['edge of the board, and of its trim', 'edges to measure from']);
    expect(paths.filter(({ group }) => group === 'cut')).toHaveLength(1);
    expect(paths.filter(({ title }) => title === '2D')).toHaveLength(1);
  });
});

describe('odd input', () => {
  const nasty = `"><script>alert(1)</script>&'🏔\u0007${'long '.repeat(60)}`;

  test('no name can break the file, whoever wrote it', () => {
    const odd = smallPlan({ name: nasty });
    const renamed: Plan = {
      ...odd,
      pieces: odd.pieces.map((piece, i) => (i === 0 ? { ...piece, name: nasty } : piece)),
      facts: { ...odd.facts, front: { side: 'west', word: nasty } },
      boards: odd.boards.map((board) => ({
        ...board,
        stock: nasty,
        placed: board.placed.map((placed) => (placed.piece === '1A' ? { ...placed, piece: nasty } : placed)),
        offcuts: board.offcuts.map((offcut) => ({ ...offcut, name: nasty })),
      })),
    };
    const { boards, files } = draw(renamed);
    expect(files).toHaveLength(2);
    for (const { elements } of boards) expect([...elements].sort()).toEqual(['desc', 'g', 'path', 'svg', 'title']);
    expect(boards[0].paths[0].id).toBe(`cut-${nasty.replace('\u0007', '')}`);
  });

  test('a job in inches is lettered in inches, and the bar still is 100 mm', () => {
    const titles = draw(smallPlan({ unit: 'in' })).boards[0].paths.map(({ title }) => title);
    expect(titles).toContain('this side up, top at 1.97 in');
    expect(titles).toContain('100 mm = 3.937 in');
  });

  test('a plan without boards makes no files', () => {
    expect(draw(smallPlan({ boards: [] }))).toEqual({ files: [], boards: [], findings: [] });
  });

  test.each([
    [[1, 0], 'south', 'this face to AUDIENCE', 'this face away from AUDIENCE'],
    [[1, 0], 'north', 'this face away from AUDIENCE', 'this face to AUDIENCE'],
    [[1, 0], 'east', 'AUDIENCE to the right', 'AUDIENCE to the left'],
    [[0, 1], 'south', 'AUDIENCE to the left', 'AUDIENCE to the right'],
    [[0, 1], 'east', 'this face to AUDIENCE', 'this face away from AUDIENCE'],
  ] as const)(
    'a rib along %j with its front %s says where that is, whichever face is drawn',
    (along, side, said, back) => {
      const rib = {
        frame: { originMm: [0, 100, 0], along },
        gridLine: 'line 4 from the south',
        crossings: [],
      } as const;
      const layers = plan.stack.layers.map((layer) => ({ ...layer, rib }));
      const facts = { ...plan.facts, front: { side, word: 'AUDIENCE' } };
      const [{ paths }] = draw(smallPlan({ facts, stack: { kind: 'upright', layers } })).boards;
      const titles = paths.map(({ title }) => title);
      expect(titles).toContain('rib 1, line 4 from the south, one of 3');
      expect(titles).toContain('UP');
      expect(titles).not.toContain('AUDIENCE');
      // 2C lies with its back up.
      expect([titles.includes(said), titles.includes(back)]).toEqual([true, true]);
    },
  );
});
