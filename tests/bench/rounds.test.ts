import { expect, it } from 'vitest';
import { benchRounds, colouredByChance, freeByChance, pictorial } from './rounds.ts';

it('the bench of rounds counts on few papers what it counts on many', () => {
  for (const made of [pictorial, freeByChance, colouredByChance]) {
    const papers = made(5, 12);
    expect(papers.length).toBe(12);
    for (const { form } of papers) {
      expect(form.patches.length).toBeGreaterThanOrEqual(3);
      expect(form.patches.length).toBeLessThanOrEqual(12);
    }
    const { rounds, bound, majorityMerge, byPosition } = benchRounds(papers);
    expect(rounds).toBeGreaterThanOrEqual(bound);
    expect(rounds).toBeLessThanOrEqual(Math.min(majorityMerge, byPosition));
  }
});
