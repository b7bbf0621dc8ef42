import { describe, expect, it } from 'vitest';
import type { Point, Segment } from '../../src/geometry/point.ts';
import type { PlanChoice } from '../../src/piecing/block.ts';
import { isOnBias, measurePlan, type PlanMeasure } from '../../src/piecing/measure.ts';
import { piece } from '../../src/piecing/piece.ts';
import type { PiecingPlan } from '../../src/piecing/plan.ts';
import { asOneStretch, cornersAlong, sharedBoundary } from '../checker/shared-boundary.ts';
import { designOf } from '../designs/designs.ts';
import { apart, roundPoint } from '../designs/plane.ts';
import { blockOf, type Drawing } from './rules/drawing.ts';

/** Numbers told by hand, on squared paper. */
const TOLD: readonly {
  readonly name: string;
  readonly drawing: Drawing;
  readonly plan?: PlanChoice;
  readonly measure: PlanMeasure;
}[] = [
  {
    name: 'a nine patch: three rows of three, two joins of 9 in, two seams to match on each',
    drawing: { outline: '0,0 9,0 9,9 0,9', cuts: '3,0>3,9 6,0>6,9 0,3>9,3 0,6>9,6' },
    plan: 'rows',
    measure: {
      foundations: 3,
      joins: 2,
      setInCorners: 0,
      matchPoints: 4,
      meetings: 4,
      longestJoin: 9,
      biasJoins: 0,
      biasLength: 0,
    },
  },
  {
    name: 'a quarter-square triangle: one join along a diagonal',
    drawing: { cuts: '0,0>6,6 0,6>6,0' },
    measure: {
      foundations: 2,
      joins: 1,
      setInCorners: 0,
      matchPoints: 1,
      meetings: 1,
      longestJoin: Math.hypot(6, 6),
      biasJoins: 1,
      biasLength: Math.hypot(6, 6),
    },
  },
  {
    name: 'two rows whose seams do not meet: two spots to pin, none to match',
    drawing: { cuts: '0,3>6,3 2,0>2,3 4,3>4,6' },
    measure: {
      foundations: 2,
      joins: 1,
      setInCorners: 0,
      matchPoints: 0,
      meetings: 2,
      longestJoin: 6,
      biasJoins: 0,
      biasLength: 0,
    },
  },
  {
    name: 'one foundation: nothing to join',
    drawing: { cuts: '2,0>2,6 4,0>4,6' },
    measure: {
      foundations: 1,
      joins: 0,
      setInCorners: 0,
      matchPoints: 0,
      meetings: 0,
      longestJoin: 0,
      biasJoins: 0,
      biasLength: 0,
    },
  },
];

/** The same numbers once more, from the outlines of the patches on the two sides of each join. */
function measured(plan: PiecingPlan): Omit<PlanMeasure, 'matchPoints' | 'meetings'> {
  const seams = plan.joins.map(({ left, right }) => {
    const side = (letters: readonly string[]) =>
      plan.patches.filter((patch) => letters.includes(patch.section));
    return side(left).flatMap((a) => side(right).flatMap((b) => sharedBoundary(a, b)));
  });
  const lengths = seams.map((pieces) => pieces.reduce((sum, [a, b]) => sum + apart(a, b), 0));
  // A straight join lies on the bias as a whole, however short its pieces are.
  const slant = (pieces: (typeof seams)[number]): Segment[] => {
    const whole = asOneStretch(pieces);
    return (whole.kind === 'straight' ? [whole.stretch] : pieces).filter(
      ([a, b]) => Math.abs(a[0] - b[0]) > 0.004 && Math.abs(a[1] - b[1]) > 0.004,
    );
  };
  return {
    foundations: new Set(plan.patches.map((patch) => patch.section)).size,
    joins: plan.joins.length,
    setInCorners: seams.reduce((sum, pieces) => sum + cornersAlong(pieces), 0),
    longestJoin: Math.max(0, ...lengths),
    biasJoins: seams.filter((pieces) => slant(pieces).length > 0).length,
    biasLength: seams.flatMap(slant).reduce((sum, [a, b]) => sum + apart(a, b), 0),
  };
}

describe('what a plan asks of its maker', () => {
  it.each(TOLD)('$name', ({ drawing, plan, measure }) => {
    const found = measurePlan(piece(blockOf(drawing), plan && { plan }));
    expect(found).toEqual({
      ...measure,
      longestJoin: expect.closeTo(measure.longestJoin, 6),
      biasLength: expect.closeTo(measure.biasLength, 6),
    });
  });

  it('is what the outlines of the patches say, on 120 random designs', () => {
    let slanting = 0;
    for (let seed = 80_001; seed <= 80_120; seed++) {
      const plan = piece(designOf(seed, { patches: [3, 30], endErrors: 'none' }).block);
      const { matchPoints, meetings, ...found } = measurePlan(plan);
      const own = measured(plan);
      expect({ seed, ...found }).toEqual({
        seed,
        ...own,
        longestJoin: expect.closeTo(own.longestJoin, 2),
        biasLength: expect.closeTo(own.biasLength, 1),
      });
      expect(meetings).toBeGreaterThanOrEqual(matchPoints);
      if (own.setInCorners === 0) expect(found.joins).toBe(found.foundations - 1);
      if (found.biasJoins > 0) slanting++;
    }
    expect(slanting).toBeGreaterThan(20);
  });

  it('doubles with the drawing in length alone, and lies the same turned by a quarter', () => {
    for (let seed = 80_001; seed <= 80_040; seed++) {
      const { block } = designOf(seed, { patches: [3, 20], endErrors: 'none' });
      const placed = (place: (p: Point) => Point) =>
        measurePlan(
          piece({
            ...block,
            outline: block.outline.map(place),
            cuts: block.cuts.map((cut) => ({ ...cut, from: place(cut.from), to: place(cut.to) })),
          }),
        );
      const before = placed((p) => p);
      const twice = placed(([x, y]) => roundPoint([2 * x, 2 * y]));
      expect({ seed, ...twice }).toEqual({
        seed,
        ...before,
        longestJoin: expect.closeTo(2 * before.longestJoin, 3),
        biasLength: expect.closeTo(2 * before.biasLength, 3),
      });
      expect(placed(([x, y]) => [-y, x]).foundations).toBe(before.foundations);
    }
  });
});

describe('off the straight grain', () => {
  it('is what runs neither level nor upright, by more than a printed line is wide', () => {
    expect(
      isOnBias([
        [0, 0],
        [6, 6],
      ]),
    ).toBe(true);
    expect(
      isOnBias([
        [0, 0],
        [6, 0.01],
      ]),
    ).toBe(true);
    expect(
      isOnBias([
        [0, 0],
        [6, 0],
      ]),
    ).toBe(false);
    expect(
      isOnBias([
        [3, 6],
        [3, 0],
      ]),
    ).toBe(false);
    // 0.1 mm over the whole length.
    expect(
      isOnBias([
        [0, 0],
        [6, 0.0039],
      ]),
    ).toBe(false);
  });
});
