import { describe, expect, it } from 'vitest';
import type { CuttingRules } from '../../src/cutting/cutting-rules.ts';
import { toBuy } from '../../src/cutting/lengths.ts';
import { choicesFor } from '../../src/cutting/pieces.ts';
import type { Ring } from '../../src/geometry/point.ts';

/** As for pieces cut exactly with a quarter inch of seam: no ease, sizes as they come. */
const EXACT: CuttingRules = {
  allowance: 1 / 4,
  ease: 0,
  step: 1 / 4096,
  usableWidth: 40,
  savings: 'squares',
};
const TO_EIGHTHS: CuttingRules = { ...EXACT, step: 1 / 8 };

const halfSquare = (leg: number): Ring => [
  [0, 0],
  [leg, 0],
  [0, leg],
];
const quarterSquare = (long: number): Ring => [
  [0, 0],
  [long, 0],
  [long / 2, long / 2],
];

const savedAs = (polygon: Ring, rules: CuttingRules, kind: string): number | undefined =>
  choicesFor({ polygon, seam: null }, rules, 'seam').savings.find(({ cut }) => cut.kind === kind)?.cut.width;

describe('what is added to cut a piece exactly', () => {
  // Common practice, in four hobby tables: finished + 1/2 in; leg + 7/8 in, cut once; long side + 1 1/4 in, cut twice.
  // Exactly it is s (2 + √2) and 2 s (1 + √2) for a seam of s: 0.8536 and 1.2071 in for a quarter inch.
  it.each([1, 1.5, 2, 2.5, 3, 4, 5, 6])('a square of %d in: half an inch each way', (side) => {
    const polygon: Ring = [
      [0, 0],
      [side, 0],
      [side, side],
      [0, side],
    ];
    const { cut } = choicesFor({ polygon, seam: null }, EXACT, 'seam').rectangle;
    expect([cut.width, cut.height]).toEqual([side + 0.5, side + 0.5]);
  });

  it.each([1, 2, 3, 4, 6])('half a square with legs of %d in', (leg) => {
    expect(savedAs(halfSquare(leg), EXACT, 'half-square')! - leg).toBeCloseTo(0.25 * (2 + Math.SQRT2), 3);
    // Rounded up to an eighth it is the 7/8 of the trade.
    expect(savedAs(halfSquare(leg), TO_EIGHTHS, 'half-square')).toBe(leg + 7 / 8);
  });

  it.each([2, 3, 4, 6, 8])('a quarter square with a long side of %d in', (long) => {
    expect(savedAs(quarterSquare(long), EXACT, 'quarter-square')! - long).toBeCloseTo(
      0.5 * (1 + Math.SQRT2),
      3,
    );
    expect(savedAs(quarterSquare(long), TO_EIGHTHS, 'quarter-square')).toBe(long + 1.25);
  });

  it('flying geese of 3 × 6 in: 7 1/4 in for the geese, 3 7/8 in for the sky', () => {
    // A worked example seen in hobby pages: one square cut twice, and squares cut once.
    expect(savedAs(quarterSquare(6), TO_EIGHTHS, 'quarter-square')).toBe(7.25);
    expect(savedAs(halfSquare(3), TO_EIGHTHS, 'half-square')).toBe(3.875);
  });
});

describe('the length to buy', () => {
  it('is a length: a public calculator that divides an area by 36 says 111 yards for 50 × 70 in', () => {
    // (50 + 4) (70 + 4) / 36 = 111. By the width as well, 40 to 42 in, it is 2.6 to 2.8 yd.
    const area = 54 * 74;
    expect(area / 36).toBeCloseTo(111, 0);
    for (const width of [40, 42]) {
      const { yards } = toBuy(area / width, { shrinkage: 0, spare: 0 });
      expect(yards * 36 * width).toBeGreaterThanOrEqual(area);
      expect(yards * 36 * width).toBeLessThanOrEqual(3 * area);
      expect(yards).toBeLessThanOrEqual(2.875);
    }
  });

  it('is rounded up to an eighth of a yard and a tenth of a metre, exactly', () => {
    // 1 yd = 36 in = 0.9144 m (NBS Circular 572 addendum, 1960).
    const bought = (inches: number) => toBuy(inches, { shrinkage: 0, spare: 0 });
    expect(bought(36)).toMatchObject({ yards: 1, metres: 1 });
    expect(bought(4.5).yards).toBe(0.125);
    expect(bought(4.51).yards).toBe(0.25);
    expect(bought(100 / 2.54).metres).toBe(1);
    expect(bought(100.1 / 2.54).metres).toBe(1.1);
    expect(bought(0)).toMatchObject({ yards: 0, metres: 0 });
    // 17.5 in of binding strips: 0.486 yd, so half a yard (a worked example seen in a hobby page).
    expect(bought(17.5).yards).toBe(0.5);
  });

  it('allows for spare cloth and shrinkage', () => {
    expect(toBuy(36, { shrinkage: 0, spare: 0.1 }).inches).toBeCloseTo(39.6, 9);
    expect(toBuy(38, { shrinkage: 0.05, spare: 0 }).inches).toBeCloseTo(40, 9);
  });
});
