import { describe, expect, it } from 'vitest';
import { frameOf, handleAt, sizingOf, turningOf } from '../../src/editing/frame.ts';
import { bareField } from '../../src/editing/snapping.ts';

const BOX = { minX: 2, minY: 2, maxX: 6, maxY: 4 };

describe('sizing by a handle', () => {
  it('a corner keeps the proportions and its opposite corner, caught by the grid', () => {
    const { across, down, about, at } = sizingOf(BOX, [1, 1], [2.03, 0.9], bareField(1 / 4), 1 / 8, false);
    expect(about).toEqual([2, 2]);
    expect(across).toBe(down);
    expect(at).toEqual([8, 5]);
  });

  it('a corner pulled loosely goes its own way each way', () => {
    const { across, down } = sizingOf(BOX, [1, 1], [4, 0], null, 0, true);
    expect([across, down]).toEqual([2, 1]);
  });

  it('a side changes one way alone, and nothing is turned over', () => {
    expect(sizingOf(BOX, [-1, 0], [-4, 3], null, 0, false)).toMatchObject({
      across: 2,
      down: 1,
      about: [6, 3],
    });
    expect(sizingOf(BOX, [0, 1], [0, -9], null, 0, false).down).toBeGreaterThan(0);
  });
});

describe('turning', () => {
  it('goes against the clock as seen, caught by 15°, in whole degrees between, free when asked', () => {
    // A quarter turn against the clock takes what is above to the left.
    expect(turningOf([0, 0], [0, -5], [-5, 0], 'caught')).toBe(90);
    const at = (degrees: number): readonly [number, number] => [
      -Math.sin((degrees * Math.PI) / 180),
      -Math.cos((degrees * Math.PI) / 180),
    ];
    expect(turningOf([0, 0], [0, -5], at(43.2), 'caught')).toBe(45);
    expect(turningOf([0, 0], [0, -5], at(38.3), 'caught')).toBe(38);
    expect(turningOf([0, 0], [0, -5], at(38.3), 'steps')).toBe(45);
    expect(turningOf([0, 0], [0, -5], at(38.3), 'free')).toBeCloseTo(38.3, 9);
    expect(turningOf([0, 0], [0, -5], at(-100), 'caught')).toBe(-100);
  });
});

describe('the frame', () => {
  const cut = (id: string, from: readonly [number, number], to: readonly [number, number]) => ({
    id,
    from,
    to,
    role: 'auto' as const,
  });

  it('stands round two cuts or more that do not lie on one line', () => {
    expect(frameOf([cut('a', [0, 0], [4, 4])])).toBeNull();
    expect(frameOf([cut('a', [0, 1], [4, 1]), cut('b', [5, 1], [6, 1])])).toBeNull();
    expect(frameOf([cut('a', [0, 1], [4, 1]), cut('b', [5, 1], [6, 3])])).toEqual({
      minX: 0,
      minY: 1,
      maxX: 6,
      maxY: 3,
    });
  });

  it('its handles stand off what it holds, so that ends of cuts on its corners can still be taken', () => {
    expect(handleAt(BOX, [2, 2], 0.2, 1 / 50)).toBeNull();
    expect(handleAt(BOX, [2 - 16 / 50, 2 - 16 / 50], 0.2, 1 / 50)).toEqual({ kind: 'size', side: [-1, -1] });
  });
});
