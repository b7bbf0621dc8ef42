import { describe, expect, it } from 'vitest';
import type { Block } from '../../src/piecing/block.ts';
import type { Edge, Join, Patch, PiecingPlan, RegistrationPoint, Section } from '../../src/piecing/plan.ts';
import { orderedAt } from '../designs/entries.ts';
import { edgesFrom } from './check-edges.ts';
import { checkPlan } from './check-plan.ts';
import { asOneStretch, sharedBoundary } from './shared-boundary.ts';

/**
 * The checker is itself checked: a hand-made plan that is right must pass, and each way of spoiling it must be
 * found. The plan: a 6 in square of two rows. The upper row is three patches on foundation A, the lower two on B.
 *
 *     0   2     6
 *     +---+--+--+ 0      upper: [0,2] [2,4] [4,6], lower: [0,2] [2,6]
 *     | A1|A2|A3|        the seams at x = 2 match across the join at y = 3, the one at x = 4 is a junction
 *     +---+--+--+ 3
 *     | B1|  B2 |
 *     +---+-----+ 6
 */
const block: Block = {
  id: 'b1',
  name: 'Two rows',
  outline: [
    [0, 0],
    [6, 0],
    [6, 6],
    [0, 6],
  ],
  cuts: [
    { id: 'across', from: [0, 3], to: [6, 3], role: 'auto' },
    { id: 'down', from: [2, 0], to: [2, 6], role: 'auto' },
    { id: 'short', from: [4, 0], to: [4, 3], role: 'auto' },
  ],
  patches: [{ id: 'p1', at: [1, 1], fabric: 'night-sea' }],
};

const patches: Patch[] = [
  {
    key: 'A1',
    id: 'A1',
    section: 'A',
    position: 1,
    polygon: [
      [0, 0],
      [2, 0],
      [2, 3],
      [0, 3],
    ],
    holes: [],
    fabric: 'night-sea',
    seam: null,
    neighbours: ['A2', 'B1'],
  },
  {
    key: 'A2',
    id: 'A2',
    section: 'A',
    position: 2,
    polygon: [
      [2, 0],
      [4, 0],
      [4, 3],
      [2, 3],
    ],
    holes: [],
    fabric: null,
    seam: [
      [2, 0],
      [2, 3],
    ],
    neighbours: ['A1', 'A3', 'B2'],
  },
  {
    key: 'A3',
    id: 'A3',
    section: 'A',
    position: 3,
    polygon: [
      [4, 0],
      [6, 0],
      [6, 3],
      [4, 3],
    ],
    holes: [],
    fabric: null,
    seam: [
      [4, 0],
      [4, 3],
    ],
    neighbours: ['A2', 'B2'],
  },
  {
    key: 'B1',
    id: 'B1',
    section: 'B',
    position: 1,
    polygon: [
      [0, 3],
      [2, 3],
      [2, 6],
      [0, 6],
    ],
    holes: [],
    fabric: null,
    seam: null,
    neighbours: ['A1', 'B2'],
  },
  {
    key: 'B2',
    id: 'B2',
    section: 'B',
    position: 2,
    polygon: [
      [2, 3],
      [4, 3],
      [6, 3],
      [6, 6],
      [2, 6],
    ],
    holes: [],
    fabric: null,
    seam: [
      [2, 3],
      [2, 6],
    ],
    neighbours: ['A2', 'A3', 'B1'],
  },
];

const sections: Section[] = [
  {
    key: 'A',
    letter: 'A',
    stamp: 'CDFGH',
    holes: [],
    startsFrom: [],
    outline: [
      [0, 0],
      [2, 0],
      [4, 0],
      [6, 0],
      [6, 3],
      [4, 3],
      [2, 3],
      [0, 3],
    ],
    order: ['A1', 'A2', 'A3'],
  },
  {
    key: 'B',
    letter: 'B',
    stamp: 'CDFGH',
    holes: [],
    startsFrom: [],
    outline: [
      [0, 3],
      [2, 3],
      [4, 3],
      [6, 3],
      [6, 6],
      [2, 6],
      [0, 6],
    ],
    order: ['B1', 'B2'],
  },
];

