import { stream } from '../../src/geometry/random.ts';
import { inlineJob, type LoadedJob } from './jobs.ts';

/** Large gentle ground on ribs from a seed: a lopsided sketch, odd boards, grid, covering and clearance, now and then a deck. */
export function randomRibs(seed: number): LoadedJob {
  const random = stream(seed, 'random ribs');
  const between = (low: number, high: number) => Math.round(low + random() * (high - low));
  const pick = <T>(items: readonly T[]): T => items[Math.floor(random() * items.length)];
  const [width, depth] = [between(1900, 5200), between(1500, 3300)];
  const at = () => [between(0, width), between(0, depth)];
  const features: unknown[] = [];
  for (let i = between(1, 3); i > 0; i--) {
    const radii = [between(500, 1900), between(400, 1500)];
    features.push({ mound: { at: at(), radii, turn: between(-40, 40), height: between(60, 240) } });
  }
  if (random() < 0.5)
    features.push({ gully: { along: [at(), at()], width: between(300, 700), depth: between(15, 70) } });
  if (random() < 0.4) features.push({ basin: { at: at(), radius: between(200, 600), depth: between(20, 140) } });
  if (random() < 0.4) features.push({ roughness: { height: between(4, 18), size: between(200, 500) } });
  const thickness = pick([25, 40, 50]);
  const [x, y] = at();
  const deck = {
    kind: 'people',
    outline: [
      [x, y],
      [x + between(300, 900), y + 30],
      [x + 80, y + between(300, 700)],
    ],
  };
  const board = {
    name: 'EPS',
    size: [between(1200, 2500), between(560, 1250)],
    thickness,
    price: 8.5,
    trim: between(0, 5),
  };
  const job = {
    name: `random ribs ${seed}`,
    source: { sketch: { size: [width, depth], spacing: pick([45, 60, 80]), level: between(90, 160), features } },
    stock: { boards: [random() < 0.5 ? board : { ...board, measured: thickness - 0.7 }] },
    gap: between(4, 10),
    slice: {
      ribs: {
        spacing: [between(350, 800), between(350, 800)],
        clearance: pick([0, 0.5, 1, 2]),
        covering: { material: 'scrim', thickness: pick([0, 3, 6]) },
      },
    },
    split: 'ribs',
    nest: { boards: { effort: 3000 } },
    seed,
    documents: [],
    zones: random() < 0.3 ? [deck] : [],
  };
  return inlineJob(JSON.stringify(job));
}
