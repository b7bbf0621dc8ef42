import type { Division } from '../../geometry/division.ts';
import { TOUCH_IN } from '../../geometry/lattice.ts';
import type { Point } from '../../geometry/point.ts';
import { distance, farthestPair } from '../../geometry/ring.ts';

/** A straight line without end: a spot on it and its direction, of length 1. */
export interface Line {
  readonly at: Point;
  readonly along: Point;
}

/**
 * The spots and lines of a drawing, and those that mending adds. A spot is made once and shared, as in a division: what
 * falls within 0.05 mm of one is that one. Lines are known by number; edges say which they lie on.
 */
export interface Plane {
  readonly spots: Point[];
  readonly lines: Line[];
  /** The spot at a place, made where there is none yet. */
  readonly spotAt: (at: Point) => number;
  /** Line of each edge of the division (`h >> 1`): straight lines first, then the sides of the outline. */
  readonly lineOf: Int32Array;
}

export const planeOf = (division: Division, straight: Int32Array): Plane => {
  const spots = [...division.vertices];
  const buckets = new Map<number, number[]>();
  const cell = (v: number): number => Math.floor(v / (4 * TOUCH_IN));
  const bucket = (i: number, j: number): number => i * 4_194_304 + j;
  spots.forEach(note);

  const lineOf = new Int32Array(division.line.length);
  const numberOf = new Map<number, number>();
  const ends: Point[][] = [];
  for (let e = 0; e < lineOf.length; e++) {
    const own = straight[e]! >= 0 ? straight[e]! : division.line[e]!;
    const known = numberOf.get(own) ?? numberOf.set(own, ends.push([]) - 1).get(own)!;
    lineOf[e] = known;
    ends[known]!.push(spots[division.origin[2 * e]!]!, spots[division.origin[2 * e + 1]!]!);
  }
  return { spots, lines: ends.map((own) => lineThrough(...farthestPair(own))), spotAt, lineOf };

  function note([x, y]: Point, spot: number): void {
    const key = bucket(cell(x), cell(y));
    const there = buckets.get(key);
    if (there) there.push(spot);
    else buckets.set(key, [spot]);
  }
  function spotAt(at: Point): number {
    const [i, j] = [cell(at[0]), cell(at[1])];
    let best = -1;
    let least = TOUCH_IN;
    for (let di = -1; di <= 1; di++)
      for (let dj = -1; dj <= 1; dj++)
        for (const spot of buckets.get(bucket(i + di, j + dj)) ?? []) {
          const apart = distance(spots[spot]!, at);
          if (apart > least) continue;
          least = apart;
          best = spot;
        }
    if (best >= 0) return best;
    note(at, spots.length);
    return spots.push(at) - 1;
  }
};

export function lineThrough(a: Point, b: Point): Line {
  const length = distance(a, b);
  return { at: a, along: [(b[0] - a[0]) / length, (b[1] - a[1]) / length] };
}

/** How far a place lies beside a line: positive on the one side, negative on the other, inches. */
export const offOf = ({ at, along }: Line, [x, y]: Point): number =>
  along[0] * (y - at[1]) - along[1] * (x - at[0]);

/** How far along a line a place lies, inches. */
export const alongOf = ({ at, along }: Line, [x, y]: Point): number =>
  along[0] * (x - at[0]) + along[1] * (y - at[1]);
