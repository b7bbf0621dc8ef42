import { describe, expect, it } from 'vitest';
import { holdsCircle } from '../../src/geometry/inner-circle.ts';
import type { Ring } from '../../src/geometry/point.ts';

/** A strip `width` wide that goes along, down and back: how wide a circle it holds is known but for its bends. */
const bent = (width: number): Ring => [
  [0, 0],
  [10, 0],
  [10, 5],
  [10 - width, 5],
  [10 - width, width],
  [0, width],
];

describe('a circle inside an area', () => {
  it('fits a strip as wide as itself', () => {
    expect(holdsCircle({ polygon: bent(0.5), holes: [] }, 0.249)).toBe(true);
    expect(holdsCircle({ polygon: bent(0.1), holes: [] }, 0.125)).toBe(false);
  });

  it('fits the bend of an L that is wider than its arms', () => {
    // In the outer corner of an L of width w the circle that touches both sides and the inner corner has the radius (2 - √2) w.
    const radius = (2 - Math.SQRT2) * 0.5;
    expect(holdsCircle({ polygon: bent(0.5), holes: [] }, radius - 0.003)).toBe(true);
    expect(holdsCircle({ polygon: bent(0.5), holes: [] }, radius + 0.003)).toBe(false);
  });

  it('lies round no hole', () => {
    const polygon: Ring = [
      [0, 0],
      [4, 0],
      [4, 4],
      [0, 4],
    ];
    const hole: Ring = [
      [1, 1],
      [1, 3],
      [3, 3],
      [3, 1],
    ];
    expect(holdsCircle({ polygon, holes: [] }, 2)).toBe(true);
    expect(holdsCircle({ polygon, holes: [hole] }, 0.7)).toBe(false);
    expect(holdsCircle({ polygon, holes: [hole] }, 0.5)).toBe(true);
  });
});
