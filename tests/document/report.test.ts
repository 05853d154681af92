import { beforeAll, describe, expect, test } from 'vitest';
import { areaText, massText, sizeText, volumeText, wayText } from '../../src/document/report/amounts.ts';
import { toBase64 } from '../../src/document/report/base64.ts';
import { table } from '../../src/document/report/html.ts';
import { report } from '../../src/document/report.ts';
import type { Finding } from '../../src/findings.ts';
import type { OutputFile, Plan } from '../../src/model/plan.ts';
import { run } from '../../src/run.ts';
import { ottersBank, riverStones } from '../help/drawn-jobs.ts';
import { type ReadReport, readReport } from '../help/read-report.ts';
import { smallPlan } from '../help/small-plan.ts';

const made = (plan: Plan): string => {
  const [file, ...others] = report.run(plan, {}, {} as never) as readonly OutputFile[];
  expect([file.path, file.mediaType, others]).toEqual(['report.html', 'text/html', []]);
  return file.body as string;
};

const planned = async (loaded: ReturnType<typeof ottersBank>): Promise<Plan> =>
  (await run(loaded.job, loaded.files)).plan;

let plans: { readonly plan: Plan; readonly html: string; readonly read: ReadReport }[];
beforeAll(async () => {
  const all = [await planned(ottersBank()), await planned(riverStones()), smallPlan()];
  plans = all.map((plan) => {
    const html = made(plan);
    return { plan, html, read: readReport(html) };
  });
});

describe('what is in it', () => {
  test('every layer has a figure that names its pieces and joints, each once', () => {
    for (const { plan, read } of plans) {
      for (const { number } of plan.stack.layers) {
        expect(read.text).toContain(`Layer ${number} of ${plan.stack.layers.length} `);
        const [figure] = read.figures.filter(({ title }) => title === `Layer ${number} in plan`);
        const own = plan.pieces.filter(({ layer }) => layer === number);
        const joints = new Set(own.flatMap((piece) => piece.joints.map(({ label }) => label)));
        const wanted = [...own.map(({ name }) => name), ...joints];
        const names = figure.texts.filter(({ look }) => look !== 'mark');
        expect(names.map(({ text }) => text).sort()).toEqual(wanted.sort());
        expect(figure.paths.filter(({ look }) => look === 'piece')).toHaveLength(own.length);
      }
    }
  });

  test('every board has a figure that names its pieces, and words that say what is left of it', () => {
    for (const { plan, read } of plans) {
      for (const { number, placed, offcuts } of plan.boards) {
        expect(read.text).toContain(`Board ${number} of ${plan.boards.length} `);
        const names = placed.map(({ piece }) => piece);
        const [figure] = read.figures.filter(({ title }) => title === `Board ${number}: ${names.join(', ')}`);
        const written = figure.texts.filter(({ look }) => look === 'name').map(({ text }) => text);
        expect(written.sort()).toEqual(names.sort());
        for (const { name } of offcuts) expect(read.text).toContain(name);
      }
    }
  });

  test('every piece has a row with its board, and every finding is told with its way out', () => {
    for (const { plan, html, read } of plans) {
      for (const { number, placed } of plan.boards) {
        for (const { piece } of placed) {
          const layer = plan.pieces.find(({ name }) => name === piece)?.layer;
          expect(html).toContain(`<tr><td>${piece}</td><td class="n">${layer}</td><td class="n">${number}</td>`);
        }
      }
      for (const { message, fix } of plan.findings) {
        expect(read.text).toContain(message);
        expect(read.text).toContain(fix);
      }
    }
  });

  test('the gravest finding stands first, and a plan with a stop says so at the top', () => {
    const finding = (level: Finding['level'], message: string): Finding => {
      return { level, code: 'checks/tips', message, fix: 'Mend it.', where: { layer: 2 } };
    };
    const findings = [finding('note', 'Third.'), finding('watch', 'Second.'), finding('stop', 'First.')];
    const { text } = readReport(made(smallPlan({ findings })));
    const places = ['First.', 'Second.', 'Third.'].map((message) => text.indexOf(message));
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(text.indexOf('do not build from this plan yet')).toBeLessThan(places[0]);
    expect(text).toContain('1 stop');
    expect(plans[2].read.text).not.toContain('do not build');
    expect(plans[2].read.text).toContain('Nothing to tell.');
  });

  test('boards of a kind are counted and costed together; a kept offcut costs nothing', () => {
    const [otters, , small] = plans;
    expect(otters.plan.quantities.price).toBe(39.2);
    expect(otters.html).toContain(
      '<tr><td>EPS 70</td><td>48 × 24 × 2 in</td><td class="n">4</td><td class="n">9.80</td><td class="n">39.20</td></tr>',
    );
    expect(otters.read.text).toContain('wet sand 0.75 in deep');
    expect(small.html).toContain('<td>kept K3, a kept offcut</td><td>830 × 610 × 50 mm</td>');
  });

  test('the cautions are all there, and say to whom to turn', () => {
    for (const { read } of plans) {
      expect(read.text).toContain('It does not prove that people can stand on it');
      expect(read.text).toContain('the fire authority and a competent person');
    }
  });
});

