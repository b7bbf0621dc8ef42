import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { contrast, inkOn } from '../../src/board/draw/contrast.ts';
import { INKS, threadOf } from '../../src/board/draw/inks.ts';
import { sizeToFit } from '../../src/board/draw/label-spot.ts';

describe('contrast', () => {
  // Values of WCAG 2.2's formula as published in its "Understanding" pages and common contrast tables.
  it.each([
    ['#000000', '#ffffff', 21],
    ['#767676', '#ffffff', 4.542],
    ['#777777', '#ffffff', 4.478],
    ['#949494', '#ffffff', 3.033],
    ['#0000ff', '#ffffff', 8.592],
    ['#0000ff', '#ff0000', 2.149],
  ])('of %s and %s is %d', (a, b, ratio) => {
    expect(contrast(a, b)).toBeCloseTo(ratio, 2);
    expect(contrast(b, a)).toBe(contrast(a, b));
  });

  it('leaves an id readable on every colour there is', () => {
    const channel = fc.integer({ min: 0, max: 255 });
    fc.assert(
      fc.property(channel, channel, channel, (r, g, b) => {
        const color = `#${[r, g, b].map((value) => value.toString(16).padStart(2, '0')).join('')}`;
        // Ink is not black and paper not white, so the worst colour between them falls just short of 4.5; ids are
        // semibold and large print needs 3 (WCAG 2.2, 1.4.3).
        expect(contrast(inkOn(color), color)).toBeGreaterThan(3.8);
      }),
      { numRuns: 2000 },
    );
  });
});

describe('labels', () => {
  it('fit the room they have, or are left out', () => {
    expect(sizeToFit(100, 1.2)).toBe(16);
    expect(sizeToFit(3, 1.2)).toBeNull();
    const size = sizeToFit(8, 1.2)!;
    expect(Math.hypot((size * 1.2) / 2, (size * 0.66) / 2)).toBeLessThanOrEqual(8);
  });
});

describe('threads of sections', () => {
  it('differ in rhythm from one section to the next, and repeat only after thirty', () => {
    const names = Array.from({ length: 30 }, (_, index) => JSON.stringify(threadOf(index)));
    expect(new Set(names).size).toBe(30);
    for (let index = 1; index < 30; index++)
      expect(threadOf(index).dash).not.toEqual(threadOf(index - 1).dash);
  });
});

describe('on prints', () => {
  /** A see-through colour, as the drawing writes it, over another. */
  const over = (paint: string, under: string): string => {
    const [, r, g, b, percent] = /^rgb\((\d+) (\d+) (\d+) \/ (\d+)%\)$/.exec(paint)!;
    const channels = [r, g, b].map((channel, i) => {
      const below = Number.parseInt(under.slice(1 + 2 * i, 3 + 2 * i), 16);
      return Math.round(below + (Number(percent) / 100) * (Number(channel) - below));
    });
    return `#${channels.map((value) => value.toString(16).padStart(2, '0')).join('')}`;
  };
  // Whatever lies under a veil, black is the worst for dark marks on it.
  const CLOTH = ['#000000', '#0000ff', '#ff0000', '#00ff00', '#ffffff'];

  it('letters are read on their slips: 4.5 at least (WCAG 2.2, 1.4.3)', () => {
    for (const cloth of CLOTH)
      expect(contrast(INKS.ink, over(INKS.printHalo, cloth)), cloth).toBeGreaterThan(4.5);
  });

  it('lines, joins and the stitches of sections are seen on their bands: 3 at least (1.4.11)', () => {
    for (const cloth of CLOTH) {
      expect(contrast(INKS.ink, over(INKS.printLineHalo, cloth)), cloth).toBeGreaterThan(3);
      for (let index = 0; index < 5; index++)
        expect(contrast(threadOf(index).color, over(INKS.printHalo, cloth)), cloth).toBeGreaterThan(3);
    }
    expect(contrast(INKS.madder, INKS.sheet)).toBeGreaterThan(3);
  });
});
