import { describe, expect, it } from 'vitest';
import { selectTool } from '../../src/board/tools/select.ts';
import type { Block } from '../../src/document/project.ts';
import { piece } from '../../src/piecing/piece.ts';
import { WINDOW } from '../editing/window.ts';
import { Script } from './script.ts';

/** The window with an upright bar hanging from the top edge to the level cut. */
const BARRED: Block = {
  ...WINDOW,
  cuts: [...WINDOW.cuts, { id: 'c2', from: [6, 0], to: [6, 4], role: 'auto' }],
  patches: [
    { id: 'p1', at: [3, 2], fabric: 'f1' },
    { id: 'p2', at: [6, 8], fabric: 'f2' },
  ],
};

const cut = (script: Script<unknown>, id: string) => script.block.cuts.find((one) => one.id === id)!;

describe('choosing', () => {
  it('chooses a cut, adds with Shift, takes out with Shift', () => {
    const script = new Script(selectTool, BARRED).click(2, 4);
    expect(script.selection).toEqual(['c1']);
    script.click(6, 2, { shift: true });
    expect(script.selection).toEqual(['c1', 'c2']);
    script.click(2, 4, { shift: true });
    expect(script.selection).toEqual(['c2']);
    expect(script.steps).toEqual([]);
  });

  it('chooses a corner, a patch, and nothing', () => {
    const script = new Script(selectTool, BARRED).click(12, 12);
    expect(script.chosen).toEqual({ kind: 'corner', corner: 2 });
    script.click(9, 2);
    expect(script.chosen).toMatchObject({ kind: 'patch' });
    script.click(20, 20);
    expect(script.chosen).toBeNull();
    expect(script.selection).toEqual([]);
  });

  it('takes one of several when it is clicked without Shift', () => {
    const script = new Script(selectTool, BARRED).click(2, 4).click(6, 2, { shift: true }).click(6, 2);
    expect(script.selection).toEqual(['c2']);
  });
});

