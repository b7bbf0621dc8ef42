import { describe, expect, it } from 'vitest';
import { isBetter, type Tally } from '../../src/piecing/repairs/standing.ts';
import { isBetter as isJudgedBetter } from './standing.ts';

const tally = (setInCorners: number, troubles: number, foundations: number, cautions: number): Tally => ({
  setInCorners,
  troubles,
  foundations,
  cautions,
  patches: 9,
});

describe('a drawing is better than another', () => {
  it.each([
    ['a paper less for one caution more', tally(0, 0, 2, 3), tally(0, 0, 3, 2), true],
    ['no paper less for two cautions more', tally(0, 0, 2, 4), tally(0, 0, 3, 2), false],
    ['any price for a corner less to set in', tally(1, 3, 9, 9), tally(2, 0, 1, 0), true],
    ['any price for a trouble less', tally(0, 0, 9, 9), tally(0, 1, 1, 0), true],
    ['a caution less on as many papers', tally(0, 0, 2, 1), tally(0, 0, 2, 2), true],
    ['no caution less on one paper more', tally(0, 0, 3, 0), tally(0, 0, 2, 5), false],
    ['nothing', tally(0, 0, 2, 1), tally(0, 0, 2, 1), false],
  ])('%s', (_, a, b, is) => {
    expect(isBetter(a, b)).toBe(is);
  });

  it('as the judge of the tests has it, for every pair of small numbers', () => {
    const few = [0, 1, 2, 3];
    const all = few.flatMap((c) =>
      few.flatMap((t) => few.flatMap((f) => few.map((n) => tally(c % 2, t % 2, f, n)))),
    );
    for (const a of all)
      for (const b of all) if (isBetter(a, b) !== isJudgedBetter(a, b)) expect([a, b]).toBe(null);
  });
});
