import { describe, expect, it } from 'vitest';
import type { Point, Segment } from '../../src/geometry/point.ts';
import type { Block, Cut } from '../../src/piecing/block.ts';
import { piece } from '../../src/piecing/piece.ts';

/** A lamp room let into one patch, parted by a mullion that ends in the middle of two of its sides. */
function lampRoom(turn: number, isReversed: boolean): Block {
  const corners: Point[] = [
    [2, 2],
    [4, 2],
    [4, 4],
    [2, 4],
  ];
  const sides = corners.map((from, k): Segment => [from, corners[(k + 1) % 4]!]);
  const lines: Segment[] = [...sides.slice(turn), ...sides.slice(0, turn)];
  lines.push([
    [3, 2],
    [3, 4],
  ]);
  return {
    id: 'b',
    name: 'Lamp room',
    outline: [
      [0, 0],
      [6, 0],
      [6, 6],
      [0, 6],
    ],
    cuts: lines.map(([a, b], k): Cut => {
      const [from, to] = isReversed ? [b, a] : [a, b];
      return { id: `c${k}`, from, to, role: 'auto' };
    }),
    patches: [],
  };
}

describe('a set-in seam that closes on itself', () => {
  it('begins at a corner and has as many stretches as there are corners', () => {
    for (let variant = 0; variant < 8; variant++) {
      const plan = piece(lampRoom(variant >> 1, variant % 2 === 1));
      const closed = plan.joins.filter(({ seam }) => `${seam[0]}` === `${seam[1]}`);
      expect(closed.length, `${plan.verdict}, ${plan.joins.map(({ seam }) => seam.join(' to '))}`).toBe(1);
      const { seam, stretches, points } = closed[0]!;
      expect(stretches.map(([from]) => `${from}`).sort()).toEqual(['2,2', '2,4', '4,2', '4,4']);
      expect([2, 4]).toContain(seam[0][0]);
      expect([2, 4]).toContain(seam[0][1]);
      // The mullion meets the seam twice, from one side only.
      expect(
        points
          .filter(({ kind }) => kind === 'junction')
          .map(({ at }) => `${at}`)
          .sort(),
      ).toEqual(['3,2', '3,4']);
    }
  });
});
