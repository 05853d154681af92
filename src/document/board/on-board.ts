import { type Line, type Mark, openLine, toPage } from '../../drawing/page.ts';
import { PENS } from '../../drawing/pen.ts';
import { turn } from '../../geometry/exact-math.ts';
import { lineAround } from '../../geometry/line-distance.ts';
import { isInRegion, type Placement, type Point, placed as put, type Region } from '../../geometry/ring.ts';
import type { Piece } from '../../model/piece.ts';
import type { CarveStation } from '../../model/rock.ts';

/** A piece as it lies on its board, in page space: everything that is drawn of it. */
export interface PieceOnBoard {
  readonly piece: Piece;
  readonly placement: Placement;
  readonly outline: Region;
  readonly placing: readonly Region[];
  /** Where glue goes for the next layer. */
  readonly glue: readonly Region[];
  /** With the length of each and what is done with it; empty where the plan does not know the pin. */
  readonly pins: readonly { readonly at: Point; readonly text: string }[];
  /** Of a rock: the line it is carved to on this face, and how deep that is at places along the edge, as it is lettered. */
  readonly carved: readonly Region[];
  readonly depths: readonly { readonly at: Point; readonly text: string }[];
  readonly slits: readonly Float64Array[];
  readonly nicks: readonly Point[];
  readonly joints: readonly {
    readonly label: string;
    readonly neighbour: string;
    readonly line: Float64Array;
    readonly matches: readonly Point[];
    readonly tongues: readonly Float64Array[];
  }[];
}

const PIN_RADIUS_MM = 4;
const PIN_CROSS_MM = 6;
/** A match mark reaches so far into its piece, and so far out of it where the gap leaves room. */
const MATCH_IN_MM = 8;
/** A nick is a notch that a finger finds: so deep, and half so wide either way. */
const NICK_MM = 5;
const NICK_HALF_MM = 3;
/** What is drawn of a nick starts so far inside the edge, which may curve. */
const NICK_INSET_MM = 0.5;
const MATCH_OUT_MM = 3;

/** Lay a piece on a board of this height. `pinTexts`: by where the pins are, `x,y` in landform coordinates. */
export function onBoard(
  piece: Piece,
  placement: Placement,
  boardHeightMm: number,
  pinTexts: ReadonlyMap<string, string>,
): PieceOnBoard {
  const lay = (points: Float64Array) => toPage(put(points, placement), boardHeightMm);
  const layPoints = (points: readonly Point[]) => pointsOf(lay(new Float64Array(points.flat())));
  return {
    piece,
    placement,
    outline: piece.region.map(lay),
    placing: piece.placing.map((region) => region.map(lay)),
    glue: (piece.glue ?? []).map((region) => region.map(lay)),
    pins: layPoints(piece.pins).map((at, i) => ({ at, text: pinTexts.get(piece.pins[i].join()) ?? '' })),
    carved: (piece.carved?.top ?? []).map((region) => region.map(lay)),
    depths: layPoints((piece.carved?.stations ?? []).map(({ at }) => at)).map((at, i) => ({
      at,
      text: depthText(piece.carved?.stations[i]),
    })),
    slits: piece.slits.map(lay),
    nicks: layPoints((piece.nicks ?? []).map(({ at }) => at)),
    joints: piece.joints.map(({ label, neighbour, line, matches, tongues = [] }) => ({
      label,
      neighbour,
      line: lay(line),
      matches: layPoints(matches),
      tongues: tongues.map(lay),
    })),
  };
}

/** Depths at the top face and at the underside in whole millimetres, so that both fit beside an edge; `all`: that face goes. */
const depthText = (station: CarveStation | undefined): string =>
  station
    ? [station.topMm, station.undersideMm].map((mm) => (mm === null ? 'all' : `${Math.round(mm)}`)).join('/')
    : '';

/**
 * Its outline, all rings in one path, less what pieces in it bring: a cut that two pieces of a blank share is drawn once, with
 * the inner one, whose edge is seen.
 * @param within the other pieces of its blank
 */
