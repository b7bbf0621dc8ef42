import type { Pattern } from '../pattern.ts';
import { cellsOf, type Region } from '../region.ts';
import type { Plane } from './plane.ts';

/** A closed walk round a piece: spots in turn, and the line each edge lies on, from its spot to the next. */
export interface Loop {
  readonly spots: readonly number[];
  readonly lines: readonly number[];
}

/** A patch, or what seams leave of one. Loops turn as in a division: the outer one has a positive area. */
export interface Piece {
  readonly patch: number;
  readonly loops: readonly Loop[];
}

/** An edge between two pieces, or of one piece on the rim (`beyond` -1). Its ends are spots by their place in the tract. */
export interface Edge {
  readonly from: number;
  readonly to: number;
  readonly line: number;
  /** The piece it goes round, and the one beyond. */
  readonly piece: number;
  readonly beyond: number;
}

/**
 * Pieces that hold together and are still to be sewn: a region of the drawing. Its spots are those where a piece has a
 * corner, so that one tract is the same however it came about.
 */
export interface Tract {
  readonly pieces: readonly Piece[];
  /** Spots of the plane. */
  readonly spots: readonly number[];
  /** 1 for the spots on the rim. */
  readonly isRim: Uint8Array;
  readonly edges: readonly Edge[];
}

export function tractOf(plane: Plane, made: readonly Piece[]): Tract {
  const isCorner = new Set<number>();
  for (const { loops } of made)
    for (const { spots, lines } of loops)
      for (let k = 0; k < spots.length; k++) {
        const before = k === 0 ? spots.length - 1 : k - 1;
        if (
          lines[before] !== lines[k] ||
          turnsBack(plane, spots[before]!, spots[k]!, spots[k + 1] ?? spots[0]!)
        )
          isCorner.add(spots[k]!);
      }
  const pieces = made.map((piece) =>
    piece.loops.every(({ spots }) => spots.every((spot) => isCorner.has(spot)))
      ? piece
      : { ...piece, loops: piece.loops.map((loop) => cornersOnly(loop, isCorner)) },
  );
  const spots = [...isCorner];
  const placeOf = new Map(spots.map((spot, place) => [spot, place]));
  const n = spots.length;
  const owners = new Map<number, number>();
  pieces.forEach(({ loops }, p) => {
    for (const { spots: walk } of loops) {
      let from = placeOf.get(walk.at(-1)!)!;
      for (const spot of walk) {
        const to = placeOf.get(spot)!;
        owners.set(from * n + to, p);
        from = to;
      }
    }
  });
  const edges: Edge[] = [];
  const isRim = new Uint8Array(n);
  pieces.forEach(({ loops }, piece) => {
    for (const { spots: walk, lines } of loops) {
      let from = placeOf.get(walk.at(-1)!)!;
      walk.forEach((spot, k) => {
        const to = placeOf.get(spot)!;
        const beyond = owners.get(to * n + from) ?? -1;
        if (beyond < 0) {
          isRim[from] = 1;
          isRim[to] = 1;
        }
        // An edge between two pieces is told once.
        if (beyond < 0 || from < to) edges.push({ from, to, line: lines.at(k - 1)!, piece, beyond });
        from = to;
      });
    }
  });
  return { pieces, spots, isRim, edges };
}

/** A text that names a tract: equal texts, equal tracts. */
export const keyOf = ({ pieces }: Tract): string => pieces.map(nameOf).sort().join('|');

/** The tract that some cells of a pattern make. */
export function tractFrom(plane: Plane, { division, loops }: Pattern, region: Region): Tract {
  const { origin } = division;
  return tractOf(
    plane,
    cellsOf(region).map((patch) => ({
      patch,
      loops: loops[patch]!.map((loop) => ({
        spots: Array.from(loop, (h) => origin[h]!),
        lines: Array.from(loop, (h) => plane.lineOf[h >> 1]!),
      })),
    })),
  );
}

/** Does a walk go back the way it came at a spot, as round the tip of a sliver with one line on both its sides? */
function turnsBack({ spots }: Plane, before: number, at: number, after: number): boolean {
  const [a, b, c] = [spots[before]!, spots[at]!, spots[after]!];
  return (b[0] - a[0]) * (c[0] - b[0]) + (b[1] - a[1]) * (c[1] - b[1]) < 0;
}

function cornersOnly(loop: Loop, isCorner: ReadonlySet<number>): Loop {
  const kept = loop.spots.flatMap((spot, k) => (isCorner.has(spot) ? [k] : []));
  return { spots: kept.map((k) => loop.spots[k]!), lines: kept.map((k) => loop.lines[k]!) };
}

function nameOf({ patch, loops }: Piece): string {
  const walks = loops.map(({ spots }) => {
    let first = 0;
    for (let k = 1; k < spots.length; k++) if (spots[k]! < spots[first]!) first = k;
    let name = '';
    for (let k = 0; k < spots.length; k++) name += `${spots[(first + k) % spots.length]} `;
    return name;
  });
  return `${patch}:${walks.sort().join(';')}`;
}

/** The pieces of a tract reached from one of them without crossing an edge that `isSeam` tells. */
export function reachedFrom(
  { pieces, edges }: Tract,
  first: number,
  isSeam: (edge: Edge) => boolean,
): Uint8Array {
  const beside: number[][] = pieces.map(() => []);
  for (const edge of edges) {
    if (edge.beyond < 0 || isSeam(edge)) continue;
    beside[edge.piece]!.push(edge.beyond);
    beside[edge.beyond]!.push(edge.piece);
  }
  const reached = new Uint8Array(pieces.length);
  const waiting = [first];
  reached[first] = 1;
  while (waiting.length > 0)
    for (const next of beside[waiting.pop()!]!) {
      if (reached[next] === 1) continue;
      reached[next] = 1;
      waiting.push(next);
    }
  return reached;
}
