import type { Point, Ring } from '../../src/geometry/point.ts';
import { rotated, roundPoint } from './plane.ts';
import type { Prng } from './prng.ts';

/** Outlines to draw in, within a square of the given side, turned by an odd angle half of the time. */

const regular = (corners: number, side: number): Ring =>
  Array.from({ length: corners }, (_, i): Point => {
    const a = (2 * Math.PI * (i + 0.5)) / corners;
    return [side / 2 + (side / 2) * Math.cos(a), side / 2 + (side / 2) * Math.sin(a)];
  });

export function convexOutline(rng: Prng, side: number): Ring {
  const shapes: (() => Ring)[] = [
    () => [
      [0, 0],
      [side, 0],
      [side, side],
      [0, side],
    ],
    () => {
      const height = side * rng.between(0.5, 0.9);
      return [
        [0, 0],
        [side, 0],
        [side, height],
        [0, height],
      ];
    },
    () => [
      [0, side],
      [side * rng.between(0.2, 0.8), 0],
      [side, side],
    ],
    () => regular(rng.pick([5, 6, 8]), side),
    () => {
      const corners = rng.whole(4, 9);
      return Array.from({ length: corners }, (_, i): Point => {
        const a = (2 * Math.PI * (i + rng.between(-0.25, 0.25))) / corners;
        return [side / 2 + (side / 2) * Math.cos(a), side / 2 + side * 0.42 * Math.sin(a)];
      });
    },
  ];
  return placed(rng, rng.pick(shapes)(), side);
}

/** An outline with at least one inward corner. */
export function inwardOutline(rng: Prng, side: number): Ring {
  const part = (low: number, high: number): number => side * rng.between(low, high);
  const shapes: (() => Ring)[] = [
    () => {
      const x = part(0.35, 0.65);
      const y = part(0.35, 0.65);
      return [
        [0, 0],
        [x, 0],
        [x, y],
        [side, y],
        [side, side],
        [0, side],
      ];
    },
    () => {
      const depth = part(0.25, 0.6);
      return [
        [0, 0],
        [part(0.25, 0.35), 0],
        [side * 0.45, depth],
        [side * 0.55, depth],
        [part(0.65, 0.75), 0],
        [side, 0],
        [side, side],
        [0, side],
      ];
    },
    () => [
      [0, 0],
      [part(0.45, 0.55), part(0.15, 0.35)],
      [side, 0],
      [side, side],
      [0, side],
    ],
    () =>
      Array.from({ length: 10 }, (_, i): Point => {
        const a = (Math.PI * (i + 0.3)) / 5;
        const r = (i % 2 === 0 ? 0.5 : 0.28) * side;
        return [side / 2 + r * Math.cos(a), side / 2 + r * Math.sin(a)];
      }),
    () => {
      const corners = rng.whole(6, 10);
      return Array.from({ length: corners }, (_, i): Point => {
        const a = (2 * Math.PI * i) / corners;
        const r = (i === 1 ? 0.25 : rng.between(0.32, 0.5)) * side;
        return [side / 2 + r * Math.cos(a), side / 2 + r * Math.sin(a)];
      });
    },
  ];
  return placed(rng, rng.pick(shapes)(), side);
}

function placed(rng: Prng, ring: Ring, side: number): Ring {
  const angle = rng.chance(0.5) ? rng.between(0, 2 * Math.PI) : 0;
  const shift: Point = rng.chance(0.3) ? [rng.between(-side, side), rng.between(-side, side)] : [0, 0];
  return ring.map((p) => {
    const [x, y] = angle === 0 ? p : rotated(p, [side / 2, side / 2], angle);
    return roundPoint([x + shift[0], y + shift[1]]);
  });
}
