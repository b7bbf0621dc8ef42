import { afterEach, describe, expect, it, vi } from 'vitest';
import { piece } from '../../src/piecing/piece.ts';
import { pieceMemory } from '../../src/piecing/piece-memory.ts';
import { designOf } from '../designs/designs.ts';

const verifyPlan = vi.hoisted(() => vi.fn((): string[] => []));
vi.mock('../../src/piecing/verify.ts', () => ({ verifyPlan }));
afterEach(() => verifyPlan.mockReset());

describe('a plan is handed out', () => {
  const { block } = designOf(4);

  it('only when it has been checked, and as broken when the check finds a fault', () => {
    verifyPlan.mockReturnValue(['A1 is wrong.', 'A2 too.']);
    const plan = piece(block);
    expect(verifyPlan).toHaveBeenCalledOnce();
    expect([plan.verdict, plan.patches, plan.sections]).toEqual(['broken', [], []]);
    expect(plan.findings.map(({ code, message }) => [code, message])).toEqual([
      ['plan-fails-check', expect.stringContaining('A1 is wrong.')],
    ]);
  });

  it('from a memory as it was found to be', () => {
    const memory = pieceMemory();
    verifyPlan.mockReturnValue(['A1 is wrong.']);
    expect(piece(block, {}, memory).verdict).toBe('broken');
    expect(piece(block, { severities: { unpainted: 'off' } }, memory).verdict).toBe('broken');
    verifyPlan.mockReturnValue([]);
    const other = { ...block, plan: 'rows' as const };
    const plan = piece(other, {}, memory);
    expect(plan.verdict).not.toBe('broken');
    // The very plan that was checked, not another.
    const { findings: _, ...sewing } = plan;
    expect(verifyPlan).toHaveBeenLastCalledWith(sewing, other);
  });
});
