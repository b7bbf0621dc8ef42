import { describe, expect, it } from 'vitest';
import type { Block } from '../../src/piecing/block.ts';
import { piece } from '../../src/piecing/piece.ts';
import { rehearse } from '../../src/piecing/rehearsal.ts';
import { joinSentence, stepSentence, verdictSentence } from '../../src/piecing/sentences.ts';
import { checkPlan } from '../checker/check-plan.ts';
import { awkwardBlock } from '../designs/awkward.ts';
import { growingLines } from '../designs/growing-lines.ts';
import { TEN_TROUBLES } from '../designs/ten-troubles.ts';
import { UNSEWABLE } from '../designs/unsewable.ts';

const withPartial = (block: Block): Block => ({ ...block, plan: 'partial-seams' });

const lampRoom = TEN_TROUBLES[1]!.block;

/** Lines that chase each other round a middle sew with one partial seam (common practice). */
describe('a plan with partial seams', () => {
  it('sews four walls round a lamp: begun, three round it, closed', () => {
    const plan = piece(withPartial(lampRoom));
    expect(plan.verdict).toBe('partial-seams');
    expect(verdictSentence(plan)).toBe('Sews on 5 foundations with a partial seam, all seams straight.');
    expect(checkPlan(withPartial(lampRoom), plan)).toEqual([]);
    expect(plan.joins.map(({ kind }) => kind)).toEqual(['straight', 'straight', 'straight', 'partial']);
    const [begun, , , closing] = plan.joins;
    expect(begun!.leftOpen).toMatchObject({ step: 4 });
    expect(closing!.finishes).toMatchObject({ step: 1 });
    // The rest goes on from the very spot where the first part is left open.
    expect(closing!.finishes!.rest).toContainEqual(begun!.leftOpen!.at);
    expect(plan.patches).toHaveLength(5);
    expect(plan.findings.map(({ code }) => code)).not.toContain('ring');
  });

  it('says at the machine where to stop and where to go on', () => {
    const plan = piece(withPartial(lampRoom));
    const words = rehearse(plan).map((step) => stepSentence(step, { allowance: 0.25, unit: 'in' }));
    expect(words.filter((text) => text.includes('stop at the dot before'))).toHaveLength(1);
    expect(words.at(-1)).toContain('stitch it on from the dot');
    expect(joinSentence(plan.joins[0]!, 'in')).toContain('left open at its end until join 4');
    expect(joinSentence(plan.joins[3]!, 'in')).toContain('the rest of join 1');
  });

  it('is never chosen unasked', () => {
    for (const block of UNSEWABLE.filter(({ cuts }) => cuts.length < 30))
      expect(piece(block).verdict).not.toBe('partial-seams');
  });

  it('sews each of several rings so', () => {
    const two = UNSEWABLE.find(({ name }) => name === 'Two whirlpools')!;
    const plan = piece(withPartial(two));
    expect(plan.joins.filter(({ kind }) => kind === 'partial')).toHaveLength(2);
    expect(checkPlan(withPartial(two), plan)).toEqual([]);
  });

  it('is the plan with the fewest foundations where nothing rings, and set in where no line goes on', () => {
    const [sails] = TEN_TROUBLES;
    expect(piece(withPartial(sails!.block)).verdict).toBe('set-in-seams');
    const jetty = TEN_TROUBLES[5]!.block;
    expect(piece(withPartial(jetty)).sections).toEqual(piece(jetty).sections);
  });

  it('passes the check on random drawings', () => {
    let partial = 0;
    for (let seed = 1; seed <= 60; seed++)
      for (const block of [growingLines(seed, 4 + (seed % 12)), awkwardBlock(seed)]) {
        const plan = piece(withPartial(block));
        if (plan.verdict === 'partial-seams') partial++;
        expect([seed, checkPlan(withPartial(block), plan)]).toEqual([seed, []]);
      }
    expect(partial).toBeGreaterThan(5);
  });
});
