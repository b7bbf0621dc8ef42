import { describe, expect, it } from 'vitest';
import type { Block } from '../../src/document/project.ts';
import { joinCuts, splitAtCrossings } from '../../src/editing/split.ts';
import { piece } from '../../src/piecing/piece.ts';
import { projectWith, WINDOW } from './window.ts';

const CROSSED: Block = {
  ...WINDOW,
  cuts: [
    { id: 'c1', from: [0, 4], to: [12, 4], role: 'join' },
    { id: 'c2', from: [3, 0], to: [3, 12], role: 'auto' },
    { id: 'c3', from: [9, 0], to: [9, 4], role: 'auto' },
  ],
  patches: [
    { id: 'p1', at: [1, 1], fabric: 'f1' },
    { id: 'p2', at: [6, 9], fabric: 'f2' },
  ],
};

describe('splitting', () => {
  it('parts a cut wherever another meets it; the drawing and its paint stay', () => {
    const before = projectWith(CROSSED);
    const block = splitAtCrossings(before, 'b1', ['c1']).blocks[0]!;
    expect(block.cuts.filter(({ role }) => role === 'join').map(({ from, to }) => [from[0], to[0]])).toEqual([
      [0, 3],
      [3, 9],
      [9, 12],
    ]);
    expect(piece(block).patches).toHaveLength(piece(CROSSED).patches.length);
    expect(block.patches).toEqual(expect.arrayContaining([...CROSSED.patches]));
  });

  it('is undone by joining', () => {
    const split = splitAtCrossings(projectWith(CROSSED), 'b1', ['c1']);
    const ids = split.blocks[0]!.cuts.filter(({ role }) => role === 'join').map(({ id }) => id);
    expect(joinCuts(split, 'b1', ids.toReversed()).blocks[0]!.cuts).toEqual(CROSSED.cuts);
  });

  it('changes nothing where nothing meets, and leaves locked cuts whole', () => {
    const locked = projectWith({
      ...CROSSED,
      cuts: CROSSED.cuts.map((cut) => ({ ...cut, locked: true as const })),
    });
    expect(splitAtCrossings(locked, 'b1', ['c1', 'c2'])).toBe(locked);
    const alone = projectWith(WINDOW);
    expect(splitAtCrossings(alone, 'b1', ['c1'])).toBe(alone);
  });

  it('does not join what bends or lies apart', () => {
    const bent: Block = {
      ...WINDOW,
      cuts: [
        { id: 'c1', from: [0, 4], to: [6, 4], role: 'auto' },
        { id: 'c2', from: [6, 4], to: [12, 4.1], role: 'auto' },
        { id: 'c3', from: [7, 8], to: [12, 8], role: 'auto' },
        { id: 'c4', from: [0, 8], to: [6, 8], role: 'auto' },
      ],
    };
    const project = projectWith(bent);
    expect(joinCuts(project, 'b1', ['c1', 'c2', 'c3', 'c4'])).toBe(project);
  });
});
