import { describe, expect, it } from 'vitest';
import { averageLab, colorOfLab, type Lab, labOfColor, makeValues } from '../../src/document/lab.ts';
import { lightnessOfColor } from '../../src/document/lightness.ts';

const pixelsOf = (...colors: readonly (readonly [color: string, alpha: number])[]): Uint8ClampedArray =>
  Uint8ClampedArray.from(
    colors.flatMap(([color, alpha]) => [
      ...[1, 3, 5].map((at) => Number.parseInt(color.slice(at, at + 2), 16)),
      alpha,
    ]),
  );

const near = (found: Lab | null, { l, a, b }: Lab): void => {
  expect(found?.l).toBeCloseTo(l, 6);
  expect(found?.a).toBeCloseTo(a, 6);
  expect(found?.b).toBeCloseTo(b, 6);
};

describe('the average of a picture as it looks', () => {
  it('of one colour is that colour', () => {
    for (const color of ['#000000', '#ffffff', '#1d3557', '#a6322b']) {
      near(averageLab(pixelsOf([color, 255], [color, 255], [color, 255])), labOfColor(color));
      expect(colorOfLab(averageLab(pixelsOf([color, 255]))!)).toBe(color);
    }
  });

  it('of black and white in equal parts is L* 50, which is #777777 and not half of 255 (CIE 15, IEC 61966-2-1)', () => {
    const half = averageLab(pixelsOf(['#000000', 255], ['#ffffff', 255]));
    near(half, { l: 50, a: 0, b: 0 });
    expect(colorOfLab(half!)).toBe('#777777');
  });

  it('weighs what is transparent by how much of it is seen', () => {
    near(averageLab(pixelsOf(['#000000', 0], ['#a6322b', 255])), labOfColor('#a6322b'));
    // White at a third against black in full: a quarter of what is seen.
    near(averageLab(pixelsOf(['#ffffff', 85], ['#000000', 255])), { l: 25, a: 0, b: 0 });
    expect(averageLab(pixelsOf(['#a6322b', 0]))).toBeNull();
    expect(averageLab([])).toBeNull();
  });

  it('does not hang on the order of the pixels', () => {
    const some = [
      ['#e0b13c', 255],
      ['#33704a', 255],
      ['#2c4a85', 255],
    ] as const;
    near(averageLab(pixelsOf(...some)), averageLab(pixelsOf(some[2], some[0], some[1]))!);
  });
});

describe('a picture as values', () => {
  it('has greys as light as its colours were, within the step of 8 bits', () => {
    const colors = ['#1d3557', '#a6322b', '#e0b13c', '#00ff00', '#0000ff', '#ffffff', '#000000', '#060504'];
    const pixels = pixelsOf(...colors.map((color): [string, number] => [color, 200]));
    makeValues(pixels);
    for (const [i, color] of colors.entries()) {
      const [r, g, b, alpha] = pixels.slice(4 * i, 4 * i + 4);
      expect([g, b, alpha]).toEqual([r, r, 200]);
      const grey = `#${r!.toString(16).padStart(2, '0').repeat(3)}`;
      expect(Math.abs(lightnessOfColor(grey) - lightnessOfColor(color)), color).toBeLessThan(0.003);
    }
  });
});
