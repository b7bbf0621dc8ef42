import { sizeAsLaid } from '../document/place-polygon.ts';
import { isBlockPlace, type Place } from '../document/quilt.ts';
import type { Point, Segment } from '../geometry/point.ts';
import { type Box, boxOf, signedArea } from '../geometry/ring.ts';
import { type JoiningPlan, joiningOf } from './joining.ts';
import { type Layout, layOut, type OutlinedBlock } from './layout.ts';

/**
 * What would let straight seams alone join a ring of places.
 * - `rearrange`: the same places, some turned, set otherwise in the stretch that the ring fills.
 * - `split`: a plain place parted in two along a seam that ends at it; the picture stays as it is.
 */
export interface Cure {
  readonly kind: 'rearrange' | 'split';
  readonly places: readonly Place[];
  /** Set-in seams with and without it. */
  readonly before: number;
  readonly after: number;
  /** Ids of the places it moves or splits. */
  readonly changed: readonly string[];
}

/** Rings of more places are not set anew: too many ways. */
const MOST_REARRANGED = 9;

const setIn = (plan: JoiningPlan): number => plan.steps.filter(({ kind }) => kind === 'set-in').length;

/** Cures for the rings of a plan, each tried on the whole quilt and kept only if fewer seams are set in then. */
export function curesOf(layout: Layout, plan: JoiningPlan, blocks: readonly OutlinedBlock[]): Cure[] {
  const before = setIn(plan);
  if (before === 0) return [];
  const places = layout.pieces.map(({ place }) => place);
  const tried = (kind: Cure['kind'], changedPlaces: readonly Place[], changed: readonly string[]): Cure[] => {
    const joined = joiningOf(layOut({ places: changedPlaces }, blocks));
    if (!joined.ok) return [];
    const after = setIn(joined.plan);
    return after < before ? [{ kind, places: changedPlaces, before, after, changed }] : [];
  };
  const cures: Cure[] = [];
  for (const ring of plan.rings) {
    const again = rearranged(layout, ring, blocks);
    if (again) {
      const moved = new Map(again.map((place) => [place.id, place]));
      cures.push(
        ...tried(
          'rearrange',
          places.map((place) => moved.get(place.id) ?? place),
          [...moved.keys()],
        ),
      );
    }
    for (const [k, parts] of splitsOf(layout, ring)) {
      const split = tried(
        'split',
        places.flatMap((place, i) => (i === k ? parts : [place])),
        [places[k]!.id],
      );
      cures.push(...split);
      if (split.length > 0) break;
    }
  }
  return cures;
}

interface Tile {
  readonly place: Place;
  /** Sizes it may have, by quarter turns: 0, and 1 where it may be turned. */
  readonly sizes: readonly Point[];
}

/** The places of a ring set anew in its box, so that straight cuts part it; null where that cannot be. */
function rearranged(
  { pieces }: Layout,
  ring: readonly number[],
  blocks: readonly OutlinedBlock[],
): Place[] | null {
  if (ring.length > MOST_REARRANGED) return null;
  const box = boxOf(ring.flatMap((k) => pieces[k]!.polygon));
  const area = ring.reduce((sum, k) => sum + Math.abs(signedArea(pieces[k]!.polygon)), 0);
  if (Math.abs(area - (box.maxX - box.minX) * (box.maxY - box.minY)) > 1e-3) return null;
  const outlines = new Map(blocks.map(({ id, outline }) => [id, outline]));
  const tiles = ring.map((k): Tile => {
    const { place, polygon } = pieces[k]!;
    const { minX, minY, maxX, maxY } = boxOf(polygon);
    const size: Point = [maxX - minX, maxY - minY];
    const isSquare = Math.abs(size[0] - size[1]) < 1e-3;
    if (isBlockPlace(place) && !isSquare)
      return { place, sizes: [size, sizeAsLaid(outlines.get(place.block)!, place.turn + 1, place.mirrored)] };
    return { place, sizes: isSquare ? [size] : [size, [size[1], size[0]]] };
  });
  return tile(tiles, box);
}

const close = (a: number, b: number): boolean => Math.abs(a - b) < 1e-3;

/** Fills a box with tiles by cuts from side to side; every cut parts the tiles into two lots of the right area. */
function tile(tiles: readonly Tile[], box: Box): Place[] | null {
  const [w, h] = [box.maxX - box.minX, box.maxY - box.minY];
  if (tiles.length === 1) {
    const { place, sizes } = tiles[0]!;
    const turns = sizes.findIndex(([x, y]) => close(x, w) && close(y, h));
    return turns < 0 ? null : [turned(place, turns, box)];
  }
  const areas = tiles.map(({ sizes }) => sizes[0]![0] * sizes[0]![1]);
  // The first tile is always in the first lot or the second: no lot is looked at twice.
  for (let lot = 1; lot < 1 << tiles.length; lot++) {
    if (lot === (1 << tiles.length) - 1) continue;
    const first = tiles.filter((_, k) => (lot >> k) & 1);
    const rest = tiles.filter((_, k) => !((lot >> k) & 1));
    const share = areas.reduce((sum, area, k) => sum + ((lot >> k) & 1 ? area : 0), 0);
    for (const isUpright of [true, false]) {
      const cut = share / (isUpright ? h : w);
      const sides = first.every(({ sizes }) => sizes.some(([x, y]) => (isUpright ? x : y) <= cut + 1e-3));
      if (!sides) continue;
      const [a, b]: [Box, Box] = isUpright
        ? [
            { ...box, maxX: box.minX + cut },
            { ...box, minX: box.minX + cut },
          ]
        : [
            { ...box, maxY: box.minY + cut },
            { ...box, minY: box.minY + cut },
          ];
      const inFirst = tile(first, a);
      const inRest = inFirst && tile(rest, b);
      if (inFirst && inRest) return [...inFirst, ...inRest];
    }
  }
  return null;
}

function turned(place: Place, quarters: number, { minX, minY }: Box): Place {
  const at: Point = [minX, minY];
  if (quarters === 0) return { ...place, at };
  if (isBlockPlace(place)) return { ...place, at, turn: (place.turn + quarters) % 4 };
  return { ...place, at, size: [place.size[1], place.size[0]] };
}

/** Plain rectangles of a ring, each parted where a side of another place of the ring ends at it. */
function* splitsOf({ pieces }: Layout, ring: readonly number[]): Generator<[number, Place[]]> {
  const sides = ring.flatMap((k): Segment[] => {
    const { polygon } = pieces[k]!;
    return polygon.map((p, i): Segment => [p, polygon[(i + 1) % polygon.length]!]);
  });
  for (const k of ring) {
    const { place } = pieces[k]!;
    if (isBlockPlace(place) || place.shape !== undefined) continue;
    const [x, y] = place.at;
    const [w, h] = place.size;
    const cuts = (axis: 0 | 1): number[] => {
      const [from, size] = axis === 0 ? [x, w] : [y, h];
      const found = sides
        .filter(([a, b]) => close(a[axis], b[axis]))
        .map(([a]) => a[axis] - from)
        .filter((cut) => cut > 0.25 && cut < size - 0.25);
      return [...new Set(found)];
    };
    for (const cut of cuts(0))
      yield [
        k,
        [
          { ...place, size: [cut, h] },
          { ...place, id: `${place.id}-2`, at: [x + cut, y], size: [w - cut, h] },
        ],
      ];
    for (const cut of cuts(1))
      yield [
        k,
        [
          { ...place, size: [w, cut] },
          { ...place, id: `${place.id}-2`, at: [x, y + cut], size: [w, h - cut] },
        ],
      ];
  }
}
