import { describe, expect, it } from 'vitest';
import { measureTool } from '../../src/board/tools/measure.ts';
import { selectTool } from '../../src/board/tools/select.ts';
import type { Block } from '../../src/document/project.ts';
import { partFromText, partOfCuts, partToText } from '../../src/editing/part.ts';
import { cornerName, cutStory, jointsOf } from '../../src/editing/whereabouts.ts';
import { WINDOW } from '../editing/window.ts';
import { Script } from './script.ts';

const BARRED: Block = {
  ...WINDOW,
  cuts: [
    ...WINDOW.cuts,
    { id: 'c2', from: [6, 0], to: [6, 4], role: 'auto' },
    { id: 'c3', from: [3, 6], to: [5, 9], role: 'auto' },
    { id: 'c4', from: [5, 9], to: [9, 7], role: 'auto' },
  ],
};

describe('a box', () => {
  it('drawn to the right takes what lies in it whole', () => {
    expect(new Script(selectTool, BARRED).drag([2, 5], [9.5, 10]).selection).toEqual(['c3', 'c4']);
    expect(new Script(selectTool, BARRED).drag([2, 5], [8, 10]).selection).toEqual(['c3']);
  });

  it('drawn to the left takes all that it touches', () => {
    expect(new Script(selectTool, BARRED).drag([8, 10], [2, 3]).selection).toEqual(['c1', 'c2', 'c3', 'c4']);
    // It crosses c4 without holding an end of it.
    expect(new Script(selectTool, BARRED).drag([7.5, 9], [6.5, 5]).selection).toEqual(['c4']);
  });

  it('adds with Shift, and changes nothing in the drawing', () => {
    const script = new Script(selectTool, BARRED).click(2, 4).drag([2, 5], [8, 10], { shift: true });
    expect(script.selection).toEqual(['c1', 'c3']);
    expect(script.block).toBe(BARRED);
    expect(script.steps).toEqual([]);
  });
});

describe('an edge of the outline', () => {
  it('is chosen by a press on it', () => {
    const script = new Script(selectTool, BARRED).click(9.1, 12);
    expect(script.chosen).toEqual({ kind: 'edge', edge: 2 });
  });
});

describe('moving with neighbours', () => {
  it('moves a joint as one', () => {
    const script = new Script(selectTool, BARRED).drag([5, 9], [6, 10]);
    expect(script.block.cuts[2]!.to).toEqual([6, 10]);
    expect(script.block.cuts[3]!.from).toEqual([6, 10]);
  });

  it('leaves locked cuts where they are', () => {
    const locked: Block = {
      ...BARRED,
      cuts: BARRED.cuts.map((cut) => (cut.id === 'c1' ? { ...cut, locked: true } : cut)),
    };
    const script = new Script(selectTool, locked).drag([2, 4], [2, 6]);
    expect(script.block).toBe(locked);
    expect(script.selection).toEqual(['c1']);
    expect(new Script(selectTool, locked).drag([12, 4], [12, 7]).block).toBe(locked);
  });
});

describe('measuring', () => {
  it('keeps what was measured, by dragging and by two clicks', () => {
    const measured = {
      kind: 'measure',
      segment: [
        [0, 0],
        [3, 4],
      ],
    };
    expect(new Script(measureTool).drag([0, 0], [3, 4]).marks[0]).toEqual(measured);
    expect(new Script(measureTool).click(0, 0).move(2, 2).click(3, 4).marks[0]).toEqual(measured);
    expect(new Script(measureTool).drag([0, 0], [3, 4]).press('cancel').marks).toEqual([]);
  });
});

describe('places in words', () => {
  it('tell a cut by what its ends lie on', () => {
    expect(cutStory(BARRED, BARRED.cuts[1]!, 'in')).toBe(
      'from top edge 6 in across to crossing with line 1, 4 in long',
    );
    expect(cutStory(BARRED, BARRED.cuts[0]!, 'mm')).toBe(
      'from left edge 101.6 mm down to right edge 101.6 mm down, 304.8 mm long',
    );
    expect(cutStory(BARRED, BARRED.cuts[2]!, 'in')).toBe(
      'from open ground at 3, 6 in to end of line 4, ≈ 3 19/32 in long',
    );
    expect([0, 1, 2, 3].map((corner) => cornerName(BARRED, corner))).toEqual([
      'top left corner',
      'top right corner',
      'bottom right corner',
      'bottom left corner',
    ]);
  });

  it('name every joint once, row by row', () => {
    expect(jointsOf(BARRED).map(({ at, cuts }) => [at, cuts])).toEqual([
      [[6, 0], ['c2']],
      [[0, 4], ['c1']],
      [
        [6, 4],
        ['c1', 'c2'],
      ],
      [[12, 4], ['c1']],
      [
        [5, 9],
        ['c3', 'c4'],
      ],
    ]);
  });
});

describe('cuts as text', () => {
  it('come back as they were', () => {
    const part = partOfCuts(
      BARRED,
      [],
      BARRED.cuts.map(({ id }) => id),
    );
    expect(partFromText(partToText(part))?.cuts).toEqual(
      BARRED.cuts.map(({ from, to, role }) => ({ from, to, role })),
    );
  });

  it.each([
    '',
    'a shopping list',
    '<svg><script>alert(1)</script></svg>',
    '{"format":"underpaper-cuts"}',
    '{"format":"underpaper-cuts","cuts":[]}',
    '{"format":"underpaper-cuts","cuts":[{"from":[0,0],"to":[1,1e9]}]}',
    '{"format":"underpaper-cuts","cuts":[{"from":[0,"1"],"to":[1,1]}]}',
    '{"format":"underpaper-cuts","cuts":[null]',
  ])('are none in %j', (text) => {
    expect(partFromText(text)).toBeNull();
  });
});
