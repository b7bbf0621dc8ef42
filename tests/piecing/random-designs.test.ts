import { describe, expect, it } from 'vitest';
import { piece } from '../../src/piecing/piece.ts';
import { checkPlan } from '../checker/check-plan.ts';
import { type Design, type DesignOptions, designOf } from '../designs/designs.ts';

/**
 * Seeded random blocks through the one door to piecing, each plan read by the independent checker. A failure
 * prints the seed: `designOf(seed)` draws the block again.
 */

/** Everything wrong with the plan of a design: the checker's faults, and what construction knows better. */
function faultsOf(design: Design): string[] {
  const plan = piece(design.block);
  const faults = checkPlan(design.block, plan);
  if (plan.patches.length !== design.patches) {
    faults.push(`${plan.patches.length} patches, drawn were ${design.patches}`);
  }
  const isPinned = design.block.cuts.some((cut) => cut.role !== 'auto');
  if (!isPinned && (plan.verdict === 'set-in-seams') === design.sewsStraight) {
    faults.push(
      `the verdict is ${plan.verdict}, straight joins ${design.sewsStraight ? 'sew it' : 'cannot sew it'}`,
    );
  }
  return faults;
}

function expectNoFaults(from: number, to: number, options: DesignOptions = {}): void {
  const bad: string[] = [];
  for (let seed = from; seed <= to; seed++) {
    const design = designOf(seed, options);
    const faults = faultsOf(design);
    if (faults.length > 0) bad.push(`seed ${seed} (${design.kind}): ${faults.slice(0, 3).join('; ')}`);
  }
  expect(bad.slice(0, 10), JSON.stringify(options)).toEqual([]);
}

describe('2,000 random designs', () => {
  for (let from = 1; from <= 2000; from += 200) {
    it(`seeds ${from} to ${from + 199} can be sewn as planned`, () => expectNoFaults(from, from + 199));
  }
});

describe('random designs, hastily drawn', () => {
  it('with every end up to 0.04 mm past or short of where it belongs', () => {
    expectNoFaults(3001, 3200, { endErrors: 'all' });
  });
});

describe('random designs with pinned cuts', () => {
  it('obey the pins or say why not', () => {
    expectNoFaults(4001, 4150, { pinned: 0.15 });
    expectNoFaults(4151, 4300, { pinned: 0.05 });
  });
});

describe('random designs on a small budget', () => {
  it('still give a plan that can be sewn, and say when it may not be the fewest', () => {
    const bad: string[] = [];
    for (let seed = 5001; seed <= 5100; seed++) {
      const design = designOf(seed, { patches: [20, 60] });
      const tight = piece(design.block, { budget: 1 });
      const wide = piece(design.block, { budget: 5000 });
      const faults = checkPlan(design.block, tight);
      if (design.sewsStraight && tight.verdict === 'set-in-seams') faults.push('a straight plan was missed');
      if (tight.fewest && tight.sections.length !== wide.sections.length)
        faults.push('called the fewest, and is not');
      if (wide.fewest && tight.sections.length < wide.sections.length) faults.push('fewer than the fewest');
      if (faults.length > 0) bad.push(`seed ${seed} (${design.kind}): ${faults.slice(0, 3).join('; ')}`);
    }
    expect(bad).toEqual([]);
  });
});
