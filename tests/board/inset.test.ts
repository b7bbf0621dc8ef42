import { describe, expect, it } from 'vitest';
import { insetRing } from '../../src/board/draw/inset.ts';
import type { Ring } from '../../src/geometry/point.ts';

const area = (ring: Ring): number =>
  ring.reduce((sum, [x, y], i) => {
    const [nx, ny] = ring[(i + 1) % ring.length]!;
    return sum + (x * ny - nx * y) / 2;
  }, 0);

describe('a line beside an outline', () => {
  it('leaves a square a smaller square, T-junctions on its sides included', () => {
    const square: Ring = [
      [0, 0],
      [2, 0],
      [4, 0],
      [4, 4],
      [0, 4],
    ];
    expect(insetRing(square, 1)).toEqual([
      [1, 1],
      [2, 1],
      [3, 1],
      [3, 3],
      [1, 3],
    ]);
  });

  it('takes the perimeter times the distance off the area, and gives the corners back', () => {
    // Steiner's formula for an inner parallel polygon: A - P d + d² Σ tan(turn / 2).
    const sides = 6;
    const hexagon: Ring = Array.from({ length: sides }, (_, k) => [
      5 * Math.cos((k * Math.PI) / 3),
      5 * Math.sin((k * Math.PI) / 3),
    ]);
    const d = 0.3;
    const expected = area(hexagon) - 30 * d + d * d * sides * Math.tan(Math.PI / 6);
    expect(area(insetRing(hexagon, d))).toBeCloseTo(expected, 9);
  });

  it('goes no farther into a sharp corner than three times the distance', () => {
    const needle: Ring = [
      [0, 0],
      [10, -0.2],
      [10, 0.2],
    ];
    const [tip] = insetRing(needle, 0.1);
    expect(Math.hypot(...tip!)).toBeLessThanOrEqual(0.3 + 1e-9);
  });
});
