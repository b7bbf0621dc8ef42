import type { Point, Ring, Segment } from '../../src/geometry/point.ts';
import type { Block, Cut } from '../../src/piecing/block.ts';
import { apart, direction, distanceToStretch, roundPoint } from './plane.ts';
import { Prng } from './prng.ts';

/** Spots and lines of such a drawing stay so far apart, inches, that nothing hangs on how ends are rounded. */
const CLEAR_IN = 0.08;

/**
 * Lines that all grow at once from their middles, both ways, until each end runs into another: n lines make n + 1 convex
 * patches that meet in T-junctions only, and many of them chase each other in rings. A square of `side` inches; the same
 * seed always gives the same block.
 */
export function growingLines(seed: number, lines: number, side = 12): Block {
  const rng = new Prng(seed);
  const outline: Ring = [
    [0, 0],
    [side, 0],
    [side, side],
    [0, side],
  ];
  for (;;) {
    const grown = grow(
      Array.from({ length: lines }, (): Ray => {
        const angle = rng.chance(0.3) ? (Math.PI / 2) * rng.whole(0, 1) : rng.between(0, Math.PI);
        return {
          from: [rng.between(0.1, 0.9) * side, rng.between(0.1, 0.9) * side],
          heading: [Math.cos(angle), Math.sin(angle)],
        };
      }),
      outline,
    );
    if (!isClear(grown, outline)) continue;
    return {
      id: `growing-${seed}`,
      name: `Growing lines ${seed}`,
      outline,
      cuts: grown.map(([from, to], k): Cut => ({ id: `c${k + 1}`, from, to, role: 'auto' })),
      patches: [],
    };
  }
}

interface Ray {
  readonly from: Point;
  readonly heading: Point;
}

function grow(rays: readonly Ray[], outline: Ring): Segment[] {
  // How far each line reaches, ahead and back, once its end has run into something.
  const reach = rays.map((): [number, number] => [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY]);
  const meetings = rays.flatMap((ray, i) => [
    ...outline.map((corner, k) => ({
      ...meet(ray, corner, outline[(k + 1) % outline.length]!),
      i,
      other: -1,
    })),
    ...rays.flatMap((other, j) =>
      i === j
        ? []
        : [
            {
              ...meet(ray, other.from, [other.from[0] + other.heading[0], other.from[1] + other.heading[1]]),
              i,
              other: j,
            },
          ],
    ),
  ]);
  for (const { s, t, i, other } of meetings.sort((a, b) => Math.abs(a.s) - Math.abs(b.s))) {
    const end = s > 0 ? 0 : 1;
    if (Math.abs(s) >= reach[i]![end]!) continue;
    if (other >= 0) {
      // The other must have been there before.
      const far = Math.abs(t);
      if (far > Math.abs(s) || far > reach[other]![t > 0 ? 0 : 1]!) continue;
    } else if (t < 0 || t > 1) continue;
    reach[i]![end] = Math.abs(s);
  }
  return rays.map(({ from, heading }, i): Segment => {
    const at = (far: number): Point => roundPoint([from[0] + far * heading[0], from[1] + far * heading[1]]);
    return [at(-reach[i]![1]), at(reach[i]![0])];
  });
}

/** Where a ray meets the line through two points: how far along the ray, and which share of the way from a to b. */
function meet({ from, heading }: Ray, a: Point, b: Point): { s: number; t: number } {
  const e = direction(a, b);
  const across = heading[0] * e[1] - heading[1] * e[0];
  if (Math.abs(across) < 1e-6) return { s: Number.POSITIVE_INFINITY, t: 0 };
  const d = direction(from, a);
  return { s: (d[0] * e[1] - d[1] * e[0]) / across, t: (d[0] * heading[1] - d[1] * heading[0]) / across };
}

/** Is every end clear of every corner, of every other end and of every line but the one it stops at? */
function isClear(lines: readonly Segment[], outline: Ring): boolean {
  const sides = outline.map((corner, k): Segment => [corner, outline[(k + 1) % outline.length]!]);
  if (lines.flat().some((p) => p.some((v) => !Number.isFinite(v)))) return false;
  const ends = [...lines.flat(), ...outline];
  if (ends.some((p, i) => ends.some((q, j) => j < i && apart(p, q) < 2 * CLEAR_IN))) return false;
  return lines.every(
    (line, i) =>
      apart(...line) > 0.5 &&
      line.every(
        (end) =>
          [...lines.filter((_, j) => j !== i), ...sides].filter(
            (other) => distanceToStretch(end, ...other) < CLEAR_IN,
          ).length === 1,
      ),
  );
}