export function cutMark({ piece, outline }: PieceOnBoard, within: readonly PieceOnBoard[] = []): Mark {
  const inner = new Set(
    within
      .filter((other) => other.piece.layer > piece.layer)
      .flatMap((other) => other.outline.flatMap((ring) => edgesOf(ring, -1))),
  );
  return {
    pen: PENS.cut,
    id: `cut-${piece.name}`,
    title: `piece ${piece.name}, layer ${piece.layer}`,
    lines: outline.flatMap((ring) => linesLess(ring, inner)),
  };
}

/** The edges of a ring as text, run as they are (1) or the other way (−1). */
function edgesOf(ring: Float64Array, way: 1 | -1): string[] {
  return Array.from({ length: ring.length / 2 }, (_, i) => {
    const k = (2 * i + 2) % ring.length;
    const [a, b] = [`${ring[2 * i]},${ring[2 * i + 1]}`, `${ring[k]},${ring[k + 1]}`];
    return way === 1 ? `${a} ${b}` : `${b} ${a}`;
  });
}

/** A ring without some of its edges: closed when it has all of them, else its unbroken runs. */
function linesLess(ring: Float64Array, without: ReadonlySet<string>): Line[] {
  if (without.size === 0) return [{ points: ring, closed: true }];
  const isDrawn = edgesOf(ring, 1).map((edge) => !without.has(edge));
  if (isDrawn.every((drawn) => drawn)) return [{ points: ring, closed: true }];
  const n = isDrawn.length;
  const lines: Line[] = [];
  for (let start = 0; start < n; start++) {
    if (!isDrawn[start] || isDrawn[(start - 1 + n) % n]) continue;
    let count = 1;
    while (isDrawn[(start + count) % n]) count++;
    const points = new Float64Array(2 * (count + 1));
    for (let i = 0; i <= count; i++) points.set(ring.subarray((2 * (start + i)) % (2 * n)).subarray(0, 2), 2 * i);
    lines.push({ points, closed: false });
  }
  return lines;
}

/** Its entry slits, as one path; none when it has none. */
export const slitMarks = ({ piece, slits }: PieceOnBoard): Mark[] =>
  slits.length === 0
    ? []
    : [{ pen: PENS.slit, id: `slit-${piece.name}`, lines: slits.map((points) => ({ points, closed: false })) }];

/** Its pins, match marks, nicks, placing line and glue zone. */
export function placeMarks(lying: PieceOnBoard, gapMm: number): Mark[] {
  const placing = lying.placing.flatMap((region) => region.map((points) => ({ points, closed: true })));
  const thin = [
    ...lying.pins.flatMap(({ at }) => pinLines(at)),
    ...matchLines(lying, gapMm),
    ...nickLines(lying),
    ...depthLines(lying),
  ];
  const carved = lying.carved.flatMap((region) => region.map((points) => ({ points, closed: true })));
  const glue = lying.glue.flatMap((region) => region.map((points) => ({ points, closed: true })));
  const marks: Mark[] = [];
  if (glue.length > 0)
    marks.push({ pen: PENS.glue, id: `glue-${lying.piece.name}`, title: 'glue inside', lines: glue });
  if (placing.length > 0) marks.push({ pen: PENS.placing, id: `placing-${lying.piece.name}`, lines: placing });
  if (carved.length > 0)
    marks.push({ pen: PENS.carved, id: `carved-${lying.piece.name}`, title: 'carve to this line', lines: carved });
  if (thin.length > 0) marks.push({ pen: PENS.thin, id: `mark-${lying.piece.name}`, lines: thin });
  return marks;
}

/** A crossed circle. */
export const pinLines = ([x, y]: Point): Line[] => [
  circleAt([x, y], PIN_RADIUS_MM),
  openLine(x - PIN_CROSS_MM, y, x + PIN_CROSS_MM, y),
  openLine(x, y - PIN_CROSS_MM, x, y + PIN_CROSS_MM),
];

export function circleAt([x, y]: Point, radiusMm: number): Line {
  const points = CIRCLE.map((value, i) => (i % 2 === 0 ? x : y) + radiusMm * value);
  return { points: new Float64Array(points), closed: true };
}

/**
 * Short lines across the joints: both pieces carry each at the same place of their shared cut. Between the ends of a slot for a
 * loose tongue runs a line inside.
 */
