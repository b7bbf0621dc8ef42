import { describe, expect, it } from 'vitest';
import { piece } from '../../src/piecing/piece.ts';
import type { PiecingPlan } from '../../src/piecing/plan.ts';
import { checkPlan } from '../checker/check-plan.ts';
import { EverySequence } from '../checker/every-sequence.ts';
import { designOf } from '../designs/designs.ts';
import { Prng } from '../designs/prng.ts';
import { cRound, medallion, SET_IN_KINDS, type SetInKind, setInDesign } from '../designs/set-in.ts';
import { cornersIn } from './standing.ts';

/** Plans with set-in seams, against trying every sequence of parts. */

const MOST_PATCHES = 12;

const cornersOf = ({ joins }: PiecingPlan): number =>
  joins.reduce((sum, join) => sum + (join.kind === 'set-in' ? cornersIn(join) : 0), 0);

const told = (plan: PiecingPlan) => ({ corners: cornersOf(plan), papers: plan.sections.length });

describe('plans with set-in seams', () => {
  it.each([6, 8, 9, 10])('a medallion of %i wedges round a centre takes two papers', (wedges) => {
    const block = medallion(wedges);
    const plan = piece(block);
    expect(checkPlan(block, plan)).toEqual([]);
    expect(told(plan)).toEqual({ corners: wedges, papers: 2 });
  });

  it.each([2, 3, 5])('a C round %i patches turns two corners on two papers', (within) => {
    expect(told(piece(cRound(within)))).toEqual({ corners: 2, papers: 2 });
  });

  const clear = SET_IN_KINDS.filter((kind): kind is Exclude<SetInKind, 'fan'> => kind !== 'fan');
  it.each(clear)('%s: as few corners, then as few papers, as any sequence of parts', (kind) => {
    let setIn = 0;
    for (let seed = 1; seed <= 24; seed++) {
      const block = setInDesign(kind, new Prng(seed));
      const plan = piece(block);
      if (plan.patches.length > MOST_PATCHES) continue;
      if (plan.verdict === 'set-in-seams') setIn++;
      expect({ seed, ...told(plan) }).toEqual({ seed, ...new EverySequence(plan.patches).best() });
      expect(checkPlan(block, plan), `seed ${seed}`).toEqual([]);
    }
    expect(setIn).toBeGreaterThan(5);
  });

  it('floor plans of 10 to 12 rooms: the same', () => {
    let setIn = 0;
    for (let seed = 1; seed <= 60; seed++) {
      const plan = piece(designOf(seed, { kind: 'floorplan', patches: [10, MOST_PATCHES] }).block);
      if (plan.verdict !== 'set-in-seams') continue;
      setIn++;
      expect({ seed, ...told(plan) }).toEqual({ seed, ...new EverySequence(plan.patches).best() });
    }
    expect(setIn).toBeGreaterThan(15);
  });

  it('larger medallions are opened so that both halves peel', () => {
    for (const wedges of [14, 18, 24])
      expect(told(piece(medallion(wedges)))).toEqual({ corners: wedges, papers: 2 });
  });
});

describe('plans alike in corners and papers', () => {
  it('of them the one with the fewest match points is taken: seams can be laid on fewer crossings', () => {
    const plan = piece(setInDesign('islands', new Prng(5)));
    expect(plan.verdict).toBe('set-in-seams');
    // The same corners on as many papers can also be had with two.
    expect(plan.joins.flatMap(({ points }) => points.filter(({ kind }) => kind === 'match'))).toHaveLength(1);
  });
});
