import { describe, expect, it } from 'vitest';
import { chainLegs } from '../../src/editing/chain.ts';
import { arcOfHeight, arcThrough, splineThrough } from '../../src/editing/curves.ts';
import type { Point, Ring } from '../../src/geometry/point.ts';
import { Prng } from '../designs/prng.ts';

const away = (a: Point, b: Point): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

describe('an arc laid as straight cuts', () => {
  it('keeps to the circle of chord and height: r = c²/8h + h/2 (the intersecting chords theorem, Euclid III.35)', () => {
    const random = new Prng(20261201);
    for (let run = 0; run < 500; run++) {
      const coordinate = () => (random.next() - 0.5) * 24;
      const [from, to]: [Point, Point] = [
        [coordinate(), coordinate()],
        [coordinate(), coordinate()],
      ];
      const chord = away(from, to);
      if (chord < 0.1) continue;
      const height = chord * (0.02 + random.next() * 1.5) * (random.next() < 0.5 ? -1 : 1);
      const legs = 2 * (1 + Math.floor(random.next() * 8));
      const points = arcOfHeight(from, to, height, legs);
      expect(points).toHaveLength(legs + 1);
      expect([points[0], points.at(-1)]).toEqual([from, to]);
      const radius = chord ** 2 / (8 * Math.abs(height)) + Math.abs(height) / 2;
      // The middle of an even number of legs is the top of the arc.
      const top = points[legs / 2]!;
      const middle: Point = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
      expect(away(top, middle)).toBeCloseTo(Math.abs(height), 6);
      const center: Point = [
        top[0] + ((middle[0] - top[0]) / Math.abs(height)) * radius,
        top[1] + ((middle[1] - top[1]) / Math.abs(height)) * radius,
      ];
      const lengths = points.slice(1).map((point, k) => away(point, points[k]!));
      for (const point of points) expect(away(point, center)).toBeCloseTo(radius, 5);
      for (const length of lengths) expect(length).toBeCloseTo(lengths[0]!, 6);
    }
  });

  it('of a half circle, and of a quarter by its third place', () => {
    const half = arcThrough([0, 0], [2, -2], [4, 0], 4);
    expect(half[2]![0]).toBeCloseTo(2);
    expect(half[2]![1]).toBeCloseTo(-2);
    // Thales: seen from the circle, a diameter is seen square.
    const [x, y] = half[1]!;
    expect(x * (x - 4) + y * y).toBeCloseTo(0);
    const root = Math.SQRT1_2;
    const quarter = arcThrough([1, 0], [root, root], [0, 1], 3);
    expect(quarter.map(([a, b]) => Math.hypot(a, b))).toEqual(
      [1, 1, 1, 1].map((one) => expect.closeTo(one, 9)),
    );
  });

  it('through places in a line is that line', () => {
    expect(arcThrough([0, 0], [1, 0], [4, 0], 2)).toEqual([
      [0, 0],
      [2, 0],
      [4, 0],
    ]);
    expect(arcThrough([0, 0], [0, 0], [4, 0], 2)[1]).toEqual([2, 0]);
  });
});

describe('a rounded chain', () => {
  const turning = (points: Ring): number[] =>
    points.slice(2).map((c, k) => {
      const [a, b] = [points[k]!, points[k + 1]!];
      return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]);
    });

  it('goes through every place, in as many legs as asked', () => {
    const random = new Prng(7);
    for (let run = 0; run < 200; run++) {
      const stops: Point[] = Array.from({ length: 3 + (run % 6) }, () => [
        random.next() * 12,
        random.next() * 12,
      ]);
      for (const closed of [false, true]) {
        const curve = splineThrough(stops, 4, closed);
        expect(curve).toHaveLength(4 * (closed ? stops.length : stops.length - 1) + 1);
        for (const [k, stop] of stops.entries()) expect(curve[4 * k]).toEqual(stop);
        if (closed) expect(curve.at(-1)).toEqual(stops[0]);
        expect(curve.flat().every(Number.isFinite)).toBe(true);
      }
    }
  });

  it('round the corners of a square turns one way all round', () => {
    const ring = splineThrough(
      [
        [0, 0],
        [4, 0],
        [4, 4],
        [0, 4],
      ],
      4,
      true,
    );
    expect(turning(ring).every((turn) => turn > 0)).toBe(true);
  });

  it('of two places is one straight cut', () => {
    const stops = [
      { at: [0, 0], via: null },
      { at: [3, 0], via: null },
    ] as const;
    expect(chainLegs(stops, { curve: 'rounded', legs: 6 }, false)).toEqual([
      [
        [0, 0],
        [3, 0],
      ],
    ]);
  });
});
