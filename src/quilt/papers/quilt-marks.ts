import { paintedPatches } from '../../document/painted-patches.ts';
import { laid, lieOf } from '../../document/place-polygon.ts';
import type { Project } from '../../document/project.ts';
import { isBlockPlace } from '../../document/quilt.ts';
import { type Mark, PT } from '../../foundations/marks.ts';
import { blockMarks, setCentred } from '../../foundations/type/lettering.ts';
import type { Typeface } from '../../foundations/type/typeface.ts';
import type { Point, Ring } from '../../geometry/point.ts';
import { type Box, boxOf, centroid } from '../../geometry/ring.ts';
import type { Piece } from '../layout.ts';

/** Where a quilt's inches come to lie on a page. */
export interface QuiltFit {
  readonly scale: number;
  readonly place: (p: Point) => Point;
  readonly width: number;
  readonly height: number;
}

/** The largest a box becomes in a room, its upper left corner at [0, 0]. */
export function fitBox({ minX, minY, maxX, maxY }: Box, width: number, height: number): QuiltFit {
  const [w, h] = [Math.max(maxX - minX, 1 / 64), Math.max(maxY - minY, 1 / 64)];
  const scale = Math.min(width / w, height / h);
  return {
    scale,
    place: ([x, y]) => [(x - minX) * scale, (y - minY) * scale],
    width: w * scale,
    height: h * scale,
  };
}

/** Pieces in colour: every patch of every block, and plain cloth. `isPale`: lightened, so that words on them are read. */
export function pieceMarks(
  pieces: readonly Piece[],
  project: Pick<Project, 'blocks' | 'fabrics'>,
  { place: put }: QuiltFit,
  isPale = false,
): Mark[] {
  const colors = new Map(project.fabrics.map(({ id, color }) => [id, isPale ? pale(color) : color]));
  const blocks = new Map(project.blocks.map((block) => [block.id, block]));
  const polygon = (ring: Ring, fabric: string | null | undefined): Mark => {
    const fill = fabric == null ? undefined : colors.get(fabric);
    return { kind: 'polygon', pen: 'picture', ring: ring.map(put), ...(fill !== undefined && { fill }) };
  };
  return pieces.flatMap(({ place, polygon: outline }): Mark[] => {
    if (!isBlockPlace(place)) return [polygon(outline, place.fabric)];
    const block = blocks.get(place.block)!;
    const lie = lieOf(block.outline, place.turn, place.mirrored, place.at);
    // A patch round an island is filled before the island.
    return [...paintedPatches(block)]
      .sort((a, b) => b.holes.length - a.holes.length)
      .map((patch) =>
        polygon(
          patch.polygon.map((p) => laid(lie, p)),
          patch.fabric,
        ),
      );
  });
}

/** Half way to white. */
function pale(color: string): string {
  const channel = (at: number): string =>
    Math.round((Number.parseInt(color.slice(at, at + 2), 16) + 2 * 255) / 3)
      .toString(16)
      .padStart(2, '0');
  return `#${channel(1)}${channel(3)}${channel(5)}`;
}

/** The outlines of pieces alone. */
export const outlineOf = (pieces: readonly Piece[], { place }: QuiltFit): Mark[] =>
  pieces.map(({ polygon }) => ({ kind: 'polygon', pen: 'frame', ring: polygon.map(place) }));

/** Type is never smaller than this. */
const LEAST_PT = 6;

/** The number of each piece in its middle, on a white tag; left out where not even small type fits. */
export function numberMarks(
  pieces: readonly Piece[],
  numbers: ReadonlyMap<string, number>,
  { place: put, scale }: QuiltFit,
  typeface: Typeface,
): Mark[] {
  return pieces.flatMap(({ place, polygon }): Mark[] => {
    const { minX, minY, maxX, maxY } = boxOf(polygon);
    const text = String(numbers.get(place.id) ?? '');
    const room = Math.min(maxX - minX, maxY - minY) * scale;
    const points = Math.min(11, Math.max(LEAST_PT, (room * 0.4) / PT));
    const set = setCentred(typeface, [{ text, face: 'semibold', size: points * PT }]);
    const pad = 0.03;
    if (set.width + 2 * pad > Math.max(maxX - minX, maxY - minY) * scale) return [];
    const [x, y] = put(centroid(polygon));
    const [dx, dy] = [set.width / 2 + pad, set.height / 2 + pad];
    return [
      {
        kind: 'polygon',
        pen: 'rule',
        fill: '#ffffff',
        ring: [
          [x - dx, y - dy],
          [x + dx, y - dy],
          [x + dx, y + dy],
          [x - dx, y + dy],
        ],
      },
      ...blockMarks(set, [x, y]),
    ];
  });
}