const points: RegistrationPoint[] = [
  { label: '1a', at: [0, 3], kind: 'end' },
  { label: '1b', at: [2, 3], kind: 'match' },
  { label: '1c', at: [4, 3], kind: 'junction' },
  { label: '1d', at: [6, 3], kind: 'end' },
];

const join: Join = {
  step: 1,
  left: ['A'],
  right: ['B'],
  seam: [
    [0, 3],
    [6, 3],
  ],
  kind: 'straight',
  stretches: [
    [
      [0, 3],
      [6, 3],
    ],
  ],
  points,
};

const good: PiecingPlan = {
  verdict: 'several-foundations',
  fewest: true,
  patches,
  sections,
  joins: [join],
  edges: edgesFrom(block, patches),
  findings: [
    {
      code: 'unpainted-patch',
      severity: 'note',
      at: [3, 1],
      patches: ['A2'],
      cuts: [],
      message: 'Patch A2 has no fabric.',
      stretches: [],
    },
  ],
};

const withPatch = (index: number, change: Partial<Patch>): PiecingPlan => ({
  ...good,
  patches: patches.map((patch, i) => (i === index ? { ...patch, ...change } : patch)),
});
const withJoin = (change: Partial<Join>): PiecingPlan => ({ ...good, joins: [{ ...join, ...change }] });
const withPoints = (change: readonly RegistrationPoint[]): PiecingPlan => withJoin({ points: change });
const withRole = (id: string, role: 'join' | 'seam'): Block => ({
  ...block,
  cuts: block.cuts.map((cut) => (cut.id === id ? { ...cut, role } : cut)),
});

