import { describe, expect, it } from 'vitest';
import { piece } from '../../src/piecing/piece.ts';
import { Exhaustive } from '../checker/exhaustive.ts';
import { type DesignKind, designOf } from '../designs/designs.ts';
import { cornersIn } from './standing.ts';

const KINDS: readonly DesignKind[] = ['chords', 'inward', 'lines', 'star', 'grid', 'floorplan'];

describe('one foundation, against trying every order', () => {
  for (const kind of KINDS) {
    it(`${kind}: the verdict is right for 150 small designs`, () => {
      const verdicts = { one: 0, more: 0 };
      for (let seed = 1; seed <= 150; seed++) {
        const { block } = designOf(seed, { kind, patches: [3, 7] });
        const plan = piece(block);
        const sews = new Exhaustive(plan.patches).somePermutationSews();
        expect({ seed, one: plan.verdict === 'one-foundation' }).toEqual({ seed, one: sews });
        verdicts[sews ? 'one' : 'more']++;
      }
      // A kind on which every design answers alike would show little.
      if (kind !== 'lines' && kind !== 'star')
        expect(Math.min(verdicts.one, verdicts.more)).toBeGreaterThan(3);
    });
  }
});

describe('fewest foundations, against trying every parting', () => {
  for (const kind of KINDS) {
    it(`${kind}: the number is right for 60 designs of 5 to 9 patches`, () => {
      for (let seed = 1; seed <= 60; seed++) {
        const { block } = designOf(seed, { kind, patches: [5, 9] });
        const plan = piece(block);
        const best = new Exhaustive(plan.patches).best();
        const corners = plan.joins.reduce((sum, join) => sum + cornersIn(join), 0);
        expect({ seed, corners }).toEqual({ seed, corners: best.corners });
        expect({ seed, foundations: plan.sections.length }).toEqual({ seed, foundations: best.foundations });
        expect(plan.fewest).toBe(corners === 0);
      }
    });
  }
});

describe('corners that joins turn, against trying every parting', { timeout: 300_000 }, () => {
  it('are as few as can be on floor plans of 9 to 11 rooms that straight joins cannot sew', () => {
    let rings = 0;
    for (let seed = 40_001; seed <= 40_120; seed++) {
      const plan = piece(designOf(seed, { kind: 'floorplan', patches: [9, 11] }).block);
      if (plan.verdict !== 'set-in-seams') continue;
      rings++;
      const corners = plan.joins.reduce((sum, join) => sum + cornersIn(join), 0);
      expect({ seed, corners }).toEqual({ seed, corners: new Exhaustive(plan.patches).best().corners });
    }
    expect(rings).toBeGreaterThan(20);
  });
});

describe('pinned cuts, against trying every parting', () => {
  it('are all obeyed, on the fewest foundations, wherever straight joins can do so', () => {
    const cases = { obeyed: 0, refused: 0 };
    for (let seed = 1; seed <= 400; seed++) {
      const { block } = designOf(seed, { patches: [4, 8], pinned: 0.25 });
      if (block.cuts.every((cut) => cut.role === 'auto')) continue;
      const plan = piece(block);
      const best = new Exhaustive(plan.patches, block.cuts).best();
      const isRefused = plan.findings.some((finding) => finding.code === 'pin-refused');
      if (best.corners === 0) {
        cases.obeyed++;
        const isSetIn = plan.verdict === 'set-in-seams';
        expect({ seed, isSetIn, isRefused, foundations: plan.sections.length }).toEqual({
          seed,
          isSetIn: false,
          isRefused: false,
          foundations: best.foundations,
        });
      } else if (plan.verdict !== 'set-in-seams') {
        cases.refused++;
        expect({ seed, isRefused }).toEqual({ seed, isRefused: true });
      }
    }
    expect(Math.min(cases.obeyed, cases.refused)).toBeGreaterThan(20);
  });
});

describe('a finished unit as position 1, against trying everything', () => {
  it('gives the fewest papers for designs of 5 to 9 patches', () => {
    let fewer = 0;
    for (const kind of KINDS) {
      for (let seed = 1; seed <= 40; seed++) {
        const { block } = designOf(seed, { kind, patches: [5, 9] });
        const plan = piece(block, { plan: 'unit-first' });
        if (plan.verdict === 'set-in-seams') continue;
        const least = new Exhaustive(plan.patches).fewestUnitFirst();
        expect({ kind, seed, papers: plan.sections.length }).toEqual({ kind, seed, papers: least });
        if (least < piece(block).sections.length) fewer++;
      }
    }
    expect(fewer).toBeGreaterThan(5);
  });
});
