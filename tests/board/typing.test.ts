import { describe, expect, it } from 'vitest';
import { cutTool } from '../../src/board/tools/cut.ts';
import { piece } from '../../src/piecing/piece.ts';
import { WINDOW } from '../editing/window.ts';
import { Script } from './script.ts';

const ends = (script: Script<unknown>) => script.block.cuts.slice(1).map(({ from, to }) => [from, to]);

describe('a length and an angle typed while a cut runs', () => {
  it('end the cut there with Enter', () => {
    const script = new Script(cutTool).click(1, 8).move(4, 7).type('3 5/8\t0').press('finish');
    expect(ends(script)).toEqual([
      [
        [1, 8],
        [4.625, 8],
      ],
    ]);
    expect(script.steps).toEqual(['Draw line']);
  });

  it('keep the pointer’s direction where only a length is typed, and its length where only an angle is', () => {
    const along = new Script(cutTool).click(1, 8).move(4, 8).type('2½').press('finish');
    expect(ends(along)[0]![1]).toEqual([3.5, 8]);
    const turned = new Script(cutTool).click(1, 8).move(4, 8).type('<90').press('finish');
    expect(ends(turned)[0]![1]).toEqual([1, 5]);
  });

  it('read millimetres and turn against the clock', () => {
    const script = new Script(cutTool).click(6, 8).move(7, 7).type('50.8mm\t-90').press('finish');
    expect(ends(script)[0]![1]).toEqual([6, 10]);
  });

  it('go on as a chain in the open, and stop on a line', () => {
    const script = new Script(cutTool).click(3, 4).move(4, 6).type('4\t270').press('finish');
    expect(script.state.kind).toBe('placing');
    script.type('3\t0').press('finish').type('4\t90').press('finish');
    expect(ends(script)).toEqual([
      [
        [3, 4],
        [3, 8],
      ],
      [
        [3, 8],
        [6, 8],
      ],
      [
        [6, 8],
        [6, 4],
      ],
    ]);
    expect(script.state.kind).toBe('idle');
  });

  it('are taken back sign by sign, and say what cannot be read', () => {
    const script = new Script(cutTool).click(1, 8).move(4, 8).type('3/').press('finish');
    expect(script.warnings[0]).toMatch(/not a length/);
    expect(script.steps).toEqual([]);
    script.press('back').press('finish');
    expect(ends(script)[0]![1]).toEqual([4, 8]);
    const none = new Script(cutTool).click(1, 8).move(4, 8).type('3').press('back').press('back');
    expect(none.state.kind).toBe('idle');
    expect(none.block).toBe(WINDOW);
  });

  it('work while the button is held', () => {
    const script = new Script(cutTool).move(0, 8).down(0, 8).move(3, 8).type('5').up(3.1, 8.1);
    expect(ends(script)[0]![0]).toEqual([0, 8]);
    expect(Math.hypot(ends(script)[0]![1]![0], ends(script)[0]![1]![1] - 8)).toBeCloseTo(5, 4);
  });
});

describe('a cut in one patch only', () => {
  it('stops where it leaves the patch it starts in', () => {
    const script = new Script(cutTool);
    script.onePatch = true;
    script.drag([6, 0], [6, 12]);
    expect(ends(script)).toEqual([
      [
        [6, 0],
        [6, 4],
      ],
    ]);
    expect(piece(script.block).patches).toHaveLength(3);
    const through = new Script(cutTool).drag([6, 0], [6, 12]);
    expect(piece(through.block).patches).toHaveLength(4);
  });

  it('may begin on the far side of a line', () => {
    const script = new Script(cutTool);
    script.onePatch = true;
    script.drag([6, 4], [6, 12]);
    expect(ends(script)).toEqual([
      [
        [6, 4],
        [6, 12],
      ],
    ]);
  });
});

describe('symmetry while drawing', () => {
  const EMPTY = { ...WINDOW, cuts: [] };

  it.each([
    ['upright', 2],
    ['level', 2],
    ['both', 4],
    ['diagonals', 4],
    ['half', 2],
    ['quarter', 4],
    ['six', 6],
    ['eight', 8],
  ] as const)('%s draws %i cuts as one step', (symmetry, count) => {
    const script = new Script(cutTool, EMPTY);
    script.symmetry = symmetry;
    script.drag([6, 1], [8, 2.5]);
    expect(script.block.cuts).toHaveLength(count);
    expect(script.steps).toEqual(['Draw lines']);
    expect(script.selection).toEqual(script.block.cuts.map(({ id }) => id));
    // Each image lies as far from the middle as the cut itself.
    for (const { from, to } of script.block.cuts)
      expect([Math.hypot(from[0] - 6, from[1] - 6), Math.hypot(to[0] - 6, to[1] - 6)].toSorted()).toEqual(
        [expect.closeTo(5, 4), expect.closeTo(Math.hypot(2, 3.5), 4)].toSorted((a, b) => a.sample - b.sample),
      );
  });

  it('ends where a cut meets its own images', () => {
    const script = new Script(cutTool, EMPTY);
    script.symmetry = 'quarter';
    script.click(0, 0).click(6, 6);
    expect(script.block.cuts).toHaveLength(4);
    expect(script.state.kind).toBe('idle');
  });

  it('draws a line that is its own image once', () => {
    const script = new Script(cutTool, EMPTY);
    script.symmetry = 'quarter';
    script.drag([6, 0], [6, 12]);
    expect(script.block.cuts).toHaveLength(2);
    expect(piece(script.block).patches).toHaveLength(4);
  });
});

describe('a click on a place that was typed', () => {
  it('begins there, and is not taken for the end of the chain', () => {
    const script = new Script(cutTool);
    script.type('T2\t8').press('finish').type('3\t0').press('finish');
    expect(script.block.cuts).toHaveLength(2);
    expect(script.state.kind).toBe('placing');
    script.click(5, 8);
    expect(script.state.kind).toBe('placing');
    script.click(5, 11);
    expect(script.block.cuts.at(-1)).toMatchObject({ from: [5, 8], to: [5, 11] });
    // By pointer alone a second click ends it, as before.
    const clicked = new Script(cutTool).click(2, 8).click(5, 8).click(5, 8);
    expect(clicked.state.kind).toBe('idle');
  });
});
