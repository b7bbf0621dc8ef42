import { describe, expect, it } from 'vitest';
import { outlineTool } from '../../src/board/tools/outline.ts';
import { paintTool } from '../../src/board/tools/paint.ts';
import { panTool } from '../../src/board/tools/pan.ts';
import { piece } from '../../src/piecing/piece.ts';
import { WINDOW } from '../editing/window.ts';
import { Script } from './script.ts';

describe('drawing an outline', () => {
  it('closes on its first corner and begins at 0, 0 for a new block', () => {
    const script = new Script(outlineTool);
    script.outlineFor = { kind: 'new-block', name: 'Sail' };
    script.click(2, 1).click(8, 9).click(2, 9).click(2.05, 1.04);
    expect(script.isDone).toBe(true);
    expect(script.project.blocks).toHaveLength(2);
    expect(script.project.blocks[1]).toMatchObject({
      name: 'Sail',
      outline: [
        [0, 0],
        [6, 8],
        [0, 8],
      ],
    });
    expect(script.steps).toEqual(['Add block']);
  });

  it('takes the place of the outline on the board', () => {
    const script = new Script(outlineTool, { ...WINDOW, cuts: [] })
      .click(0, 0)
      .click(10, 0)
      .click(10, 10)
      .click(0, 10)
      .press('finish');
    expect(script.block.outline).toHaveLength(4);
    expect(script.block.outline[2]).toEqual([10, 10]);
  });

  it('never takes the place of one that has cuts in it, and says what to do instead', () => {
    const script = new Script(outlineTool).click(0, 0).click(10, 0).click(10, 10).press('finish');
    expect(script.block).toBe(WINDOW);
    expect(script.warnings).toEqual([expect.stringMatching(/has lines.*Move its corners.*new block/)]);
    expect(script.state.kind).toBe('idle');
  });

  it('refuses to cross itself, says where, and keeps the corners', () => {
    const script = new Script(outlineTool, { ...WINDOW, cuts: [] });
    script.click(1, 1).click(9, 9).click(9, 1).click(2, 8).press('finish');
    expect(script.warnings).toHaveLength(1);
    expect(script.warnings[0]).toMatch(/crosses itself/);
    expect(script.steps).toEqual([]);
    script.press('back').press('finish');
    expect(script.steps).toEqual(['Draw outline']);
  });

  it('refuses fewer than three corners, and forgets all when cancelled', () => {
    const script = new Script(outlineTool).click(1, 1).click(9, 9).press('finish');
    expect(script.warnings[0]).toMatch(/three corners/);
    script.press('cancel');
    expect(script.state.kind).toBe('idle');
    expect(script.block).toBe(WINDOW);
  });
});

describe('laying fabric', () => {
  it('lays it on the patch that is clicked, and takes it off with no fabric in hand', () => {
    const script = new Script(paintTool);
    script.fabricId = 'f1';
    script.click(6, 2);
    expect(
      piece(script.block)
        .patches.map(({ fabric }) => fabric)
        .toSorted(),
    ).toEqual(['f1', null]);
    script.fabricId = null;
    script.click(6, 2);
    expect(script.block.patches.map(({ fabric }) => fabric)).toEqual([undefined, undefined]);
    expect(script.steps).toEqual(['Lay fabric', 'Take fabric off']);
  });

  it('lays it on every patch a drag passes, as one step, though the pointer jumps', () => {
    const strips = {
      ...WINDOW,
      cuts: [2, 4, 6, 8, 10].map((x, index) => ({
        id: `c${index + 1}`,
        from: [x, 0] as const,
        to: [x, 12] as const,
        role: 'auto' as const,
      })),
    };
    const script = new Script(paintTool, strips);
    script.fabricId = 'f2';
    script.move(1, 6).down(1, 6).move(11, 6).up(11, 6);
    expect(piece(script.block).patches.every(({ fabric }) => fabric === 'f2')).toBe(true);
    expect(script.steps).toEqual(['Lay fabric']);
  });

  it('records nothing beside the block, or when cancelled', () => {
    const script = new Script(paintTool);
    script.fabricId = 'f1';
    script.click(20, 20);
    script.move(6, 2).down(6, 2).press('cancel').up(6, 2);
    expect(script.steps).toEqual([]);
    expect(script.shown).toBe(script.project);
  });
});

describe('moving the sheet', () => {
  it('moves by what the pointer moves on the screen', () => {
    const script = new Script(panTool).move(1, 1).down(1, 1).move(2, 1).move(2, 3).up(2, 3).move(9, 9);
    expect(script.panned).toEqual([
      [50, 0],
      [0, 100],
    ]);
  });
});

describe('drawing an outline with Shift', () => {
  it('keeps its sides to steps of 15°', () => {
    const script = new Script(outlineTool);
    script.outlineFor = { kind: 'new-block', name: 'Pennant' };
    script.click(1, 1).click(5.1, 1.2, { shift: true }).click(5.2, 4, { shift: true }).press('finish');
    const [a, b, c] = script.project.blocks[1]!.outline;
    expect(a![1]).toBe(b![1]);
    expect(b![0]).toBe(c![0]);
  });
});
