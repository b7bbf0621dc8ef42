import { describe, expect, it } from 'vitest';
import { cutTool } from '../../src/board/tools/cut.ts';
import { piece } from '../../src/piecing/piece.ts';
import { WINDOW } from '../editing/window.ts';
import { Script } from './script.ts';

const ends = (script: Script<unknown>) => script.block.cuts.slice(1).map(({ from, to }) => [from, to]);

describe('drawing a cut', () => {
  it('draws by press, drag and release, caught by edge and line', () => {
    const script = new Script(cutTool).drag([6.04, 0.06], [5.95, 4.1]);
    expect(ends(script)).toEqual([
      [
        [6, 0],
        [6, 4],
      ],
    ]);
    expect(script.steps).toEqual(['Draw line']);
    expect(script.selection).toEqual(['c2']);
    // Two level bands, the upper one halved: three patches, by the drawing itself.
    expect(piece(script.block).patches).toHaveLength(3);
  });

  it('draws the same by click and click', () => {
    const dragged = new Script(cutTool).drag([6, 0], [6, 4]);
    const clicked = new Script(cutTool).click(6, 0).move(6, 2).click(6, 4);
    expect(clicked.block).toEqual(dragged.block);
    expect(clicked.steps).toEqual(['Draw line']);
    expect(clicked.state.kind).toBe('idle');
  });

  it('goes on from an end in the open, and stops at one that meets something', () => {
    const script = new Script(cutTool).click(3, 4).click(5, 8).click(9, 9).click(12, 6);
    expect(ends(script)).toEqual([
      [
        [3, 4],
        [5, 8],
      ],
      [
        [5, 8],
        [9, 9],
      ],
      [
        [9, 9],
        [12, 6],
      ],
    ]);
    expect(script.state.kind).toBe('idle');
    expect(script.steps).toHaveLength(3);
  });

  it('shows the cut while it is dragged, records nothing until it is let go', () => {
    const script = new Script(cutTool).move(6, 0).down(6, 0).move(6, 2).move(6, 4);
    expect(script.shown.blocks[0]!.cuts).toHaveLength(2);
    expect(script.block).toBe(WINDOW);
    expect(script.steps).toEqual([]);
    expect(script.state.kind).toBe('dragging');
  });

  it('leaves everything as it was when cancelled, at every stage', () => {
    const stages = [
      () => new Script(cutTool).move(6, 0).down(6, 0),
      () => new Script(cutTool).move(6, 0).down(6, 0).move(6, 3),
      () => new Script(cutTool).click(6, 0),
      () => new Script(cutTool).click(6, 0).move(6, 3),
      () => new Script(cutTool).click(6, 0).move(6, 3).down(6, 3),
    ];
    for (const stage of stages) {
      const script = stage().press('cancel');
      expect(script.project.blocks[0]).toBe(WINDOW);
      expect(script.shown).toBe(script.project);
      expect(script.steps).toEqual([]);
      expect(script.state.kind).toBe('idle');
    }
  });

  it('draws nothing when start and end are one spot', () => {
    const script = new Script(cutTool).drag([6, 0], [6, 3]);
    const before = script.project;
    script.move(9, 9).down(9, 9).move(9.5, 9).move(9.02, 9).up(9.02, 9);
    expect(script.project).toBe(before);
    const twice = new Script(cutTool).click(9, 9).click(9, 9);
    expect(twice.steps).toEqual([]);
    expect(twice.state.kind).toBe('idle');
  });

  it('is caught by nothing when the pointer is free', () => {
    const script = new Script(cutTool).drag([6.03, 1.07], [7.41, 2.09], { free: true });
    const [from, to] = ends(script)[0]!;
    // Only the lattice of 2^-16 in: moved by less than one step.
    expect(Math.abs(from![0] - 6.03)).toBeLessThan(1 / 65536);
    expect(Math.abs(to![1] - 2.09)).toBeLessThan(1 / 65536);
  });
});
