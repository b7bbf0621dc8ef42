import { describe, expect, it } from 'vitest';
import { cutAway, foldedOver, isOnOneSide, towards } from '../../src/geometry/fold.ts';
import type { Point, Ring, Segment } from '../../src/geometry/point.ts';
import { distance, signedArea } from '../../src/geometry/ring.ts';

const SQUARE: Ring = [
  [0, 0],
  [4, 0],
  [4, 4],
  [0, 4],
];

const LINES: readonly Segment[] = [
  [
    [0, 4],
    [4, 4],
  ],
  [
    [4, -1],
    [4, 7],
  ],
  [
    [-3, 5],
    [6, -1],
  ],
];

describe('foldedOver', () => {
  it('turned right over is the mirror image: distances kept, the turn reversed, every point as far from the line', () => {
    for (const line of LINES) {
      const image = foldedOver(SQUARE, line, -1);
      for (let i = 0; i < 4; i++)
        for (let j = 0; j < 4; j++)
          expect(distance(image[i]!, image[j]!)).toBeCloseTo(distance(SQUARE[i]!, SQUARE[j]!), 12);
      expect(signedArea(image)).toBeCloseTo(-16, 12);
      // The middle between a point and its image lies on the line: as near to it as any point of it is.
      for (let i = 0; i < 4; i++)
        for (const end of line) expect(distance(image[i]!, end)).toBeCloseTo(distance(SQUARE[i]!, end), 12);
    }
  });

  it('lies as it was at 1, and twice over is back', () => {
    for (const line of LINES) {
      expect(foldedOver(SQUARE, line, 1)).toEqual(SQUARE);
      foldedOver(foldedOver(SQUARE, line, -1), line, -1).forEach(([x, y], i) => {
        expect(x).toBeCloseTo(SQUARE[i]![0], 12);
        expect(y).toBeCloseTo(SQUARE[i]![1], 12);
      });
    }
  });

  it('seen from above shrinks by the cosine of the turn: 60° leaves half the area', () => {
    for (const line of LINES)
      expect(signedArea(foldedOver(SQUARE, line, Math.cos(Math.PI / 3)))).toBeCloseTo(8, 12);
  });
});

describe('cutAway', () => {
  const level: Segment = [
    [0, 1],
    [4, 1],
  ];

  it('keeps the side asked for, and as much beyond the line', () => {
    expect(Math.abs(signedArea(cutAway(SQUARE, level, [2, 3], 0)))).toBe(12);
    expect(Math.abs(signedArea(cutAway(SQUARE, level, [2, 0], 0)))).toBe(4);
    expect(Math.abs(signedArea(cutAway(SQUARE, level, [2, 0], 0.25)))).toBe(5);
  });

  it('leaves what does not reach the line, and nothing of what lies wholly beyond', () => {
    const far: Segment = [
      [0, 9],
      [4, 9],
    ];
    expect(cutAway(SQUARE, far, [2, 2], 0)).toEqual(SQUARE);
    expect(cutAway(SQUARE, far, [2, 12], 0)).toEqual([]);
  });
});

describe('sides of a line', () => {
  it('tells whether a shape keeps to one of them', () => {
    expect(isOnOneSide(SQUARE, LINES[0]!, 0)).toBe(true);
    expect(
      isOnOneSide(
        SQUARE,
        [
          [2, 0],
          [2, 4],
        ],
        0,
      ),
    ).toBe(false);
  });

  it('points to the side of a place, square to the line and one long', () => {
    const at: Point = [2, 9];
    const [x, y] = towards(LINES[0]!, at);
    expect([Math.abs(x), y]).toEqual([0, 1]);
    const [u, v] = towards([LINES[0]![1], LINES[0]![0]], at);
    expect([Math.abs(u), v]).toEqual([0, 1]);
    expect(towards(LINES[0]!, [2, -9])[1]).toBe(-1);
  });
});
