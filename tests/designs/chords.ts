import type { Point, Ring } from '../../src/geometry/point.ts';
import {
  angleBetween,
  apart,
  areaOf,
  crossing,
  direction,
  distanceToStretch,
  isInside,
  lerp,
  roundPoint,
} from './plane.ts';
import type { Prng } from './prng.ts';

/** A straight line from rim to rim of one face. `fresh` ends made a T-junction that no other chord uses. */
export interface Chord {
  readonly from: Point;
  readonly to: Point;
  readonly freshFrom: boolean;
  readonly freshTo: boolean;
}

export interface ChordDivision {
  readonly chords: readonly Chord[];
  readonly faces: readonly Ring[];
}

/** Least distance between vertices, of vertices from chords, and least width of a face, inches. */
export interface ChordLimits {
  readonly gap: number;
  readonly width: number;
}

/** Far enough from parallel that no tolerance can take two lines for one: 0.25 in at 3° is 0.33 mm. */
const LEAST_ANGLE = (10 * Math.PI) / 180;
const LEAST_BEND = (3 * Math.PI) / 180;

const keyOf = (p: Point): string => `${p[0]},${p[1]}`;

/**
 * Divides a region by straight chords, one after another, each across one face: always a design that straight
 * joins can sew (undo the chords in turn), with one more face than chords. Most ends make T-junctions; some
 * start from a corner or from a T-junction made before, across the line.
 * Stops early where no room is left. Faces turn as the outline does; T-junctions stand in both neighbours.
 */
export function divideByChords(rng: Prng, outline: Ring, faces: number, limits: ChordLimits): ChordDivision {
  const rings: Point[][] = [[...outline]];
  const chords: Chord[] = [];
  const leaving = new Map<string, Point[]>();
  const leave = (p: Point, towards: Point): void => {
    const known = leaving.get(keyOf(p));
    if (known) known.push(direction(p, towards));
    else leaving.set(keyOf(p), [direction(p, towards)]);
  };
  outline.forEach((p, i) => {
    const q = outline[(i + 1) % outline.length]!;
    leave(p, q);
    leave(q, p);
  });

  /** A place on the rim of a ring: a vertex, or a spot inside a side at least the gap from its ends. */
  const rimPlace = (ring: readonly Point[]): { side: number; at: Point; fresh: boolean } | null => {
    const lengths = ring.map((p, i) => apart(p, ring[(i + 1) % ring.length]!));
    let left = rng.next() * lengths.reduce((sum, l) => sum + l, 0);
    let side = 0;
    while (left > lengths[side]! && side < ring.length - 1) left -= lengths[side++]!;
    if (rng.chance(0.25)) return { side, at: ring[side]!, fresh: false };
    if (lengths[side]! < 2 * limits.gap) return null;
    const t = Math.min(Math.max(left, limits.gap), lengths[side]! - limits.gap) / lengths[side]!;
    return { side, at: roundPoint(lerp(ring[side]!, ring[(side + 1) % ring.length]!, t)), fresh: true };
  };
  const withPlace = (ring: readonly Point[], place: { side: number; at: Point; fresh: boolean }): Point[] =>
    place.fresh ? [...ring.slice(0, place.side + 1), place.at, ...ring.slice(place.side + 1)] : [...ring];
  const isSharp = (p: Point, towards: Point, directions: readonly Point[]): boolean =>
    directions.some((d) => {
      const angle = angleBetween(direction(p, towards), d);
      return angle < LEAST_ANGLE || Math.PI - angle < LEAST_BEND;
    });

  const tryOnce = (): boolean => {
    const areas = rings.map((ring) => Math.abs(areaOf(ring)));
    let left = rng.next() * areas.reduce((sum, a) => sum + a, 0);
    let f = 0;
    while (left > areas[f]! && f < rings.length - 1) left -= areas[f++]!;
    const ring = rings[f]!;
    const p = rimPlace(ring);
    const q = rimPlace(ring);
    if (!p || !q || p.side === q.side || apart(p.at, q.at) < 2 * limits.gap) return false;
    for (const [end, other] of [
      [p, q],
      [q, p],
    ] as const) {
      const host = [ring[end.side]!, ring[(end.side + 1) % ring.length]!].map((v) => direction(end.at, v));
      if (isSharp(end.at, other.at, end.fresh ? host : (leaving.get(keyOf(end.at)) ?? []))) return false;
    }
    for (let i = 0; i < ring.length; i++) {
      const [a, b] = [ring[i]!, ring[(i + 1) % ring.length]!];
      if (a !== p.at && a !== q.at && distanceToStretch(a, p.at, q.at) < limits.gap) return false;
      if (crossing([a, b], [p.at, q.at])) return false;
    }
    if (!isInside(lerp(p.at, q.at, 0.5), ring)) return false;
    // The later place goes in first, so that the earlier side keeps its number.
    const [late, early] = p.side > q.side ? [p, q] : [q, p];
    const noded = withPlace(withPlace(ring, late), early);
    const i = noded.indexOf(early.at);
    const j = noded.indexOf(late.at);
    const halves = [noded.slice(i, j + 1), [...noded.slice(j), ...noded.slice(0, i + 1)]];
    for (const half of halves) {
      const span = Math.max(...half.map((a) => Math.max(...half.map((b) => apart(a, b)))));
      if (half.length < 3 || Math.abs(areaOf(half)) / span < limits.width) return false;
    }
    for (const place of [p, q]) {
      if (!place.fresh) continue;
      const [a, b] = [ring[place.side]!, ring[(place.side + 1) % ring.length]!];
      leave(place.at, a);
      leave(place.at, b);
      rings.forEach((other, n) => {
        const k = other.findIndex((v, m) => v === b && other[(m + 1) % other.length] === a);
        if (k >= 0 && n !== f) other.splice(k + 1, 0, place.at);
      });
    }
    leave(p.at, q.at);
    leave(q.at, p.at);
    rings.splice(f, 1, ...halves);
    chords.push({ from: p.at, to: q.at, freshFrom: p.fresh, freshTo: q.fresh });
    return true;
  };

  for (let tries = 0; rings.length < faces && tries < 60 * faces; tries++) tryOnce();
  // A T-junction that a later chord started from as well is no longer its maker's own.
  const uses = new Map<string, number>();
  for (const key of chords.flatMap((chord) => [keyOf(chord.from), keyOf(chord.to)])) {
    uses.set(key, (uses.get(key) ?? 0) + 1);
  }
  const isOwn = (p: Point): boolean => uses.get(keyOf(p)) === 1;
  return {
    chords: chords.map((chord) => ({
      ...chord,
      freshFrom: chord.freshFrom && isOwn(chord.from),
      freshTo: chord.freshTo && isOwn(chord.to),
    })),
    faces: rings,
  };
}
