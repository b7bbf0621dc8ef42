import { describe, expect, it } from 'vitest';
import { type Quad, seen, viewOf } from '../../src/geometry/homography.ts';
import { type Pixels, warpRows } from '../../src/geometry/warp.ts';

/** A picture from a formula of its colours at the middle of each pixel. */
function pixels(
  width: number,
  height: number,
  color: (x: number, y: number) => readonly [number, number, number],
): Pixels {
  const data = new Uint8ClampedArray(width * height * 4);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) data.set([...color(x + 0.5, y + 0.5), 255], (y * width + x) * 4);
  return { data, width, height };
}

const blank = (width: number, height: number): Pixels => ({
  data: new Uint8ClampedArray(width * height * 4),
  width,
  height,
});

const boxQuad = (width: number, height: number): Quad => [
  [0, 0],
  [width, 0],
  [width, height],
  [0, height],
];

const ramp = (x: number, y: number): readonly [number, number, number] => [2 * x, 2 * y, x + y];

describe('a picture through a view', () => {
  it('that moves nothing is the same, pixel for pixel', () => {
    const source = pixels(7, 5, (x, y) => [(x * 53) % 251, (y * 97) % 251, (x * y * 31) % 251]);
    const target = blank(7, 5);
    warpRows(source, target, viewOf(boxQuad(7, 5), boxQuad(7, 5)), 0, 5);
    expect(target.data).toEqual(source.data);
  });

  it('keeps an even slope of colour even, wherever it is seen from', () => {
    const source = pixels(80, 60, ramp);
    const corners: Quad = [
      [12, 8],
      [70, 5],
      [77, 55],
      [4, 48],
    ];
    const target = blank(40, 40);
    const view = viewOf(boxQuad(40, 40), corners);
    warpRows(source, target, view, 0, 40);
    for (let y = 0; y < 40; y++)
      for (let x = 0; x < 40; x++) {
        const wanted = ramp(...seen(view, [x + 0.5, y + 0.5]));
        wanted.forEach((value, channel) => {
          expect(Math.abs(target.data[(y * 40 + x) * 4 + channel]! - value)).toBeLessThanOrEqual(0.51);
        });
      }
  });

  it('fills the rows asked for, and nothing beyond the picture', () => {
    const source = pixels(10, 10, () => [200, 100, 50]);
    const target = blank(20, 20);
    const around: Quad = [
      [-5, -5],
      [15, -5],
      [15, 15],
      [-5, 15],
    ];
    warpRows(source, target, viewOf(boxQuad(20, 20), around), 0, 10);
    const alpha = (x: number, y: number): number => target.data[(y * 20 + x) * 4 + 3]!;
    expect([alpha(4, 8), alpha(5, 8), alpha(14, 8), alpha(15, 8)]).toEqual([0, 255, 255, 0]);
    expect([alpha(10, 4), alpha(10, 5), alpha(10, 10)]).toEqual([0, 255, 0]);
  });
});
