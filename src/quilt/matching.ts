import { laid, lieOf } from '../document/place-polygon.ts';
import { type BlockPlace, isBlockPlace, type Part } from '../document/quilt.ts';
import { STRAIGHT_IN } from '../geometry/lattice.ts';
import type { Point, Ring, Segment } from '../geometry/point.ts';
import { type Box, boxOf, distance } from '../geometry/ring.ts';
import type { Join, Patch, RegistrationPoint } from '../piecing/plan.ts';
import { registrationPoints, type Spot } from '../piecing/registration.ts';
import { phrase } from '../words/phrase.ts';
import type { Layout, OutlinedBlock, Piece } from './layout.ts';

/** Seams nearer than this and not at one spot would look as if they were to meet, inches. */
export const NEAR_MISS_IN = 0.25;

/** More seams than this in one spot are hard to press flat: common practice. */
export const MOST_SEAMS = 8;

/** A spot where a seam inside a block ends at the block's edge. */
export interface RimSpot {
  /** In the quilt. */
  readonly at: Point;
  /** The same in the block. */
  readonly inBlock: Point;
  /** Seams of the block that end there. */
  readonly seams: number;
  /** Index of the piece. */
  readonly piece: number;
}

/** Two seams that end almost at one spot, on either side of a joint. */
export interface NearMiss {
  readonly a: RimSpot;
  readonly b: RimSpot;
  readonly distance: number;
  /** Step of the joint. */
  readonly step: number;
}

/** How one step's seam is pinned. */
export interface Pinned {
  readonly step: number;
  readonly points: readonly RegistrationPoint[];
}

export interface Matching {
  readonly pinned: readonly Pinned[];
  readonly nearMisses: readonly NearMiss[];
  /** Spots where more seams come together than lie flat, most first. */
  readonly bulk: readonly { readonly at: Point; readonly seams: number }[];
  /** Blocks whose plans are not made yet: what meets their edges is not known. */
  readonly waiting: readonly string[];
}

/** Where seams inside a block end at its edge: corners of two patches or more on it. Cost: O(corners). */
export function rimSpots(patches: readonly Pick<Patch, 'polygon'>[]): Pick<RimSpot, 'inBlock' | 'seams'>[] {
  const key = ([x, y]: Point): string => `${x} ${y}`;
  const edges = new Map<string, readonly [Point, Point]>();
  const meeting = new Map<string, number>();
  for (const { polygon } of patches)
    polygon.forEach((a, k) => {
      const b = polygon[(k + 1) % polygon.length]!;
      const twin = `${key(b)} ${key(a)}`;
      if (!edges.delete(twin)) edges.set(`${key(a)} ${key(b)}`, [a, b]);
      meeting.set(key(a), (meeting.get(key(a)) ?? 0) + 1);
    });
  return [...edges.values()].flatMap(([inBlock]) => {
    const seams = meeting.get(key(inBlock))! - 1;
    return seams > 0 ? [{ inBlock, seams }] : [];
  });
}

/**
 * What must match where on every joint of a quilt. `patchesOf` gives the patches of a block's plan, null while there is
 * none.
 */
export function matchingOf(
  layout: Layout,
  steps: readonly Join[],
  blocks: readonly OutlinedBlock[],
  patchesOf: (block: string) => readonly Pick<Patch, 'polygon'>[] | null,
): Matching {
  const outlines = new Map(blocks.map(({ id, outline }) => [id, outline]));
  const waiting = new Set<string>();
  const rims = new Map<string, ReturnType<typeof rimSpots>>();
  const rimOf = (block: string): ReturnType<typeof rimSpots> => {
    const known = rims.get(block);
    if (known) return known;
    const patches = patchesOf(block);
    if (!patches) waiting.add(block);
    const found = patches ? rimSpots(patches) : [];
    rims.set(block, found);
    return found;
  };
  const spots = layout.pieces.map((piece, index): readonly RimSpot[] =>
    isBlockPlace(piece.place)
      ? spotsOf(piece.place, outlines.get(piece.place.block)!, rimOf(piece.place.block), index)
      : [],
  );
  const boxes = layout.pieces.map(({ polygon }) => boxOf(polygon));
  const indexOf = new Map(layout.pieces.map(({ place }, k) => [place.id, k]));
  const nearMisses: NearMiss[] = [];
  const pinned = steps.map((step): Pinned => {
    const along = (ids: readonly string[], stretch: Segment): RimSpot[] =>
      ids.flatMap((id) => {
        const k = indexOf.get(id)!;
        return touches(boxes[k]!, stretch) ? spots[k]!.filter(({ at }) => isOn(at, stretch)) : [];
      });
    const runs = step.stretches.map((stretch): Spot[] => {
      const left = along(step.left, stretch);
      const right = along(step.right, stretch);
      nearMisses.push(...missesOn(left, right, step.step));
      const own = step.points.filter(({ kind, at }) => kind !== 'guide' && isOn(at, stretch));
      return merged(own as Spot[], left, right, stretch);
    });
    return { step: step.step, points: registrationPoints(step.step, runs) };
  });
  return { pinned, nearMisses, bulk: bulkOf(layout, spots), waiting: [...waiting] };
}

