import type { Point, Ring } from '../geometry/point.ts';
import { signedArea } from '../geometry/ring.ts';

/** A patch grown by the seam allowance, as far as a convex piece of cloth has to reach round it. */
export interface GrownPatch {
  readonly corners: Ring;
  readonly allowance: number;
  /** Where the trim line comes to a point at a sharp corner, up to twice the allowance from it. */
  readonly tips: Ring;
}

/** How far from its corner a mitred tip of a trim line may stay, as a multiple of the allowance. */
const MITRE_LIMIT = 2;

/** Ring: open, simple, either turn, T-junctions allowed. */
export function grownPatch(polygon: Ring, allowance: number): GrownPatch {
  const ring = signedArea(polygon) < 0 ? [...polygon].reverse() : polygon;
  return { corners: ring, allowance, tips: allowance > 0 ? tipsOf(ring, allowance) : [] };
}

function tipsOf(ring: Ring, allowance: number): Point[] {
  const tips: Point[] = [];
  const count = ring.length;
  for (let i = 0; i < count; i++) {
    const [x, y] = ring[i]!;
    const m = outward(ring[(i + count - 1) % count]!, ring[i]!);
    const n = outward(ring[i]!, ring[(i + 1) % count]!);
    if (!m || !n) continue;
    const turn = m[0] * n[1] - m[1] * n[0];
    const cosine = m[0] * n[0] + m[1] * n[1];
    if (turn <= 0) continue;
    if (1 + cosine >= 2 / MITRE_LIMIT ** 2) {
      const reach = allowance / (1 + cosine);
      tips.push([x + reach * (m[0] + n[0]), y + reach * (m[1] + n[1])]);
    } else {
      // Cut square across: both ends of that cut, along the two sides moved out.
      const half = Math.acos(Math.max(-1, Math.min(1, cosine))) / 2;
      const onward = (allowance * (MITRE_LIMIT - Math.cos(half))) / Math.sin(half);
      tips.push([x + allowance * m[0] - onward * m[1], y + allowance * m[1] + onward * m[0]]);
      tips.push([x + allowance * n[0] + onward * n[1], y + allowance * n[1] - onward * n[0]]);
    }
  }
  return tips;
}

/** Unit normal of a side, away from what a ring of positive area encloses; null for a side of no length. */
function outward(a: Point, b: Point): Point | null {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  return length === 0 ? null : [(b[1] - a[1]) / length, (a[0] - b[0]) / length];
}

/** How far the patch itself reaches in a direction (a unit vector), from the origin. */
export const reachOfPatch = ({ corners }: GrownPatch, [nx, ny]: Point): number =>
  corners.reduce((most, [x, y]) => Math.max(most, x * nx + y * ny), Number.NEGATIVE_INFINITY);

/** How far cloth has to reach in a direction to cover the patch grown by the allowance, with ease beyond. */
export function reachOfCloth(grown: GrownPatch, direction: Point, ease: number): number {
  const [nx, ny] = direction;
  let most = reachOfPatch(grown, direction) + grown.allowance + ease;
  for (const [x, y] of grown.tips) most = Math.max(most, x * nx + y * ny);
  return most;
}
