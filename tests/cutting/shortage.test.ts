import { describe, expect, it } from 'vitest';
import type { Strip } from '../../src/cutting/cutting-plan.ts';
import { cuttingTable } from '../../src/cutting/cutting-table.ts';
import { costOf, shortageOf } from '../../src/cutting/shortage.ts';

const strip = (height: number, patch: string): Strip => ({
  height,
  cuts: [{ kind: 'rectangle', width: 4, height, for: [['b1', patch, 1]] }],
});
const strips = [strip(5, 'A1'), strip(3, 'A2'), strip(2, 'A3')];
const none = { shrinkage: 0, spare: 0 };

describe('what falls short', () => {
  it('is told with the patches that could take another fabric', () => {
    expect(shortageOf({ strips, length: 10 }, none, 10)).toBeNull();
    expect(shortageOf({ strips, length: 10 }, none, 8)).toEqual({ inches: 2, patches: [['b1', 'A3', 1]] });
    // Four inches are too few for the tallest, and enough for one of the others.
    expect(shortageOf({ strips, length: 10 }, none, 4)?.patches).toEqual([
      ['b1', 'A1', 1],
      ['b1', 'A3', 1],
    ]);
    expect(shortageOf({ strips, length: 10 }, { shrinkage: 0.5, spare: 0 }, 10)?.inches).toBe(10);
  });

  it('costs what is bought, not what is cut', () => {
    expect(costOf(10, none, { amount: 8, per: 'yard' })).toBe(8 * 0.375);
    expect(costOf(10, none, { amount: 10, per: 'metre' })).toBeCloseTo(3, 9);
    expect(costOf(0, none, { amount: 8, per: 'yard' })).toBe(0);
  });
});

describe('the cutting list as a table', () => {
  it('has a row a cut', () => {
    const plan = {
      fabric: 'f1',
      grain: 'seam' as const,
      usableWidth: 40,
      strips,
      fromStock: [{ width: 21, height: 18, strips: [strip(2, 'A4')] }],
      length: 10,
      bound: { length: 10, kind: 'area' as const },
      fill: 1,
      tooLarge: [],
      plain: [],
      joined: [],
    };
    const rows = cuttingTable([plan], 'in', { fabric: () => 'Sail', block: () => 'Ferry' });
    expect(rows).toHaveLength(5);
    expect(rows[1]).toEqual([
      'Sail',
      'piece 1 at hand, 21 in × 18 in',
      '1',
      '2 in',
      '1',
      '4 in',
      '2 in',
      '',
      'Ferry A4 copy 1',
    ]);
    expect(rows[2]![1]).toBe('the bolt');
  });
});