function spotsOf(
  place: BlockPlace,
  outline: Ring,
  rim: ReturnType<typeof rimSpots>,
  piece: number,
): RimSpot[] {
  const lie = lieOf(outline, place.turn, place.mirrored, place.at);
  return rim.map((spot) => ({ ...spot, at: laid(lie, spot.inBlock), piece }));
}

/** Does a box come near a stretch? */
function touches({ minX, minY, maxX, maxY }: Box, [[ax, ay], [bx, by]]: Segment): boolean {
  return (
    minX <= Math.max(ax, bx) + STRAIGHT_IN &&
    maxX >= Math.min(ax, bx) - STRAIGHT_IN &&
    minY <= Math.max(ay, by) + STRAIGHT_IN &&
    maxY >= Math.min(ay, by) - STRAIGHT_IN
  );
}

/** Does a spot lie on a stretch, but not at its ends? */
function isOn([x, y]: Point, [[ax, ay], [bx, by]]: Segment): boolean {
  const length = distance([ax, ay], [bx, by]);
  if (length === 0) return false;
  const off = Math.abs((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / length;
  const along = ((bx - ax) * (x - ax) + (by - ay) * (y - ay)) / length;
  return off <= STRAIGHT_IN && along > STRAIGHT_IN && along < length - STRAIGHT_IN;
}

/** Pairs from both sides that all but meet, each seam in the nearest pair alone, and none that has its match. */
function missesOn(left: readonly RimSpot[], right: readonly RimSpot[], step: number): NearMiss[] {
  const meets = (spot: RimSpot, others: readonly RimSpot[]): boolean =>
    others.some(({ at }) => distance(at, spot.at) <= STRAIGHT_IN);
  const loose = left.filter((spot) => !meets(spot, right));
  const others = right.filter((spot) => !meets(spot, left));
  const pairs = loose
    .flatMap((a) => others.map((b): NearMiss => ({ a, b, distance: distance(a.at, b.at), step })))
    .filter((pair) => pair.distance <= NEAR_MISS_IN + 1e-9)
    .sort((p, q) => p.distance - q.distance);
  const taken = new Set<RimSpot>();
  return pairs.filter(({ a, b }) => {
    if (taken.has(a) || taken.has(b)) return false;
    taken.add(a).add(b);
    return true;
  });
}

/** The spots of a stretch in turn: its ends, what the places make of it, and what the seams in the blocks add. */
function merged(
  own: readonly Spot[],
  left: readonly RimSpot[],
  right: readonly RimSpot[],
  [from, to]: Segment,
): Spot[] {
  interface Met {
    readonly at: Point;
    readonly t: number;
    readonly sides: number;
  }
  const t = (at: Point): number => distance(from, at);
  const met: Met[] = [
    ...own.map(({ at, kind }): Met => ({ at, t: t(at), sides: kind === 'match' ? 3 : 1 })),
    ...left.map(({ at }): Met => ({ at, t: t(at), sides: 1 })),
    ...right.map(({ at }): Met => ({ at, t: t(at), sides: 2 })),
  ].sort((a, b) => a.t - b.t);
  const found: { at: Point; t: number; sides: number }[] = [];
  for (const next of met) {
    const last = found.at(-1);
    if (last && next.t - last.t <= STRAIGHT_IN) last.sides |= next.sides;
    else found.push({ ...next });
  }
  return [
    { at: from, kind: 'end' },
    ...found.map(({ at, sides }): Spot => ({ at, kind: sides === 3 ? 'match' : 'junction' })),
    { at: to, kind: 'end' },
  ];
}

/** Corners where more than eight seams meet: edges between places, and seams in the blocks that end there. */
function bulkOf({ pattern, region }: Layout, spots: readonly (readonly RimSpot[])[]): Matching['bulk'] {
  if (!pattern) return [];
  const { division } = pattern;
  const count = new Map<number, number>();
  const key = ([x, y]: Point): string => `${Math.round(x * 256)} ${Math.round(y * 256)}`;
  const vertexAt = new Map<string, number>();
  for (const [v, at] of division.vertices.entries()) vertexAt.set(key(at), v);
  for (let h = 0; h < division.origin.length; h++) {
    const [a, b] = [division.face[h]!, division.face[h ^ 1]!];
    if (a < 0 || b < 0 || region[a] !== 1 || region[b] !== 1) continue;
    const v = division.origin[h]!;
    count.set(v, (count.get(v) ?? 0) + 1);
  }
  for (const spot of spots.flat()) {
    const v = vertexAt.get(key(spot.at));
    if (v !== undefined && count.has(v)) count.set(v, count.get(v)! + spot.seams);
  }
  return [...count]
    .filter(([, seams]) => seams > MOST_SEAMS)
    .map(([v, seams]) => ({ at: division.vertices[v]!, seams }))
    .sort((a, b) => b.seams - a.seams);
}

const PART_WORDS: Readonly<Record<Part | 'plain', string>> = {
  sashing: phrase('sashing'),
  cornerstone: phrase('cornerstone'),
  'side-triangle': phrase('side triangle'),
  'corner-triangle': phrase('corner triangle'),
  strip: phrase('strip'),
  border: phrase('border'),
  plain: phrase('plain piece'),
};

/** What a piece is, in a word: the block's name, or what the plain piece serves as. */
export function pieceName({ place }: Piece, nameOf: (block: string) => string): string {
  if (isBlockPlace(place)) return nameOf(place.block);
  return PART_WORDS[place.part ?? 'plain'];
}
