import { describe, expect, it } from 'vitest';
import { reachNear, rowsInside, wallFrom } from '../../src/board/draw/basting.ts';
import type { Point, Ring, Segment } from '../../src/geometry/point.ts';
import { contains, distanceToSegment } from '../../src/geometry/ring.ts';
import { edgesOf } from '../../src/geometry/segments.ts';
import { piece } from '../../src/piecing/piece.ts';
import { designOf } from '../designs/designs.ts';
import { Prng } from '../designs/prng.ts';

const lengthOf = ([[ax, ay], [bx, by]]: Segment): number => Math.hypot(bx - ax, by - ay);
const sum = (values: readonly number[]): number => values.reduce((all, value) => all + value, 0);
const spotsOn = ([[ax, ay], [bx, by]]: Segment): readonly Point[] =>
  Array.from({ length: 21 }, (_, k) => [ax + ((bx - ax) * k) / 20, ay + ((by - ay) * k) / 20]);

/** The outlines of the sections of random blocks, many of them bent. */
const OUTLINES: readonly Ring[] = Array.from({ length: 60 }, (_, seed) =>
  piece(designOf(seed + 1, { patches: [5, 40] }).block).sections.map(({ outline }) => outline),
).flat();

describe('rows of stitches inside an outline', () => {
  it('leave a square a smaller square, spots on its sides making no difference', () => {
    const square: Ring = [
      [0, 0],
      [2, 0],
      [4, 0],
      [4, 4],
      [0, 4],
    ];
    const rows = rowsInside(square, 1);
    expect(rows).toHaveLength(4);
    for (const [k, corner] of (
      [
        [1, 1],
        [3, 1],
        [3, 3],
        [1, 3],
      ] as const
    ).entries())
      for (const axis of [0, 1]) expect(rows[k]![0][axis]).toBeCloseTo(corner[axis]!, 2);
  });

  it('are as long as an inner parallel polygon is around', () => {
    // Steiner's formula (from memory): the perimeter less 2 d Σ tan(turn / 2).
    const hexagon: Ring = Array.from({ length: 6 }, (_, k) => [
      5 * Math.cos((k * Math.PI) / 3),
      5 * Math.sin((k * Math.PI) / 3),
    ]);
    const d = 0.3;
    expect(sum(rowsInside(hexagon, d).map(lengthOf))).toBeCloseTo(30 - 12 * d * Math.tan(Math.PI / 6), 2);
  });

  it('meet around an inner corner', () => {
    const bent: Ring = [
      [0, 0],
      [4, 0],
      [4, 4],
      [2, 4],
      [2, 2],
      [0, 2],
    ];
    const rows = rowsInside(bent, 0.5);
    expect(rows).toHaveLength(6);
    // The inner corner lies at 2, 2: both rows beside it end half an inch farther in.
    const [down, across] = [rows[3]!, rows[4]!];
    expect(down[1]).toEqual([2.5, 1.5]);
    expect(across[0]).toEqual([2.5, 1.5]);
  });

  it('leave out what is too narrow, and where a waist parts an edge there are two', () => {
    expect(
      rowsInside(
        [
          [0, 0],
          [8, 0],
          [8, 0.9],
          [0, 0.9],
        ],
        0.5,
      ),
    ).toEqual([]);
    const hourglass: Ring = [
      [0, 0],
      [10, 0],
      [10, 4],
      [5, 0.6],
      [0, 4],
    ];
    const alongTheFoot = rowsInside(hourglass, 0.5).filter(([a, b]) => a[1] === 0.5 && b[1] === 0.5);
    expect(alongTheFoot).toHaveLength(2);
  });

  it('keep inside, and their distance from every edge but for a hundredth', () => {
    let rows = 0;
    for (const outline of OUTLINES)
      for (const row of rowsInside(outline, 0.08)) {
        rows++;
        for (const spot of spotsOn(row)) {
          expect(contains(outline, spot)).toBe(true);
          const nearest = Math.min(...edgesOf(outline).map(([a, b]) => distanceToSegment(spot, a, b)));
          expect(nearest).toBeGreaterThan(0.0792);
        }
      }
    expect(rows).toBeGreaterThan(500);
  });

  it('leave nothing out: every spot at that distance lies on a row', () => {
    for (const outline of OUTLINES.slice(0, 80)) {
      const rows = rowsInside(outline, 0.08);
      for (const [k, edge] of edgesOf(outline).entries()) {
        const [[ax, ay], [bx, by]] = edge;
        const length = lengthOf(edge);
        for (const [x, y] of spotsOn(edge).slice(1, -1)) {
          const spot: Point = [x - ((by - ay) / length) * 0.08, y + ((bx - ax) / length) * 0.08];
          const others = edgesOf(outline).filter((_, other) => other !== k);
          if (!contains(outline, spot) || others.some(([a, b]) => distanceToSegment(spot, a, b) < 0.0801))
            continue;
          expect(Math.min(...rows.map(([a, b]) => distanceToSegment(spot, a, b)))).toBeLessThan(8e-4);
        }
      }
    }
  });
});

describe('where a line comes near a wall', () => {
  it('is told as by trying spots along it', () => {
    const rng = new Prng(5);
    const spot = (): Point => [rng.between(-2, 2), rng.between(-2, 2)];
    for (let k = 0; k < 500; k++) {
      const [from, wall, near] = [spot(), [spot(), spot()] as const, rng.between(0.1, 1)];
      const angle = rng.between(0, 2 * Math.PI);
      const u: Point = [Math.cos(angle), Math.sin(angle)];
      const reach = reachNear(from, u, wallFrom(...wall), near);
      for (let t = -6; t < 6; t += 0.05) {
        const away = distanceToSegment([from[0] + t * u[0], from[1] + t * u[1]], ...wall);
        if (Math.abs(away - near) < 1e-6) continue;
        expect(reach !== null && t > reach[0] && t < reach[1]).toBe(away < near);
      }
    }
  });
});
