import { intersect } from '../../geometry/clip.ts';
import { placed as put } from '../../geometry/ring.ts';
import type { Zone } from '../../model/facts.ts';
import type { LayoutBoard } from '../../model/layout.ts';
import type { Piece } from '../../model/piece.ts';
import { zoneRegion } from '../../model/zone.ts';
import { figureSvg, flipped, grown, type Shape } from './figure.ts';
import { type Label, letter, roomiest } from './labels.ts';
import { ZONE_WORDS } from './zone-shapes.ts';

/** Heights of letters as shares of the board's width. */
const MOST = 1 / 26;
const LEAST = 1 / 48;
const OFFCUT = 1 / 60;

/** One board with its pieces, the zones that lie on them, and what is left of it. */
export function boardFigure(board: LayoutBoard, pieces: ReadonlyMap<string, Piece>, zones: readonly Zone[]): string {
  const [width, height] = board.sizeMm;
  const outline = board.rings ?? [new Float64Array([0, 0, width, 0, width, height, 0, height])];
  const offcuts = board.offcuts.map(({ name, rings }) => ({ name, region: flipped(rings, height) }));
  const laid = board.placed.flatMap((place) => {
    const rings = pieces.get(place.piece)?.region.map((ring) => put(ring, place));
    return rings ? [{ name: place.piece, region: flipped(rings, height) }] : [];
  });
  const zoned = board.placed.flatMap((place) => {
    const piece = pieces.get(place.piece);
    return zones.flatMap((zone) =>
      (piece ? intersect([piece.region], zoneRegion(zone)) : []).map((region) => ({
        kind: zone.kind,
        region: flipped(
          region.map((ring) => put(ring, place)),
          height,
        ),
      })),
    );
  });
  const labels: Label[] = [
    ...laid.map(({ name, region }) => ({
      text: name,
      at: roomiest(region),
      region,
      most: width * MOST,
      least: width * LEAST,
      look: 'name',
    })),
    ...offcuts.map(({ name, region }) => ({
      text: name,
      at: roomiest(region),
      region,
      most: width * OFFCUT,
      least: width * OFFCUT,
      look: 'remainder',
      isOptional: true,
    })),
    ...zoned.map(({ kind, region }) => ({
      text: ZONE_WORDS[kind],
      at: roomiest(region),
      region,
      most: width * OFFCUT,
      least: width * OFFCUT,
      look: 'joint',
      isOptional: true,
    })),
  ];
  const regions = laid.map(({ region }) => region);
  const { words, leaders } = letter(labels, regions, [0, 0, width, height]);
  const shapes: Shape[] = [
    { rings: flipped(outline, height), look: 'board' },
    ...offcuts.map(({ region }) => ({ rings: region, look: 'offcut' })),
    ...regions.map((region) => ({ rings: region, look: 'piece' })),
    ...zoned.map(({ region }) => ({ rings: region, look: 'zone' })),
    { rings: leaders, look: 'leader', isOpen: true },
  ];
  const title = `Board ${board.number}: ${board.placed.map(({ piece }) => piece).join(', ')}`;
  return figureSvg({ box: grown([0, 0, width, height], width / 200), shapes, words, title });
}
