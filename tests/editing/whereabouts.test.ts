import { describe, expect, it } from 'vitest';
import type { Block } from '../../src/document/project.ts';
import { jointStory, jointsOf, patchStory } from '../../src/editing/whereabouts.ts';
import { piece } from '../../src/piecing/piece.ts';
import { WINDOW } from './window.ts';

const BARRED: Block = {
  ...WINDOW,
  cuts: [...WINDOW.cuts, { id: 'c2', from: [6, 0], to: [6, 4], role: 'auto' }],
  patches: [{ id: 'p1', at: [6, 8], fabric: 'f2' }],
};

describe('what is read aloud in the lists', () => {
  it('is a sentence for a joint: who meets whom, and where', () => {
    expect(jointsOf(BARRED).map((joint) => jointStory(BARRED, joint, 'in'))).toEqual([
      'Line 2 meets top edge 6 in across, at 6, 0 in',
      'Line 1 meets left edge 4 in down, at 0, 4 in',
      'Line 1 and line 2 meet at 6, 4 in',
      'Line 1 meets right edge 4 in down, at 12, 4 in',
    ]);
  });

  it('is a sentence for a patch: its fabric, its turn, what lies beside it', () => {
    const { patches } = piece(BARRED);
    const below = patches.find(({ fabric }) => fabric === 'f2')!;
    // The two above are sewn to each other before the one below, which runs under both: it is the third.
    expect(below.position).toBe(3);
    expect(patchStory(below, 'Fog')).toBe('A3, Fog, number 3 on foundation A, beside A1 and A2');
    const first = patches.find(({ position }) => position === 1)!;
    expect(patchStory(first, null)).toBe('A1, no fabric yet, the first on foundation A, beside A2 and A3');
  });
});
