import { describe, expect, it } from 'vitest';
import { type Cloth, cuttingPlan } from '../../src/cutting/cutting-plan.ts';
import { cuttingReport } from '../../src/cutting/cutting-report.ts';
import type { CuttingRules } from '../../src/cutting/cutting-rules.ts';
import type { PlainCuts } from '../../src/cutting/plain-cuts.ts';
import type { MadeBlock } from '../../src/making/making.ts';
import { piece } from '../../src/piecing/piece.ts';
import { pieceFaults, reportFaults } from '../checker/check-cutting.ts';
import { designOf } from '../designs/designs.ts';
import { Prng } from '../designs/prng.ts';

const RULES: CuttingRules = { allowance: 1 / 4, ease: 1 / 4, step: 1 / 4, usableWidth: 40, savings: 'all' };

/** Random blocks in hand, their patches in a few fabrics and some in none. */
function madeFrom(rng: Prng): MadeBlock[] {
  return Array.from({ length: rng.whole(1, 4) }, (_, b): MadeBlock => {
    const { block } = designOf(rng.whole(1, 1e6));
    const plan = piece(block);
    const patches = plan.patches.map((patch) => ({ ...patch, fabric: rng.pick(['f1', 'f2', 'f3', null]) }));
    return {
      block: { ...block, id: `b${b}` },
      plan: { ...plan, patches },
      copies: rng.whole(1, 3),
      isMirrored: false,
    };
  });
}

describe('a cutting plan', () => {
  it('cuts every patch of every copy once, in cloth that covers it, whatever the drawing', () => {
    for (let seed = 1; seed <= 40; seed++) {
      const rng = new Prng(seed);
      const made = madeFrom(rng);
      const savings = rng.pick(['none', 'squares', 'all'] as const);
      const cloths: Cloth[] = [
        { fabric: 'f2', grain: 'directional', usableWidth: 42 },
        { fabric: 'f3', grain: 'block', usableWidth: 40 },
      ];
      const plan = cuttingPlan({ made, cloths, rules: { ...RULES, savings }, steps: 20_000 });
      const report = cuttingReport(plan);
      const wanted = made.flatMap(({ block, plan: { patches }, copies }) =>
        patches.map(({ id }) => ({ block: block.id, patch: id, copies })),
      );
      const tooLarge = plan.fabrics.flatMap(({ tooLarge: large }) => large);
      expect(tooLarge, `seed ${seed}`).toEqual([]);
      expect(reportFaults(report, wanted), `seed ${seed}`).toEqual([]);
      const patchOf = new Map(
        made.flatMap(({ block, plan: { patches } }) =>
          patches.map((patch) => [`${block.id} ${patch.id}`, patch]),
        ),
      );
      for (const { block, patch, shape, cut } of report.pieces)
        expect(
          pieceFaults(shape, cut, { ...patchOf.get(`${block} ${patch}`)!, allowance: 1 / 4 }),
          `seed ${seed}, ${block} ${patch}`,
        ).toEqual([]);
      if (savings === 'none') expect(report.pieces.every(({ cut }) => cut.kind === 'rectangle')).toBe(true);
    }
  });

  it('saves cloth by halves and quarters, never spends more', () => {
    let saved = 0;
    for (let seed = 1; seed <= 12; seed++) {
      const made = madeFrom(new Prng(seed));
      const areaWith = (savings: CuttingRules['savings']): number =>
        cuttingPlan({ made, cloths: [], rules: { ...RULES, savings }, steps: 0 })
          .fabrics.flatMap(({ strips }) => strips.flatMap(({ cuts }) => cuts))
          .reduce((sum, { width, height }) => sum + width * height, 0);
      const [none, squares, all] = [areaWith('none'), areaWith('squares'), areaWith('all')];
      expect(squares).toBeLessThanOrEqual(none + 1e-6);
      expect(all).toBeLessThanOrEqual(none + 1e-6);
      saved += 1 - all / none;
    }
    expect(saved / 12).toBeGreaterThan(0.02);
  });

  it('a piece no fabric is wide enough for is told, and the rest is planned', () => {
    const [made] = madeFrom(new Prng(1));
    const patches = made!.plan.patches.map((patch) => ({ ...patch, fabric: 'f1' }));
    const wide = { ...made!, plan: { ...made!.plan, patches } };
    const cloths: Cloth[] = [{ fabric: 'f1', grain: 'directional', usableWidth: 3 }];
    const plan = cuttingPlan({ made: [wide], cloths, rules: RULES, steps: 0 });
    const [fabric] = plan.fabrics;
    expect(fabric!.tooLarge.length).toBeGreaterThan(0);
    const laid = fabric!.strips.flatMap(({ cuts }) => cuts.flatMap((cut) => cut.for));
    expect(laid.length + wide.copies * fabric!.tooLarge.length).toBe(wide.copies * patches.length);
  });

  it('a size by hand that falls short says where and by how much', () => {
    const made = madeFrom(new Prng(2)).slice(0, 1);
    const rules = { ...RULES, savings: 'none' as const };
    const worked = cuttingPlan({ made, cloths: [], rules, steps: 0 }).pieces[0]!;
    const { width, height } = worked.piece.cut;
    const cutAs = (size: { width: number; height: number }) =>
      cuttingPlan({
        made,
        cloths: [],
        rules,
        sizeOf: (_, { id }) => (id === worked.patch ? size : undefined),
        steps: 0,
      }).pieces[0]!;
    expect(cutAs({ width, height }).short).toEqual([]);
    const narrow = cutAs({ width: width - 1, height });
    expect(narrow.piece.cut.width).toBe(width - 1);
    expect(narrow.short.length).toBeGreaterThan(0);
    for (const { missing } of narrow.short) expect(missing).toBeGreaterThan(0);
  });

  it('nothing in hand is nothing to cut', () => {
    expect(cuttingPlan({ made: [], cloths: [], rules: RULES, steps: 0 })).toEqual({
      pieces: [],
      fabrics: [],
    });
  });
});

