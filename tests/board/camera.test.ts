import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { between, fittedCamera, lookAt, toBoard, toScreen, zoomAbout } from '../../src/board/camera.ts';

const camera = fc.record({
  scale: fc.double({ min: 0.5, max: 1500, noNaN: true }),
  x: fc.double({ min: -5000, max: 5000, noNaN: true }),
  y: fc.double({ min: -5000, max: 5000, noNaN: true }),
});
const place = fc.tuple(
  fc.double({ min: -100, max: 100, noNaN: true }),
  fc.double({ min: -100, max: 100, noNaN: true }),
);

describe('the camera', () => {
  it('goes to the screen and back', () => {
    fc.assert(
      fc.property(camera, place, (view, at) => {
        const [x, y] = toBoard(view, toScreen(view, at));
        expect(Math.hypot(x - at[0], y - at[1])).toBeLessThan(1e-6);
      }),
    );
  });

  it('keeps the place under the pointer while zooming', () => {
    fc.assert(
      fc.property(camera, place, fc.double({ min: 0.2, max: 5, noNaN: true }), (view, at, factor) => {
        const screen = toScreen(view, at);
        const [x, y] = toScreen(zoomAbout(view, screen, factor), at);
        expect(Math.hypot(x - screen[0], y - screen[1])).toBeLessThan(1e-3);
      }),
    );
  });

  it('fits a box whole and centred', () => {
    const view = { width: 900, height: 700 };
    const inset = { left: 80, top: 40, right: 40, bottom: 60 };
    const fitted = fittedCamera({ minX: -2, minY: 3, maxX: 10, maxY: 9 }, view, inset);
    const [left, top] = toScreen(fitted, [-2, 3]);
    const [right, bottom] = toScreen(fitted, [10, 9]);
    expect(left).toBeCloseTo(80);
    expect(right).toBeCloseTo(860);
    expect(top - 40).toBeCloseTo(640 - bottom);
  });

  it('looks at a place, and glides there without leaving the way', () => {
    const from = { scale: 40, x: 0, y: 0 };
    const to = lookAt(from, [3, 5], { width: 400, height: 300 }, 120);
    expect(toScreen(to, [3, 5])).toEqual([200, 150]);
    expect(between(from, to, 1)).toEqual(to);
    const half = between(from, to, 0.5);
    expect(half.scale).toBeGreaterThan(from.scale);
    expect(half.scale).toBeLessThan(to.scale);
  });
});
