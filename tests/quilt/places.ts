import type { Place, PlainPlace } from '../../src/document/quilt.ts';
import type { Ring } from '../../src/geometry/point.ts';
import type { Layout } from '../../src/quilt/layout.ts';

/** Plain places from rectangles: left, top, width, height. */
export const plainPlaces = (
  tiles: readonly (readonly [x: number, y: number, width: number, height: number])[],
  scale = 1,
): PlainPlace[] =>
  tiles.map(([x, y, w, h], k) => ({
    id: `p${k + 1}`,
    at: [x * scale, y * scale],
    size: [w * scale, h * scale],
  }));

export const box = (width: number, height: number): Ring => [
  [0, 0],
  [width, 0],
  [width, height],
  [0, height],
];

export const squareBlock = (id: string, side: number, height = side) => ({ id, outline: box(side, height) });

/** Pieces as the checker takes them. */
export const checked = ({ pieces }: Layout) =>
  pieces.map(({ place, polygon }) => ({ id: place.id, polygon }));

/** Area of all pieces, and of the box round them, by the shoelace formula. */
export function areas({ pieces, box: { minX, minY, maxX, maxY } }: Layout): { pieces: number; box: number } {
  const shoelace = (ring: Ring): number =>
    Math.abs(
      ring.reduce((sum, [x, y], k) => {
        const [nx, ny] = ring[(k + 1) % ring.length]!;
        return sum + x * ny - y * nx;
      }, 0),
    ) / 2;
  return {
    pieces: pieces.reduce((sum, { polygon }) => sum + shoelace(polygon), 0),
    box: (maxX - minX) * (maxY - minY),
  };
}

export const idsOf = (places: readonly Place[]): string[] => places.map(({ id }) => id);
