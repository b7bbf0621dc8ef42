import fc from 'fast-check';
import polygonClipping from 'polygon-clipping';
import { describe, expect, it } from 'vitest';
import type { Area } from '../../src/geometry/inner-spot.ts';
import { overlapArea } from '../../src/geometry/overlap.ts';
import type { Point, Ring } from '../../src/geometry/point.ts';

const area = (polygon: Ring, ...holes: Ring[]): Area => ({ polygon, holes });
const box = (x: number, y: number, width: number, height: number): Ring => [
  [x, y],
  [x + width, y],
  [x + width, y + height],
  [x, y + height],
];

describe('overlapArea', () => {
  it('is width times height for two rectangles, either way round', () => {
    expect(overlapArea(area(box(0, 0, 4, 3)), area(box(3, 1, 5, 5)))).toBeCloseTo(2, 12);
    expect(overlapArea(area(box(0, 0, 4, 3).toReversed()), area(box(3, 1, 5, 5)))).toBeCloseTo(2, 12);
  });

  it('is nothing for areas apart, and for areas that share an edge or a corner', () => {
    expect(overlapArea(area(box(0, 0, 1, 1)), area(box(2, 0, 1, 1)))).toBe(0);
    expect(overlapArea(area(box(0, 0, 1, 1)), area(box(1, 0, 1, 1)))).toBe(0);
    expect(overlapArea(area(box(0, 0, 1, 1)), area(box(1, 1, 1, 1)))).toBe(0);
  });

  it('leaves holes out', () => {
    const frame = area(box(0, 0, 8, 8), box(2, 2, 4, 4).toReversed());
    expect(overlapArea(frame, area(box(0, 0, 8, 8)))).toBeCloseTo(64 - 16, 12);
    expect(overlapArea(frame, area(box(3, 3, 2, 2)))).toBeCloseTo(0, 12);
    expect(overlapArea(frame, area(box(0, 3, 8, 2)))).toBeCloseTo(8, 12);
  });

  it('gives the octagon that two equal squares have in common, turned by 45°: 8(√2 − 1) for half side 1', () => {
    const r = Math.SQRT2;
    const turned: Ring = [
      [r, 0],
      [0, r],
      [-r, 0],
      [0, -r],
    ];
    expect(overlapArea(area(box(-1, -1, 2, 2)), area(turned))).toBeCloseTo(8 * (Math.SQRT2 - 1), 9);
  });

  it('measures nearly coincident edges, on which polygon-clipping 0.15.7 gives up: an edge a hair off upright through two corners', () => {
    const octagon: Ring = [
      [0.4934382334733921, 0],
      [0.34891352098574646, 0.1414213562373095],
      [3.02143776600057e-17, 0.2],
      [-0.3489135209857464, 0.14142135623730953],
      [-0.4934382334733921, 2.4492935982947065e-17],
      [-0.3489135209857465, -0.1414213562373095],
      [-9.06431329800171e-17, -0.2],
      [0.34891352098574635, -0.14142135623730953],
    ];
    const thorn: Ring = [
      [0.20064994066966302, 0],
      [-0.10032497033483147, 1.346968056912757],
      [-0.10032497033483159, -1.3469680569127565],
    ];
    expect(overlapArea(area(octagon), area(thorn))).toBeCloseTo(cutBy(octagon, thorn), 12);
  });
});

/** A convex ring: corners of a regular polygon, squeezed, turned and moved. */
const convex = fc
  .record({
    corners: fc.integer({ min: 3, max: 9 }),
    wide: fc.double({ min: 0.2, max: 6, noNaN: true }),
    tall: fc.double({ min: 0.2, max: 6, noNaN: true }),
    turn: fc.double({ min: 0, max: 6.3, noNaN: true }),
    x: fc.double({ min: -4, max: 4, noNaN: true }),
    y: fc.double({ min: -4, max: 4, noNaN: true }),
  })
  .map(
    ({ corners, wide, tall, turn, x, y }): Ring =>
      Array.from({ length: corners }, (_, i): Point => {
        const angle = turn + (2 * Math.PI * i) / corners;
        return [x + wide * Math.cos(angle), y + tall * Math.sin(angle)];
      }),
  );

