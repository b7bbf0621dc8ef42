import type { Point, Ring, Segment } from '../../src/geometry/point.ts';
import type { Prng } from '../designs/prng.ts';

const snapped = ([x, y]: Point): Point => [Math.round(x * 65536) / 65536, Math.round(y * 65536) / 65536];

export interface RandomPatch {
  readonly polygon: Ring;
  readonly seam: Segment | null;
}

/**
 * A patch of any convex shape, from a sliver to a rectangle, turned any way, with a seam along one of its sides or at
 * position 1. On the lattice, shoelace area positive.
 */
export function randomPatch(rng: Prng): RandomPatch {
  const polygon = rng.chance(0.5) ? traditional(rng) : hull(rng);
  const at = rng.whole(0, polygon.length - 1);
  const side: Segment = [polygon[at]!, polygon[(at + 1) % polygon.length]!];
  return { polygon, seam: rng.chance(0.15) ? null : rng.chance(0.5) ? side : [side[1], side[0]] };
}

/** Right triangles, trapezoids, kites and rectangles, often square to the block. */
function traditional(rng: Prng): Ring {
  const [w, h] = [rng.whole(2, 48) / 8, rng.chance(0.3) ? 0 : rng.whole(2, 48) / 8];
  const tall = h || w;
  const rings: readonly Ring[] = [
    [
      [0, 0],
      [w, 0],
      [w, tall],
      [0, tall],
    ],
    [
      [0, 0],
      [w, 0],
      [0, tall],
    ],
    [
      [0, 0],
      [w, 0],
      [w * rng.between(0.2, 0.8), tall],
      [0, tall],
    ],
    [
      [0, 0],
      [w / 2, tall / 3],
      [0, tall],
      [-w / 2, tall / 3],
    ],
    [
      [-tall, 0],
      [tall, 0],
      [0, tall],
    ],
  ];
  const angle = rng.chance(0.5) ? (rng.whole(0, 3) * Math.PI) / 2 : rng.between(0, 2 * Math.PI);
  return moved(rng.pick(rings), angle, [rng.between(0, 12), rng.between(0, 12)]);
}

function moved(ring: Ring, angle: number, [dx, dy]: Point): Ring {
  // Quarters are exact.
  const quarter = Math.round(angle / (Math.PI / 2));
  const isQuarter = Math.abs(angle - quarter * (Math.PI / 2)) < 1e-9;
  const [c, s] = isQuarter
    ? (
        [
          [1, 0],
          [0, 1],
          [-1, 0],
          [0, -1],
        ] as const
      )[quarter % 4]!
    : [Math.cos(angle), Math.sin(angle)];
  return ring.map(([x, y]) => snapped([c * x - s * y + dx, s * x + c * y + dy]));
}

/** The hull of a few points in a box that may be very flat. */
function hull(rng: Prng): Ring {
  for (;;) {
    const [w, h] = [rng.between(0.3, 8), rng.between(0.3, 8)];
    const angle = rng.between(0, Math.PI);
    const points = Array.from({ length: rng.whole(3, 8) }, (): Point => {
      const [x, y] = [w * rng.next(), h * rng.next()];
      return snapped([x * Math.cos(angle) - y * Math.sin(angle), x * Math.sin(angle) + y * Math.cos(angle)]);
    });
    const ring = convexHull(points);
    const area = ring.reduce((sum, [x, y], i) => {
      const [x2, y2] = ring[(i + 1) % ring.length]!;
      return sum + (x * y2 - x2 * y) / 2;
    }, 0);
    const shortest = Math.min(
      ...ring.map(([x, y], i) => {
        const [x2, y2] = ring[(i + 1) % ring.length]!;
        return Math.hypot(x2 - x, y2 - y);
      }),
    );
    if (ring.length >= 3 && area > 0.02 && shortest > 0.05) return ring;
  }
}

/** Andrew's monotone chain, shoelace area positive. */
function convexHull(points: readonly Point[]): Ring {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const half = (list: readonly Point[]): Point[] => {
    const chain: Point[] = [];
    for (const p of list) {
      while (chain.length >= 2) {
        const [a, b] = [chain.at(-2)!, chain.at(-1)!];
        if ((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]) > 0) break;
        chain.pop();
      }
      chain.push(p);
    }
    return chain.slice(0, -1);
  };
  return [...half(sorted), ...half([...sorted].reverse())];
}
