import { describe, expect, it } from 'vitest';
import type { MadeBlock } from '../../src/making/making.ts';
import { piece } from '../../src/piecing/piece.ts';
import type { PiecingPlan } from '../../src/piecing/plan.ts';
import { papersOf } from '../../src/rounds/papers.ts';
import { planRounds } from '../../src/rounds/plan-rounds.ts';
import { Neighbourhood } from '../checker/check-plan.ts';
import { replayRounds } from '../checker/replay-rounds.ts';
import { asOneStretch } from '../checker/shared-boundary.ts';
import { designOf } from '../designs/designs.ts';
import { Prng } from '../designs/prng.ts';

/** A design of a seed, each patch in one of `fabrics` fabrics by chance. */
function madeBlock(seed: number, fabrics: number, copies: number, unitFirst = false): MadeBlock {
  const rng = new Prng(seed);
  const { block } = designOf(seed, { patches: [3, 24] });
  const named = { ...block, id: `b${seed}` };
  const plan = piece(named, unitFirst ? { plan: 'unit-first' } : {});
  const coloured: PiecingPlan = {
    ...plan,
    patches: plan.patches.map((patch) => ({ ...patch, fabric: `f${rng.whole(1, fabrics)}` })),
  };
  return { block: named, plan: coloured, copies, isMirrored: false };
}

const handed = (made: readonly MadeBlock[]) =>
  made.map(({ block, plan, copies }) => ({ id: block.id, plan, copies }));

describe('rounds', () => {
  it('sew every paper by the rule, each patch when its fabric is out, nothing left over', () => {
    for (let seed = 1; seed <= 40; seed++) {
      const rng = new Prng(seed);
      const made = Array.from({ length: rng.whole(1, 5) }, (_, k) =>
        madeBlock(seed * 10 + k, rng.whole(1, 8), rng.whole(1, 2), rng.chance(0.3)),
      );
      for (const isFirstPairCut of [false, true]) {
        const plan = planRounds(papersOf(made), { steps: 200, isFirstPairCut });
        expect([seed, replayRounds(handed(made), plan, isFirstPairCut)]).toEqual([seed, []]);
        expect(plan.bound).toBeLessThanOrEqual(plan.rounds.length);
        if (!isFirstPairCut) expect(plan.rounds.length).toBeLessThanOrEqual(plan.byLeafing);
      }
    }
  });

  it('are as few as trying every order of every paper finds', () => {
    let tried = 0;
    for (let seed = 1; tried < 25; seed++) {
      const made = [0, 1].map((k) => madeBlock(7000 + seed * 2 + k, 4, 1));
      const small = made.every(
        ({ plan }) => plan.sections.every(({ order }) => order.length <= 6) && plan.sections.length <= 2,
      );
      if (!small || made.some(({ plan }) => plan.patches.length === 0)) continue;
      tried++;
      const plan = planRounds(papersOf(made));
      expect([seed, plan.rounds.length, plan.bound]).toEqual([
        seed,
        fewestByTrying(made),
        fewestByTrying(made),
      ]);
    }
  });

  it('take copies along in the same rounds', () => {
    const once = planRounds(papersOf([madeBlock(5, 5, 1)]));
    const thrice = planRounds(papersOf([madeBlock(5, 5, 3)]));
    expect(thrice.rounds.length).toBe(once.rounds.length);
    expect(thrice.papers.length).toBe(3 * once.papers.length);
  });

  it('are none where there is nothing to sew', () => {
    expect(planRounds([])).toEqual({ papers: [], rounds: [], bound: 0, byPosition: 0, byLeafing: 0 });
  });
});

/** Every order that sews of every paper, as strings of fabrics; then the shortest sequence that holds one of each. */
function fewestByTrying(made: readonly MadeBlock[]): number {
  const papers = made.flatMap(({ plan }) => {
    const around = new Neighbourhood(plan.patches);
    const numberOf = new Map(plan.patches.map(({ id }, k) => [id, k]));
    return plan.sections.map(({ order }) => {
      const strings = new Set<string>();
      const go = (sewn: readonly number[], text: string): void => {
        if (sewn.length === order.length) strings.add(text);
        for (const id of order) {
          const k = numberOf.get(id)!;
          if (sewn.includes(k)) continue;
          if (sewn.length > 0 && asOneStretch(around.betweenAll([k], sewn)).kind !== 'straight') continue;
          const letter = plan.patches[k]!.fabric!.slice(1);
          go([...sewn, k], text.at(-1) === letter ? text : text + letter);
        }
      };
      go([], '');
      return [...strings];
    });
  });
  // Breadth first over how far each string of each paper has come.
  const all = papers.flatMap((strings, paper) => strings.map((text) => ({ paper, text })));
  let level = new Map([[all.map(() => 0).join(), all.map(() => 0)]]);
  for (let rounds = 0; ; rounds++) {
    for (const at of level.values())
      if (papers.every((_, p) => all.some(({ paper, text }, s) => paper === p && at[s] === text.length)))
        return rounds;
    const next = new Map<string, number[]>();
    for (const at of level.values())
      for (const letter of '12345678') {
        const then = at.map((k, s) => (all[s]!.text[k] === letter ? k + 1 : k));
        next.set(then.join(), then);
      }
    level = next;
  }
}
