import { expect, it } from 'vitest';
import { benchQuickStrips, benchStrips } from './strips.ts';

it('the benchmark of strips runs on its smallest size', () => {
  const row = benchStrips(60, 1);
  expect(row.worst).toBeGreaterThan(0.5);
  expect(row.maxRects).toBeGreaterThan(0.5);
  expect(row.beaten).toBe(0);
  expect(benchQuickStrips().fill).toBeGreaterThan(0.99);
});
