import { describe, expect, it } from 'vitest';
import type { Point } from '../../src/geometry/point.ts';
import { registrationPoints } from '../../src/piecing/registration.ts';
import { Prng } from '../designs/prng.ts';

describe('guide points', () => {
  it('leave no stretch longer than 4 in, however the join lies', () => {
    const rng = new Prng(1);
    for (let k = 0; k < 2000; k++) {
      const length = rng.pick([4, 8, 12, 16, rng.between(0.1, 40)]);
      const angle = rng.between(0, 7);
      const snap = (v: number): number => Math.round(v * 65536) / 65536;
      const to: Point = [snap(length * Math.cos(angle)), snap(length * Math.sin(angle))];
      const points = registrationPoints(1, [
        [
          { at: [0, 0], kind: 'end' },
          { at: to, kind: 'end' },
        ],
      ]);
      points.slice(1).forEach(({ at }, i) => {
        const before = points[i]!.at;
        expect(Math.hypot(at[0] - before[0], at[1] - before[1]), `${k}`).toBeLessThanOrEqual(4 + 1e-9);
      });
    }
  });

  it('are no more than need be where a stretch is a whole number of times 4 in', () => {
    const points = registrationPoints(1, [
      [
        { at: [0, 0], kind: 'end' },
        { at: [12, 0], kind: 'end' },
      ],
    ]);
    expect(points.map(({ at }) => at[0])).toEqual([0, 4, 8, 12]);
  });
});
