import { describe, expect, it } from 'vitest';
import { JOININGS } from '../../src/document/quilt.ts';
import type { Point } from '../../src/geometry/point.ts';
import { curesOf } from '../../src/quilt/cures.ts';
import { type JoiningPlan, joiningOf } from '../../src/quilt/joining.ts';
import { type Layout, layOut } from '../../src/quilt/layout.ts';
import { allFloorplans, isGuillotine, randomFloorplan } from '../designs/floorplans.ts';
import { Prng } from '../designs/prng.ts';
import { isRecordList, NEEDS_SHARED, readShared } from '../published/shared-data.ts';
import { joiningFaults } from './check-joining.ts';
import { checked, plainPlaces } from './places.ts';

function planned(
  layout: Layout,
  ...args: [Parameters<typeof joiningOf>[1]?, Parameters<typeof joiningOf>[2]?]
): JoiningPlan {
  const joined = joiningOf(layout, ...args);
  if (!joined.ok) throw new Error(`no plan: ${joined.why}`);
  return joined.plan;
}

const isStraight = ({ steps }: JoiningPlan): boolean => steps.every(({ kind }) => kind === 'straight');

/**
 * Quilts of n places of mixed sizes: every mosaic floorplan, by the corner-insertion tree. All of them: Baxter numbers,
 * OEIS A001181; joined by straight seams alone: large Schröder numbers, OEIS A006318. Sources as in
 * tests/published/floorplans.test.ts.
 */
describe('quilts that are floorplans', () => {
  it.each([
    [1, 1, 1],
    [2, 2, 2],
    [3, 6, 6],
    [4, 22, 22],
    [5, 92, 90],
    [6, 422, 394],
  ])('of %i places there are %i, and straight seams join %i', (n, all, straight) => {
    const plans = allFloorplans(n).map(({ rooms, height }) => {
      const layout = layOut(
        {
          places: plainPlaces(
            rooms.map(([l, b, r, t]) => [3 * l, 2 * (height - t), 3 * (r - l), 2 * (t - b)]),
          ),
        },
        [],
      );
      const plan = planned(layout);
      expect(joiningFaults(checked(layout), plan.steps)).toEqual([]);
      return plan;
    });
    expect(plans.length).toBe(all);
    expect(plans.filter(isStraight).length).toBe(straight);
  });

  it('of up to 40 places, drawn by chance, are joined whichever way is asked for', () => {
    for (let seed = 1; seed <= 40; seed++) {
      const plan = randomFloorplan(new Prng(seed), 5 + seed);
      const layout = layOut(
        {
          places: plainPlaces(
            plan.rooms.map(([l, b, r, t]) => [l, plan.height - t, r - l, t - b]),
            1.5,
          ),
        },
        [],
      );
      for (const way of JOININGS) {
        const joined = planned(layout, way);
        expect(joiningFaults(checked(layout), joined.steps), `seed ${seed}, ${way}`).toEqual([]);
        expect(isStraight(joined), `seed ${seed}, ${way}`).toBe(isGuillotine(plan.rooms));
        expect(joined.rings.length > 0).toBe(!isStraight(joined));
      }
    }
  });
});

/** Simple squared rectangles: sources in tests/published/rectangulations.test.ts. None has a straight seam, by definition. */
describe('squared rectangles as settings of mixed sizes', () => {
  const moron = [
    [0, 0, 18, 18],
    [18, 0, 15, 15],
    [18, 15, 7, 7],
    [25, 15, 8, 8],
    [0, 18, 14, 14],
    [14, 18, 4, 4],
    [14, 22, 10, 10],
    [24, 22, 1, 1],
    [24, 23, 9, 9],
  ] as const;

  it('Moroń’s 33 × 32 of 1925 is one ring of nine', () => {
    const layout = layOut({ places: plainPlaces(moron) }, []);
    const plan = planned(layout);
    expect(isStraight(plan)).toBe(false);
    expect([...plan.rings[0]!].sort((a, b) => a - b)).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8]);
    expect(joiningFaults(checked(layout), plan.steps)).toEqual([]);
  });

  const shared = readShared('data/rectangulations.json');
  const given = isRecordList(shared?.rectangulations) ? shared.rectangulations : [];
  it.skipIf(shared === null)(
    `of the shared collection are joined as they are guillotine ${NEEDS_SHARED}`,
    () => {
      expect(given.length).toBeGreaterThan(50);
      for (const item of given) {
        const tiles = item.rects as readonly (readonly [number, number, number, number])[];
        const scale = 96 / Math.max(item.width as number, item.height as number);
        const layout = layOut({ places: plainPlaces(tiles, scale) }, []);
        const plan = planned(layout);
        expect(isStraight(plan), String(item.id)).toBe(item.guillotine);
        expect(joiningFaults(checked(layout), plan.steps), String(item.id)).toEqual([]);
      }
    },
  );
});

