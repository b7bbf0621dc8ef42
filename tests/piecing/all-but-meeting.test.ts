import { describe, expect, it } from 'vitest';
import type { Block, Cut } from '../../src/piecing/block.ts';
import { piece } from '../../src/piecing/piece.ts';
import { EveryParting } from '../checker/every-parting.ts';
import { Prng } from '../designs/prng.ts';

/** Lines right across a square of 6 in, three of them through a spot or past it by about a twentieth of a millimetre. */
function nearlyThroughOneSpot(seed: number): Block {
  const rng = new Prng(seed);
  const lines = 3 + rng.whole(0, 2);
  const centre = [rng.between(2, 4), rng.between(2, 4)] as const;
  const off = (0.05 / 25.4) * rng.between(0.4, 2.2);
  const cuts = Array.from({ length: lines }, (_, i): Cut => {
    const angle = rng.between(0, Math.PI);
    const isNear = i < 3;
    const x = isNear ? centre[0] + rng.between(-off, off) : rng.between(1, 5);
    const y = isNear ? centre[1] + rng.between(-off, off) : rng.between(1, 5);
    const [dx, dy] = [Math.cos(angle), Math.sin(angle)];
    const rim = [-x / dx, (6 - x) / dx, -y / dy, (6 - y) / dy].filter((t) =>
      [x + t * dx, y + t * dy].every((v) => v > -1e-9 && v < 6 + 1e-9),
    );
    let [first, last] = [Math.min(...rim), Math.max(...rim)];
    if (rng.chance(0.3)) {
      if (rng.chance(0.5)) last = 0;
      else first = 0;
    }
    return {
      id: `c${i}`,
      from: [x + first * dx, y + first * dy],
      to: [x + last * dx, y + last * dy],
      role: 'auto',
    };
  });
  const outline: Block['outline'] = [
    [0, 0],
    [6, 0],
    [6, 6],
    [0, 6],
  ];
  return { id: 'b', name: 'Masthead', outline, cuts, paint: [] };
}

describe('three lines within a twentieth of a millimetre of one spot', () => {
  it('are never called proven with a paper too many, against trying every parting', () => {
    const wrong: string[] = [];
    let proven = 0;
    let open = 0;
    for (let seed = 1; seed <= 300; seed++) {
      const plan = piece(nearlyThroughOneSpot(seed));
      if (plan.patches.length > 12) continue;
      if (!plan.fewest) {
        open++;
        continue;
      }
      proven++;
      const least = new EveryParting(plan.patches).fewest();
      if (plan.sections.length !== least) wrong.push(`seed ${seed}: ${plan.sections.length}, not ${least}`);
    }
    expect(wrong).toEqual([]);
    expect(Math.min(proven, open)).toBeGreaterThan(20);
  });
});
