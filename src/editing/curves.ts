import type { Point, Ring } from '../geometry/point.ts';
import { distance } from '../geometry/ring.ts';
import { along } from '../geometry/segments.ts';

/** Curves laid as straight cuts. Inches; the cuts' ends lie on the curve. */

/** An arc that rises less than this above its chord is a straight line, inches. */
const FLATTEST_IN = 1 / 1000;

/**
 * The points of a circle's arc from one place through another to a third, in so many legs of equal length, both ends
 * among them. Where the three lie in a line, that line in as many legs.
 */
export function arcThrough(from: Point, through: Point, to: Point, legs: number): Ring {
  const center = centerOf(from, through, to);
  if (center === null) return evenly(legs, (share) => along([from, to], share));
  const angleOf = ([x, y]: Point): number => Math.atan2(y - center[1], x - center[0]);
  const radius = distance(center, from);
  const start = angleOf(from);
  const round = (angle: number): number => ((angle % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
  const sweep = round(angleOf(to) - start);
  // The other way round where the place in the middle lies on the other side.
  const turn = round(angleOf(through) - start) <= sweep ? sweep : sweep - 2 * Math.PI;
  const points = evenly(legs, (share): Point => {
    const angle = start + turn * share;
    return [center[0] + radius * Math.cos(angle), center[1] + radius * Math.sin(angle)];
  });
  return [from, ...points.slice(1, -1), to];
}

/** The same from its height above the middle of the chord, to the right of the way from start to end with a minus. */
export function arcOfHeight(from: Point, to: Point, height: number, legs: number): Ring {
  const [mx, my] = along([from, to], 0.5);
  const length = distance(from, to);
  const [nx, ny] = [(to[1] - from[1]) / length, -(to[0] - from[0]) / length];
  return arcThrough(from, [mx + nx * height, my + ny * height], to, legs);
}

function centerOf(a: Point, b: Point, c: Point): Point | null {
  const [bx, by] = [b[0] - a[0], b[1] - a[1]];
  const [cx, cy] = [c[0] - a[0], c[1] - a[1]];
  const turn = 2 * (bx * cy - by * cx);
  const chord = Math.hypot(cx, cy);
  if (Math.abs(turn) <= 2 * FLATTEST_IN * chord) return null;
  const [b2, c2] = [bx * bx + by * by, cx * cx + cy * cy];
  return [a[0] + (cy * b2 - by * c2) / turn, a[1] + (bx * c2 - cx * b2) / turn];
}

const evenly = (legs: number, at: (share: number) => Point): Ring =>
  Array.from({ length: legs + 1 }, (_, k) => at(k / legs));

/**
 * A smooth curve through all points in turn, so many legs from each to the next; closed, it comes round to the first.
 * Centripetal Catmull-Rom, which never loops or forms a cusp between two points (Yuksel, Schaefer and Keyser,
 * "Parameterization and applications of Catmull-Rom curves", Computer-Aided Design 43(7), 2011; from memory).
 */
export function splineThrough(points: Ring, legs: number, closed: boolean): Ring {
  const count = points.length;
  if (count < 3) return closed ? [...points, points[0]!] : points;
  const stretches = closed ? count : count - 1;
  const at = (k: number): Point => {
    if (closed) return points[(k + count) % count]!;
    // Beyond an open end the curve goes on as it came.
    if (k < 0) return reflected(points[1]!, points[0]!);
    return k < count ? points[k]! : reflected(points[count - 2]!, points[count - 1]!);
  };
  const curve: Point[] = [points[0]!];
  for (let k = 0; k < stretches; k++) {
    for (let leg = 1; leg < legs; leg++)
      curve.push(onSpline(at(k - 1), at(k), at(k + 1), at(k + 2), leg / legs));
    curve.push(at(k + 1));
  }
  return curve;
}

const reflected = (far: Point, about: Point): Point => [2 * about[0] - far[0], 2 * about[1] - far[1]];

/** Barry and Goldman's pyramid: the point at `share` of the way from `p1` to `p2`. */
function onSpline(p0: Point, p1: Point, p2: Point, p3: Point, share: number): Point {
  const [t0, t1] = [0, Math.sqrt(distance(p0, p1))];
  const t2 = t1 + Math.sqrt(distance(p1, p2));
  const t3 = t2 + Math.sqrt(distance(p2, p3));
  const t = t1 + (t2 - t1) * share;
  const mix = (a: Point, b: Point, from: number, to: number): Point =>
    to === from ? a : along([a, b], (t - from) / (to - from));
  const [a1, a2, a3] = [mix(p0, p1, t0, t1), mix(p1, p2, t1, t2), mix(p2, p3, t2, t3)];
  return mix(mix(a1, a2, t0, t2), mix(a2, a3, t1, t3), t1, t2);
}
