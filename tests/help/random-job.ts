import { type Random, stream } from '../../src/geometry/random.ts';
import { inlineJob, type LoadedJob } from './jobs.ts';

const pick = <T>(random: Random, items: readonly T[]): T => items[Math.floor(random() * items.length)];
const between = (random: Random, low: number, high: number) => Math.round(low + random() * (high - low));

/** A small lopsided job from a seed: a sketch of a few features, odd boards, any way to build layers, style of seams, cut line rule. */
export function randomJob(seed: number): LoadedJob {
  const random = stream(seed, 'random job');
  const width = between(random, 420, 980);
  const depth = between(random, 310, 760);
  const at = () => [between(random, 0, width), between(random, 0, depth)];
  const features: unknown[] = [];
  for (let i = between(random, 1, 3); i > 0; i--) {
    features.push({ mound: { at: at(), radius: between(random, 90, 420), height: between(random, 35, 170) } });
  }
  if (random() < 0.6)
    features.push({ gully: { along: [at(), at()], width: between(random, 40, 110), depth: between(random, 8, 40) } });
  if (random() < 0.5)
    features.push({ basin: { at: at(), radius: between(random, 60, 190), depth: between(random, 10, 70) } });
  if (random() < 0.5) features.push({ roughness: { height: between(random, 4, 14), size: between(random, 60, 190) } });
  const thickness = pick(random, [12, 17, 25]);
  // A stream of its own, or every seed's ground would change.
  const craft = stream(seed, 'random craft');
  const seams = { style: craft() < 0.7 ? 'butt' : pick(craft, ['key', 'tongue']) };
  const triangle = () => {
    const [x, y] = at();
    const outline = [
      [x, y],
      [x + between(random, 90, 260), y + between(random, -40, 60)],
      [x + between(random, -50, 80), y + between(random, 80, 210)],
    ];
    return { kind: pick(random, ['people', 'solid', 'seen', 'lean']), outline };
  };
  const job = {
    name: `random ${seed}`,
    source: { sketch: { size: [width, depth], spacing: pick(random, [8, 11, 14]), level: 25, features } },
    shape: [{ base: { lift: 45 } }],
    stock: {
      boards: [
        { name: 'large', size: [between(random, 480, 720), between(random, 330, 460)], thickness, price: 9.5, trim: 3 },
        { name: 'small', size: [between(random, 330, 420), between(random, 240, 300)], thickness, price: 5.2 },
      ],
    },
    tool: { kind: craft() < 0.8 ? 'hot wire' : 'knife', kerf: 1 },
    gap: between(random, 3, 9),
    slice: { layers: { cut: pick(random, ['proud', 'shy', 'middle', 'sloped']), lean: pick(random, [45, 75]) } },
    split: pick<unknown>(random, [
      { solid: { seams } },
      { hollow: { lap: between(random, 15, 40), seams } },
      { hollow: { lap: between(random, 12, 30), leastVoid: 50, spacing: 180, prop: 40, flat: 200, seams } },
      { rings: { lap: between(random, 6, 25), blanks: between(random, 2, 3), span: 300, steep: 'keep' } },
    ]),
    nest: { boards: { effort: 20000 } },
    seed,
    documents: [],
    zones: random() < 0.4 ? [triangle(), triangle()] : [],
  };
  return inlineJob(JSON.stringify(job));
}
