import { describe, expect, it } from 'vitest';
import { lightnessOf, lightnessOfColor } from '../../src/document/lightness.ts';

describe('lightnessOfColor', () => {
  // L* of sRGB colours by CIE 15 and IEC 61966-2-1, computed independently to three decimals.
  it.each([
    ['#ffffff', 100],
    ['#000000', 0],
    ['#777777', 50.034],
    ['#808080', 53.585],
    ['#ff0000', 53.23],
    ['#00ff00', 87.74],
    ['#0000ff', 32.3],
  ])('%s has L* %d', (color, lightness) => {
    expect(100 * lightnessOfColor(color)).toBeCloseTo(lightness, 1);
  });

  it('takes what is no fabric for white', () => {
    const lightness = lightnessOf([{ id: 'f1', name: 'Night', color: '#000000' }]);
    expect([...lightness]).toEqual([['f1', 0]]);
  });
});
