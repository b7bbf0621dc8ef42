import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { longLines } from '../../src/document/long-lines.ts';
import type { Point, Segment } from '../../src/geometry/point.ts';

const length = ([a, b]: Segment): number => Math.hypot(b[0] - a[0], b[1] - a[1]);

describe('pieces on one line', () => {
  it('are put together, whatever order and direction they come in', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -Math.PI, max: Math.PI, noNaN: true }),
        fc.shuffledSubarray([0, 1, 2, 3, 4, 5, 6, 7], { minLength: 8, maxLength: 8 }),
        fc.array(fc.boolean(), { minLength: 8, maxLength: 8 }),
        (angle, order, isTurned) => {
          const at = (far: number): Point => [3 + far * Math.cos(angle), 5 + far * Math.sin(angle)];
          const pieces = order.map((k): Segment => (isTurned[k] ? [at(k + 1), at(k)] : [at(k), at(k + 1)]));
          const { lines, repeated } = longLines(pieces, 1e-6);
          expect(lines).toHaveLength(1);
          expect(repeated).toBe(0);
          expect(length(lines[0]!)).toBeCloseTo(8, 9);
        },
      ),
    );
  });

  it('are one line too when the piece between them comes last', () => {
    const { lines } = longLines(
      [
        [
          [0, 0],
          [3, 3],
        ],
        [
          [4, 4],
          [8, 8],
        ],
        [
          [4, 4],
          [3, 3],
        ],
      ],
      1e-6,
    );
    expect(lines).toHaveLength(1);
  });

  it('stay apart across a gap, beside each other, and round a bend', () => {
    const gap: Segment[] = [
      [
        [0, 0],
        [1, 0],
      ],
      [
        [1.1, 0],
        [2, 0],
      ],
    ];
    expect(longLines(gap, 0.01).lines).toHaveLength(2);
    expect(longLines(gap, 0.2).lines).toHaveLength(1);
    const beside: Segment[] = [
      [
        [0, 0],
        [1, 0],
      ],
      [
        [0, 0.1],
        [1, 0.1],
      ],
    ];
    expect(longLines(beside, 0.01).lines).toHaveLength(2);
    // A circle of many slight bends never becomes one straight line.
    const bend = Array.from({ length: 360 }, (_, k): Segment => {
      const at = (t: number): Point => [
        10 * Math.cos((t * Math.PI) / 180),
        10 * Math.sin((t * Math.PI) / 180),
      ];
      return [at(k), at(k + 1)];
    });
    const { lines } = longLines(bend, 0.002);
    // A chord that strays no farther than 0.004 from a circle of radius 10 is shorter than 2 sqrt(2 · 10 · 0.004).
    for (const line of lines) expect(length(line)).toBeLessThan(2 * Math.sqrt(2 * 10 * 0.004));
  });

  it('told twice are dropped and counted', () => {
    const side: Segment = [
      [0, 0],
      [4, 0],
    ];
    const part: Segment = [
      [3, 0],
      [1, 0],
    ];
    expect(longLines([side, part, side], 0.01)).toEqual({ lines: [side], repeated: 2 });
  });
});