export function matchLines({ joints, outline }: PieceOnBoard, gapMm: number): Line[] {
  const outMm = Math.min(MATCH_OUT_MM, gapMm / 2);
  return joints.flatMap(({ line, matches, tongues }) => [
    ...matches.map(([x, y]) => {
      const [nx, ny] = inward(x, y, line, outline);
      return openLine(x - nx * outMm, y - ny * outMm, x + nx * MATCH_IN_MM, y + ny * MATCH_IN_MM);
    }),
    ...tongues.flatMap(([ax, ay, bx, by]) => {
      const [nx, ny] = inward((ax + bx) / 2, (ay + by) / 2, line, outline);
      const [px, py, qx, qy] = [
        ax + nx * MATCH_IN_MM,
        ay + ny * MATCH_IN_MM,
        bx + nx * MATCH_IN_MM,
        by + ny * MATCH_IN_MM,
      ];
      return [openLine(ax, ay, px, py), openLine(px, py, qx, qy), openLine(qx, qy, bx, by)];
    }),
  ]);
}

/** Notches in the outline, point inward. */
export const nickLines = ({ nicks, outline }: PieceOnBoard): Line[] =>
  nicks.map(([x, y]) => {
    const [nx, ny] = inwardAt(x, y, outline);
    return notch(x, y, nx, ny);
  });

function notch(x: number, y: number, nx: number, ny: number): Line {
  const foot = (side: number) => [
    x + nx * NICK_INSET_MM - ny * side * NICK_HALF_MM,
    y + ny * NICK_INSET_MM + nx * side * NICK_HALF_MM,
  ];
  return openLine(...foot(-1), x + nx * NICK_MM, y + ny * NICK_MM, ...foot(1));
}

/** A short line inward at each place whose carving depth is told. */
export const depthLines = ({ depths, outline }: PieceOnBoard): Line[] =>
  depths.map(({ at: [x, y] }) => {
    const [nx, ny] = inwardAt(x, y, outline);
    return openLine(x + nx * NICK_INSET_MM, y + ny * NICK_INSET_MM, x + nx * DEPTH_MM, y + ny * DEPTH_MM);
  });

/** The mark of a carving depth reaches so far in. */
export const DEPTH_MM = 4;

/** Into a piece from a point of its outer edge. */
export const inwardAt = (x: number, y: number, outline: Region): Point => inward(x, y, lineAround(outline[0]), outline);

/** A nick in a level cut, for a legend. */
export const nickPicture = (x: number, y: number): Line[] => [
  openLine(x - 8, y + 2, x + 8, y + 2),
  notch(x, y + 2, 0, -1),
];

/** A match mark across a level cut, for a legend. */
export const matchPicture = (x: number, y: number): Line[] => [
  openLine(x - 8, y, x + 8, y),
  openLine(x, y + MATCH_OUT_MM - 1, x, y - MATCH_OUT_MM),
];

/** The unit vector at right angles to a line near a point of it that points into the region. */
export function inward(x: number, y: number, line: Float64Array, region: Region): Point {
  let least = Infinity;
  let nx = 0;
  let ny = 1;
  for (let i = 2; i < line.length; i += 2) {
    const dx = line[i] - line[i - 2];
    const dy = line[i + 1] - line[i - 1];
    const length = Math.sqrt(dx * dx + dy * dy);
    if (length === 0) continue;
    const t = Math.max(0, Math.min(1, ((x - line[i - 2]) * dx + (y - line[i - 1]) * dy) / (length * length)));
    const ex = line[i - 2] + t * dx - x;
    const ey = line[i - 1] + t * dy - y;
    if (ex * ex + ey * ey >= least) continue;
    least = ex * ex + ey * ey;
    nx = -dy / length;
    ny = dx / length;
  }
  return isInRegion(x + nx * PROBE_MM, y + ny * PROBE_MM, region) ? [nx, ny] : [-nx, -ny];
}

/** How far to look to tell a line's inner side from its outer. */
const PROBE_MM = 0.5;

const pointsOf = (flat: Float64Array): Point[] =>
  Array.from({ length: flat.length / 2 }, (_, i) => [flat[2 * i], flat[2 * i + 1]] as const);

/** The unit circle in 24 steps of 15 degrees. */
const CIRCLE: readonly number[] = Array.from({ length: 24 }, (_, i) => turn(15 * i)).flatMap(({ cos, sin }) => [
  cos,
  sin,
]);
