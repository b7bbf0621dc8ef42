import { describe, expect, it } from 'vitest';
import { type ShortenState, shortenTool } from '../../src/board/tools/shorten.ts';
import type { Block, Cut } from '../../src/document/project.ts';
import type { Point } from '../../src/geometry/point.ts';
import { WINDOW } from '../editing/window.ts';
import { Script } from './script.ts';

const cut = (id: string, from: Point, to: Point): Cut => ({ id, from, to, role: 'auto' });
const CROSS: Block = { ...WINDOW, cuts: [cut('c1', [0, 6], [12, 6]), cut('c2', [6, 0], [6, 12])] };
const script = (block = CROSS) => new Script<ShortenState>(shortenTool, block);

describe('the tool that shortens and extends', () => {
  it('shows what would go, and takes it at a press as one step', () => {
    const hand = script().move(2, 6.1);
    expect(hand.marks).toEqual([
      {
        kind: 'going',
        segment: [
          [0, 6],
          [6, 6],
        ],
      },
    ]);
    expect(hand.steps).toEqual([]);
    hand.click(2, 6.1);
    expect(hand.steps).toEqual(['Shorten line']);
    expect(hand.block.cuts[0]).toMatchObject({ from: [6, 6], to: [12, 6] });
  });

  it('draws on near an end, and does nothing beside all cuts or when the pointer has gone elsewhere', () => {
    const short = { ...WINDOW, cuts: [cut('c1', [3, 6], [9, 6])] };
    expect(script(short).click(9, 6).block.cuts[0]).toMatchObject({ from: [3, 6], to: [12, 6] });
    expect(script(short).click(9, 6).steps).toEqual(['Extend line']);
    expect(script(short).click(6, 9).steps).toEqual([]);
    expect(script(short).down(6, 6).move(6, 9).up(6, 9).steps).toEqual([]);
    expect(script(short).move(6, 6).press('cancel').marks).toEqual([]);
  });

  it('does it at every image under a symmetry, all shown before', () => {
    const hand = script();
    hand.symmetry = 'quarter';
    expect(hand.move(2, 6).marks).toHaveLength(4);
    hand.click(2, 6);
    expect(hand.steps).toEqual(['Shorten lines']);
    expect(hand.block.cuts).toEqual([]);

    const arms = script({ ...WINDOW, cuts: [cut('c1', [3, 2], [5, 2]), cut('c2', [9, 2], [7, 2])] });
    arms.symmetry = 'upright';
    expect(arms.move(3, 2).marks).toHaveLength(2);
    arms.click(3, 2);
    expect(arms.block.cuts.map(({ from }) => from)).toEqual([
      [0, 2],
      [12, 2],
    ]);
  });

  it('leaves locked cuts', () => {
    const locked = { ...CROSS, cuts: CROSS.cuts.map((one) => ({ ...one, locked: true as const })) };
    expect(script(locked).click(2, 6).steps).toEqual([]);
  });
});
