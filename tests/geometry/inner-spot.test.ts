import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Area, holdsPoint, innerSpot } from '../../src/geometry/inner-spot.ts';
import type { Point, Ring } from '../../src/geometry/point.ts';

const area = (polygon: Ring, ...holes: Ring[]): Area => ({ polygon, holes });

const square = (x: number, y: number, side: number): Ring => [
  [x, y],
  [x + side, y],
  [x + side, y + side],
  [x, y + side],
];

/** Distance to the nearest edge, written from the school formula for the distance to a segment. */
function reach({ polygon, holes }: Area, [px, py]: Point): number {
  const lengths = [polygon, ...holes].flatMap((ring) =>
    ring.map(([ax, ay], i) => {
      const [bx, by] = ring[(i + 1) % ring.length]!;
      const t = ((px - ax) * (bx - ax) + (py - ay) * (by - ay)) / ((bx - ax) ** 2 + (by - ay) ** 2);
      const s = Math.min(1, Math.max(0, t));
      return Math.hypot(px - ax - s * (bx - ax), py - ay - s * (by - ay));
    }),
  );
  return Math.min(...lengths);
}

/** Whether a point is inside by the sum of the angles its edges are seen under: full circle in, nothing out. */
function seenAllRound(ring: Ring, [px, py]: Point): boolean {
  const turn = ring.reduce((sum, [ax, ay], i) => {
    const [bx, by] = ring[(i + 1) % ring.length]!;
    const [ux, uy, vx, vy] = [ax - px, ay - py, bx - px, by - py];
    return sum + Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy);
  }, 0);
  return Math.abs(turn) > Math.PI;
}

describe('innerSpot', () => {
  it('is the middle of a square, whose edges lie half a side away', () => {
    const [x, y] = innerSpot(area(square(2, 3, 4)));
    expect(Math.hypot(x - 4, y - 5)).toBeLessThan(0.06);
  });

  it('is the centre of the inscribed circle of a triangle (Euclid, Elements IV.4): 3-4-5 has radius 1', () => {
    const triangle = area([
      [0, 0],
      [4, 0],
      [0, 3],
    ]);
    const spot = innerSpot(triangle);
    expect(reach(triangle, spot)).toBeGreaterThan(0.97);
    expect(Math.hypot(spot[0] - 1, spot[1] - 1)).toBeLessThan(0.1);
  });

  it('keeps out of holes', () => {
    const frame = area(square(0, 0, 8), square(1, 1, 6).toReversed());
    const spot = innerSpot(frame);
    expect(holdsPoint(frame, spot)).toBe(true);
    expect(reach(frame, spot)).toBeGreaterThan(0.49);
  });

  it('stays inside an L, whose centre of area lies on its inner corner or outside', () => {
    const el = area([
      [0, 0],
      [1, 0],
      [1, 9],
      [10, 9],
      [10, 10],
      [0, 10],
    ]);
    const spot = innerSpot(el);
    expect(seenAllRound(el.polygon, spot)).toBe(true);
    expect(reach(el, spot)).toBeGreaterThan(0.48);
  });

  it.each([
    [
      'level',
      [
        [0, 0],
        [900, 0],
        [900, 0.001],
      ],
    ],
    [
      'upright',
      [
        [0, 0],
        [0.001, 0],
        [0.001, 900],
      ],
    ],
    [
      'slanting',
      [
        [0, 0],
        [900, 900.001],
        [900, 900.003],
      ],
    ],
    [
      'bent',
      [
        [0, 0],
        [10, 10],
        [20, 0],
        [20, 0.002],
        [10, 10.002],
        [0, 0.002],
      ],
    ],
  ] as const)('stays inside a %s sliver', (_, ring) => {
    const sliver = area(ring);
    expect(seenAllRound(ring, innerSpot(sliver))).toBe(true);
  });

  it('answers a point of an area without inside', () => {
    const [x, y] = innerSpot(
      area([
        [1, 1],
        [2, 1],
        [3, 1],
      ]),
    );
    expect(Number.isFinite(x) && Number.isFinite(y)).toBe(true);
  });

  it('lies inside, as far from the edges as any spot tried at random, for any star-shaped ring', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 64 }), { minLength: 3, maxLength: 12 }),
        fc.integer({ min: -500, max: 500 }),
        fc.array(
          fc.tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.double({ min: 0, max: 1, noNaN: true })),
          {
            minLength: 20,
            maxLength: 20,
          },
        ),
        (radii, shift, tries) => {
          const ring = radii.map((radius, i): Point => {
            const angle = (2 * Math.PI * i) / radii.length;
            return [shift + (radius / 8) * Math.cos(angle), (radius / 8) * Math.sin(angle)];
          });
          const star = area(ring);
          const spot = innerSpot(star);
          expect(seenAllRound(ring, spot)).toBe(true);
          const xs = ring.map(([x]) => x);
          const ys = ring.map(([, y]) => y);
          const size = Math.min(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys));
          for (const [u, v] of tries) {
            const other: Point = [
              Math.min(...xs) + u * (Math.max(...xs) - Math.min(...xs)),
              Math.min(...ys) + v * (Math.max(...ys) - Math.min(...ys)),
            ];
            if (seenAllRound(ring, other))
              expect(reach(star, other)).toBeLessThan(reach(star, spot) + 0.011 * size + 2e-5);
          }
        },
      ),
    );
  });
});

describe('holdsPoint', () => {
  it('tells inside, outside and in a hole', () => {
    const frame = area(square(0, 0, 8), square(2, 2, 4).toReversed());
    expect(holdsPoint(frame, [1, 1])).toBe(true);
    expect(holdsPoint(frame, [4, 4])).toBe(false);
    expect(holdsPoint(frame, [9, 4])).toBe(false);
  });
});
