import { describe, expect, it } from 'vitest';
import { planRounds } from '../../src/rounds/plan-rounds.ts';
import { Prng } from '../designs/prng.ts';
import { rigidPaper } from './strings.ts';

/**
 * Where papers leave no choice, fewest rounds is the shortest common supersequence. For two and three strings the
 * textbook recurrence gives it (Maier, The complexity of some problems on subsequences and supersequences, JACM 25,
 * 1978, for the problem; the recurrence is common knowledge, written here anew).
 */
function shortestSupersequence(strings: readonly string[]): number {
  const known = new Map<string, number>();
  const from = (at: readonly number[]): number => {
    if (at.every((k, s) => k === strings[s]!.length)) return 0;
    const key = at.join();
    const before = known.get(key);
    if (before !== undefined) return before;
    let best = Number.POSITIVE_INFINITY;
    for (const letter of new Set(at.flatMap((k, s) => strings[s]![k] ?? []))) {
      const next = at.map((k, s) => (strings[s]![k] === letter ? k + 1 : k));
      best = Math.min(best, 1 + from(next));
    }
    known.set(key, best);
    return best;
  };
  return from(strings.map(() => 0));
}

function longestCommon(a: string, b: string): number {
  const row = new Array<number>(b.length + 1).fill(0);
  for (const x of a) {
    let corner = 0;
    for (let j = 1; j <= b.length; j++) {
      const above = row[j]!;
      row[j] = x === b[j - 1] ? corner + 1 : Math.max(above, row[j - 1]!);
      corner = above;
    }
  }
  return row[b.length]!;
}

/** No letter twice in a row: such a pair is sewn in one round. */
function randomString(rng: Prng, letters: string, length: number): string {
  let text = '';
  while (text.length < length) {
    const next = rng.pick([...letters]);
    if (next !== text.at(-1)) text += next;
  }
  return text;
}

describe('rounds of papers that leave no choice', () => {
  it('are the shortest common supersequence of two: |A| + |B| - longest common subsequence', () => {
    const rng = new Prng(11);
    for (let k = 0; k < 200; k++) {
      const [a, b] = [
        randomString(rng, 'abcdef', rng.whole(1, 9)),
        randomString(rng, 'abcdef', rng.whole(1, 9)),
      ];
      const plan = planRounds([rigidPaper('a', a), rigidPaper('b', b)]);
      expect([a, b, plan.rounds.length]).toEqual([a, b, a.length + b.length - longestCommon(a, b)]);
      expect(plan.bound).toBe(plan.rounds.length);
    }
  });

  it('are the shortest common supersequence of three, by the recurrence', () => {
    const rng = new Prng(12);
    for (let k = 0; k < 100; k++) {
      const strings = ['a', 'b', 'c'].map(() => randomString(rng, 'abcde', rng.whole(2, 7)));
      const plan = planRounds(strings.map((text, n) => rigidPaper(`p${n}`, text)));
      expect([strings, plan.rounds.length]).toEqual([strings, shortestSupersequence(strings)]);
    }
  });

  it('are few and their bound holds where many strings cannot be settled', () => {
    const rng = new Prng(13);
    for (let k = 0; k < 6; k++) {
      const strings = Array.from({ length: 12 }, () => randomString(rng, 'abcd', 5));
      const plan = planRounds(
        strings.map((text, n) => rigidPaper(`p${n}`, text)),
        { steps: 1000 },
      );
      expect(plan.rounds.length).toBeLessThanOrEqual(plan.byLeafing);
      expect(plan.bound).toBeLessThanOrEqual(plan.rounds.length);
      const fabrics = plan.rounds.map(({ fabric }) => fabric).join('');
      for (const text of strings) expect(fabrics).toMatch(new RegExp([...text].join('.*')));
    }
  });
});