describe('the order-and-join checker', () => {
  it('passes a plan that is right', () => {
    expect(checkPlan(block, good)).toEqual([]);
  });

  it('passes the same plan with its pinned cuts obeyed', () => {
    expect(checkPlan(withRole('across', 'join'), good)).toEqual([]);
    expect(checkPlan(withRole('down', 'seam'), good)).toEqual([]);
  });

  const spoiled: [string, RegExp, PiecingPlan][] = [
    [
      'an area that is missing',
      /areas sum/,
      withPatch(2, {
        polygon: [
          [4, 0],
          [5, 0],
          [5, 3],
          [4, 3],
        ],
      }),
    ],
    [
      'patches that overlap',
      /overlap/,
      withPatch(2, {
        polygon: [
          [2, 0],
          [4, 0],
          [4, 3],
          [2, 3],
        ],
      }),
    ],
    [
      'patches that cross',
      /cross/,
      withPatch(2, {
        polygon: [
          [3, 1],
          [6, 0],
          [6, 3],
          [4, 3],
        ],
      }),
    ],
    [
      'a ring that turns the wrong way',
      /turns the wrong way/,
      withPatch(0, {
        polygon: [
          [0, 3],
          [2, 3],
          [2, 0],
          [0, 0],
        ],
      }),
    ],
    [
      'a T-junction left out of a neighbour',
      /nobody shares/,
      withPatch(4, {
        polygon: [
          [2, 3],
          [6, 3],
          [6, 6],
          [2, 6],
        ],
      }),
    ],
    ['a neighbour not named', /names the neighbours/, withPatch(0, { neighbours: ['A2'] })],
    ['a position told wrong', /says 3/, withPatch(1, { position: 3 })],
    [
      'a first patch with a seam',
      /first and has a seam/,
      withPatch(0, {
        seam: [
          [2, 0],
          [2, 3],
        ],
      }),
    ],
    ['a later patch without a seam', /has no seam/, withPatch(1, { seam: null })],
    [
      'a seam half as long as it is',
      /the seam of A2/,
      withPatch(1, {
        seam: [
          [2, 0],
          [2, 1.5],
        ],
      }),
    ],
    [
      'a seam 0.2 mm off',
      /the seam of A2/,
      withPatch(1, {
        seam: [
          [2.008, 0],
          [2.008, 3],
        ],
      }),
    ],
    ['a paint not worn', /wears/, withPatch(0, { fabric: null })],
    ['a fabric from nowhere', /wears/, withPatch(3, { fabric: 'gull' })],
    [
      'a patch in no section',
      /in no section/,
      { ...good, sections: [{ ...sections[0]!, order: ['A1', 'A2'] }, sections[1]!] },
    ],
    [
      'a patch ordered twice',
      /ordered twice/,
      { ...good, sections: [sections[0]!, { ...sections[1]!, order: ['B1', 'B2', 'A3'] }] },
    ],
    [
      'a wrong section letter',
      /is lettered C/,
      { ...good, sections: [sections[0]!, { ...sections[1]!, letter: 'C' }] },
    ],
    [
      'a section outlined wrong',
      /is outlined with/,
      { ...good, sections: [{ ...sections[0]!, outline: patches[0]!.polygon }, sections[1]!] },
    ],
    [
      'patches out of sewing order',
      /not listed in sewing order/,
      { ...good, patches: [...patches].reverse() },
    ],
    ['a join left out', /2 units are left/, { ...good, joins: [] }],
    ['a join of a unit that is not there', /no finished unit/, withJoin({ right: ['A', 'B'] })],
    [
      'a join sewn twice',
      /no finished unit/,
      {
        ...good,
        joins: [join, { ...join, step: 2, points: points.map((p) => ({ ...p, label: `2${p.label}` })) }],
      },
    ],
    [
      'a join too short',
      /the seam of step 1/,
      withJoin({
        seam: [
          [0, 3],
          [4, 3],
        ],
        stretches: [
          [
            [0, 3],
            [4, 3],
          ],
        ],
      }),
    ],
    ['a straight join called set-in', /is called set-in/, withJoin({ kind: 'set-in' })],
    ['a missing end', /no end point at its end/, withPoints(points.slice(0, 3))],
    ['a missing match', /no point at 2/, withPoints(points.filter((p) => p.kind !== 'match'))],
    [
      'a match called a junction',
      /called a junction, seams of both/,
      withPoints(points.map((p) => ({ ...p, kind: p.kind === 'match' ? 'junction' : p.kind }))),
    ],
    [
      'a junction called a match',
      /called a match/,
      withPoints(points.map((p) => ({ ...p, kind: p.kind === 'junction' ? 'match' : p.kind }))),
    ],
    [
      'a junction called a guide',
      /called a guide/,
      withPoints(points.map((p) => ({ ...p, kind: p.kind === 'junction' ? 'guide' : p.kind }))),
    ],
    [
      'a guide called a junction',
      /no seam is there/,
      withPoints([...points.slice(0, 3), { label: '1e', at: [5, 3], kind: 'junction' }, points[3]!]),
    ],
    [
      'an end in the middle',
      /an end in the middle/,
      withPoints([...points.slice(0, 3), { label: '1e', at: [5, 3], kind: 'end' }, points[3]!]),
    ],
    ['points out of turn', /out of turn/, withPoints([points[0]!, points[2]!, points[1]!, points[3]!])],
    [
      'a point off the seam',
      /off the seam/,
      withPoints([...points.slice(0, 3), { label: '1e', at: [5, 3.01], kind: 'guide' }, points[3]!]),
    ],
    ['a label used twice', /labelled 1a/, withPoints(points.map((p) => ({ ...p, label: '1a' })))],
    ['a verdict too good', /the verdict is one-foundation/, { ...good, verdict: 'one-foundation' }],
    ['a verdict too bad', /the verdict is set-in-seams/, { ...good, verdict: 'set-in-seams' }],
    [
      'a finding on a patch that is not there',
      /no patch/,
      { ...good, findings: [{ ...good.findings[0]!, patches: ['C1'] }] },
    ],
    [
      'a finding without a place',
      /no place/,
      { ...good, findings: [{ ...good.findings[0]!, at: [Number.NaN, 0] }] },
    ],
    ['a broken block with patches', /has patches/, { ...good, verdict: 'broken' }],
    [
      'a broken block without a reason',
      /does not say why/,
      { verdict: 'broken', fewest: false, patches: [], sections: [], joins: [], edges: [], findings: [] },
    ],
  ];
  const withEdge = (index: number, change: Partial<Edge>): PiecingPlan => ({
    ...good,
    edges: good.edges.map((edge, i) => (i === index ? { ...edge, ...change } : edge)),
  });
  const inner = good.edges.findIndex(({ line }) => line !== null);
  const { right, left } = good.edges[inner]!;
  spoiled.push(
    ['an edge left out', /is not told/, { ...good, edges: good.edges.slice(1) }],
    ['an edge told twice', /told twice/, { ...good, edges: [...good.edges, good.edges[0]!] }],
    ['an edge with its sides turned', /is none/, withEdge(inner, { right: left, left: right })],
    ['an edge on no cut', /lies on no cut/, withEdge(inner, { line: null })],
    ['an edge on another cut', /does not lie on cut/, withEdge(inner, { line: 'nowhere' })],
  );
  for (const [what, says, plan] of spoiled) {
    it(`finds ${what}`, () => {
      expect(checkPlan(block, plan).join('\n')).toMatch(says);
    });
  }

  it('finds a join cut inside one paper', () => {
    expect(checkPlan(withRole('short', 'join'), good).join('\n')).toMatch(/kept for a join, A3 and A2/);
  });

  it('finds a seam cut between two papers', () => {
    expect(checkPlan(withRole('across', 'seam'), good).join('\n')).toMatch(/kept as a seam/);
  });

  it('accepts a pinned role that is refused with a reason', () => {
    const refusal = {
      code: 'pin-refused',
      severity: 'caution',
      at: [3, 3],
      patches: [],
      cuts: ['across'],
      message: 'The seam cannot stay inside one foundation.',
      stretches: [],
    } as const;
    expect(checkPlan(withRole('across', 'seam'), { ...good, findings: [refusal] })).toEqual([]);
  });

  it('follows an order set by hand, or its refusal', () => {
    const inTurn = orderedAt(block, [
      [
        [1, 1],
        [5, 1],
      ],
    ]);
    const against = orderedAt(block, [
      [
        [5, 1],
        [1, 1],
      ],
    ]);
    const first = orderedAt(block, [[[3, 5]]]);
    expect(checkPlan(inTurn, good)).toEqual([]);
    expect(checkPlan(against, good)).toEqual(['A3 is to be sewn before A1']);
    expect(checkPlan(first, good)).toEqual(['B2 is to be sewn first']);
    const refusal = { ...good.findings[0]!, code: 'order-refused' };
    expect(checkPlan(against, { ...good, findings: [refusal] })).toEqual([]);
  });

  describe('a paper that starts from a finished unit', () => {
    // The upper row is foundation A; foundation B takes it as position 1 and adds the whole lower row as B2.
    const outline = [
      [0, 0],
      [6, 0],
      [6, 6],
      [0, 6],
    ] as const;
    const lower: Patch = {
      ...patches[4]!,
      polygon: [
        [0, 3],
        [2, 3],
        [4, 3],
        [6, 3],
        [6, 6],
        [0, 6],
      ],
      seam: [
        [0, 3],
        [6, 3],
      ],
      neighbours: ['A1', 'A2', 'A3'],
    };
    const upper = patches.slice(0, 3).map((patch) => ({
      ...patch,
      neighbours: [...new Set(patch.neighbours.map((id) => id.replace('B1', 'B2')))],
    }));
    const last: Section = {
      key: 'B',
      letter: 'B',
      stamp: 'CDFGH',
      outline,
      holes: [],
      startsFrom: ['A'],
      order: ['B2'],
    };
    const rows: Block = {
      ...block,
      cuts: block.cuts.map((cut) => (cut.id === 'down' ? { ...cut, from: [2, 0], to: [2, 3] } : cut)),
    };
    const withEdges = (told: PiecingPlan): PiecingPlan => ({ ...told, edges: edgesFrom(rows, told.patches) });
    const plan = withEdges({
      ...good,
      patches: [...upper, lower],
      sections: [sections[0]!, last],
      joins: [],
    });

    it('passes', () => {
      expect(checkPlan(rows, plan)).toEqual([]);
    });

    it('is found where the unit is not there, or counts as no position', () => {
      const fromNothing = { ...plan, sections: [sections[0]!, { ...last, startsFrom: ['C'] }] };
      expect(checkPlan(rows, fromNothing).join('\n')).toMatch(/starts from \[C\], which is no finished unit/);
      const alone = { ...plan, sections: [sections[0]!, { ...last, startsFrom: [] }] };
      expect(checkPlan(rows, alone).join('\n')).toMatch(/B2 comes at position 1, it says 2/);
    });

    it('is found where a patch meets the unit round a corner', () => {
      // Not the whole row but an L that also runs up the right side.
      const bent: Patch = {
        ...lower,
        polygon: [
          [0, 3],
          [2, 3],
          [4, 3],
          [4, 0],
          [6, 0],
          [6, 6],
          [0, 6],
        ],
        neighbours: ['A1', 'A2'],
      };
      const two = upper
        .slice(0, 2)
        .map((patch) => ({ ...patch, neighbours: patch.id === 'A1' ? ['A2', 'B2'] : ['A1', 'B2'] }));
      const small: Section = {
        ...sections[0]!,
        outline: [
          [0, 0],
          [2, 0],
          [4, 0],
          [4, 3],
          [2, 3],
          [0, 3],
        ],
        order: ['A1', 'A2'],
      };
      expect(
        checkPlan(
          rows,
          withEdges({ ...plan, patches: [...two, bent], sections: [small, last], findings: [] }),
        ),
      ).toEqual(['the boundary of B2 with what is sewn is bent']);
    });
  });

  it('finds an order that needs a seam round a corner', () => {
    // All five on one paper: B1 would be sewn to A1 and, later, B2 to A2, A3 and B1 along two lines.
    const bent = patches.map((patch, i) => ({
      ...patch,
      id: `A${i + 1}`,
      section: 'A',
      position: i + 1,
      neighbours: patch.neighbours.map((id) => `A${patches.findIndex((p) => p.id === id) + 1}`),
      seam:
        i === 3
          ? ([
              [0, 3],
              [2, 3],
            ] as const)
          : patch.seam,
    }));
    const plan: PiecingPlan = {
      ...good,
      verdict: 'one-foundation',
      patches: bent,
      joins: [],
      edges: edgesFrom(block, bent),
      findings: [],
      sections: [
        {
          key: 'A',
          letter: 'A',
          stamp: 'CDFGH',
          holes: [],
          startsFrom: [],
          outline: [
            [0, 0],
            [6, 0],
            [6, 6],
            [0, 6],
          ],
          order: bent.map((patch) => patch.id),
        },
      ],
    };
    expect(checkPlan(block, plan)).toEqual(['the boundary of A5 with what is sewn is bent']);
  });

  it('finds a section in pieces and a seam with a gap in it', () => {
    const strip: Block = {
      ...block,
      outline: [
        [0, 0],
        [6, 0],
        [6, 2],
        [0, 2],
      ],
      cuts: [],
      patches: [],
    };
    const gap = (
      polygon: Patch['polygon'],
      position: number,
      seam: Patch['seam'],
      neighbours: string[],
    ): Patch => ({
      key: `A${position}`,
      id: `A${position}`,
      section: 'A',
      position,
      polygon,
      holes: [],
      fabric: null,
      seam,
      neighbours,
    });
    // A bridge: two feet first, then a beam over both, whose seam is open between the feet.
    const feet = [
      gap(
        [
          [0, 1],
          [2, 1],
          [2, 2],
          [0, 2],
        ],
        1,
        null,
        ['A3'],
      ),
      gap(
        [
          [4, 1],
          [6, 1],
          [6, 2],
          [4, 2],
        ],
        2,
        null,
        ['A3'],
      ),
      gap(
        [
          [0, 0],
          [6, 0],
          [6, 1],
          [4, 1],
          [2, 1],
          [0, 1],
        ],
        3,
        [
          [0, 1],
          [6, 1],
        ],
        ['A1', 'A2'],
      ),
    ];
    const plan: PiecingPlan = {
      verdict: 'one-foundation',
      fewest: true,
      patches: feet,
      joins: [],
      edges: edgesFrom(strip, feet),
      findings: [],
      sections: [
        {
          key: 'A',
          letter: 'A',
          stamp: 'CDFGH',
          holes: [],
          startsFrom: [],
          outline: [
            [0, 0],
            [6, 0],
            [6, 2],
            [4, 2],
            [4, 1],
            [2, 1],
            [2, 2],
            [0, 2],
          ],
          order: ['A1', 'A2', 'A3'],
        },
      ],
    };
    const faults = checkPlan(strip, plan).join('\n');
    expect(faults).toMatch(/A2 touches nothing sewn before it/);
    expect(faults).toMatch(/the boundary of A3 with what is sewn is broken/);
  });

  it('finds more than 4 in without a registration point', () => {
    const long: Block = {
      ...block,
      outline: [
        [0, 0],
        [9, 0],
        [9, 2],
        [0, 2],
      ],
      cuts: [{ id: 'level', from: [0, 1], to: [9, 1], role: 'auto' }],
      patches: [],
    };
    const half = (letter: string, top: number, neighbour: string): Patch => ({
      key: `${letter}1`,
      id: `${letter}1`,
      section: letter,
      position: 1,
      polygon: [
        [0, top],
        [9, top],
        [9, top + 1],
        [0, top + 1],
      ],
      holes: [],
      fabric: null,
      seam: null,
      neighbours: [neighbour],
    });
    const halves = [half('A', 0, 'B1'), half('B', 1, 'A1')];
    const plan: PiecingPlan = {
      verdict: 'several-foundations',
      fewest: true,
      findings: [],
      patches: halves,
      edges: edgesFrom(long, halves),
      sections: ['A', 'B'].map((letter, i) => ({
        key: letter,
        letter,
        stamp: 'CDFGH',
        holes: [],
        startsFrom: [],
        outline: [
          [0, i],
          [9, i],
          [9, i + 1],
          [0, i + 1],
        ],
        order: [`${letter}1`],
      })),
      joins: [
        {
          step: 1,
          left: ['A'],
          right: ['B'],
          seam: [
            [0, 1],
            [9, 1],
          ],
          kind: 'straight',
          stretches: [
            [
              [0, 1],
              [9, 1],
            ],
          ],
          points: [
            { label: '1a', at: [0, 1], kind: 'end' },
            { label: '1b', at: [4, 1], kind: 'guide' },
            { label: '1c', at: [9, 1], kind: 'end' },
          ],
        },
      ],
    };
    expect(checkPlan(long, plan)).toEqual(['step 1 goes 5 in without a point']);
  });
});

describe('shared boundary', () => {
  const square = {
    polygon: [
      [0, 0],
      [2, 0],
      [2, 2],
      [0, 2],
    ] as const,
    holes: [],
  };

  it('is the common part of two edges, not the whole of either', () => {
    const beside = {
      polygon: [
        [2, 1],
        [4, 1],
        [4, 5],
        [2, 5],
      ] as const,
      holes: [],
    };
    expect(sharedBoundary(square, beside)).toEqual([
      [
        [2, 1],
        [2, 2],
      ],
    ]);
  });

  it('is nothing where shapes meet in a corner', () => {
    const corner = {
      polygon: [
        [2, 2],
        [4, 2],
        [4, 4],
        [2, 4],
      ] as const,
      holes: [],
    };
    expect(sharedBoundary(square, corner)).toEqual([]);
  });

  it('calls a bend of 0.2 mm bent and one of 0.05 mm straight', () => {
    const bend = (mm: number) =>
      asOneStretch([
        [
          [0, 0],
          [2, mm / 25.4],
        ],
        [
          [2, mm / 25.4],
          [4, 0],
        ],
      ]).kind;
    expect(bend(0.2)).toBe('bent');
    expect(bend(0.05)).toBe('straight');
  });
});
