import { describe, expect, it } from 'vitest';
import { PLAN_CHOICES } from '../../src/piecing/block.ts';
import { piece } from '../../src/piecing/piece.ts';
import type { Patch } from '../../src/piecing/plan.ts';
import { checkPlan } from '../checker/check-plan.ts';
import { pointInside } from '../checker/shared-boundary.ts';
import { designOf } from '../designs/designs.ts';
import { orderedAt } from '../designs/entries.ts';
import { Prng } from '../designs/prng.ts';

/** Whichever plan is asked for, and whatever order is set by hand, what comes back can be sewn as it says. */

describe.each(PLAN_CHOICES)('the plan "%s"', (choice) => {
  it('passes the checker on 150 random designs, on no fewer foundations than the fewest', () => {
    const bad: string[] = [];
    for (let seed = 7001; seed <= 7150; seed++) {
      const { block, sewsStraight } = designOf(seed, { patches: [3, 40] });
      const plan = piece(block, { plan: choice });
      const fewest = piece(block);
      const faults = checkPlan(block, plan);
      // A ring may be sewn with a partial seam, where that is asked for.
      const isRing =
        plan.verdict === 'set-in-seams' || (choice === 'partial-seams' && plan.verdict === choice);
      if (isRing === sewsStraight) faults.push(`the verdict is ${plan.verdict}`);
      const isFewer = plan.sections.length < fewest.sections.length;
      if (choice !== 'unit-first' && fewest.fewest && isFewer) faults.push('fewer than the fewest');
      if (choice === 'unit-first' && plan.sections.length > fewest.sections.length)
        faults.push('more papers than plain');
      if (choice !== 'unit-first' && plan.sections.some((section) => section.startsFrom.length > 0)) {
        faults.push('starts a paper from a unit unasked');
      }
      if (faults.length > 0) bad.push(`seed ${seed}: ${faults.slice(0, 3).join('; ')}`);
    }
    expect(bad).toEqual([]);
  });

  it('is the same whether asked for with the block or beside it', () => {
    for (let seed = 7001; seed <= 7030; seed++) {
      const { block } = designOf(seed, { patches: [3, 20] });
      expect(piece({ ...block, plan: choice })).toEqual(piece(block, { plan: choice }));
    }
  });
});

describe('an order set by hand', () => {
  it('is kept or refused with the reason, on 150 random designs', () => {
    const bad: string[] = [];
    const told = { kept: 0, refused: 0 };
    for (let seed = 8001; seed <= 8150; seed++) {
      const { block } = designOf(seed, { patches: [3, 25] });
      const rng = new Prng(seed);
      const plain = piece(block);
      const section = rng.pick(plain.sections);
      const spots = plain.patches
        .filter((patch) => patch.section === section.letter)
        .map((patch) => pointInside(patch));
      const order = rng.shuffled(spots).slice(0, rng.whole(1, spots.length));
      const asked = orderedAt(block, [order]);
      const plan = piece(asked);
      told[plan.findings.some((finding) => finding.code === 'order-refused') ? 'refused' : 'kept']++;
      const faults = checkPlan(asked, plan);
      if (plan.sections.length !== plain.sections.length) faults.push('the order changed the foundations');
      if (faults.length > 0) bad.push(`seed ${seed}: ${faults.slice(0, 3).join('; ')}`);
    }
    expect(bad).toEqual([]);
    expect(Math.min(told.kept, told.refused)).toBeGreaterThan(5);
  });

  it('that the plan itself would choose is always kept', () => {
    for (let seed = 8001; seed <= 8080; seed++) {
      const { block } = designOf(seed, { patches: [3, 25] });
      const plain = piece(block);
      const orders = plain.sections.map((section) =>
        section.order.map((id) => pointInside(plain.patches.find((patch) => patch.id === id)!)),
      );
      const plan = piece(orderedAt(block, orders));
      const byPlace = (patches: readonly Patch[]) => patches.map(({ key: _, ...patch }) => patch);
      expect({ seed, patches: byPlace(plan.patches) }).toEqual({ seed, patches: byPlace(plain.patches) });
      expect(plan.findings.some((finding) => finding.code === 'order-refused')).toBe(false);
    }
  });
});
