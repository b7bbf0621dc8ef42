import { describe, expect, it } from 'vitest';
import { ShapeCache } from '../../src/board/draw/shape-cache.ts';
import type { Ring } from '../../src/geometry/point.ts';

const triangle = (x: number, y: number): Ring => [
  [x, y],
  [3, 0],
  [0, 3],
];

function counted() {
  let count = 0;
  const lately = new ShapeCache(() => ++count);
  return { lately, count: () => count };
}

describe('what was made of shapes seen lately', () => {
  it('is found again for the same corners in other rings', () => {
    const { lately, count } = counted();
    expect(lately.of([triangle(0, 0)])).toBe(1);
    expect(lately.of([triangle(0, 0)])).toBe(1);
    expect(count()).toBe(1);
  });

  it('is made anew for other corners, other holes and corners that are remembered by the same number', () => {
    const { lately } = counted();
    expect(lately.of([triangle(0, 7919)])).toBe(1);
    expect(lately.of([triangle(1, 0)])).toBe(2);
    expect(lately.of([triangle(1, 0), triangle(1, 1)])).toBe(3);
    expect(lately.of([triangle(1, 0)])).toBe(2);
  });

  it('is kept for thousands of shapes, and not for ever', () => {
    const { lately, count } = counted();
    for (let k = 0; k < 9000; k++) lately.of([triangle(k, 1)]);
    lately.of([triangle(8999, 1)]);
    lately.of([triangle(6000, 1)]);
    expect(count()).toBe(9000);
    lately.of([triangle(0, 1)]);
    expect(count()).toBe(9001);
  });
});