describe('the file', () => {
  test('asks for nothing outside itself and runs nothing', () => {
    for (const { html, read } of plans) {
      expect(read.elements.has('script')).toBe(false);
      const links = read.attributes.filter(([name]) => /href$|src|url|action|data/.test(name));
      expect(links.length).toBeGreaterThan(5);
      for (const [, value] of links) expect(value).toMatch(/^(#[a-z-]+|data:image\/png;base64,)/);
      expect(html).not.toMatch(/https?:|url\(|@import|<link|\son[a-z]+=/);
      const [policy] = read.attributes.filter(([, value]) => value.startsWith('default-src'));
      expect(policy).toEqual(['content', "default-src 'none'; style-src 'unsafe-inline'; img-src data:"]);
    }
  });

  test('its links lead somewhere', () => {
    for (const { read } of plans) {
      const ids = read.attributes.filter(([name]) => name === 'id').map(([, value]) => value);
      const links = read.attributes.filter(([name, value]) => name === 'href' && value.startsWith('#'));
      expect(new Set(ids).size).toBe(ids.length);
      expect(links.map(([, value]) => value.slice(1))).toEqual(ids);
    }
  });

  test('twice the same plan gives the same bytes', () => {
    expect(made(smallPlan())).toBe(plans[2].html);
  });

  test('no name can break it, whoever wrote it', () => {
    const nasty = `"><script>alert(1)</script>&'🏔\u0007 </style>`;
    const shown = nasty.replace('\u0007', '');
    const plan = smallPlan({ name: nasty });
    const { read: sound } = plans[2];
    const rename = (name: string) => (name === '1C' ? nasty : name);
    const odd: Plan = {
      ...plan,
      pieces: plan.pieces.map((piece) => ({
        ...piece,
        name: rename(piece.name),
        joints: piece.joints.map((joint) => ({ ...joint, label: nasty, neighbour: rename(joint.neighbour) })),
      })),
      boards: plan.boards.map((board) => ({
        ...board,
        stock: nasty,
        placed: board.placed.map((placed) => ({ ...placed, piece: rename(placed.piece) })),
        offcuts: board.offcuts.map((offcut) => ({ ...offcut, name: nasty })),
      })),
      bound: { boards: 1, why: nasty },
      facts: {
        ...plan.facts,
        front: { side: 'east', word: nasty },
        cover: { material: nasty, depthMm: 13, densityKgM3: null },
      },
      findings: [
        { level: 'watch', code: 'checks/tips', message: nasty, fix: nasty, where: { piece: nasty, file: nasty } },
      ],
    };
    const read = readReport(made(odd));
    expect([...read.elements].sort()).toEqual([...new Set([...sound.elements, 'em', 'ul', 'li', 'b'])].sort());
    for (const before of ['Covered with ', `${shown} to `, 'piece ', 'least: ', 'the front (']) {
      expect(read.text).toContain(`${before}${shown}`);
    }
    const written = read.figures.flatMap(({ texts }) => texts.map(({ text }) => text));
    expect(written).toContain(shown);
  });

  test('a plan without boards, layers, prices or upright ribs still has a report', () => {
    const plan = smallPlan();
    const { quantities, stack } = plan;
    const empty = { layers: 0, pieces: 0, boards: 0, boardsBought: 0, price: null };
    const bare = smallPlan({
      stack: { kind: 'flat', layers: [] },
      pieces: [],
      boards: [],
      quantities: { ...quantities, ...empty },
    });
    const { figures, text } = readReport(made(bare));
    expect(figures).toHaveLength(1);
    expect(text).toContain('money: a price is missing');
    const upright = readReport(made(smallPlan({ stack: { ...stack, kind: 'upright' } })));
    // No stack and no sections are drawn of what stands upright: the ground, the grid, and the boards. Without ribs, none is drawn.
    expect(upright.figures).toHaveLength(1 + 1 + 2);
  });
});

describe('numbers', () => {
  test("lengths, areas, volumes and masses follow the job's unit", () => {
    const otters = plans[0].read.text.replace(/(watch|note|stop) .*?(?= To bring)/, '');
    expect(otters).not.toMatch(/\d (mm|cm|m|m²|m³|kg)\b/);
    expect(otters).toMatch(/\d in\b/);
    expect(otters).toMatch(/\d ft²/);
    expect(otters).toMatch(/\d lb/);
    const stones = plans[1].read.text;
    expect(stones).not.toMatch(/\d (in|ft|lb|ft²|ft³)\b(?! plan)/);
    expect(stones).toContain('600 × 500 × 30 mm');
  });

  test('feet and pounds are exact: the yard and pound agreement of 1959', () => {
    expect(areaText(0.3048 * 0.3048, 'ft')).toBe('1 ft²');
    expect(volumeText(0.3048 * 0.3048 * 0.3048 * 27, 'in')).toBe('27 ft³');
    expect(massText(0.45359237 * 112, 'in')).toBe('112 lb');
    expect(wayText(0.9144, 'ft')).toBe('3 ft');
    expect([areaText(24.0049, 'mm'), massText(27.328, 'cm'), volumeText(0.0847, 'm'), wayText(356.41, 'mm')]).toEqual([
      '24 m²',
      '27.3 kg',
      '0.085 m³',
      '356 m',
    ]);
    expect(sizeText([2400, 1200, 50.8], 'in')).toBe('94.49 × 47.24 × 2 in');
  });

  test('columns of numbers stand right, and nothing else does', () => {
    const html = table(
      ['Piece', 'Mass', 'Pins', 'Size', 'Left'],
      [
        ['7C', '0.4 kg', 12, '300 × 20 mm', ''],
        ['11', '13 kg', '', '15 × 2 mm', ''],
      ],
    );
    const right = (tag: string) => [...html.matchAll(new RegExp(`<${tag}( class="n")?>`, 'g'))].map(([, n]) => !!n);
    expect(right('th')).toEqual([false, true, true, false, false]);
    expect(right('td')).toEqual([...right('th'), ...right('th')]);
  });
});

describe('figures', () => {
  /** Looks that belong to a layer below or above, which a closer figure of one layer cuts off. */
  const MAY_REACH_OUT = ['below', 'above'];

  test('every shape and every name lies in the view box', () => {
    for (const { read } of plans) {
      expect(read.figures.length).toBeGreaterThan(7);
      for (const { viewBox, paths, texts, title } of read.figures) {
        const [minX, minY, width, height] = viewBox;
        const [maxX, maxY] = [minX + width, minY + height];
        for (const { look, rings } of paths.filter(({ look }) => !MAY_REACH_OUT.includes(look))) {
          const rounding = 0.51;
          for (const ring of rings) {
            for (let i = 0; i < ring.length; i += 2) {
              const inside =
                ring[i] >= minX - rounding &&
                ring[i] <= maxX + rounding &&
                ring[i + 1] >= minY - rounding &&
                ring[i + 1] <= maxY + rounding;
              expect(inside, `${title}: ${look} at ${ring[i]}, ${ring[i + 1]} in ${viewBox}`).toBe(true);
            }
          }
        }
        for (const { text, x, y, size } of texts) {
          const half = 0.3 * size * text.length;
          expect([x - half > minX, x + half < maxX, y - size > minY, y < maxY], `${title}: ${text}`).toEqual(
            Array(4).fill(true),
          );
        }
      }
    }
  });

  test('no two names touch', () => {
    let pairs = 0;
    for (const { read } of plans) {
      for (const { texts, title } of read.figures) {
        for (const [i, a] of texts.entries()) {
          for (const b of texts.slice(i + 1)) {
            pairs++;
            // Narrower than letters are taken to be when they are placed, and wider than most are.
            const wide = 0.3 * (a.size * a.text.length + b.size * b.text.length);
            const [middleA, middleB] = [a.y - 0.36 * a.size, b.y - 0.36 * b.size];
            const apart = Math.abs(a.x - b.x) > wide || Math.abs(middleA - middleB) > 0.36 * (a.size + b.size);
            expect(apart, `${title}: ${a.text} and ${b.text}`).toBe(true);
          }
        }
      }
    }
    expect(pairs).toBeGreaterThan(60);
  });

  test('heights that are drawn too tall are said to be', () => {
    const stones = plans[1].read.text;
    // 150 mm over 905 mm: low for a view, high enough for a section.
    expect(stones).toContain('seen from the front (WINDOW) and its left; heights drawn 2 times too tall.');
    expect(stones.match(/Section [^;]*; layers numbered; drawn true\./g)).toHaveLength(2);
  });
});

test('base64 is that of RFC 4648, as Node has it', () => {
  for (const length of [0, 1, 2, 3, 4, 61, 1000]) {
    const bytes = Uint8Array.from({ length }, (_, i) => (i * 197 + 91 * (i >> 3)) & 255);
    expect(toBase64(bytes)).toBe(Buffer.from(bytes).toString('base64'));
  }
  // The RFC's own examples, section 10.
  const text = (word: string) => toBase64(new TextEncoder().encode(word));
  expect(['', 'f', 'fo', 'foo', 'foob', 'fooba', 'foobar'].map(text)).toEqual([
    '',
    'Zg==',
    'Zm8=',
    'Zm9v',
    'Zm9vYg==',
    'Zm9vYmE=',
    'Zm9vYmFy',
  ]);
});
