import { describe, expect, it } from 'vitest';
import { leastSum, type Term } from '../../src/piecing/least-sum.ts';
import { Prng } from '../designs/prng.ts';

/** What a way of choosing comes to, term by term. */
function sumOf(choices: readonly number[], terms: readonly Term[], chosen: readonly number[]): number {
  return terms.reduce(
    (sum, { things, costs }) =>
      sum + costs[things.reduce((entry, t) => entry * choices[t]! + chosen[t]!, 0)]!,
    0,
  );
}

describe('the least sum of terms', () => {
  it('is the least of all ways of choosing, and the way told comes to it', () => {
    for (let seed = 1; seed <= 300; seed++) {
      const rng = new Prng(seed);
      const choices = Array.from({ length: rng.whole(1, 7) }, () => rng.whole(1, 3));
      const terms = Array.from({ length: rng.whole(1, 12) }, (): Term => {
        const a = rng.whole(0, choices.length - 1);
        const b = rng.whole(0, choices.length - 1);
        const things = a === b ? [a] : [a, b];
        const size = things.reduce((product, t) => product * choices[t]!, 1);
        return { things, costs: Float64Array.from({ length: size }, () => rng.whole(0, 9)) };
      });
      const { sum, chosen } = leastSum(choices, terms);
      let least = Number.POSITIVE_INFINITY;
      const ways = choices.reduce((product, n) => product * n, 1);
      for (let way = 0; way < ways; way++) {
        let rest = way;
        const all = choices.map((n) => {
          const value = rest % n;
          rest = Math.floor(rest / n);
          return value;
        });
        least = Math.min(least, sumOf(choices, terms, all));
      }
      expect({ seed, sum, told: sumOf(choices, terms, chosen) }).toEqual({ seed, sum: least, told: least });
    }
  });
});