describe('plain cloth beside the patches', () => {
  const sashing = {
    fabric: 'f9',
    kind: 'rectangle' as const,
    width: 12.5,
    height: 2.5,
    count: 7,
    what: 'Sashing',
  };

  const planOf = (plain: readonly PlainCuts[], grain: 'seam' | 'directional' = 'seam') => {
    const cloths = [{ fabric: 'f9', grain, usableWidth: 40 }];
    const { fabrics } = cuttingPlan({ made: [], plain, cloths, rules: RULES, steps: 0 });
    expect(fabrics).toHaveLength(1);
    return fabrics[0]!;
  };

  it('is cut from the strips of its fabric too', () => {
    const { strips, length, joined } = planOf([sashing]);
    const cuts = strips.flatMap((strip) => strip.cuts);
    expect(cuts).toHaveLength(7);
    expect(cuts.every(({ what }) => what === 'Sashing')).toBe(true);
    // Seven of 2 1/2 × 12 1/2 in stand side by side in one strip of 12 1/2 in, or lie three by three in 7 1/2 in.
    expect(length).toBe(7.5);
    expect(joined).toEqual([]);
  });

  it('wider than the fabric both ways is joined from panels, and counted', () => {
    const wide = { ...sashing, width: 60, height: 50, count: 1, what: 'Backing' };
    // Two panels side by side with a seam of 1/4 in: 60 = 2 × 30 1/4 - 1/2, or 50 = 2 × 25 1/4 - 1/2. By hand: two
    // of 30 1/4 × 50 lie one below the other, 100 in; of 60 × 25 1/4, upright, 120 in.
    const { joined, length } = planOf([wide]);
    expect(joined[0]!.parts).toMatchObject({ width: 30.25, height: 50, count: 2 });
    expect(length).toBe(100);
    expect(planOf([wide], 'directional').joined[0]!.parts).toMatchObject({ width: 30.25, height: 50 });
  });

  it('four borders are joined end to end where that saves cloth, as a quilter reckons them', () => {
    const border = { ...sashing, height: 4.5, what: 'Border' };
    const borders = [
      { ...border, width: 64.5, count: 2 },
      { ...border, width: 56.5, count: 2 },
    ];
    // 2 × 64 1/2 + 2 × 56 1/2 = 242 in. Each strip of 40 in gives 39 1/2 beyond the first's: 241 1/2 / 39 1/2 = 6.1: 7
    // strips of 4 1/2 in, 31 1/2 in of cloth; along the length it would be 64 1/2 in.
    const { joined, length, strips } = planOf(borders);
    expect(joined).toHaveLength(1);
    expect(joined[0]!.parts).toMatchObject({ width: 40, height: 4.5, count: 7 });
    expect(strips).toHaveLength(7);
    expect(length).toBe(31.5);
    // Eight narrow ones stand side by side in the length of one: nothing is gained by joining.
    expect(planOf([{ ...border, width: 41, height: 5, count: 8 }]).joined).toEqual([]);
  });
});