/** A star-shaped ring round a spot near the origin, corners on whole sixteenths. */
const star = fc
  .tuple(
    fc.array(fc.integer({ min: 16, max: 96 }), { minLength: 3, maxLength: 10 }),
    fc.integer({ min: -48, max: 48 }),
    fc.integer({ min: -48, max: 48 }),
  )
  .map(
    ([radii, x, y]): Ring =>
      radii.map((radius, i): Point => {
        const angle = (2 * Math.PI * i) / radii.length;
        return [
          (x + Math.round(radius * Math.cos(angle))) / 16,
          (y + Math.round(radius * Math.sin(angle))) / 16,
        ];
      }),
  );

/** The common part of two convex rings, by cutting one along each edge of the other (Sutherland and Hodgman, 1974). */
function cutBy(subject: Ring, clip: Ring): number {
  let ring = subject;
  clip.forEach((a, i) => {
    const b = clip[(i + 1) % clip.length]!;
    const side = ([x, y]: Point) => (b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0]);
    ring = ring.flatMap((p, j): Point[] => {
      const q = ring[(j + 1) % ring.length]!;
      const [sp, sq] = [side(p), side(q)];
      const crossing: Point = [
        p[0] + (sp / (sp - sq)) * (q[0] - p[0]),
        p[1] + (sp / (sp - sq)) * (q[1] - p[1]),
      ];
      return [...(sp >= 0 ? [p] : []), ...(sp > 0 !== sq > 0 && sp !== sq ? [crossing] : [])];
    });
  });
  return size(ring);
}

/** The same by the polygon-clipping package, which throws on some near-coincident input. */
function clippedArea(a: Ring, b: Ring): number {
  const open = (ring: Ring) => [ring.map(([x, y]): [number, number] => [x, y])];
  return polygonClipping
    .intersection(open(a), open(b))
    .reduce(
      (sum, [outer = [], ...holes]) => sum + size(outer) - holes.reduce((out, hole) => out + size(hole), 0),
      0,
    );
}

function size(ring: Ring): number {
  const twice = ring.reduce((sum, [x, y], i) => {
    const [nextX, nextY] = ring[(i + 1) % ring.length]!;
    return sum + x * nextY - nextX * y;
  }, 0);
  return Math.abs(twice) / 2;
}

describe('overlapArea of any two', () => {
  it('convex areas agrees with half-plane cutting', () => {
    fc.assert(
      fc.property(convex, convex, (a, b) => {
        expect(overlapArea(area(a), area(b))).toBeCloseTo(cutBy(a, b), 9);
      }),
    );
  });

  it('star-shaped areas agrees with the polygon-clipping package, on whole sixteenths where it does not give up', () => {
    let compared = 0;
    fc.assert(
      fc.property(star, star, (a, b) => {
        let expected: number;
        try {
          expected = clippedArea(a, b);
        } catch {
          return;
        }
        compared++;
        expect(overlapArea(area(a), area(b))).toBeCloseTo(expected, 9);
      }),
      { numRuns: 300 },
    );
    expect(compared).toBeGreaterThan(200);
  });

  it('areas is the same either way, and never more than either', () => {
    fc.assert(
      fc.property(star, star, (a, b) => {
        const common = overlapArea(area(a), area(b));
        expect(overlapArea(area(b), area(a))).toBeCloseTo(common, 9);
        expect(common).toBeLessThanOrEqual(Math.min(size(a), size(b)) + 1e-9);
        expect(overlapArea(area(a), area(a))).toBeCloseTo(size(a), 9);
      }),
    );
  });
});
