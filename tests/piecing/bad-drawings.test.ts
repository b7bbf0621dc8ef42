import { describe, expect, it } from 'vitest';
import type { Point, Ring } from '../../src/geometry/point.ts';
import type { Block, Cut } from '../../src/piecing/block.ts';
import { piece } from '../../src/piecing/piece.ts';
import type { PiecingPlan } from '../../src/piecing/plan.ts';
import { checkPlan } from '../checker/check-plan.ts';
import { entriesAt } from '../designs/entries.ts';
import { Prng } from '../designs/prng.ts';

/** Drawings nobody would sew: piecing must answer and say in a sentence what is wrong and where. */

const SQUARE: Ring = [
  [0, 0],
  [6, 0],
  [6, 6],
  [0, 6],
];

const cut = (from: Point, to: Point, i = 0): Cut => ({ id: `c${i + 1}`, from, to, role: 'auto' });
const blockOf = (outline: Ring, cuts: readonly Cut[] = [cut([0, 3], [6, 3])]): Block => ({
  id: 'bad',
  name: 'Bad',
  outline,
  cuts,
  patches: [],
});

/** The plan, with the checks every answer must pass: sentences, a plan that can be sewn or a reason. */
function answered(block: Block): PiecingPlan {
  const plan = piece(block);
  for (const finding of plan.findings) {
    expect(finding.message).toMatch(/^[A-Z0-9].{10,}\.$/);
    expect(finding.message).not.toMatch(/NaN|undefined|null|Infinity|\[object|Error/);
    expect(finding.at.every(Number.isFinite)).toBe(true);
  }
  return plan;
}

describe('an outline that cannot be used', () => {
  const outlines: readonly [string, Ring, RegExp][] = [
    ['nothing', [], /three corners/],
    ['one point', [[1, 1]], /three corners/],
    [
      'two points',
      [
        [0, 0],
        [6, 0],
      ],
      /three corners/,
    ],
    [
      'three points in a line',
      [
        [0, 0],
        [3, 3],
        [6, 6],
      ],
      /line|nothing|area/,
    ],
    [
      'zero area',
      [
        [0, 0],
        [6, 0],
        [6, 0],
        [0, 0],
      ],
      /one spot|nothing|area|touches/,
    ],
    [
      'one point four times',
      [
        [2, 2],
        [2, 2],
        [2, 2],
        [2, 2],
      ],
      /one spot|nothing/,
    ],
    [
      'a bow tie',
      [
        [0, 0],
        [6, 6],
        [6, 0],
        [0, 6],
      ],
      /crosses/,
    ],
    [
      'a side through another',
      [
        [0, 0],
        [6, 0],
        [6, 6],
        [3, -2],
        [0, 6],
      ],
      /crosses/,
    ],
    [
      'a side along another',
      [
        [0, 0],
        [6, 0],
        [6, 6],
        [6, 3],
        [0, 6],
      ],
      /touches|crosses/,
    ],
    [
      'a corner on another side',
      [
        [0, 0],
        [6, 0],
        [6, 6],
        [3, 0],
        [0, 6],
      ],
      /touches|crosses/,
    ],
    [
      'a corner twice',
      [
        [0, 0],
        [6, 0],
        [6, 0],
        [6, 6],
        [0, 6],
      ],
      /one spot/,
    ],
    [
      'not a number',
      [
        [0, 0],
        [Number.NaN, 0],
        [6, 6],
        [0, 6],
      ],
      /not a number/,
    ],
    [
      'without end',
      [
        [0, 0],
        [Number.POSITIVE_INFINITY, 0],
        [6, 6],
        [0, 6],
      ],
      /not a number/,
    ],
    [
      'a thousand million inches',
      [
        [0, 0],
        [1e9, 0],
        [1e9, 1e9],
        [0, 1e9],
      ],
      /farther|1,000/,
    ],
  ];
  it.each(outlines)('%s', (_, outline, says) => {
    const plan = answered(blockOf(outline));
    expect(plan.verdict).toBe('broken');
    expect(plan.findings.map((finding) => finding.message).join(' ')).toMatch(says);
    expect(checkPlan(blockOf(outline), plan)).toEqual([]);
  });

  it('names the corner where there is one', () => {
    const plan = answered(
      blockOf([
        [0, 0],
        [6, 0],
        [Number.NaN, 6],
        [0, 6],
      ]),
    );
    expect(plan.findings[0]!.message).toMatch(/[Cc]orner 3/);
  });
});

describe('cuts that cannot be used', () => {
  const patchesWith = (...cuts: Cut[]): { plan: PiecingPlan; block: Block } => {
    const block = blockOf(SQUARE, [cut([0, 3], [6, 3], 0), ...cuts]);
    return { plan: answered(block), block };
  };

  it.each<[string, Cut]>([
    ['of no length', cut([2, 2], [2, 2], 1)],
    ['shorter than a needle is thick', cut([2, 2], [2.001, 2], 1)],
    ['with an end that is not a number', cut([Number.NaN, 0], [3, 6], 1)],
    ['outside the block', cut([8, 1], [9, 5], 1)],
    ['on another cut', cut([0, 3], [6, 3], 1)],
    ['on part of another cut', cut([1, 3], [4, 3], 1)],
    ['on the outline', cut([0, 0], [6, 0], 1)],
    ['loose at both ends', cut([1, 1], [2, 2], 1)],
    ['loose at one end', cut([1, 0], [1, 2], 1)],
  ])('%s divides nothing and is named', (_, bad) => {
    const { plan, block } = patchesWith(bad);
    expect(plan.verdict).toBe('one-foundation');
    expect(plan.patches.length).toBe(2);
    expect(plan.findings.filter((finding) => finding.cuts.includes(bad.id)).length).toBeGreaterThan(0);
    expect(checkPlan({ ...block, cuts: block.cuts.filter((c) => c !== bad) }, plan)).toEqual([]);
  });

  it('a thousand million inches away, or without end, is refused with its number', () => {
    for (const far of [1e9, -1e9, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]) {
      const { plan } = patchesWith(cut([3, 0], [3, far], 1));
      expect(plan.verdict).toBe('broken');
      expect(plan.findings.map((finding) => finding.message).join(' ')).toMatch(/[Ll]ine 2 .*1,000 in/);
    }
  });

  it('two cuts with one id, or ids of odd letters, do no harm', () => {
    const twins = { ...cut([2, 0], [2, 6], 0) };
    expect(patchesWith(twins).plan.patches.length).toBe(4);
    expect(patchesWith({ ...twins, id: '__proto__' }).plan.patches.length).toBe(4);
    expect(patchesWith({ ...twins, id: '' }).plan.patches.length).toBe(4);
  });

  it('paint off the block, on a seam or not a number paints nothing it should not', () => {
    const block = blockOf(SQUARE);
    const paint = [
      { at: [99, 99] as Point, fabric: 'gull' },
      { at: [Number.NaN, 2] as Point, fabric: 'gull' },
      { at: [3, 1] as Point, fabric: 'sand' },
    ];
    const plan = answered({ ...block, patches: entriesAt(paint) });
    expect(plan.patches.map((patch) => patch.fabric).sort()).toEqual([null, 'sand'].sort());
  });
});

describe('drawings far too large', () => {
  const rng = new Prng(11);
  const anywhere = (): Point => [rng.between(0, 6), rng.between(0, 6)];

  it('10,000 cuts thrown at random are answered', () => {
    const plan = answered(
      blockOf(
        SQUARE,
        Array.from({ length: 10_000 }, (_, i) => cut(anywhere(), anywhere(), i)),
      ),
    );
    expect(plan.findings.length).toBeGreaterThan(0);
  });

  it('10,000 cuts on one line are one line, or refused', () => {
    const block = blockOf(
      SQUARE,
      Array.from({ length: 10_000 }, (_, i) => cut([0, 3], [6, 3], i)),
    );
    const plan = answered(block);
    if (plan.verdict !== 'broken') expect(plan.patches.length).toBe(2);
    expect(plan.findings.length).toBeGreaterThan(0);
  });

  it('10,000 short cuts that touch nothing are answered', () => {
    const short = Array.from({ length: 10_000 }, (_, i) => {
      const [x, y] = [0.05 + (i % 100) * 0.059, 0.05 + Math.floor(i / 100) * 0.059];
      return cut([x, y], [x + 0.02, y + 0.01], i);
    });
    const plan = answered(blockOf(SQUARE, short));
    expect(plan.patches.length).toBe(1);
    expect(plan.verdict).toBe('undivided');
  });

  it('5,000 cuts through one spot are answered', () => {
    const spokes = Array.from({ length: 5000 }, (_, i) => {
      const angle = (Math.PI * i) / 5000;
      const [x, y] = [3 * Math.cos(angle), 3 * Math.sin(angle)];
      return cut([3 - x, 3 - y], [3 + x, 3 + y], i);
    });
    answered(blockOf(SQUARE, spokes));
  });

  it('a grid of 100 × 100 cuts is answered', () => {
    const lines = Array.from({ length: 100 }, (_, i) => 0.03 + i * 0.059);
    answered(
      blockOf(SQUARE, [
        ...lines.map((x, i) => cut([x, 0], [x, 6], i)),
        ...lines.map((y, i) => cut([0, y], [6, y], 100 + i)),
      ]),
    );
  });

  it('a grid of 40 × 40 patches and a ring of 200 patches are answered', () => {
    const lines = Array.from({ length: 39 }, (_, i) => ((i + 1) * 6) / 40);
    answered(
      blockOf(SQUARE, [
        ...lines.map((x, i) => cut([x, 0], [x, 6], i)),
        ...lines.map((y, i) => cut([0, y], [6, y], 100 + i)),
      ]),
    );
    const spiral: Cut[] = [];
    for (let i = 0; i < 50; i++) {
      const [a, b] = [i * 0.05, 6 - i * 0.05];
      spiral.push(cut([a, a + 0.05], [b - 0.05, a + 0.05], spiral.length));
      spiral.push(cut([b - 0.05, a], [b - 0.05, b - 0.05], spiral.length));
      spiral.push(cut([b, b - 0.05], [a + 0.05, b - 0.05], spiral.length));
      spiral.push(cut([a + 0.05, b], [a + 0.05, a + 0.05], spiral.length));
    }
    answered(blockOf(SQUARE, spiral));
  });

  it('an outline of 2,000 corners is answered', () => {
    const round = Array.from({ length: 2000 }, (_, i): Point => {
      const angle = (2 * Math.PI * i) / 2000;
      return [50 + 50 * Math.cos(angle), 50 + 50 * Math.sin(angle)];
    });
    expect(answered(blockOf(round, [cut([0, 50], [100, 50])])).patches.length).toBe(2);
  });

  it('lines a hair apart, thousands of them, are answered', () => {
    for (const step of [1 / 65536, 0.0005, 0.0019, 0.0021, 0.004]) {
      answered(
        blockOf(
          SQUARE,
          Array.from({ length: 1500 }, (_, i) => cut([i * step, 0], [i * step + 0.3, 6], i)),
        ),
      );
    }
  });
});

describe('nonsense thrown at random', () => {
  it('is answered, and what is answered can be sewn', () => {
    const wrong: string[] = [];
    for (let seed = 1; seed <= 300; seed++) {
      const rng = new Prng(seed);
      const odd = (): number =>
        rng.chance(0.02)
          ? rng.pick([Number.NaN, Number.POSITIVE_INFINITY, 1e9, -1e9])
          : rng.whole(-1, 8) + (rng.chance(0.3) ? rng.between(-0.003, 0.003) : 0);
      const spot = (): Point => [odd(), odd()];
      const outline = rng.chance(0.7) ? SQUARE : Array.from({ length: rng.whole(0, 6) }, spot);
      const cuts = Array.from({ length: rng.whole(0, 14) }, (_, i) => cut(spot(), spot(), i));
      const block = blockOf(outline, cuts);
      const plan = answered(block);
      const faults = checkPlan(block, plan);
      if (faults.length > 0) wrong.push(`seed ${seed}: ${faults.slice(0, 2).join('; ')}`);
    }
    expect(wrong).toEqual([]);
  });
});

describe('islands', () => {
  const box = (x: number, y: number, size: number, first: number): Cut[] => [
    cut([x, y], [x + size, y], first),
    cut([x + size, y], [x + size, y + size], first + 1),
    cut([x + size, y + size], [x, y + size], first + 2),
    cut([x, y + size], [x, y], first + 3),
  ];

  it('are patches set in, named as trouble, and the plan still covers all', () => {
    for (const cuts of [
      box(2, 2, 2, 0),
      [...box(1, 1, 1, 0), ...box(3, 3, 2, 4)],
      [...box(1, 1, 4, 0), ...box(2, 2, 2, 4)],
      [...box(2, 2, 2, 0), cut([0, 1], [6, 1], 8), cut([2, 3], [4, 3], 9)],
      [...box(2, 2, 2, 0), cut([3, 0], [3, 6], 8)],
    ]) {
      const block = blockOf(SQUARE, cuts);
      const plan = answered(block);
      expect(checkPlan(block, plan)).toEqual([]);
      const isIsland = cuts.every((c) => c.id !== 'c9' || c.from[0] !== 3);
      expect(plan.findings.some((f) => f.code === 'island' && f.severity === 'trouble')).toBe(isIsland);
      if (isIsland) expect(plan.verdict).toBe('set-in-seams');
    }
  });
});
