import { isOneStretch } from '../geometry/one-stretch.ts';
import type { Segment } from '../geometry/point.ts';
import { distance, farthestPair } from '../geometry/ring.ts';
import { type Chord, type Parting, refusedAlong, seamMeets } from './partings.ts';
import type { Pattern } from './pattern.ts';
import type { Region } from './region.ts';

/** All the boundary two units share, as a seam. */
export interface Seam {
  /** Half-edges, all with the first unit on their own side. */
  readonly edges: readonly number[];
  /** Corners it turns; 0 where it is straight as far as a printed line shows. */
  readonly corners: number;
  /** Cuts pinned to stay inside a foundation that it runs along. */
  readonly refused: number;
  /** 1/64 in. */
  readonly length: number;
  /** What meets it, when it parts these two units. */
  readonly parting: (left: Region, right: Region) => Parting;
  /** A straight one in turn from end to end. */
  readonly chord: () => Chord;
}

/** Measures the seam that runs along some half-edges, in any order. */
export function seamBetween(pattern: Pattern, edges: readonly number[]): Seam {
  const { origin, vertices } = pattern.division;
  const segmentOf = (h: number): Segment => [vertices[origin[h]!]!, vertices[origin[h ^ 1]!]!];
  const { stretches, isClosed, inner } = strung(pattern, edges);
  const isStraight = (stretches === 1 && !isClosed) || isOneStretch(edges.map(segmentOf));
  const refused = refusedAlong(pattern, edges);
  const length = edges.reduce((sum, h) => sum + distance(...segmentOf(h)), 0);
  return {
    edges,
    // Round the tip of a sliver one straight line may turn back on itself.
    corners: isStraight ? 0 : Math.max(1, stretches - (isClosed ? 0 : 1)),
    refused,
    length: Math.round(64 * length),
    parting: (left, right) => {
      let matches = 0;
      let meetings = 0;
      for (const h of inner) {
        const sides = Number(seamMeets(pattern, left, h)) + Number(seamMeets(pattern, right, h));
        if (sides > 0) meetings++;
        if (sides === 2) matches++;
      }
      return { left, right, matches, meetings, length, refused };
    },
    chord: () => {
      const [a, b] = farthestPair(edges.flatMap((h) => segmentOf(h)));
      const along = (h: number): number => {
        const [p, q] = segmentOf(h);
        return (p[0] + q[0]) * (b[0] - a[0]) + (p[1] + q[1]) * (b[1] - a[1]);
      };
      const inTurn = [...edges].sort((h, k) => along(h) - along(k));
      return { line: pattern.lineOf[inTurn[0]! >> 1]!, edges: inTurn };
    },
  };
}

interface Strung {
  /** Straight stretches that follow one another. */
  readonly stretches: number;
  /** Does it go round to where it began? */
  readonly isClosed: boolean;
  /** A half-edge that starts at each vertex two edges of it meet at. */
  readonly inner: readonly number[];
}

/** Counts the stretches of a seam: an edge goes on from another where both lie on one straight line and share a vertex. */
function strung({ division, straight }: Pattern, edges: readonly number[]): Strung {
  const { origin } = division;
  const seen = new Map<number, number>();
  const ends = new Map<number, number[]>();
  let stretches = edges.length;
  for (const edge of edges)
    for (const h of [edge, edge ^ 1]) {
      const v = origin[h]!;
      const others = ends.get(v);
      if (!others) {
        ends.set(v, [h]);
        continue;
      }
      seen.set(v, h);
      if (others.some((k) => straight[k >> 1] === straight[h >> 1] && !foldsBack(division, h, k)))
        stretches--;
      others.push(h);
    }
  let isClosed = true;
  for (const others of ends.values()) if (others.length % 2 === 1) isClosed = false;
  return { stretches, isClosed, inner: [...seen.values()] };
}

/** Do two half-edges from one vertex lie on the same side of it? Round the tip of a sliver they do. */
export function foldsBack({ origin, vertices }: Pattern['division'], h: number, k: number): boolean {
  const v = vertices[origin[h]!]!;
  const a = vertices[origin[h ^ 1]!]!;
  const b = vertices[origin[k ^ 1]!]!;
  return (a[0] - v[0]) * (b[0] - v[0]) + (a[1] - v[1]) * (b[1] - v[1]) > 0;
}

/** The cosine of the sharpest corner a needle can turn at, about 2.5°. */
const TIGHTEST = 0.999;

/** Does a seam that goes along two half-edges from one vertex turn back on itself there? */
export function foldsTight({ origin, vertices }: Pattern['division'], h: number, k: number): boolean {
  const v = vertices[origin[h]!]!;
  const a = vertices[origin[h ^ 1]!]!;
  const b = vertices[origin[k ^ 1]!]!;
  const dot = (a[0] - v[0]) * (b[0] - v[0]) + (a[1] - v[1]) * (b[1] - v[1]);
  return dot > TIGHTEST * distance(a, v) * distance(b, v);
}
