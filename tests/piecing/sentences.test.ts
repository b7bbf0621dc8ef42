import { describe, expect, it } from 'vitest';
import type { Join, PiecingPlan, Section } from '../../src/piecing/plan.ts';
import { joinSentence, orderWords, verdictSentence } from '../../src/piecing/sentences.ts';

const section = (letter: string): Section =>
  ({ letter, outline: [], startsFrom: [], order: [] }) as unknown as Section;
const join = (step: number, kind: Join['kind'] = 'straight'): Join =>
  ({
    step,
    left: ['A'],
    right: ['B'],
    seam: [
      [0, 0],
      [3, 4],
    ],
    kind,
    stretches:
      kind === 'straight'
        ? [
            [
              [0, 0],
              [3, 4],
            ],
          ]
        : [
            [
              [0, 0],
              [3, 0],
            ],
            [
              [3, 0],
              [3, 4],
            ],
          ],
    points: [],
  }) as unknown as Join;

const plan = (change: Partial<PiecingPlan>): PiecingPlan => ({
  verdict: 'several-foundations',
  fewest: true,
  patches: [],
  edges: [],
  sections: ['A', 'B', 'C'].map(section),
  joins: [join(1), join(2)],
  findings: [],
  ...change,
});

describe('verdictSentence', () => {
  const cases: readonly (readonly [Partial<PiecingPlan>, string])[] = [
    [{ verdict: 'undivided' }, 'One patch, nothing to sew.'],
    [{ verdict: 'one-foundation' }, 'Sews on one foundation.'],
    [{}, 'Sews on 3 foundations, the fewest possible.'],
    [{ fewest: false }, 'Sews on 3 foundations, perhaps not the fewest.'],
    [
      {
        sections: ['A', 'B'].map((letter) => ({
          ...section(letter),
          startsFrom: letter === 'B' ? ['A'] : [],
        })),
      },
      'Sews on 2 foundations, the fewest where a paper may start from a finished unit.',
    ],
    [
      { verdict: 'set-in-seams', joins: [join(1), join(2, 'set-in')] },
      'Cannot be joined with straight seams: join 2 turns a corner.',
    ],
    [
      { verdict: 'set-in-seams', joins: [join(1, 'set-in'), join(2, 'set-in'), join(3, 'set-in')] },
      'Cannot be joined with straight seams: 3 corners to set in.',
    ],
    [
      {
        verdict: 'broken',
        findings: [
          {
            code: 'x',
            severity: 'trouble',
            at: [0, 0],
            patches: [],
            cuts: [],
            stretches: [],
            message: 'The outline crosses itself.',
          },
        ],
      },
      'The outline crosses itself.',
    ],
    [{ verdict: 'broken' }, 'Cannot be pieced as drawn.'],
  ];
  it.each(cases)('%j', (change, sentence) => {
    expect(verdictSentence(plan(change))).toBe(sentence);
  });
});

describe('joinSentence', () => {
  it('names both units and the length of the seam, in the unit asked for', () => {
    expect(joinSentence(join(1), 'in')).toBe('Join A to B, a straight seam of 5 in.');
    expect(joinSentence({ ...join(1), left: ['A', 'B', 'C'], right: ['D', 'E'] }, 'mm')).toBe(
      'Join A, B and C to D and E, a straight seam of 127 mm.',
    );
  });

  it('measures a seam that turns a corner along its stretches', () => {
    const bent: Join = {
      ...join(1, 'set-in'),
      stretches: [
        [
          [0, 0],
          [3, 0],
        ],
        [
          [3, 0],
          [3, 2],
        ],
      ],
    };
    expect(joinSentence(bent, 'in')).toBe('Join A to B, a seam that turns a corner, set in, of 5 in.');
  });
});

describe('orderWords', () => {
  it('lists the patches in turn, after the unit that the paper starts from', () => {
    expect(orderWords({ order: ['A1', 'A2'], startsFrom: [] })).toBe('A1 A2');
    expect(orderWords({ order: ['B2', 'B3'], startsFrom: ['A'] })).toBe('A, B2 B3');
    expect(orderWords({ order: ['C2'], startsFrom: ['A', 'B'] })).toBe('A and B joined, C2');
  });
});