describe('moving', () => {
  it('moves a whole cut, its ends on the edges they lay on, and the bar that hangs on it follows', () => {
    const script = new Script(selectTool, BARRED).drag([3, 4], [3.1, 5.53]);
    expect(cut(script, 'c1')).toMatchObject({ from: [0, 5.5], to: [12, 5.5] });
    expect(cut(script, 'c2')).toMatchObject({ from: [6, 0], to: [6, 5.5] });
    expect(script.steps).toEqual(['Move line']);
    expect(piece(script.block).findings.filter(({ code }) => code.includes('loose'))).toEqual([]);
  });

  it('moves an end; the rest stays', () => {
    const script = new Script(selectTool, BARRED).drag([12, 4], [12.05, 7.02]);
    expect(cut(script, 'c1')).toMatchObject({ from: [0, 4], to: [12, 7] });
    // The bar is drawn out along itself to the slanted cut: half way across, half way down.
    expect(cut(script, 'c2')).toMatchObject({ from: [6, 0], to: [6, 5.5] });
    expect(script.steps).toEqual(['Move end of line']);
  });

  it('moves a corner; ends on its edges stay on them', () => {
    const script = new Script(selectTool, BARRED).drag([12, 0], [14, 0]);
    expect(script.block.outline[1]).toEqual([14, 0]);
    // The right edge now runs from [14, 0] to [12, 12]: at 4 in down it stands a third of 2 in farther left.
    expect(cut(script, 'c1').to[0]).toBeCloseTo(14 - (2 * 4) / 12, 4);
    expect(cut(script, 'c1').to[1]).toBeCloseTo(4, 4);
    expect(piece(script.block).patches).toHaveLength(3);
  });

  it('moves an edge of the outline as a whole, caught by the grid across it alone', () => {
    const script = new Script(selectTool, BARRED).drag([12, 8], [13.45, 8.6]);
    expect(script.block.outline).toEqual([
      [0, 0],
      [13.5, 0],
      [13.5, 12],
      [0, 12],
    ]);
    expect(cut(script, 'c1')).toMatchObject({ from: [0, 4], to: [13.5, 4] });
    expect(cut(script, 'c2')).toMatchObject({ from: [6, 0], to: [6, 4] });
    expect(script.steps).toEqual(['Move edge']);
    expect(script.chosen).toEqual({ kind: 'edge', edge: 1 });
  });

  it('moves an edge no farther than there is a block left', () => {
    const script = new Script(selectTool, BARRED).drag([12, 8], [-1, 8]);
    expect(script.block).toBe(BARRED);
    expect(script.steps).toEqual([]);
  });

  it('moves a joint as one; freely, an end leaves it', () => {
    const gable: Block = {
      ...WINDOW,
      cuts: [
        { id: 'c1', from: [0, 12], to: [6, 4], role: 'auto' },
        { id: 'c2', from: [6, 4], to: [12, 12], role: 'auto' },
        { id: 'c3', from: [6, 0], to: [6, 4], role: 'auto' },
      ],
    };
    const together = new Script(selectTool, gable).drag([6, 4], [6.02, 3.02]);
    expect(together.block.cuts.flatMap(({ from, to }) => [from, to])).toEqual([
      [0, 12],
      [6, 3],
      [6, 3],
      [12, 12],
      [6, 0],
      [6, 3],
    ]);
    const alone = new Script(selectTool, gable).click(3, 8).drag([6, 4], [5, 4], { free: true });
    expect(cut(alone, 'c1').to).toEqual([5, 4]);
    expect(cut(alone, 'c2').from).toEqual([6, 4]);
  });

  it('moves several cuts together as one step', () => {
    const script = new Script(selectTool, BARRED)
      .click(2, 4)
      .click(6, 2, { shift: true })
      .drag([6, 2], [7, 2]);
    expect(cut(script, 'c2')).toMatchObject({ from: [7, 0], to: [7, 4] });
    expect(script.steps).toEqual(['Move lines']);
  });

  it('computes from where it began, so a long way round ends like a short one', () => {
    const straight = new Script(selectTool, BARRED).drag([3, 4], [3, 6]);
    const round = new Script(selectTool, BARRED).move(3, 4).down(3, 4);
    for (let step = 0; step < 200; step++) round.move(3 + 5 * Math.sin(step), 4 + 5 * Math.cos(step / 3));
    round.move(3, 6).up(3, 6);
    expect(round.block).toEqual(straight.block);
    expect(round.steps).toHaveLength(1);
  });

  it('leaves the block itself in place when cancelled, or when it comes back to where it was', () => {
    const cancelled = new Script(selectTool, BARRED).move(3, 4).down(3, 4).move(3, 7).press('cancel');
    expect(cancelled.block).toBe(BARRED);
    expect(cancelled.shown).toBe(cancelled.project);
    const back = new Script(selectTool, BARRED).move(3, 4).down(3, 4).move(3, 7).move(3, 4).up(3, 4);
    expect(back.block).toBe(BARRED);
    expect(back.steps).toEqual([]);
  });

  it('keeps the paint of every patch', () => {
    const script = new Script(selectTool, BARRED).drag([3, 4], [3, 7]);
    const plan = piece(script.block);
    const fabrics = plan.patches.map(({ fabric }) => fabric).toSorted();
    expect(fabrics).toEqual(
      piece(BARRED)
        .patches.map(({ fabric }) => fabric)
        .toSorted(),
    );
  });

  it('does not take a click that trembles for a drag', () => {
    const script = new Script(selectTool, BARRED).move(3, 4).down(3, 4).move(3.03, 4.05).up(3.03, 4.05);
    expect(script.block).toBe(BARRED);
    expect(script.selection).toEqual(['c1']);
  });
});

describe('the frame round several cuts', () => {
  const CROSS: Block = {
    ...WINDOW,
    cuts: [
      { id: 'c1', from: [4, 4], to: [8, 8], role: 'auto' },
      { id: 'c2', from: [4, 8], to: [8, 4], role: 'auto' },
    ],
  };
  const off = 16 / 50;
  const chosen = (): Script<unknown> => {
    const script = new Script(selectTool, CROSS);
    script.selection = ['c1', 'c2'];
    return script;
  };

  it('is sized by a corner, the opposite one staying', () => {
    const script = chosen().drag([8 + off, 8 + off], [10 + off, 10 + off]);
    expect(script.block.cuts.map(({ from, to }) => [from, to])).toEqual([
      [
        [4, 4],
        [10, 10],
      ],
      [
        [4, 10],
        [10, 4],
      ],
    ]);
    expect(script.steps).toEqual(['Resize lines']);
  });

  it('is turned about its middle, and nothing happens when it comes back', () => {
    const top: [number, number] = [6, 4 - off - 26 / 50];
    const script = chosen().drag(top, [6 - (6 - top[1]), 6]);
    expect(script.steps).toEqual(['Turn lines']);
    expect(script.block.cuts[0]).toMatchObject({ from: [4, 8], to: [8, 4] });
    const back = chosen().drag(top, top);
    expect(back.steps).toEqual([]);
  });

  it('is taken back with Esc', () => {
    const script = chosen()
      .move(8 + off, 8 + off)
      .down(8 + off, 8 + off)
      .move(10, 10);
    expect(script.shown).not.toBe(script.project);
    script.press('cancel');
    expect(script.shown).toBe(script.project);
  });
});
