import { describe, expect, it } from 'vitest';
import type { Ring } from '../../src/geometry/point.ts';
import type { Block } from '../../src/piecing/block.ts';
import { PLAN_CHOICES } from '../../src/piecing/block.ts';
import { costWords, isSamePlan } from '../../src/piecing/compare-plans.ts';
import { piece } from '../../src/piecing/piece.ts';
import type { PiecingPlan } from '../../src/piecing/plan.ts';
import { designOf } from '../designs/designs.ts';

const SQUARE: Ring = [
  [0, 0],
  [6, 0],
  [6, 6],
  [0, 6],
];

const block = (...cuts: readonly (readonly [number, number, number, number])[]): Block => ({
  id: 'b',
  name: 'Pier',
  outline: SQUARE,
  cuts: cuts.map(([x1, y1, x2, y2], k) => ({ id: `c${k}`, from: [x1, y1], to: [x2, y2], role: 'auto' })),
  patches: [],
});

/** Four squares: they go together as two rows or as two columns, on two papers either way (common practice). */
const FOUR_PATCH = block([3, 0, 3, 6], [0, 3, 6, 3]);

describe('isSamePlan', () => {
  it('tells rows from columns, whichever is asked for first', () => {
    const rows = piece(FOUR_PATCH, { plan: 'rows' });
    const columns = piece(FOUR_PATCH, { plan: 'columns' });
    expect(isSamePlan(rows, columns)).toBe(false);
    expect(isSamePlan(rows, piece(FOUR_PATCH, { plan: 'rows' }))).toBe(true);
  });

  it('does not mind letters, steps or the order of patches', () => {
    const plan = piece(FOUR_PATCH, { plan: 'rows' });
    const other = { A: 'B', B: 'A' } as const;
    const renamed = JSON.parse(
      JSON.stringify(plan).replaceAll(/"([AB])(\d*)"/g, (_, l: 'A' | 'B', n) => `"${other[l]}${n}"`),
    ) as PiecingPlan;
    expect(renamed.sections[0]!.letter).toBe('B');
    expect(isSamePlan(plan, { ...renamed, sections: [...renamed.sections].reverse() })).toBe(true);
  });

  it('is the same both ways round on random designs, and never so with another number of papers or joins', () => {
    for (let seed = 9001; seed <= 9040; seed++) {
      const { block: drawn } = designOf(seed, { patches: [4, 16] });
      const plans = PLAN_CHOICES.map((plan) => piece(drawn, { plan }));
      for (const a of plans)
        for (const b of plans) {
          expect({ seed, same: isSamePlan(a, b) }).toEqual({ seed, same: isSamePlan(b, a) });
          if (a.sections.length !== b.sections.length || a.joins.length !== b.joins.length)
            expect({ seed, same: isSamePlan(a, b) }).toEqual({ seed, same: false });
        }
    }
  });
});

describe('costWords', () => {
  const level = piece(FOUR_PATCH, { plan: 'rows' });
  const upright = piece(FOUR_PATCH, { plan: 'columns' });

  it('says of the plan with the fewest that it has the fewest', () => {
    expect(costWords(level, { ...level, fewest: true })).toBe(
      'As few papers as can be, each begun with a patch.',
    );
    expect(costWords(level, { ...level, fewest: false })).toBe('The fewest papers found.');
    const one = piece(block([0, 3, 6, 3]));
    expect(costWords(one, one)).toBe('One paper, nothing to join.');
  });

  it('says what is gained where it costs no paper', () => {
    expect(costWords(upright, level)).toBe('As many papers, and all joins run vertically.');
  });

  it('says what a further paper brings', () => {
    const onBias = { ...upright, joins: upright.joins.map((join) => ({ ...join, stretches: [SLANTED] })) };
    const [first] = level.sections;
    const more = { ...level, sections: [...level.sections, { ...first!, letter: 'C' }] };
    expect(costWords(more, onBias)).toBe('One paper more, but all joins run horizontally.');
  });

  it('does not praise a plan that only costs', () => {
    const [first] = level.sections;
    const more = { ...level, sections: [...level.sections, { ...first!, letter: 'C' }] };
    expect(costWords(more, level)).toBe('One paper more, with nothing gained.');
  });

  it('tells of a unit that serves as position 1', () => {
    const [a, b] = level.sections;
    const onUnit = { ...level, joins: [], sections: [a!, { ...b!, startsFrom: ['A'] }] };
    expect(costWords(onUnit, level)).toContain('paper B starts from a finished unit');
  });
});

const SLANTED = [
  [0, 0],
  [6, 5],
] as const;
