import { describe, expect, it } from 'vitest';
import { type ChainState, chainTool } from '../../src/board/tools/chain.ts';
import { piece } from '../../src/piecing/piece.ts';
import { WINDOW } from '../editing/window.ts';
import { Script } from './script.ts';

const script = () => new Script<ChainState>(chainTool);
const ends = (one: Script<ChainState>) => one.block.cuts.slice(1).map(({ from, to }) => [from, to]);

describe('the chain tool', () => {
  it('draws an island click by click, closed on its first place, in one step', () => {
    const hand = script().click(4, 6).click(8, 6).click(6, 9);
    expect(hand.steps).toEqual([]);
    // Shown as it will be, before it is done.
    expect(hand.shown.blocks[0]!.cuts.length).toBeGreaterThan(2);
    hand.click(4, 6);
    expect(hand.steps).toEqual(['Draw chain']);
    expect(ends(hand)).toEqual([
      [
        [4, 6],
        [8, 6],
      ],
      [
        [8, 6],
        [6, 9],
      ],
      [
        [6, 9],
        [4, 6],
      ],
    ]);
    expect(hand.selection).toEqual(['c2', 'c3', 'c4']);
    expect(piece(hand.block).patches).toHaveLength(3);
  });

  it('ends with a second click on the last place, with Enter, or on a place of its own', () => {
    const open = script().click(0, 8).click(4, 6).click(8, 8).click(8, 8);
    expect(ends(open)).toHaveLength(2);
    expect(ends(script().click(0, 8).click(4, 6).press('finish'))).toHaveLength(1);
    const noose = script().click(0, 11).click(4, 6).click(8, 6).click(6, 9).click(4, 6);
    expect(ends(noose)).toHaveLength(4);
    expect(noose.steps).toEqual(['Draw chain']);
  });

  it('takes places back one by one, and all with Esc, without a trace', () => {
    const hand = script().click(0, 8).click(4, 6).click(8, 8).press('back').click(8, 6).press('finish');
    expect(ends(hand).at(-1)).toEqual([
      [4, 6],
      [8, 6],
    ]);
    const gone = script().click(0, 8).click(4, 6).press('cancel');
    expect([gone.steps, gone.shown, gone.state.kind]).toEqual([[], gone.project, 'idle']);
    const back = script().click(0, 8).press('back');
    expect([back.state.kind, back.shown]).toEqual(['idle', back.project]);
    expect(script().click(0, 8).press('finish').steps).toEqual([]);
  });

  it('takes lengths, angles and places in numbers', () => {
    const hand = script()
      .type('T2\t6')
      .press('finish')
      .type('3\t0')
      .press('finish')
      .type('2\t270')
      .press('finish');
    expect(hand.press('finish').steps).toEqual(['Draw chain']);
    expect(ends(hand)).toEqual([
      [
        [2, 6],
        [5, 6],
      ],
      [
        [5, 6],
        [5, 8],
      ],
    ]);
  });

  it('lays an arc through a third place as so many cuts', () => {
    const hand = script();
    hand.chain = { curve: 'arcs', legs: 6 };
    hand.click(2, 8).click(10, 8).click(6, 6).press('finish');
    expect(hand.steps).toEqual(['Draw chain']);
    expect(ends(hand)).toHaveLength(6);
    // The circle through the three places: about [6, 11], radius 5.
    for (const [from] of ends(hand)) expect(Math.hypot(from![0] - 6, from![1] - 11)).toBeCloseTo(5, 3);
    const straight = script();
    straight.chain = { curve: 'arcs', legs: 6 };
    expect(ends(straight.click(2, 8).click(10, 8).press('finish'))).toHaveLength(1);
  });

  it('closes in an arc on its first place', () => {
    const hand = script();
    hand.chain = { curve: 'arcs', legs: 4 };
    hand.click(4, 8).click(8, 8).click(6, 6).click(4, 8).click(6, 10);
    expect(hand.steps).toEqual(['Draw chain']);
    expect(ends(hand)).toHaveLength(8);
    expect(piece(hand.block).patches).toHaveLength(3);
  });

  it('draws its images with a symmetry, each line once', () => {
    const hand = script();
    hand.symmetry = 'upright';
    hand.click(6, 5).click(9, 7).click(6, 10).press('finish');
    expect(ends(hand)).toHaveLength(4);
    expect(piece(hand.block).patches).toHaveLength(3);
  });

  it('asks for a block', () => {
    const hand = new Script<ChainState>(chainTool, WINDOW);
    hand.outlineFor = { kind: 'new-block', name: 'Buoy' };
    expect(hand.click(1, 1).state.kind).toBe('idle');
  });
});
