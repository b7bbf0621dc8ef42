import type { CutSize } from '../../src/cutting/strips/cloth.ts';
import { Prng } from '../designs/prng.ts';

/** Cuts of 1 to 6 by 1 to 4 in, in quarters of an inch as cuts are rounded. The same seed gives the same. */
export function benchCuts(seed: number, count: number): readonly CutSize[] {
  const rng = new Prng(1_000 * seed + count);
  return Array.from({ length: count }, () => ({
    width: rng.whole(4, 24) / 4,
    height: rng.whole(4, 16) / 4,
    turns: true,
  }));
}

/** First fit by falling height of cuts as they were asked for, written again from its description. */
export function firstFitLength(items: readonly CutSize[], usableWidth: number): number {
  const strips: { height: number; used: number }[] = [];
  for (const { width, height } of [...items].sort((a, b) => b.height - a.height)) {
    const strip = strips.find(({ used }) => used + width <= usableWidth + 1e-9);
    if (strip) strip.used += width;
    else strips.push({ height, used: width });
  }
  return strips.reduce((sum, { height }) => sum + height, 0);
}
