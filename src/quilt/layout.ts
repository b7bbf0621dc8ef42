import { polygonOf } from '../document/place-polygon.ts';
import type { Place, Quilt } from '../document/quilt.ts';
import { type Division, divide, loopFrom, OUTSIDE, ringOf } from '../geometry/division.ts';
import { holdsPoint, innerSpot } from '../geometry/inner-spot.ts';
import type { Point, Ring, Segment } from '../geometry/point.ts';
import { type Box, boxOf, centroid } from '../geometry/ring.ts';
import { straightGroups } from '../geometry/straight.ts';
import { type Pattern, patternOf } from '../piecing/pattern.ts';
import { isConnected, type Region } from '../piecing/region.ts';

/** A place with the polygon it covers; index as in `quilt.places`. */
export interface Piece {
  readonly place: Place;
  readonly polygon: Ring;
}

/** A stretch of the quilt that no place covers. */
export interface Gap {
  readonly polygon: Ring;
  /** False at the edge of the box round the quilt, which is then no rectangle. */
  readonly isInside: boolean;
}

/** A stretch that several places cover; indices into `pieces`. */
export interface Overlap {
  readonly polygon: Ring;
  readonly pieces: readonly number[];
}

/**
 * A quilt divided by its places: the same kind of division as a block has, one scale up. Its outline is the box
 * round all places; the cells that none covers are in the pattern but not in `region`.
 */
export interface Layout {
  readonly pieces: readonly Piece[];
  /** Box round all places. */
  readonly box: Box;
  readonly gaps: readonly Gap[];
  readonly overlaps: readonly Overlap[];
  /** Null where the places are too many on one spot, or lie so close that they cannot be told apart. */
  readonly pattern: Pattern | null;
  /** The cells that are places, each one place. Meaningless where places overlap. */
  readonly region: Region;
  /** Cell of the pattern → index of its piece, -1 beyond the places. */
  readonly pieceOf: Int32Array;
  /** Do all places hang together edge to edge? */
  readonly isConnected: boolean;
}

const EMPTY: Layout = {
  pieces: [],
  box: { minX: 0, minY: 0, maxX: 0, maxY: 0 },
  gaps: [],
  overlaps: [],
  pattern: null,
  region: new Uint8Array(0),
  pieceOf: new Int32Array(0),
  isConnected: true,
};

export interface OutlinedBlock {
  readonly id: string;
  readonly outline: Ring;
}

/** Corners of all places, in their order. Every block named must be there. */
export function piecesOf(places: readonly Place[], blocks: readonly OutlinedBlock[]): Piece[] {
  const outlines = new Map(blocks.map(({ id, outline }) => [id, outline]));
  return places.map((place) => ({ place, polygon: polygonOf(place, (block) => outlines.get(block)!) }));
}

/** Divides a quilt by its places. Cost: about O(n log n) for n places that lie side by side. */
export function layOut({ places }: Pick<Quilt, 'places'>, blocks: readonly OutlinedBlock[]): Layout {
  if (places.length === 0) return EMPTY;
  const pieces = piecesOf(places, blocks);
  const box = boxOf(pieces.flatMap(({ polygon }) => polygon));
  const { minX, minY, maxX, maxY } = box;
  const ground: Ring = [
    [minX, minY],
    [maxX, minY],
    [maxX, maxY],
    [minX, maxY],
  ];
  const divided = divide(ground, sidesOf(pieces, box));
  if (!divided.ok) return { ...EMPTY, pieces, box };
  const { division } = divided;
  const pattern = patternOf(division, straightGroups(division));
  const covering = coveringOf(division, pieces);
  const pieceOf = Int32Array.from(covering, (found) => found[0] ?? -1);
  const region = Uint8Array.from(covering, (found) => (found.length > 0 ? 1 : 0));
  const overlaps = covering.flatMap((found, c): Overlap[] =>
    found.length > 1 ? [{ polygon: ringOf(division, division.faces[c]!.edge), pieces: found }] : [],
  );
  return {
    pieces,
    box,
    overlaps,
    pattern,
    region,
    pieceOf,
    gaps: gapsOf(division, covering),
    isConnected: isConnected(pattern, region),
  };
}

/** The sides of all places within the box, each once: neighbours of one size share theirs exactly. */
function sidesOf(pieces: readonly Piece[], { minX, minY, maxX, maxY }: Box): Segment[] {
  const sides = new Map<string, Segment>();
  for (const { polygon } of pieces)
    for (let i = 0; i < polygon.length; i++) {
      const a = polygon[i]!;
      const b = polygon[(i + 1) % polygon.length]!;
      const isOn = (axis: 0 | 1, edge: number): boolean => a[axis] === edge && b[axis] === edge;
      if (isOn(0, minX) || isOn(0, maxX) || isOn(1, minY) || isOn(1, maxY)) continue;
      const [p, q] = a[0] < b[0] || (a[0] === b[0] && a[1] < b[1]) ? [a, b] : [b, a];
      sides.set(`${p[0]} ${p[1]} ${q[0]} ${q[1]}`, [p, q]);
    }
  return [...sides.values()];
}

/** The pieces that cover each face. */
function coveringOf(division: Division, pieces: readonly Piece[]): number[][] {
  const boxes = pieces.map(({ polygon }) => boxOf(polygon));
  return division.faces.map(({ edge, islands }) => {
    const polygon = ringOf(division, edge);
    const holes = islands.map((h) => ringOf(division, h));
    const middle = centroid(polygon);
    const spot =
      holes.length === 0 && holdsPoint({ polygon, holes }, middle) ? middle : innerSpot({ polygon, holes });
    const found: number[] = [];
    for (let i = 0; i < pieces.length; i++)
      if (isInBox(boxes[i]!, spot) && holdsPoint({ polygon: pieces[i]!.polygon, holes: [] }, spot))
        found.push(i);
    return found;
  });
}

const isInBox = ({ minX, minY, maxX, maxY }: Box, [x, y]: Point): boolean =>
  x >= minX && x <= maxX && y >= minY && y <= maxY;

function gapsOf(division: Division, covering: readonly (readonly number[])[]): Gap[] {
  return division.faces.flatMap(({ edge }, c): Gap[] => {
    if (covering[c]!.length > 0) return [];
    const isInside = loopFrom(division, edge).every((h) => division.face[h ^ 1] !== OUTSIDE);
    return [{ polygon: ringOf(division, edge), isInside }];
  });
}
