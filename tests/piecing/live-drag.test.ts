import { describe, expect, it } from 'vitest';
import type { Point } from '../../src/geometry/point.ts';
import type { Block, Cut } from '../../src/piecing/block.ts';
import { piece } from '../../src/piecing/piece.ts';
import type { PiecingPlan } from '../../src/piecing/plan.ts';
import { checkPlan } from '../checker/check-plan.ts';
import { insideShape, pointInside } from '../checker/shared-boundary.ts';
import { designOf } from '../designs/designs.ts';
import { roundPoint } from '../designs/plane.ts';
import { Prng } from '../designs/prng.ts';

/** The plan while a hand drags is the plan of the drawing as it stands: no step leaves anything behind. */

/** A block of the same words and numbers that shares no object with another. */
const builtAnew = (block: Block): Block => structuredClone(block);

/** One pointer's way: a cut, which of its ends, and where to. */
function dragged(cut: Cut, part: number, to: Point, isOnGrid: boolean): Cut {
  const move = ([x, y]: Point): Point =>
    isOnGrid
      ? [Math.round((x + to[0]) * 2) / 2, Math.round((y + to[1]) * 2) / 2]
      : roundPoint([x + to[0], y + to[1]]);
  const whole = ([x, y]: Point): Point => roundPoint([x + to[0], y + to[1]]);
  if (part === 0) return { ...cut, from: move(cut.from) };
  if (part === 1) return { ...cut, to: move(cut.to) };
  return { ...cut, from: whole(cut.from), to: whole(cut.to) };
}

describe('a drag of 200 steps', () => {
  it.each([1, 2, 3, 4])('seed %i: after each step the plan equals one made from nothing', (seed) => {
    const rng = new Prng(seed);
    const start = designOf(90_000 + seed, { kind: 'chords', patches: [8, 20] }).block;
    const drawn: Block[] = [];
    const live: PiecingPlan[] = [];
    // Ten drags of twenty steps, each let go and taken back.
    for (let drag = 0; drag < 10; drag++) {
      const k = rng.whole(0, start.cuts.length - 1);
      const part = rng.whole(0, 2);
      let to: Point = [0, 0];
      for (let step = 0; step < 20; step++) {
        to = [to[0] + rng.between(-0.15, 0.15), to[1] + rng.between(-0.15, 0.15)];
        const cut = dragged(start.cuts[k]!, part, to, rng.chance(0.2));
        const block = { ...start, cuts: start.cuts.map((other, i) => (i === k ? cut : other)) };
        drawn.push(block);
        live.push(piece(block));
      }
    }
    // Made again from the last to the first, so that what came before a step is another each time.
    for (let step = drawn.length - 1; step >= 0; step--) {
      expect(piece(builtAnew(drawn[step]!)), `step ${step}`).toEqual(live[step]);
    }
    // Where a join must be set in, spots less than a line's width apart may count as one; straight ones must all hold.
    const wrong = drawn.flatMap((at, step) =>
      live[step]!.verdict === 'set-in-seams'
        ? []
        : checkPlan(at, live[step]!).map((fault) => `step ${step}: ${fault}`),
    );
    expect(wrong.slice(0, 5)).toEqual([]);
    expect(new Set(live.map((plan) => plan.patches.length)).size).toBeGreaterThan(3);
    expect(live.filter((plan) => plan.verdict !== 'set-in-seams').length).toBeGreaterThan(20);
  });
});

describe('the order of cuts in the file', () => {
  it('does not change which patch is called what', () => {
    const wrong: string[] = [];
    for (let seed = 91_001; seed <= 91_080; seed++) {
      const { block } = designOf(seed, { patches: [4, 30], endErrors: 'none' });
      const plan = piece(block);
      const rng = new Prng(seed);
      for (let turn = 0; turn < 3; turn++) {
        const shuffled = piece({ ...block, cuts: rng.shuffled(block.cuts) });
        const moved = plan.patches.filter((patch) => {
          const at = pointInside(patch);
          return shuffled.patches.find((other) => insideShape(at, other))?.id !== patch.id;
        });
        if (moved.length > 0) wrong.push(`seed ${seed}: ${moved.length} of ${plan.patches.length} renamed`);
      }
    }
    expect(wrong).toEqual([]);
  });
});
