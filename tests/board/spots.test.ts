import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { labelSpot } from '../../src/board/draw/label-spot.ts';
import { Spots } from '../../src/board/draw/spots.ts';
import type { Point } from '../../src/geometry/point.ts';
import type { Patch } from '../../src/piecing/plan.ts';

const place = fc.tuple(
  fc.double({ min: -300, max: 2000, noNaN: true }),
  fc.double({ min: -300, max: 2000, noNaN: true }),
);

describe('spots on the screen', () => {
  it('finds one that is near exactly where looking at all of them does', () => {
    fc.assert(
      fc.property(
        fc.array(place, { maxLength: 60 }),
        place,
        fc.integer({ min: 5, max: 200 }),
        (all, at, reach) => {
          const spots = new Spots(reach);
          for (const spot of all) spots.add(spot);
          expect(spots.isNear(at)).toBe(all.some(([x, y]) => Math.hypot(x - at[0], y - at[1]) < reach));
        },
      ),
    );
  });
});

describe('where a patch has its id', () => {
  const patch = (polygon: readonly Point[]): Patch => ({
    key: 'p1',
    id: 'A1',
    section: 'A',
    position: 1,
    polygon,
    holes: [],
    fabric: null,
    seam: null,
    neighbours: [],
  });
  const square = (x: number, side: number): readonly Point[] => [
    [x, 0],
    [x + side, 0],
    [x + side, side],
    [x, side],
  ];

  it('is the middle of a square, half a side from its edges, whichever squares came before', () => {
    // The largest circle in a square touches all four sides.
    for (const [x, side] of [
      [0, 2],
      [4, 2],
      [0, 4],
      [0, 2],
      [4, 2],
    ] as const) {
      const { at, room } = labelSpot(patch(square(x, side)));
      expect(at[0]).toBeCloseTo(x + side / 2, 1);
      expect(at[1]).toBeCloseTo(side / 2, 1);
      expect(room).toBeCloseTo(side / 2, 1);
    }
  });
});