describe('ways of joining', () => {
  const grid = plainPlaces(
    Array.from({ length: 20 }, (_, k) => [(k % 4) * 6, Math.floor(k / 4) * 6, 6, 6] as const),
  );
  const layout = layOut({ places: grid }, []);
  const lengthOf = ([a, b]: readonly [Point, Point]): number => Math.hypot(b[0] - a[0], b[1] - a[1]);

  it('rows: every row is made from left to right, then the rows are joined from the top down', () => {
    const { steps } = planned(layout, 'rows');
    const long = steps.filter(({ seam }) => lengthOf(seam) === 24);
    expect(long.length).toBe(4);
    expect(long.map(({ right }) => right.length)).toEqual([4, 4, 4, 4]);
    expect(long.map(({ left }) => left.length)).toEqual([4, 8, 12, 16]);
    expect(steps.filter(({ seam }) => lengthOf(seam) === 6).every(({ right }) => right.length === 1)).toBe(
      true,
    );
  });

  it('columns: the same turned by a quarter', () => {
    const { steps } = planned(layout, 'columns');
    expect(steps.filter(({ seam }) => lengthOf(seam) === 30).map(({ left }) => left.length)).toEqual([
      5, 10, 15,
    ]);
  });

  it('balanced: no unit but the whole is longer than one straight seam must leave it', () => {
    const { steps } = planned(layout, 'balanced');
    const last = steps.at(-1)!;
    // 24 × 30 parts nearest to its middle: 24 × 18 and 24 × 12.
    expect([last.left.length, last.right.length].sort()).toEqual([12, 8]);
  });

  it('all sew the same length of seam', () => {
    const sums = JOININGS.map((way) =>
      planned(layout, way).steps.reduce((sum, { seam }) => sum + lengthOf(seam), 0),
    );
    expect(new Set(sums).size).toBe(1);
  });

  it('by hand: units asked for are made whole, and one that no straight seam can keep is named', () => {
    const unit = ['p1', 'p2', 'p5'];
    const kept = planned(layout, 'rows', [unit]);
    expect(kept.refused).toEqual([0]);
    const corner = ['p1', 'p2', 'p5', 'p6'];
    const { steps, refused } = planned(layout, 'rows', [corner]);
    expect(refused).toEqual([]);
    const made = steps.map(({ left, right }) => [...left, ...right].sort().join());
    expect(made).toContain([...corner].sort().join());
    expect(joiningFaults(checked(layout), steps)).toEqual([]);
  });
});

describe('what cannot be joined', () => {
  it.each([
    ['a quilt of none', [], 'empty'],
    [
      'places that overlap',
      plainPlaces([
        [0, 0, 6, 6],
        [3, 0, 6, 6],
      ]),
      'overlaps',
    ],
    [
      'places one on the other',
      plainPlaces([
        [0, 0, 6, 6],
        [0, 0, 6, 6],
      ]),
      'overlaps',
    ],
    [
      'places apart',
      plainPlaces([
        [0, 0, 6, 6],
        [12, 0, 6, 6],
      ]),
      'apart',
    ],
    [
      'places that touch in a corner',
      plainPlaces([
        [0, 0, 6, 6],
        [6, 6, 6, 6],
      ]),
      'apart',
    ],
  ] as const)('%s', (_, places, why) => {
    expect(joiningOf(layOut({ places }, []))).toEqual({ ok: false, why });
  });

  it('2,000 places on one spot', () => {
    const places = plainPlaces(Array.from({ length: 2000 }, () => [0, 0, 6, 6] as const));
    expect(joiningOf(layOut({ places }, [])).ok).toBe(false);
  });
});

describe('gaps', () => {
  it('inside and at the edge are told apart, and what lies round an inner one is joined', () => {
    const frame = plainPlaces([
      [0, 0, 6, 2],
      [4, 2, 2, 4],
      [0, 4, 4, 2],
      [0, 2, 2, 2],
      [6, 0, 2, 3],
    ]);
    const layout = layOut({ places: frame }, []);
    expect(layout.gaps.map(({ isInside }) => isInside).sort()).toEqual([false, true]);
    const plan = planned(layout);
    expect(joiningFaults(checked(layout), plan.steps)).toEqual([]);
  });
});

describe('cures for a ring', () => {
  const windmill = plainPlaces([
    [0, 0, 12, 6],
    [12, 0, 6, 12],
    [6, 12, 12, 6],
    [0, 6, 6, 12],
    [6, 6, 6, 6],
  ]);

  it('a windmill of four round one is set otherwise, or one of them is parted', () => {
    const layout = layOut({ places: windmill }, []);
    const plan = planned(layout);
    expect(plan.rings.length).toBe(1);
    const cures = curesOf(layout, plan, []);
    expect(cures.map(({ kind }) => kind).sort()).toEqual(['rearrange', 'split']);
    for (const { places, after } of cures) {
      const cured = layOut({ places }, []);
      expect(after).toBe(0);
      expect(cured.gaps).toEqual([]);
      expect(isStraight(planned(cured))).toBe(true);
    }
  });

  it('of blocks only the arrangement changes', () => {
    const blocks = [
      {
        id: 'b1',
        outline: [
          [0, 0],
          [12, 0],
          [12, 6],
          [0, 6],
        ] as const,
      },
    ];
    const places = windmill.map(({ id, at, size }, k) =>
      k === 4 ? { id, at, size } : { id, at, block: 'b1', turn: size[0] > size[1] ? 0 : 1, mirrored: false },
    );
    const layout = layOut({ places }, blocks);
    const cures = curesOf(layout, planned(layout), blocks);
    expect(cures.some(({ kind }) => kind === 'rearrange')).toBe(true);
  });

  it('nothing is offered where nothing is set in', () => {
    const layout = layOut(
      {
        places: plainPlaces([
          [0, 0, 6, 6],
          [6, 0, 6, 6],
        ]),
      },
      [],
    );
    expect(curesOf(layout, planned(layout), [])).toEqual([]);
  });
});
